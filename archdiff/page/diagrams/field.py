"""What a route may run over: free lines, lines already taken, and rectangles in the way."""

from bisect import bisect_left, bisect_right, insort
from itertools import pairwise

from archdiff.page.diagrams.geometry import Rect

Point = tuple[float, float]
_Run = tuple[float, float, str]


class Field:
    """Occupied lines along both axes; axis 0 runs along x at a y, axis 1 along y at an x."""

    def __init__(self, boxes: list[Rect]) -> None:
        self.boxes = boxes
        self._owners: set[str] = set()
        self._runs: tuple[dict[float, list[_Run]], dict[float, list[_Run]]] = ({}, {})
        self._lines: tuple[list[float], list[float]] = ([], [])
        self._walls: tuple[dict[float, list[tuple[float, float]]], dict[float, list[tuple[float, float]]]] = ({}, {})

    def add(self, points: list[Point], owner: str) -> None:
        """Take the lines between consecutive points for `owner`."""
        for (xa, ya), (xb, yb) in pairwise(points):
            axis = 0 if ya == yb else 1
            line, a, b = (ya, xa, xb) if axis == 0 else (xa, ya, yb)
            if a == b:
                continue
            if line not in self._runs[axis]:
                self._runs[axis][line] = []
                insort(self._lines[axis], line)
            self._runs[axis][line].append((min(a, b), max(a, b), owner))

    def shares(self, owner: str) -> bool:
        """Whether `owner` has a finished route that another of its wires may run along."""
        return owner in self._owners

    def finish(self, points: list[Point], owner: str) -> None:
        """Take the lines of a finished route."""
        self.add(points, owner)
        self._owners.add(owner)

    def walled(self, axis: int, line: float, a: float, b: float) -> bool:
        """Whether a rectangle stands in the way between `a` and `b` on the line."""
        walls = self._walls[axis].get(line)
        if walls is None:
            walls = self._walls[axis][line] = self._walls_on(axis, line)
        return any(low < b and a < high for low, high in walls)

    def _walls_on(self, axis: int, line: float) -> list[tuple[float, float]]:
        if axis == 0:
            return [(box.x0, box.x1) for box in self.boxes if box.y0 < line < box.y1]
        return [(box.y0, box.y1) for box in self.boxes if box.x0 < line < box.x1]

    def shared(self, axis: int, line: float, a: float, b: float, owner: str) -> float | None:
        """The px of `a..b` that run along `owner`'s own lines; None where another's line lies there or touches."""
        own = 0.0
        for low, high, other in self._runs[axis].get(line, ()):
            if low <= b and a <= high:
                if other != owner:
                    return None
                own = max(own, min(b, high) - max(a, low))
        return own

    def crossings(self, axis: int, line: float, a: float, b: float, owner: str) -> int | None:
        """How many lines of others are crossed in `a < .. <= b`; None where one of them ends or turns there.

        `a` may be the larger: the walk goes from `a` to `b`, and the start is not counted.
        """
        across, count = 1 - axis, 0
        lines = self._lines[across]
        span = lines[bisect_right(lines, a) : bisect_right(lines, b)] if a < b else (
            lines[bisect_left(lines, b) : bisect_left(lines, a)])  # fmt: skip
        for crossing in span:
            for low, high, other in self._runs[across][crossing]:
                if other != owner and low <= line <= high:
                    if line in (low, high):
                        return None
                    count += 1
        return count

    def busy(self, x: float, y: float, owner: str) -> bool:
        """Whether another's line runs through the point, so that nothing may turn there."""
        return any(
            low <= along <= high and other != owner
            for axis, line, along in ((0, y, x), (1, x, y))
            for low, high, other in self._runs[axis].get(line, ())
        )
