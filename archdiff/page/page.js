(function () {
  "use strict";
  var root = document.documentElement;
  var all = function (query, within) { return Array.prototype.slice.call((within || document).querySelectorAll(query)); };

  // Light or dark sheet; remembered where the browser allows it.
  var tools = document.getElementById("page-tools"), button = document.getElementById("theme");
  var dark = window.matchMedia("(prefers-color-scheme: dark)");
  var keep = function (value) { try { localStorage.setItem("archdiff-sheet", value); } catch (e) { /* not allowed here */ } };
  var kept = function () { try { return localStorage.getItem("archdiff-sheet"); } catch (e) { return null; } };
  var isDark = function () { return (root.dataset.sheet || (dark.matches ? "dark" : "light")) === "dark"; };
  var label = function () { button.textContent = isDark() ? "Light sheet" : "Dark sheet"; };
  if (kept() === "dark" || kept() === "light") { root.dataset.sheet = kept(); }
  button.addEventListener("click", function () { root.dataset.sheet = isDark() ? "light" : "dark"; keep(root.dataset.sheet); label(); });
  dark.addEventListener("change", label);
  label();
  tools.hidden = false;

  // A tile of one drawing lights up its partner on the other side and the links that both use; below the drawings stands
  // what is said of the two and what it rests on, taken from their row in the differences.
  var lit = [], pointed = document.getElementById("pointed");
  var nameOf = function (tile) { return tile.getAttribute("data-seat") || tile.getAttribute("data-key"); };
  var light = function (key) {
    lit.forEach(function (tile) { tile.classList.remove("lit"); });
    lit = key ? all("[data-key]").filter(function (tile) { return nameOf(tile) === key; }) : [];
    var own = lit.map(function (tile) { return tile.getAttribute("data-key"); });
    var nets = key ? all("[data-ends]").filter(function (net) {
      return net.getAttribute("data-ends").split(" ").some(function (end) { return own.indexOf(end) >= 0; });
    }) : [];
    lit = lit.concat(nets);
    lit.forEach(function (tile) { tile.classList.add("lit"); });
  };
  var speak = function (link) {
    var row = link && document.getElementById(decodeURIComponent((link.getAttribute("href") || "#").slice(1)));
    if (!pointed || !row || row.tagName !== "TR") { return; }
    pointed.textContent = "";
    all("th, td", row).forEach(function (cell) {
      var copy = document.createElement(cell.tagName === "TH" ? "b" : "div");
      copy.innerHTML = cell.innerHTML;
      all("details, [id], .remark", copy).forEach(function (part) { part.remove(); });
      pointed.appendChild(copy);
    });
    pointed.hidden = false;
  };
  var keyOf = function (event) {
    var link = event.target.closest("a"), tile = event.target.closest("[data-key]") || (link && link.querySelector("[data-key]"));
    return tile && nameOf(tile);
  };
  all(".pair-of-drawings").forEach(function (drawings) {
    ["mouseover", "focusin"].forEach(function (name) { drawings.addEventListener(name, function (event) { light(keyOf(event)); speak(event.target.closest("a")); }); });
    ["mouseleave", "focusout"].forEach(function (name) { drawings.addEventListener(name, function () { light(null); }); });
  });

  // What a piece of evidence shows, as a tip on every link to it.
  all(".rests a").forEach(function (link) {
    var target = document.getElementById(decodeURIComponent(link.hash.slice(1))), words = target && target.querySelector("p");
    if (words) { link.title = words.textContent.trim().replace(/\s+/g, " "); }
  });

  // Tables that small screens show as stacked entries stay tables for screen readers.
  var roles = { TABLE: "table", THEAD: "rowgroup", TBODY: "rowgroup", TR: "row", TD: "cell" };
  all("table.stack").forEach(function (table) {
    [table].concat(all("thead, tbody, tr, td, th", table)).forEach(function (part) {
      part.setAttribute("role", roles[part.tagName] || (part.scope === "col" ? "columnheader" : "rowheader"));
    });
  });

  // What does not scroll need not stop the tab key.
  var stops = function () {
    all(".scroll").forEach(function (box) {
      if (box.scrollWidth > box.clientWidth) { box.tabIndex = 0; } else { box.removeAttribute("tabindex"); }
    });
  };
  window.addEventListener("resize", stops);
  document.addEventListener("toggle", stops, true);
  stops();

  // A phone begins with the first screen, the facts at a glance and the drawings; the rest waits under its headings.
  if (window.matchMedia("(max-width: 760px)").matches) {
    all(".fold").slice(3).forEach(function (fold) { fold.open = false; });
  }

  // A link to something folded away unfolds it.
  var unfold = function () {
    var target = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target) { return; }
    for (var node = target.parentElement; node; node = node.parentElement) { if (node.tagName === "DETAILS") { node.open = true; } }
    target.scrollIntoView();
  };
  window.addEventListener("hashchange", unfold);
  unfold();

  // On small screens the contents begin folded and fold again once used.
  var contents = document.querySelector(".contents details");
  var small = window.matchMedia("(max-width: 1179px)");
  var fold = function () { contents.open = !small.matches; };
  small.addEventListener("change", fold);
  fold();
  contents.addEventListener("click", function (event) { if (small.matches && event.target.closest("a")) { contents.open = false; } });

  // Find: every place that has an address and holds all the words, by section.
  var find = document.getElementById("find"), found = document.getElementById("found"), count = document.getElementById("found-count");
  var MOST = 12, places = null;
  var placesOfPage = function () {
    return all("main tr[id], main li[id], main h3[id]").map(function (node) {
      var head = node.querySelector("th, b") || node, section = node.closest("section");
      return { id: node.id, text: node.textContent.toLowerCase(), title: head.textContent.trim().replace(/\s+/g, " ").slice(0, 70),
        where: section.querySelector("h2").textContent.replace(/^[A-Z]/, "") };
    });
  };
  var look = function () {
    var words = find.value.toLowerCase().split(/\s+/).filter(Boolean);
    places = places || placesOfPage();
    var hits = words.length ? places.filter(function (place) { return words.every(function (word) { return place.text.indexOf(word) >= 0; }); }) : [];
    found.textContent = "";
    hits.slice(0, MOST).forEach(function (hit) {
      var item = document.createElement("li"), link = document.createElement("a"), where = document.createElement("span");
      link.href = "#" + hit.id; link.textContent = hit.title; where.textContent = " " + hit.where;
      item.appendChild(link); item.appendChild(where); found.appendChild(item);
    });
    found.hidden = hits.length === 0;
    count.textContent = !words.length ? "" : hits.length === 0 ? "nothing found" : hits.length > MOST ? MOST + " of " + hits.length + " places" : hits.length + (hits.length === 1 ? " place" : " places");
  };
  find.addEventListener("input", look);
  find.parentElement.addEventListener("keydown", function (event) {
    if (event.key === "Escape") { find.value = ""; look(); find.focus(); }
    var links = all("a", found), at = links.indexOf(document.activeElement);
    if (event.key === "ArrowDown" && links.length) { event.preventDefault(); links[Math.min(at + 1, links.length - 1)].focus(); }
    if (event.key === "ArrowUp" && at >= 0) { event.preventDefault(); (links[at - 1] || find).focus(); }
  });
  found.addEventListener("click", function (event) { if (event.target.closest("a")) { found.hidden = true; count.textContent = ""; } });

  // A piece of evidence, large.
  var large = document.getElementById("large");
  all("img.opens").forEach(function (image) {
    var button = document.createElement("button");
    button.type = "button"; button.className = "enlarge"; button.setAttribute("aria-label", "Open large: " + image.alt);
    image.parentNode.insertBefore(button, image); button.appendChild(image);
    button.addEventListener("click", function () {
      var old = large.querySelector("img"), shown = document.createElement("img");
      if (old) { old.remove(); }
      shown.src = image.src; shown.alt = image.alt; large.querySelector("p").textContent = image.alt;
      large.insertBefore(shown, large.lastChild);
      large.showModal();
    });
  });
  large.addEventListener("click", function (event) { if (event.target === large || event.target.closest("button")) { large.close(); } });

  // Differences by subsystem, verdict and what they rest on.
  var filters = document.getElementById("filters");
  if (filters) {
    var chosen = function (name) { return filters.querySelector('[data-filter="' + name + '"]').value; };
    var sieve = function () {
      var verdict = chosen("verdict"), subsystem = chosen("subsystem"), sure = chosen("sure"), shown = 0;
      all(".subsystem").forEach(function (group) {
        var rows = 0;
        all("tr[data-verdict]", group).forEach(function (row) {
          row.hidden = (Boolean(verdict) && row.dataset.verdict !== verdict) || (Boolean(sure) && row.dataset.sure.split(" ").indexOf(sure) < 0);
          rows += row.hidden ? 0 : 1;
        });
        group.hidden = rows === 0 || (Boolean(subsystem) && group.dataset.subsystem !== subsystem);
        all("table", group).forEach(function (table) { table.parentElement.hidden = !table.querySelector("tr[data-verdict]:not([hidden])"); });
        all("details.alike", group).forEach(function (fold) { fold.hidden = !fold.querySelector("tr[data-verdict]:not([hidden])"); fold.open = Boolean(verdict || sure); });
        shown += group.hidden ? 0 : rows;
      });
      filters.querySelector("output").textContent = verdict || subsystem || sure ? shown + (shown === 1 ? " function shown" : " functions shown") : "";
    };
    filters.addEventListener("change", sieve);
    filters.hidden = false;
  }

  // Paper cannot be unfolded; for browsers that cannot open what is folded by style alone.
  var opened = [], PRINTED = [".fold", "[data-print]"], workings = document.getElementById("print-workings");
  window.addEventListener("beforeprint", function () { opened = all(PRINTED.concat(workings && workings.checked ? [".working"] : []).map(function (kind) { return kind + ":not([open])"; }).join(", ")); opened.forEach(function (d) { d.open = true; }); });
  window.addEventListener("afterprint", function () { opened.forEach(function (d) { d.open = false; }); });
})();
