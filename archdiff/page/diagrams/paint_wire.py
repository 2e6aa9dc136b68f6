"""Links: lines, connectors and pills."""

from archdiff.page.diagrams.field import Point
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.markup import named, number, tag, text, title
from archdiff.page.diagrams.pills import PILL_LINE, line_width, pill_marked
from archdiff.page.diagrams.routing import Strand
from archdiff.page.diagrams.scene import Edge, LinkFace
from archdiff.page.diagrams.symbols import use_mark
from archdiff.page.diagrams.wires import UPRIGHT
from archdiff.page.diagrams.wording import link_label

_CURVE = 4.0
_CASING = 4.0
_DOT = 2.0
_PIN = 4.0
_BARE_PILL = 40.0
_THIN_RIBBON = 3.0
_BORNE = "the board that bears it"


def paint_line(strand: Strand, face: LinkFace) -> str:
    """The line of a link; a flexible join is drawn as a ribbon, wider with more ways."""
    wire, d = strand.wire, _path(strand.points)
    kinds = f"{'join' if wire.join else 'tie'}{' flexible' if wire.join and face.flexible else ''}"
    parts = [title(link_label(face) if wire.join else _BORNE), *(_join(d, face) if wire.join else _tie(d))]
    parts += [tag("circle", class_="net-dot", cx=x, cy=y, r=_DOT) for x, y in strand.dots]
    return tag(
        "g",
        *parts,
        class_=f"net {kinds} mark-{face.mark.value}",
        data_key=wire.link.key,
        data_ends=" ".join(wire.link.ends),
    )


def _tie(d: str) -> list[str]:
    """A tie; all are drawn alike, as the stylesheet says."""
    return [tag("path", class_=name, d=d) for name in ("net-casing", "net-line")]


def _join(d: str, face: LinkFace) -> list[str]:
    wide = line_width(face.ways)
    parts = [tag("path", class_="net-casing", d=d, stroke_width=wide + _CASING)]
    parts.append(tag("path", class_="net-line", d=d, stroke_width=max(wide, _THIN_RIBBON if face.flexible else 0.0)))
    if face.flexible:
        parts.append(tag("path", class_="net-core", d=d, stroke_width=max(wide, _THIN_RIBBON) - 2.0))
    return parts


def paint_connectors(strand: Strand, face: LinkFace) -> str:
    """The connectors of a join, with a few pins to tell which way they face."""
    parts = [connector(box, side) for box, side in strand.connectors]
    name = f"connectors mark-{face.mark.value}"
    return tag("g", *parts, class_=name, data_key=strand.wire.link.key) if parts else ""


def connector(box: Rect, side: Edge) -> str:
    """A connector on the board edge `side`, with its pins hinted at."""
    rect = tag("rect", class_="connector", x=box.x0, y=box.y0, width=box.width, height=box.height, rx=1.5)
    size = box.height if side in UPRIGHT else box.width
    count = int((size - 4) // _PIN)
    start = (box.y0 if side in UPRIGHT else box.x0) + (size - _PIN * (count - 1)) / 2
    pins = [number(start + _PIN * i) for i in range(count)]
    if side in UPRIGHT:
        d = "".join(f"M{number(box.x0 + 3)} {at}h{number(box.width - 6)}" for at in pins)
    else:
        d = "".join(f"M{at} {number(box.y0 + 3)}v{number(box.height - 6)}" for at in pins)
    return rect + tag("path", class_="pins", d=d)


def paint_pill(strand: Strand, face: LinkFace, side: int) -> str:
    """The pill that names a join on the given side (0 left, 1 right)."""
    legend, box = strand.wire.legend, strand.pill
    if legend is None or box is None:
        return ""
    lines = legend.lines[side]
    marked = pill_marked(face) and box.width > _BARE_PILL
    middle = box.cx - (6.5 if marked else 0.0)
    y = box.cy + 3.3 - PILL_LINE * (len(lines) - 1) / 2
    parts = [tag("rect", class_="pill-box", x=box.x0, y=box.y0, width=box.width, height=box.height, rx=8.5)]
    parts += [text(line, class_="pill-text", x=middle, y=y + PILL_LINE * i) for i, line in enumerate(lines)]
    if marked:
        parts.append(use_mark(face.mark, box.x1 - 17, box.cy - 5, 0.84))
    classes = f"pill mark-{face.mark.value}"
    return named(link_label(face), face.href, *parts, class_=classes, data_key=strand.wire.link.key)


def _path(points: tuple[Point, ...]) -> str:
    """A path through the points with small rounded corners."""
    n = number
    steps = [f"M{n(points[0][0])} {n(points[0][1])}"]
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        ax, ay = _towards(here, before)
        bx, by = _towards(here, after)
        steps.append(f"L{n(ax)} {n(ay)}Q{n(here[0])} {n(here[1])} {n(bx)} {n(by)}")
    return "".join(steps) + f"L{n(points[-1][0])} {n(points[-1][1])}"


def _towards(here: Point, there: Point) -> Point:
    """The point on the way from `here` to `there` where a corner's curve begins."""
    dx, dy = there[0] - here[0], there[1] - here[1]
    length = abs(dx) + abs(dy)
    share = min(_CURVE, length / 2) / length if length else 0.0
    return here[0] + dx * share, here[1] + dy * share
