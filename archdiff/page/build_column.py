"""A build with its boards in a column and its links as brackets beside it: good for any number of boards.

No line passes behind a board that it does not join. Brackets of links that overlap stand in lanes of their own, the
short ones next to the boards; a number interrupts its bracket where nothing else crosses.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.page.build_shapes import LINE, SIZE, WIDTH, Sketch, Way, label_of
from archdiff.page.diagrams.geometry import Rect, around
from archdiff.page.diagrams.textwidth import width as width_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from archdiff.page.build_shapes import Link, Point, Shape

_EDGE, _GAP = 2.0, 9.0  # round the sketch, and between boards
_NAMES, _BOARDS = 128.0, 92.0  # widths of the columns of names and of boards
_TALLEST = 58.0
_RIGHT = _EDGE + _NAMES + _BOARDS  # where the boards end and the brackets begin
_FIRST, _LANE = 15.0, 19.0  # from the boards to the first lane, from lane to lane
_CLEAR = 2.0  # round a number
_THIN = 0.55  # share of a line's width in the other layout


def scale_of(shapes: Sequence[Shape]) -> float:
    """Px a mm, so that the widest board and the tallest one have room."""
    return min(_BOARDS / max(shape.width for shape in shapes), _TALLEST / max(shape.height for shape in shapes))


def in_a_column(shapes: Sequence[Shape], links: Sequence[Link], scale: float) -> Sketch:
    """The largest board first, all flush with the brackets on their right, the names on their left."""
    boards, labels, y = [], [], _EDGE
    for shape in shapes:
        wide, high = shape.width * scale, shape.height * scale
        row = max(high, 2 * LINE)
        middle = y + row / 2
        boards.append((shape, Rect(_RIGHT - wide, middle - high / 2, _RIGHT, middle + high / 2)))
        labels.append(label_of(shape, _NAMES - 8, _EDGE, middle - 2))
        y += row + _GAP
    boxes = {shape.board.id: box for shape, box in boards}
    return Sketch(boards, labels, _ways(links, boxes), math.ceil(y))


def _ways(links: Sequence[Link], boxes: Mapping[str, Rect]) -> list[Way]:
    place = {name: at for at, name in enumerate(boxes)}
    lanes = _lanes(links, place)
    pitch = min(_LANE, (WIDTH - _RIGHT - _FIRST - 10) / max(1, max(lanes.values(), default=0)))
    ends = _ends(links, lanes, place, boxes)
    ways: list[Way] = []
    for link in links:
        x = _RIGHT + _FIRST + lanes[link] * pitch
        top, foot = sorted(ends[link, name] for name in link.ends)
        points = (_RIGHT, top), (x, top), (x, foot), (_RIGHT, foot)
        ways.append(Way(link, points, max(1.0, link.weight * _THIN), None))
    return _numbered(ways)


def _lanes(links: Sequence[Link], place: Mapping[str, int]) -> dict[Link, int]:
    """A lane a link, the short ones first; in one lane brackets may meet at a board but not overlap."""
    lanes: dict[Link, int] = {}
    taken: list[list[tuple[int, int]]] = []
    for link in sorted(links, key=lambda link: (_span(link, place)[1] - _span(link, place)[0], _span(link, place))):
        low, high = _span(link, place)
        lane = next((n for n, spans in enumerate(taken) if all(high <= a or b <= low for a, b in spans)), len(taken))
        if lane == len(taken):
            taken.append([])
        taken[lane].append((low, high))
        lanes[link] = lane
    return lanes


def _span(link: Link, place: Mapping[str, int]) -> tuple[int, int]:
    low, high = sorted(place[name] for name in link.ends)
    return low, high


def _ends(
    links: Sequence[Link], lanes: Mapping[Link, int], place: Mapping[str, int], boxes: Mapping[str, Rect]
) -> dict[tuple[Link, str], float]:
    """Where each link leaves its boards: upwards above downwards, and so that brackets cross as little as can be."""
    found: dict[tuple[Link, str], float] = {}
    for name, box in boxes.items():
        own = [link for link in links if name in link.ends]
        up = [link for link in own if _span(link, place)[1] == place[name]]
        down = [link for link in own if _span(link, place)[0] == place[name]]
        order = [*sorted(up, key=lambda link: lanes[link]), *sorted(down, key=lambda link: -lanes[link])]
        for at, link in enumerate(order, 1):
            found[link, name] = box.y0 + box.height * at / (len(order) + 1)
    return found


def _numbered(ways: Sequence[Way]) -> list[Way]:
    """The ways with their numbers, each on its own bracket's upright where nothing else passes."""
    done: list[Way] = []
    for way in ways:
        others = [run for other in ways if other is not way for run in _runs(other)]
        taken = [*others, *(other.box for other in done if other.box is not None)]
        spot = next((at for at in _spots(way) if not any(_round(way, at).meets(rect) for rect in taken)), None)
        done.append(Way(way.link, way.points, way.wide, spot))
    return done


def _runs(way: Way) -> Iterator[Rect]:
    """The three straight runs of a bracket as boxes as wide as the line."""
    for (x0, y0), (x1, y1) in zip(way.points, way.points[1:], strict=False):
        yield Rect(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)).grown(way.wide / 2)


def _spots(way: Way) -> Iterator[Point]:
    """Along the upright, from its middle outwards."""
    (_, _), (x, top), (_, foot), _ = way.points
    middle, room = (top + foot) / 2, (foot - top) / 2 - SIZE * 0.4
    for off in range(max(0, math.floor(room)) + 1):
        yield x, middle - off
        if off:
            yield x, middle + off


def _round(way: Way, at: Point) -> Rect:
    return around(*at, width_of(way.link.words, SIZE, bold=True), SIZE * 0.8).grown(_CLEAR)
