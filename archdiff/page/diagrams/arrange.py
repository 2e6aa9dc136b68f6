"""Which rows the boards form: the cheapest of all arrangements for few boards, a hill climb for many."""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from archdiff.page.diagrams.bonds import Bonds
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.rows import Arrangement, Row, RowPlanner
from archdiff.page.diagrams.scene import Edge

ALL_TRIED = 5
"""Up to this many boards every arrangement is tried."""
_GUTTER = 48.0
_OVERFLOW = 40.0
_PULL = 0.22
_BETWEEN = 120.0
_SIDE_BY_SIDE = 40.0
_SIDE_PULL = 0.25
_NOT_OUTERMOST = 70.0
_DISORDER = 3.0
_MOST_ROUNDS = 60


@dataclass(frozen=True, slots=True)
class Judge:
    """The cost of an arrangement, in px of drawing height: fit + way-weighted link length + far enclosure items."""

    planner: RowPlanner
    bonds: Bonds

    def cost(self, arrangement: Arrangement) -> float:
        """Lower is better; equal arrangements cost the same on every machine."""
        boxes, height, overflow = self._boxes(arrangement)
        fit = height + _OVERFLOW * overflow
        links = sum(w * self._length(boxes, a, b) for (a, b), w in self.bonds.between.items())
        sides = sum(w * self._off_side(boxes, arrangement, i, edge, height) for i, edge, w in self.bonds.sides)
        return fit + _PULL * links + _SIDE_PULL * sides + _DISORDER * _disorder(arrangement)

    def _boxes(self, arrangement: Arrangement) -> tuple[dict[int, tuple[int, Rect]], float, float]:
        boxes: dict[int, tuple[int, Rect]] = {}
        y = overflow = 0.0
        for number, row in enumerate(arrangement):
            plan = self.planner.plan(row)
            for index, left, shape in zip(row, plan.lefts, plan.shapes, strict=True):
                boxes[index] = number, Rect(left, y, left + shape.width, y + plan.height)
            y += plan.height + _GUTTER
            overflow += plan.overflow
        return boxes, y, overflow

    @staticmethod
    def _length(boxes: dict[int, tuple[int, Rect]], a: int, b: int) -> float:
        (row_a, box_a), (row_b, box_b) = boxes[a], boxes[b]
        dx = max(0.0, box_a.x0 - box_b.x1, box_b.x0 - box_a.x1)
        dy = max(0.0, box_a.y0 - box_b.y1, box_b.y0 - box_a.y1)
        passed = max(0, abs(row_a - row_b) - 1)
        return dx + dy + _BETWEEN * passed + _SIDE_BY_SIDE * (row_a == row_b)

    def _off_side(
        self, boxes: dict[int, tuple[int, Rect]], rows: Arrangement, index: int, edge: Edge, height: float
    ) -> float:
        number, box = boxes[index]
        row = rows[number]
        match edge:
            case Edge.TOP:
                return box.y0
            case Edge.BOTTOM:
                return height - box.y1 - _GUTTER
            case Edge.LEFT:
                return 0.3 * box.x0 + _NOT_OUTERMOST * (row[0] != index)
            case Edge.RIGHT:
                return 0.3 * (self.planner.room - box.x1) + _NOT_OUTERMOST * (row[-1] != index)


def _disorder(arrangement: Arrangement) -> int:
    """Pairs of boards that stand against the order in which the scene names them."""
    order = [index for row in arrangement for index in row]
    return sum(a > b for a, b in itertools.combinations(order, 2))


def _every(count: int) -> Iterator[Arrangement]:
    """All ordered partitions of `count` boards into rows, with all orders inside the rows."""
    for order in itertools.permutations(range(count)):
        for cuts in itertools.product((False, True), repeat=max(0, count - 1)):
            yield _cut(order, cuts)


def _cut(order: Row, cuts: tuple[bool, ...]) -> Arrangement:
    rows, row = [], list(order[:1])
    for index, cut in zip(order[1:], cuts, strict=True):
        if cut:
            rows.append(tuple(row))
            row = []
        row.append(index)
    return (*rows, tuple(row)) if row else ()


def _neighbours(arrangement: Arrangement) -> Iterator[Arrangement]:
    """Arrangements one step away: a board put elsewhere, two boards exchanged, two rows exchanged."""
    boards = [index for row in arrangement for index in row]
    for index in boards:
        rest = tuple(tuple(i for i in row if i != index) for row in arrangement)
        rest = tuple(row for row in rest if row)
        for at in range(len(rest) + 1):
            yield (*rest[:at], (index,), *rest[at:])
        for number, row in enumerate(rest):
            for at in range(len(row) + 1):
                yield (*rest[:number], (*row[:at], index, *row[at:]), *rest[number + 1 :])
    for a, b in itertools.combinations(boards, 2):
        other = {a: b, b: a}
        yield tuple(tuple(other.get(i, i) for i in row) for row in arrangement)
    for i, j in itertools.combinations(range(len(arrangement)), 2):
        rows = list(arrangement)
        rows[i], rows[j] = rows[j], rows[i]
        yield tuple(rows)


def _climb(count: int, judge: Judge) -> Arrangement:
    """From one board a row, in the order given, take the best step until none is better."""
    here: Arrangement = tuple((index,) for index in range(count))
    cost = judge.cost(here)
    for _ in range(_MOST_ROUNDS):
        best_cost, best = min(((judge.cost(step), step) for step in _neighbours(here)), default=(cost, here))
        if best_cost >= cost - 1e-6:
            break
        here, cost = best, best_cost
    return here


def arrange(count: int, judge: Judge) -> Arrangement:
    """The rows in which `count` boards are drawn."""
    if count == 0:
        return ()
    if count <= ALL_TRIED:
        return min(_every(count), key=lambda rows: (judge.cost(rows), rows))
    return _climb(count, judge)
