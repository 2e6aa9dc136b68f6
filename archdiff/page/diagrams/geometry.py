"""Rectangles and the pitch that every board edge, terminal and track keeps to."""

import math
from dataclasses import dataclass

PITCH = 8.0
"""Distance of neighbouring tracks in px; terminals stand on its multiples, so two lines never run closer."""


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle in px; `x1` and `y1` are its right and lower edge."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Extent along x."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Extent along y."""
        return self.y1 - self.y0

    @property
    def cx(self) -> float:
        """Middle along x."""
        return (self.x0 + self.x1) / 2

    @property
    def cy(self) -> float:
        """Middle along y."""
        return (self.y0 + self.y1) / 2

    def grown(self, by: float) -> "Rect":
        """The rectangle with every edge moved outwards by `by` px."""
        return Rect(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def meets(self, other: "Rect") -> bool:
        """Whether the insides overlap; touching edges do not."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1


def around(cx: float, cy: float, width: float, height: float) -> Rect:
    """The rectangle of the given extent round a middle."""
    return Rect(cx - width / 2, cy - height / 2, cx + width / 2, cy + height / 2)


def up(value: float, step: float = PITCH) -> float:
    """The next multiple of `step` at or above `value`."""
    return math.ceil(value / step - 1e-9) * step


def down(value: float, step: float = PITCH) -> float:
    """The next multiple of `step` at or below `value`."""
    return math.floor(value / step + 1e-9) * step


def clamp(value: float, low: float, high: float) -> float:
    """`value`, moved into `low..high`; `low` wins when the span is empty."""
    return max(low, min(value, high))
