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

  // A tile of one drawing lights up its partner on the other side.
  var lit = [];
  var nameOf = function (tile) { return tile.getAttribute("data-seat") || tile.getAttribute("data-key"); };
  var light = function (key) {
    lit.forEach(function (tile) { tile.classList.remove("lit"); });
    lit = key ? all("[data-key]").filter(function (tile) { return nameOf(tile) === key; }) : [];
    lit.forEach(function (tile) { tile.classList.add("lit"); });
  };
  var keyOf = function (event) {
    var link = event.target.closest("a"), tile = event.target.closest("[data-key]") || (link && link.querySelector("[data-key]"));
    return tile && nameOf(tile);
  };
  all(".pair-of-drawings").forEach(function (drawings) {
    ["mouseover", "focusin"].forEach(function (name) { drawings.addEventListener(name, function (event) { light(keyOf(event)); }); });
    ["mouseleave", "focusout"].forEach(function (name) { drawings.addEventListener(name, function () { light(null); }); });
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

  // Differences by subsystem and verdict.
  var filters = document.getElementById("filters");
  if (filters) {
    var chosen = function (name) { return filters.querySelector('[data-filter="' + name + '"]').value; };
    var sieve = function () {
      var verdict = chosen("verdict"), subsystem = chosen("subsystem"), shown = 0;
      all(".subsystem").forEach(function (group) {
        var rows = 0;
        all("tr[data-verdict]", group).forEach(function (row) {
          row.hidden = Boolean(verdict) && row.dataset.verdict !== verdict;
          rows += row.hidden ? 0 : 1;
        });
        group.hidden = rows === 0 || (Boolean(subsystem) && group.dataset.subsystem !== subsystem);
        all("table", group).forEach(function (table) { table.parentElement.hidden = !table.querySelector("tr[data-verdict]:not([hidden])"); });
        all("details.alike", group).forEach(function (fold) { fold.hidden = Boolean(verdict) && verdict !== "alike"; if (verdict === "alike") { fold.open = true; } });
        shown += group.hidden ? 0 : rows;
      });
      filters.querySelector("output").textContent = verdict || subsystem ? shown + (shown === 1 ? " function shown" : " functions shown") : "";
    };
    filters.addEventListener("change", sieve);
    filters.hidden = false;
  }

  // Paper cannot be unfolded; for browsers that cannot open what is folded by style alone.
  var opened = [];
  window.addEventListener("beforeprint", function () { opened = all("details:not([open])"); opened.forEach(function (d) { d.open = true; }); });
  window.addEventListener("afterprint", function () { opened.forEach(function (d) { d.open = false; }); });
})();
