// What the tests ask of an open page: given the tools of painted.js, one object of functions.  Each answers with plain
// data, an empty list for "nothing wrong".
(tools) => {
  const { all, said, shown, contrast, over, paints, sheet, shapesOf, laid, before, background, behindText } = tools;
  const { drawings, texts, alongText, aroundBox } = tools;
  const SLACK = 0.6; // px: rounding of coordinates to the sheet's pitch and of boxes to the screen's
  const named = (element) =>
    `${element.localName}${element.id ? `#${element.id}` : ""}.${element.getAttribute("class") ?? ""} "${said(element).slice(0, 60)}"`;

  return {
    // How far the page scrolls sideways, in px, and what sticks out.
    sidewaysScroll() {
      const root = document.documentElement;
      const width = root.clientWidth;
      if (root.scrollWidth <= width && document.body.scrollWidth <= width) return [];
      const wide = all("body *").filter((element) => element.getBoundingClientRect().right > width + 1);
      return [`${root.scrollWidth} px in a window of ${width} px`, ...wide.slice(0, 8).map(named)];
    },

    headings: () => all("h1, h2").filter(shown).map(said),

    // Diagrams that can be seen, by their titles.
    diagrams: () => all("svg.archdiff-diagram").filter(shown).map((svg) => said(svg.querySelector("title"))),

    repeatedIds() {
      const ids = all("[id]").map((element) => element.id);
      return [...new Set(ids.filter((id, index) => ids.indexOf(id) !== index))];
    },

    // Links into the page: how many there are.
    inPageLinks: () => all('a[href^="#"]').length,

    // Links into the page that do not bring their target into the window.
    async lostLinks() {
      const lost = [];
      const links = new Set(all('a[href^="#"]').map((link) => link.getAttribute("href")));
      for (const href of links) {
        const target = document.getElementById(decodeURIComponent(href.slice(1)));
        if (!target) {
          lost.push(`${href}: no such place`);
          continue;
        }
        location.hash = href;
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        const box = target.getBoundingClientRect();
        if (box.bottom < 0 || box.top > innerHeight || !target.getClientRects().length) lost.push(`${href}: out of sight`);
      }
      return lost;
    },

    // Words in drawings whose contrast to what lies under them is below `least`; and how many words were looked at.
    faintText(least) {
      const faint = [];
      let looked = 0;
      for (const svg of drawings()) {
        const shapes = shapesOf(svg);
        const ground = sheet(svg);
        for (const text of texts(svg)) {
          looked += 1;
          const inks = paints(text, "fill");
          const worst = Math.min(
            ...alongText(text).flatMap(([x, y]) =>
              behindText(text, shapes, ground, x, y).flatMap((under) => inks.map((ink) => contrast(under, over(ink, under)))),
            ),
          );
          if (!(worst >= least)) faint.push(`${worst.toFixed(2)}:1 ${named(text)}`);
        }
      }
      return { faint, looked };
    },

    // Outlines of ghosts that stand out less than `least` along most of their way; and how many were looked at.
    faintGhosts(least) {
      const faint = [];
      let looked = 0;
      for (const svg of drawings()) {
        const shapes = shapesOf(svg);
        const ground = sheet(svg);
        for (const box of all(".ghost > rect", svg).filter((rect) => paints(rect, "stroke").length && !rect.matches(".badge-box"))) {
          looked += 1;
          const ink = paints(box, "stroke")[0];
          const fills = paints(box, "fill");
          const seen = aroundBox(box).map(([x, y]) => {
            const outside = background(box, shapes, ground, x, y);
            const inside = fills.flatMap((fill) => outside.map((under) => over(fill, under)));
            return Math.min(...[...outside, ...inside].map((under) => contrast(under, over(ink, under))));
          });
          const middle = seen.sort((one, other) => one - other)[Math.floor(seen.length / 2)];
          if (!(middle >= least)) faint.push(`${middle.toFixed(2)}:1 ${named(box.parentElement)}`);
        }
      }
      return { faint, looked };
    },

    // Words that reach over the edge of their tile, board, pill or badge, or out of their drawing.
    spilledText() {
      const spilled = [];
      for (const svg of drawings()) {
        for (const text of texts(svg)) {
          const group = text.closest("g[data-key]");
          const box = text.matches(".badge") ? text.previousElementSibling : group?.querySelector(":scope > rect");
          const inner = text.getBoundingClientRect();
          const outer = (box ?? svg).getBoundingClientRect();
          const by = Math.max(outer.left - inner.left, inner.right - outer.right, outer.top - inner.top, inner.bottom - outer.bottom);
          if (by > SLACK) spilled.push(`${by.toFixed(1)} px ${named(text)}`);
        }
      }
      return spilled;
    },

    // Words of a drawing that run into each other.
    collidingText() {
      const colliding = [];
      for (const svg of drawings()) {
        const boxes = texts(svg).map((text) => [text, text.getBoundingClientRect()]);
        boxes.forEach(([one, a], index) => {
          for (const [other, b] of boxes.slice(index + 1)) {
            const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            // Line boxes of neighbouring lines may touch; letters that meet share more than a fifth of a line.
            if (wide > 1 && high > 0.2 * Math.min(a.height, b.height)) colliding.push(`${named(one)} / ${named(other)}`);
          }
        });
      }
      return colliding;
    },

    // Words with a line or a box painted over them.
    coveredText() {
      const covered = [];
      for (const svg of drawings()) {
        const shapes = shapesOf(svg);
        for (const text of texts(svg)) {
          const after = shapes.filter((item) => before(text, item.shape));
          const cover = after.find((item) => alongText(text).some(([x, y]) => laid(item, x, y).some((top) => top.alpha > 0)));
          if (cover) covered.push(`${named(text)} under ${named(cover.shape)}`);
        }
      }
      return covered;
    },

    // What a tile is called by its partners: a function with seats on several boards has one name for all its tiles.
    // The names that both block diagrams show and that the keyboard can reach on the given side.
    sharedNames(side) {
      const names = (which, reachable) =>
        all(`.archdiff-diagram.side-${which} .tile[data-key]`)
          .filter((tile) => !reachable || tile.closest("a[href], [tabindex]"))
          .map((tile) => tile.dataset.seat || tile.dataset.key);
      const there = new Set(names(side === "left" ? "right" : "left", false));
      return [...new Set(names(side, true).filter((name) => there.has(name)))];
    },

    // While the keyboard's focus is on the tile of that name: whether the tile itself shows it, and which tiles of the
    // other side change their look; which of those are its partners, and which stay changed when the focus has gone.
    lighting(side, name) {
      const tiles = (which) => all(`.archdiff-diagram.side-${which} .tile[data-key]`);
      const named = (tile) => (tile.dataset.seat || tile.dataset.key) === name;
      const others = tiles(side === "left" ? "right" : "left");
      const look = (tile) => {
        const { stroke, strokeWidth, fill, filter, outline } = getComputedStyle(tile.querySelector(":scope > rect"));
        return [stroke, strokeWidth, fill, filter, outline].join(" ");
      };
      const keys = (which) => others.filter(which).map((tile) => tile.dataset.key);
      const before = others.map(look);
      const changed = () => keys((tile, index) => look(tile) !== before[index]);
      const tile = tiles(side).find((each) => named(each) && each.closest("a[href], [tabindex]"));
      const unfocused = look(tile);
      tile.closest("a[href], [tabindex]").focus();
      const own = look(tile) !== unfocused;
      const during = changed();
      document.activeElement.blur();
      return { own, partners: keys(named), during, after: changed() };
    },

    // Breaches of WCAG 2.2, levels A and AA, as axe-core finds them.  A word that a tile had to cut short ("…") cannot stand
    // in the tile's name as it is seen; there the name carries the whole word, which is what 2.5.3 is for.
    // With `rule`, that one rule is asked alone.
    async breaches(rule) {
      const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
      const runOnly = rule ? { type: "rule", values: [rule] } : { type: "tag", values: tags };
      const { violations } = await axe.run(document, { runOnly, resultTypes: ["violations"] });
      const cut = ({ target }) => all("text", document.querySelector(target[0])).some((text) => said(text).endsWith("…"));
      return violations
        .map(({ id, help, nodes }) => [id, help, id === "label-content-name-mismatch" ? nodes.filter((node) => !cut(node)) : nodes])
        .filter(([, , nodes]) => nodes.length)
        .map(([id, help, nodes]) => `${id}: ${help}: ${nodes.length} times, first ${nodes[0].html.slice(0, 200)}`);
    },
  };
}
