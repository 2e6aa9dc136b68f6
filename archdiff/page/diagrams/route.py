"""Orthogonal shortest ways over the gutter tracks, one wire at a time (Dijkstra's search with a lower bound)."""

import heapq
from dataclasses import dataclass

from archdiff.page.diagrams.field import Field, Point

BEND, CROSSING, REUSE = 20.0, 14.0, 0.35
"""Penalties in px of detour: for a bend, for crossing another wire; and what a px along an own line costs."""


@dataclass(frozen=True, slots=True)
class Tip:
    """Where a wire leaves its stub: the point, and the axis (0 along x, 1 along y) on which the stub runs."""

    x: float
    y: float
    axis: int


@dataclass(slots=True)
class _Search:
    field: Field
    xs: list[float]
    ys: list[float]
    owner: str
    goal: Tip
    px: float
    """The least that a px of way can cost: less than 1 only where there are own lines to run along."""

    def bound(self, ix: int, iy: int) -> float:
        return self.px * (abs(self.xs[ix] - self.goal.x) + abs(self.ys[iy] - self.goal.y))

    def step(self, ix: int, iy: int, axis: int, way: int) -> tuple[int, int, float] | None:
        """The next grid point along `axis` and what it costs to get there, None where it can not be reached."""
        jx, jy = (ix + way, iy) if axis == 0 else (ix, iy + way)
        if not (0 <= jx < len(self.xs) and 0 <= jy < len(self.ys)):
            return None
        line = self.ys[iy] if axis == 0 else self.xs[ix]
        a, b = (self.xs[ix], self.xs[jx]) if axis == 0 else (self.ys[iy], self.ys[jy])
        low, high = (a, b) if a < b else (b, a)
        if self.field.walled(axis, line, low, high):
            return None
        own = self.field.shared(axis, line, low, high, self.owner)
        crossed = None if own is None else self.field.crossings(axis, line, a, b, self.owner)
        if own is None or crossed is None:
            return None
        return jx, jy, high - low - own * (1 - REUSE) + CROSSING * crossed

    def may_turn(self, ix: int, iy: int) -> bool:
        return not self.field.busy(self.xs[ix], self.ys[iy], self.owner)


_State = tuple[int, int, int]


def find(
    field: Field, tracks: tuple[list[float], list[float]], tips: tuple[Tip, Tip], owner: str
) -> list[Point] | None:
    """The corners of the cheapest way between two stub tips over the given x and y tracks; None when there is none."""
    start, goal = tips
    xs, ys = sorted({*tracks[0], start.x, goal.x}), sorted({*tracks[1], start.y, goal.y})
    search = _Search(field, xs, ys, owner, goal, REUSE if field.shares(owner) else 1.0)
    first: _State = (xs.index(start.x), ys.index(start.y), start.axis)
    target = (xs.index(goal.x), ys.index(goal.y))
    costs, came = {first: 0.0}, {first: first}
    heap = [(search.bound(first[0], first[1]), first)]
    done: set[_State] = set()
    while heap:
        _, here = heapq.heappop(heap)
        if here in done:
            continue
        done.add(here)
        if here[:2] == target and here[2] == goal.axis:
            return _corners([(xs[i], ys[j]) for i, j, _ in _walk(came, here)])
        for there, cost in _moves(search, here):
            total = costs[here] + cost
            if total < costs.get(there, float("inf")):
                costs[there], came[there] = total, here
                heapq.heappush(heap, (total + search.bound(there[0], there[1]), there))
    return None


def _moves(search: _Search, here: _State) -> list[tuple[_State, float]]:
    ix, iy, axis = here
    moves: list[tuple[_State, float]] = []
    for way in (-1, 1):
        step = search.step(ix, iy, axis, way)
        if step is not None:
            moves.append(((step[0], step[1], axis), step[2]))
    if search.may_turn(ix, iy):
        moves.append(((ix, iy, 1 - axis), BEND))
    return moves


def _walk(came: dict[_State, _State], end: _State) -> list[_State]:
    states = [end]
    while came[states[-1]] != states[-1]:
        states.append(came[states[-1]])
    return states[::-1]


def _corners(points: list[Point]) -> list[Point]:
    """The points without those that lie on a straight line between their neighbours, or twice on one place."""
    kept: list[Point] = []
    for point in points:
        if kept and kept[-1] == point:
            continue
        if len(kept) > 1 and (kept[-2][0] == kept[-1][0] == point[0] or kept[-2][1] == kept[-1][1] == point[1]):
            kept[-1] = point
        else:
            kept.append(point)
    return kept
