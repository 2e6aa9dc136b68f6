"""All wires routed one after the other, once for both sides."""

from dataclasses import dataclass, replace

from archdiff.page.diagrams.field import Field, Point
from archdiff.page.diagrams.floor import Floor
from archdiff.page.diagrams.frame import Frame
from archdiff.page.diagrams.geometry import PITCH, Rect, around
from archdiff.page.diagrams.route import find
from archdiff.page.diagrams.scene import Edge
from archdiff.page.diagrams.terminals import Terminal
from archdiff.page.diagrams.wires import Wire

_BOX_AIR, _SMALL_AIR = 4.0, 2.0
_BETWEEN = 2 * PITCH
_ATTEMPTS = 6


@dataclass(frozen=True, slots=True)
class Strand:
    """A routed wire: its corners from end to end, its connectors with the edge they straddle, its dots and pill."""

    wire: Wire
    points: tuple[Point, ...]
    connectors: tuple[tuple[Rect, Edge], ...] = ()
    dots: tuple[Point, ...] = ()
    pill: Rect | None = None


Terminals = dict[str, tuple[Terminal, Terminal]]


def route_all(wires: list[Wire], terminals: Terminals, frame: Frame, floor: Floor) -> tuple[list[Strand], list[str]]:
    """Route all wires; return the strands, and the link keys of those that found no way.

    A wire that finds itself walled in by earlier ones is routed before all others in the next attempt.
    """
    bare = [
        _bare(wire, terminals[wire.link.key], frame)
        for wire in sorted(wires, key=lambda each: each.link.key)
        if wire.link.key in terminals
    ]
    homeless = [wire.link.key for wire in wires if wire.link.key not in terminals]
    order = sorted(bare, key=lambda each: _turn(each.wire, terminals[each.wire.link.key]))
    best: tuple[list[Strand], list[Strand]] | None = None
    for _ in range(_ATTEMPTS):
        strands, lost = _route_in(order, terminals, frame, floor)
        if best is None or len(lost) < len(best[1]):
            best = strands, lost
        if not lost:
            break
        order = lost + [each for each in order if each not in lost]
    strands, lost = best if best is not None else ([], [])
    return strands, sorted(homeless + [each.wire.link.key for each in lost])


def _route_in(
    order: list[Strand], terminals: Terminals, frame: Frame, floor: Floor
) -> tuple[list[Strand], list[Strand]]:
    """Route in the order given; return what found a way and what did not."""
    field, tracks = Field(_boxes(floor, order)), _tracks(frame, floor)
    for each in order:
        ends = terminals[each.wire.link.key]
        for end in ends:
            field.add([end.point, (end.tip.x, end.tip.y)], each.wire.owner)
        if each.wire.direct:
            field.add([end.point for end in ends], each.wire.owner)
    strands, lost = [], []
    for each in order:
        points = _route(each.wire, terminals[each.wire.link.key], field, tracks)
        if points is None:
            lost.append(each)
            continue
        field.finish(points, each.wire.owner)
        strands.append(replace(each, points=tuple(points)))
    return strands, lost


def _turn(wire: Wire, ends: tuple[Terminal, Terminal]) -> tuple[bool, float, str]:
    """Joins before ties, short before long."""
    a, b = (end.tip for end in ends)
    return not wire.join, abs(a.x - b.x) + abs(a.y - b.y), wire.link.key


def _route(
    wire: Wire, ends: tuple[Terminal, Terminal], field: Field, tracks: tuple[list[float], list[float]]
) -> list[Point] | None:
    a, b = ends
    if wire.direct:
        return [a.point, b.point]
    way = find(field, tracks, (a.tip, b.tip), wire.owner)
    return None if way is None else _joined([a.point, *way, b.point])


def _joined(points: list[Point]) -> list[Point]:
    """Without points that lie on the straight line between their neighbours."""
    kept = points[:1]
    for here, after in zip(points[1:], [*points[2:], None], strict=True):
        before = kept[-1]
        straight = after is not None and (before[0] == here[0] == after[0] or before[1] == here[1] == after[1])
        if not straight and here != before:
            kept.append(here)
    return kept


def _bare(wire: Wire, ends: tuple[Terminal, Terminal], frame: Frame) -> Strand:
    """What stands at the ends, before there is a way between them."""
    on_board = [end for key, end in zip(wire.link.ends, ends, strict=True) if key in frame.spans]
    if not wire.join:
        return Strand(wire, (), dots=tuple(end.point for end in on_board))
    connectors = tuple((end.connector(wire), end.side) for end in on_board)
    return Strand(wire, (), connectors, (), _pill(wire, ends))


def _pill(wire: Wire, ends: tuple[Terminal, Terminal]) -> Rect | None:
    if wire.legend is None:
        return None
    if wire.direct:
        a, b = ends
        return around((a.x + b.x) / 2, a.y, wire.legend.width, wire.legend.height)
    return None if wire.pill_end is None else ends[wire.pill_end].pill(wire)


def _boxes(floor: Floor, bare: list[Strand]) -> list[Rect]:
    boxes = [box.grown(_BOX_AIR) for box in (*floor.boards.values(), *floor.items.values())]
    for strand in bare:
        boxes += [box.grown(_SMALL_AIR) for box, _ in strand.connectors]
        if strand.pill is not None:
            boxes.append(strand.pill.grown(_SMALL_AIR))
    return boxes


def _tracks(frame: Frame, floor: Floor) -> tuple[list[float], list[float]]:
    """The x of all upright and the y of all level tracks."""
    xs = {x for side in frame.tracks for x in side}
    spans = list(frame.spans.values())
    for span in spans:
        for after in spans:
            if after.row == span.row and after.place == span.place + 1:
                xs |= {span.x1 + _BETWEEN, after.x0 - _BETWEEN}
    return sorted(xs), sorted({y for gutter in floor.tracks for y in gutter})
