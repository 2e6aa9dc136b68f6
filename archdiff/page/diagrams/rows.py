"""Boards in rows: the extent of a row, and the rows of an arrangement."""

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise

from archdiff.page.diagrams.boards import GAP, PAD, Shape, columns_for, shape
from archdiff.page.diagrams.geometry import down, up
from archdiff.page.diagrams.scene import Block
from archdiff.page.diagrams.tiles import NARROWEST

Row = tuple[int, ...]
Arrangement = tuple[Row, ...]
"""Rows from top to bottom, each the indices of its boards from left to right."""


@dataclass(frozen=True, slots=True)
class RowPlan:
    """A row of boards: their shapes, their left edges relative to the row, its height, and px that did not fit."""

    shapes: tuple[Shape, ...]
    lefts: tuple[float, ...]
    height: float
    overflow: float

    @property
    def span(self) -> tuple[float, float]:
        """Left and right end of the row."""
        return self.lefts[0], self.lefts[-1] + self.shapes[-1].width


@dataclass(slots=True)
class RowPlanner:
    """Plans rows `room` px wide; remembers every row it has planned.

    `gutter` gives the px between two neighbouring boards, `least` the smallest width of a board by its index.
    """

    blocks: tuple[Block, ...]
    room: float
    tile: float
    gutter: Callable[[int, int], float]
    least: Callable[[int], float]
    _known: dict[Row, RowPlan] = field(default_factory=dict)
    _shapes: dict[tuple[int, int, float], Shape] = field(default_factory=dict)

    def plan(self, row: Row) -> RowPlan:
        """The row plan of the boards `row`, left to right, centred in the room."""
        if row not in self._known:
            self._known[row] = self._plan(row)
        return self._known[row]

    def _plan(self, row: Row) -> RowPlan:
        gutters = [self.gutter(a, b) for a, b in pairwise(row)]
        room = self.room - sum(gutters)
        columns, tile = self._columns(row, room)
        shapes = tuple(self._shape(index, count, tile) for index, count in zip(row, columns, strict=True))
        total = sum(each.width for each in shapes) + sum(gutters)
        left, lefts = down(max(0.0, self.room - total) / 2), []
        for each, gutter in zip(shapes, [*gutters, 0.0], strict=True):
            lefts.append(left)
            left += each.width + gutter
        return RowPlan(shapes, tuple(lefts), max(s.height for s in shapes), max(0.0, total - self.room))

    def _shape(self, index: int, columns: int, tile: float) -> Shape:
        key = (index, columns, tile)
        if key not in self._shapes:
            self._shapes[key] = shape(self.blocks[index], columns, tile, self.least(index))
        return self._shapes[key]

    def _columns(self, row: Row, room: float) -> tuple[list[int], float]:
        """Columns of each board and the tile width they share, the tallest board being served first."""
        counts = [len(self.blocks[index].slots) for index in row]
        spare = room - 2 * PAD * len(row) + GAP * len(row)
        most = max(len(row), int(spare // (self.tile + GAP)))
        columns = [1] * len(row)
        while sum(columns) < most:
            tallest = max(range(len(row)), key=lambda i: (-(-counts[i] // columns[i]), -i))
            if counts[tallest] <= columns[tallest]:
                break
            columns[tallest] += 1
        columns = [columns_for(count, each) for count, each in zip(counts, columns, strict=True)]
        wide = max(sum(columns), most if len(row) == 1 else 0)
        tile = down(spare / wide - GAP, 4.0)
        return columns, max(NARROWEST, min(tile, up(self.tile * 1.4)))
