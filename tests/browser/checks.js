// What the tests ask of an open page, as one object of functions; each answers with plain data, an empty list for "nothing
// wrong".  Colours are mixed and contrasts computed by axe-core, which has to be loaded for the functions that need it.
(() => {
  const SHAPES = "rect, path, circle, ellipse, polygon, polyline, line";
  const UNPAINTED = "defs, symbol, pattern, clipPath, mask, marker";
  const SLACK = 0.6; // px: rounding of coordinates to the sheet's pitch and of boxes to the screen's
  const all = (selector, root = document) => [...root.querySelectorAll(selector)];
  const said = (element) => element.textContent.replace(/\s+/g, " ").trim();
  const shown = (element) => {
    const box = element.getBoundingClientRect();
    return box.width > 0 && box.height > 0 && getComputedStyle(element).visibility === "visible";
  };
  const named = (element) =>
    `${element.localName}${element.id ? `#${element.id}` : ""}.${element.getAttribute("class") ?? ""} "${said(element).slice(0, 60)}"`;

  // ---- colours -----------------------------------------------------------------------------------------------------
  const brush = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const colour = (css, alpha = 1) => {
    brush.clearRect(0, 0, 1, 1);
    brush.fillStyle = css;
    brush.fillRect(0, 0, 1, 1);
    const [red, green, blue, a] = brush.getImageData(0, 0, 1, 1).data;
    return new axe.commons.color.Color(red, green, blue, (a / 255) * alpha);
  };
  const over = (top, below) => axe.commons.color.flattenColors(top, below);
  const distinct = (colours) => [...new Map(colours.map((each) => [each.toHexString(), each])).values()];
  const contrast = (one, other) => axe.commons.color.getContrast(one, other);

  const opacity = (element) => {
    let share = 1;
    for (let at = element; at instanceof Element; at = at.parentElement) share *= Number(getComputedStyle(at).opacity);
    return share;
  };
  // The colours a paint puts down: one for a plain colour, several for a pattern or a gradient.
  const paints = (element, kind) => {
    const style = getComputedStyle(element);
    const paint = style[kind];
    if (paint === "none") return [];
    const share = Number(style[`${kind}Opacity`]) * opacity(element);
    const server = /^url\(["']?#([^"')]+)/.exec(paint);
    if (!server) return [colour(paint, share)];
    return all("*", document.getElementById(server[1])).flatMap((piece) =>
      piece.localName === "stop" ? [colour(getComputedStyle(piece).stopColor)] : [...paints(piece, "fill"), ...paints(piece, "stroke")],
    );
  };
  const sheet = (svg) => {
    const probe = document.body.appendChild(document.createElement("i"));
    probe.style.backgroundColor = "Canvas";
    let under = colour(getComputedStyle(probe).backgroundColor);
    probe.remove();
    const chain = [];
    for (let at = svg; at; at = at.parentElement) chain.unshift(at);
    for (const each of chain) under = over(colour(getComputedStyle(each).backgroundColor), under);
    return under;
  };

  // ---- what is painted where ---------------------------------------------------------------------------------------
  const painted = (svg) =>
    all(SHAPES, svg)
      .filter((shape) => !shape.closest(UNPAINTED) && shown2(shape))
      .map((shape) => {
        const matrix = shape.getScreenCTM();
        const margin = parseFloat(getComputedStyle(shape).strokeWidth) * Math.hypot(matrix.a, matrix.b);
        const box = shape.getBoundingClientRect();
        return { shape, back: matrix.inverse(), box, margin, fills: paints(shape, "fill"), strokes: paints(shape, "stroke") };
      });
  // A straight line has a box without width or height, and is seen all the same.
  const shown2 = (shape) => {
    const style = getComputedStyle(shape);
    return style.visibility === "visible" && style.display !== "none" && shape.getClientRects().length > 0;
  };
  const near = ({ box, margin }, x, y) =>
    x >= box.left - margin && x <= box.right + margin && y >= box.top - margin && y <= box.bottom + margin;
  // The colours one shape lays down at a point of the screen.
  const laid = (item, x, y) => {
    if (!near(item, x, y)) return [];
    const point = new DOMPoint(x, y).matrixTransform(item.back);
    const fills = item.fills.length && item.shape.isPointInFill(point) ? item.fills : [];
    const strokes = item.strokes.length && item.shape.isPointInStroke(point) ? item.strokes : [];
    return strokes.length ? strokes : fills;
  };
  const before = (one, other) => Boolean(one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING);
  const background = (element, shapes, ground, x, y) =>
    shapes
      .filter((item) => before(item.shape, element))
      .reduce((grounds, item) => {
        const tops = laid(item, x, y);
        if (!tops.length) return grounds;
        const mixed = distinct(tops.flatMap((top) => grounds.map((under) => over(top, under))));
        return tops.length > 1 ? distinct([...mixed]) : mixed;
      }, [ground]);
  const drawings = () => all("svg").filter((svg) => !svg.parentElement.closest("svg") && shown(svg));
  const texts = (svg) => all("text", svg).filter((text) => shown(text) && said(text) && !text.closest(UNPAINTED));
  const alongText = (text) => {
    const box = text.getBoundingClientRect();
    const steps = Math.max(2, Math.ceil(box.width / 6));
    return Array.from({ length: steps + 1 }, (_, i) => [box.left + 1 + ((box.width - 2) * i) / steps, (box.top + box.bottom) / 2]);
  };
  const aroundBox = (shape) => {
    const { left, right, top, bottom } = shape.getBoundingClientRect();
    const part = [0.2, 0.4, 0.6, 0.8];
    return part.flatMap((share) => [
      [left + (right - left) * share, top],
      [left + (right - left) * share, bottom],
      [left, top + (bottom - top) * share],
      [right, top + (bottom - top) * share],
    ]);
  };

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
        const shapes = painted(svg);
        const ground = sheet(svg);
        for (const text of texts(svg)) {
          looked += 1;
          const inks = paints(text, "fill");
          const worst = Math.min(
            ...alongText(text).flatMap(([x, y]) =>
              background(text, shapes, ground, x, y).flatMap((under) => inks.map((ink) => contrast(under, over(ink, under)))),
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
        const shapes = painted(svg);
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
        const shapes = painted(svg);
        for (const text of texts(svg)) {
          const after = shapes.filter((item) => before(text, item.shape));
          const cover = after.find((item) => alongText(text).some(([x, y]) => laid(item, x, y).some((top) => top.alpha > 0)));
          if (cover) covered.push(`${named(text)} under ${named(cover.shape)}`);
        }
      }
      return covered;
    },

    // Keys that both block diagrams draw and that the keyboard can reach on the given side.
    sharedKeys(side) {
      const keys = (which, reachable) =>
        all(`.archdiff-diagram.side-${which} .tile[data-key]`)
          .filter((tile) => !reachable || tile.closest("a[href], [tabindex]"))
          .map((tile) => tile.dataset.key);
      const there = new Set(keys(side === "left" ? "right" : "left", false));
      return [...new Set(keys(side, true).filter((key) => there.has(key)))];
    },

    // Whether the keyboard's focus on a tile changes the look of its partner, of that one only, and only while it lasts.
    lighting(side, key) {
      const other = side === "left" ? "right" : "left";
      const tiles = (which) => all(`.archdiff-diagram.side-${which} .tile[data-key]`);
      const look = (tile) => {
        const { stroke, strokeWidth, fill, filter, outline } = getComputedStyle(tile.querySelector(":scope > rect"));
        return [stroke, strokeWidth, fill, filter, outline].join(" ");
      };
      const partners = tiles(other);
      const looks = () => partners.map(look);
      const lit = (now, then) => partners.filter((_, index) => now[index] !== then[index]).map((tile) => tile.dataset.key);
      const dark = looks();
      const focused = tiles(side).find((tile) => tile.dataset.key === key).closest("a[href], [tabindex]");
      focused.focus();
      const during = lit(looks(), dark);
      focused.blur();
      return { during, after: lit(looks(), dark) };
    },

    // Breaches of WCAG 2.2, levels A and AA, as axe-core finds them.
    async breaches() {
      const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"];
      const { violations } = await axe.run(document, { runOnly: { type: "tag", values: tags }, resultTypes: ["violations"] });
      return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.length} times, first ${nodes[0].html.slice(0, 200)}`);
    },
  };
})()
