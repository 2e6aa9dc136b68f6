"""Boards and the ways between them as the sketch of a build draws them, however it lays them out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.textwidth import shorten
from archdiff.page.diagrams.textwidth import width as width_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.record import Element, Record

WIDTH = 380.0
"""Of a sketch in px."""
LINE, SIZE = 13.0, 11.0
"""From line to line, and type size."""
UNKNOWN = 30.0
"""Edge in mm that stands for a board whose outline is not recorded."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Shape:
    """A board as it is drawn; lengths in mm."""

    board: Element
    width: float
    height: float
    is_round: bool
    is_known: bool

    @property
    def name(self) -> str:
        """What to call it, with how many alike there are: they are drawn once."""
        many = f" × {self.board.count}" if self.board.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
        return f"{self.board.label}{many}"

    @property
    def size(self) -> str:
        """Its outline in words."""
        return self.board.text("outline") or "outline not recorded"

    @property
    def area(self) -> float:
        """In mm²."""
        return self.width * self.height


@dataclass(frozen=True, slots=True)
class Link:
    """The ways between two boards: their ids, the ways in words ('?' where one is not recorded) and in numbers."""

    ends: tuple[str, str]
    words: str
    ways: int

    @property
    def weight(self) -> float:
        """How wide to draw it: grows with the logarithm, so that a hundred ways still find room."""
        return 1 + math.log2(1 + self.ways)


@dataclass(frozen=True, slots=True)
class Label:
    """Name and size of a board, one under the other, from `x` on; `foot` is the line the name stands on."""

    name: str
    size: str
    x: float
    foot: float

    @property
    def box(self) -> Rect:
        """What it covers."""
        wide = max(width_of(self.name, SIZE, bold=True), width_of(self.size, SIZE))
        return Rect(self.x, self.foot - SIZE * 0.8, self.x + wide, self.foot + LINE + SIZE * 0.25)


def label_of(shape: Shape, room: float, x: float, foot: float) -> Label:
    """The label, cut to the room it has."""
    return Label(shorten(shape.name, SIZE, room, bold=True), shorten(shape.size, SIZE, room), x, foot)


@dataclass(frozen=True, slots=True)
class Way:
    """A link as drawn: its corners, its width, and the middle of its number, None where that found no room."""

    link: Link
    points: tuple[Point, ...]
    wide: float
    number: Point | None

    @property
    def box(self) -> Rect | None:
        """What the number covers."""
        if self.number is None:
            return None
        half = width_of(self.link.words, SIZE, bold=True) / 2
        x, y = self.number
        return Rect(x - half, y - SIZE * 0.4, x + half, y + SIZE * 0.4)


@dataclass(frozen=True, slots=True)
class Sketch:
    """A build laid out: each board with its box, the labels in the same order, the ways, and the height of it all."""

    boards: Sequence[tuple[Shape, Rect]]
    labels: Sequence[Label]
    ways: Sequence[Way]
    height: float


def shapes_of(record: Record) -> list[Shape]:
    """The boards, the largest first."""
    return sorted((_shape(board) for board in record.boards), key=lambda shape: -shape.area)


def _shape(board: Element) -> Shape:
    outline = board.size("outline")
    if outline is None:
        return Shape(board, UNKNOWN, UNKNOWN, is_round=False, is_known=False)
    width = max(outline.width.likely, 1.0)
    depth = width if outline.is_round else max(outline.depth.likely, 1.0)
    return Shape(board, width, depth, is_round=outline.is_round, is_known=True)


def links_of(record: Record) -> list[Link]:
    """One link a pair of boards that anything joins, in the order of their ids."""
    boards = {board.id for board in record.boards}
    ways: dict[tuple[str, ...], list[int | None]] = {}
    for element in record.section("interconnects"):
        ends = tuple(sorted(boards.intersection(element.hosts)))
        if len(ends) == 2:  # noqa: PLR2004 - from board to board
            stated = element.facts.get("ways")
            ways.setdefault(ends, []).append(stated if isinstance(stated, int) else None)
    return [_link(ends, counts) for ends, counts in sorted(ways.items())]


def _link(ends: tuple[str, ...], counts: list[int | None]) -> Link:
    known = [count for count in counts if count is not None]
    words = f"{sum(known)}" if len(known) == len(counts) else "?"
    return Link((ends[0], ends[1]), words, sum(known))
