"""A build with its boards in rows, the largest first, and straight lines between them: good for a few boards."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

from archdiff.page.build_shapes import LINE, SIZE, WIDTH, Sketch, Way, label_of
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.textwidth import width as width_of
from archdiff.page.plan_places import crosses

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.page.build_shapes import Link, Shape

_GAP = 34.0  # between boards, so that a link and its ways can be read there
_EDGE = 2.0
_TALLEST = 120.0  # of the tallest board in px
_NAME = 150.0  # no name takes more room


def scale_of(shapes: Sequence[Shape]) -> float:
    """Px a mm, so that the two largest boards fit side by side and none is too tall."""
    widest = sum(shape.width for shape in shapes[:2])
    room = WIDTH - 2 * _EDGE - _GAP * min(len(shapes) - 1, 1)
    return min(room / widest, _TALLEST / max(shape.height for shape in shapes))


def in_rows(shapes: Sequence[Shape], links: Sequence[Link], scale: float) -> Sketch:
    """From left to right in rows of the sketch's width; each board stands on its row's line."""
    boards: list[tuple[Shape, Rect]] = []
    y = _EDGE
    for row in _rows(shapes, scale):
        tall = max(shape.height * scale for shape in row)
        x = _EDGE
        for shape in row:
            wide, high = shape.width * scale, shape.height * scale
            boards.append((shape, Rect(x, y + tall - high, x + wide, y + tall)))
            x += max(wide, _name_width(shape)) + _GAP
        y += tall + 2 * LINE + 14
    boxes = {shape.board.id: box for shape, box in boards}
    labels = [label_of(shape, _NAME, box.x0, box.y1 + LINE + 1) for shape, box in boards]
    return Sketch(boards, labels, [_way(link, boxes) for link in links], math.ceil(y))


def _rows(shapes: Sequence[Shape], scale: float) -> list[list[Shape]]:
    rows: list[list[Shape]] = [[]]
    x = _EDGE
    for shape in shapes:
        width = max(shape.width * scale, _name_width(shape))
        if rows[-1] and x + width > WIDTH - _EDGE + 0.01:
            rows.append([])
            x = _EDGE
        rows[-1].append(shape)
        x += width + _GAP
    return rows


def _name_width(shape: Shape) -> float:
    return min(max(width_of(shape.name, SIZE, bold=True), width_of(shape.size, SIZE)), _NAME)


def _way(link: Link, boxes: dict[str, Rect]) -> Way:
    """Across, down beside the names, or from middle to middle; the number over it, or beside it."""
    one, other = sorted((boxes[name] for name in link.ends), key=lambda box: box.x0)
    upper, lower = sorted((one, other), key=lambda box: box.y0)
    top, foot = max(one.y0, other.y0), min(one.y1, other.y1)
    rise = link.weight / 2 + 7
    if one.x1 <= other.x0 and top < foot:
        y = (top + foot) / 2
        return Way(link, ((one.x1, y), (other.x0, y)), link.weight, ((one.x1 + other.x0) / 2, y - rise))
    left, right = max(one.x0, other.x0), min(one.x1, other.x1)
    if left < right:
        x = right - min(12.0, (right - left) / 2)
        number = x + link.weight / 2 + 9, (upper.y1 + lower.y0) / 2
        return Way(link, ((x, upper.y1), (x, lower.y0)), link.weight, number)
    ends = (one.cx, one.cy), (other.cx, other.cy)
    return Way(link, ends, link.weight, ((one.cx + other.cx) / 2, (one.cy + other.cy) / 2 - rise))


def is_clear(sketch: Sketch) -> bool:
    """Whether no line runs behind a board it does not join or through a name, and no number stands on anything."""
    boxes = [box for _, box in sketch.boards]
    names = [label.box for label in sketch.labels]
    numbers = [way.box for way in sketch.ways if way.box is not None]
    return (
        all(box.x1 <= WIDTH for box in (*boxes, *names, *numbers))
        and not any(one.meets(other) for one, other in combinations([*boxes, *names, *numbers], 2))
        and not any(_blocked(sketch, way, names) for way in sketch.ways)
    )


def _blocked(sketch: Sketch, way: Way, names: Sequence[Rect]) -> bool:
    start, end = way.points
    others = [box for shape, box in sketch.boards if shape.board.id not in way.link.ends]
    foreign = [other.box for other in sketch.ways if other is not way and other.box is not None]
    taken = (box.grown(way.wide / 2) for box in (*others, *names, *foreign))
    return any(crosses((start, end), box) for box in taken)
