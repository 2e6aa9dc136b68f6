"""Places where the name of a thing on a board plan could stand, and what runs into what; all in px."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.diagrams.geometry import Rect, around, clamp
from archdiff.page.diagrams.textwidth import width as width_of

if TYPE_CHECKING:
    from collections.abc import Iterator

SIZE = 10.5
"""Type size of a name."""
FOOT = 2.2
"""How far descenders reach below the line."""
HALF_LINE = 2.0
"""Half of what an outline that is only a line takes."""
NEAR = 3.5
"""Between a name and what it stands beside."""
_HIGH = 9.6  # from the tops of capitals to the feet of descenders
_INSET, _INSET_UPRIGHT = 2.5, 1.5  # between a name and the outline it stands in

Point = tuple[float, float]
Line = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Drawn:
    """Something on the plan that wants its name, in the order of painting; `hollow` where it is a mere outline."""

    name: str
    box: Rect
    is_round: bool = False
    hollow: bool = False

    @property
    def solid(self) -> tuple[Rect, ...]:
        """What it covers."""
        return () if self.hollow else (self.box,)

    @property
    def strips(self) -> tuple[Rect, ...]:
        """The lines of a mere outline."""
        return edges(self.box) if self.hollow else ()


def extent(name: str) -> tuple[float, float]:
    """Width and height of a name."""
    return width_of(name, SIZE), _HIGH


def edges(box: Rect) -> tuple[Rect, ...]:
    """An outline as four thin boxes."""
    x0, y0, x1, y1, s = box.x0, box.y0, box.x1, box.y1, HALF_LINE
    across = (Rect(x0 - s, y0 - s, x1 + s, y0 + s), Rect(x0 - s, y1 - s, x1 + s, y1 + s))
    return (*across, Rect(x0 - s, y0 - s, x0 + s, y1 + s), Rect(x1 - s, y0 - s, x1 + s, y1 + s))


def within(thing: Drawn, extent: tuple[float, float]) -> Iterator[Rect]:
    """In the middle, above and below it, in the corners."""
    box, (wide, high) = thing.box, extent
    for share in (0.5, 0.25, 0.75):
        yield around(box.cx, box.y0 + box.height * share, wide, high)
    yield from at_corners(Rect(box.x0 + 3, box.y0 + 3, box.x1 - 3, box.y1 - 3), wide, high)


def fits(box: Rect, thing: Drawn) -> bool:
    """Whether a name on a thing keeps off its outline."""
    if thing.is_round:
        middle = thing.box
        reach = middle.width / 2 - _INSET
        return all(math.hypot(x - middle.cx, y - middle.cy) <= reach for x, y in corners(box))
    own = thing.box
    inner = Rect(own.x0 + _INSET, own.y0 + _INSET_UPRIGHT, own.x1 - _INSET, own.y1 - _INSET_UPRIGHT)
    return inside(box, inner)


def at_corners(box: Rect, wide: float, high: float) -> Iterator[Rect]:
    """Just inside the four corners of a box."""
    for y in (box.y0, box.y1 - high):
        for x in (box.x0, box.x1 - wide):
            yield Rect(x, y, x + wide, y + high)


def beside(box: Rect, wide: float, high: float) -> Iterator[Rect]:
    """Right, left, above and below; then the same shifted along the thing's edge."""
    right, left = box.x1 + NEAR, box.x0 - NEAR - wide
    above, below = box.y0 - NEAR - high, box.y1 + NEAR
    middle, line = box.cx - wide / 2, box.cy - high / 2
    corners = [(right, line), (left, line), (middle, above), (middle, below)]
    corners += [(x, y) for y in (box.y0, box.y1 - high) for x in (right, left)]
    corners += [(x, y) for x in (box.x0, box.x1 - wide) for y in (above, below)]
    for x, y in corners:
        yield Rect(x, y, x + wide, y + high)


def off_by(box: Rect, off: float, turn: float, wide: float, high: float) -> Rect:
    """A name `off` px from the thing, in a direction from its middle."""
    x, y = math.cos(turn), math.sin(turn)
    cx = box.cx + x * (box.width / 2 + off + wide / 2)
    cy = box.cy + y * (box.height / 2 + off + high / 2)
    return around(cx, cy, wide, high)


def leader(thing: Drawn, place: Rect) -> Line:
    """From the name's edge to the nearest point of the thing."""
    box = thing.box
    start = clamp(box.cx, place.x0, place.x1), clamp(box.cy, place.y0, place.y1)
    if not thing.is_round:
        return start, (clamp(start[0], box.x0, box.x1), clamp(start[1], box.y0, box.y1))
    share = box.width / 2 / max(math.hypot(start[0] - box.cx, start[1] - box.cy), box.width / 2)
    return start, (box.cx + (start[0] - box.cx) * share, box.cy + (start[1] - box.cy) * share)


def corners(box: Rect) -> Iterator[Point]:
    """The four corners."""
    return ((x, y) for x in (box.x0, box.x1) for y in (box.y0, box.y1))


def inside(inner: Rect, outer: Rect) -> bool:
    """Whether the first box lies wholly in the second."""
    return outer.x0 <= inner.x0 and inner.x1 <= outer.x1 and outer.y0 <= inner.y0 and inner.y1 <= outer.y1


def crosses(line: Line, box: Rect) -> bool:
    """Whether a straight line passes through a box: clipped to it, something is left (Liang and Barsky 1984)."""
    (x0, y0), (x1, y1) = line
    enter, leave = 0.0, 1.0
    for step, low, high in ((x1 - x0, box.x0 - x0, box.x1 - x0), (y1 - y0, box.y0 - y0, box.y1 - y0)):
        if step == 0:
            if low > 0 or high < 0:
                return False
            continue
        near, far = sorted((low / step, high / step))
        enter, leave = max(enter, near), min(leave, far)
    return enter <= leave


def meet(one: Line, other: Line) -> bool:
    """Whether two straight lines cross."""
    return _turns(one, other) and _turns(other, one)


def _turns(line: Line, ends: Line) -> bool:
    """Whether the ends lie on different sides of the line, or on it."""
    (ax, ay), (bx, by) = line
    first, second = ((bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in ends)
    return first * second <= 0
