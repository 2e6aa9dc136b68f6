// What is painted where in the drawings of a page, and in which colours.  Colours are mixed and contrasts computed by
// axe-core, which has to be loaded for what needs it.
(() => {
  const SHAPES = "rect, path, circle, ellipse, polygon, polyline, line";
  const UNPAINTED = "defs, symbol, pattern, clipPath, mask, marker";
  const all = (selector, root = document) => [...root.querySelectorAll(selector)];
  const said = (element) => element.textContent.replace(/\s+/g, " ").trim();
  const shown = (element) => {
    const box = element.getBoundingClientRect();
    return box.width > 0 && box.height > 0 && getComputedStyle(element).visibility === "visible";
  };

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
  // A straight line has a box without width or height, and is seen all the same.
  const drawn = (shape) => {
    const style = getComputedStyle(shape);
    return style.visibility === "visible" && style.display !== "none" && shape.getClientRects().length > 0;
  };
  const shapesOf = (svg) =>
    all(SHAPES, svg)
      .filter((shape) => !shape.closest(UNPAINTED) && drawn(shape))
      .map((shape) => {
        const matrix = shape.getScreenCTM();
        const margin = parseFloat(getComputedStyle(shape).strokeWidth) * Math.hypot(matrix.a, matrix.b);
        const box = shape.getBoundingClientRect();
        return { shape, back: matrix.inverse(), box, margin, fills: paints(shape, "fill"), strokes: paints(shape, "stroke") };
      });
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
        return distinct(tops.flatMap((top) => grounds.map((under) => over(top, under))));
      }, [ground]);
  // What a word stands on: what is painted below it, or its own halo where it has one (a stroke painted before the fill).
  const behindText = (text, shapes, ground, x, y) => {
    const grounds = background(text, shapes, ground, x, y);
    const { paintOrder, strokeWidth } = getComputedStyle(text);
    const halo = paintOrder.startsWith("stroke") && parseFloat(strokeWidth) >= 2 ? paints(text, "stroke") : [];
    return halo.length ? halo.flatMap((top) => grounds.map((under) => over(top, under))) : grounds;
  };
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

  return { all, said, shown, contrast, over, paints, sheet, shapesOf, laid, before, background, behindText, drawings, texts, alongText, aroundBox };
})()
