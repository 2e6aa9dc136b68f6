"""How large a board is drawn for a number of tile columns, and where its tiles stand."""

import math
from dataclasses import dataclass

from archdiff.page.diagrams.geometry import Rect, up
from archdiff.page.diagrams.scene import Block, BoardFace, Slot
from archdiff.page.diagrams.textwidth import width
from archdiff.page.diagrams.tiles import slot_height

HEAD_SIZE = 12.0
NOTE_SIZE = 9.5
PAD = 12.0
GAP = 8.0
FOOT = 14.0
HEAD_ONE, HEAD_TWO = 32.0, 44.0
"""Height of a board's heading: title and detail on one line, or one above the other; or a long title on two."""
_HEAD_GLYPH = 20.0
_EMPTY = 40.0


@dataclass(frozen=True, slots=True)
class Shape:
    """A board of `columns` tile columns: its extent in px and the tops and heights of its tile rows."""

    columns: int
    tile: float
    width: float
    height: float
    head: float
    tops: tuple[float, ...]
    heights: tuple[float, ...]

    def tiles(self, board: Rect, slots: tuple[Slot, ...]) -> dict[str, Rect]:
        """Where each slot stands, given the board's rectangle; the tile columns sit in the middle of a wider board."""
        inset = (board.width - self.columns * self.tile - (self.columns - 1) * GAP) / 2
        places = {}
        for index, slot in enumerate(slots):
            row, column = divmod(index, self.columns)
            x = board.x0 + inset + column * (self.tile + GAP)
            y = board.y0 + self.tops[row]
            places[slot.key] = Rect(x, y, x + self.tile, y + self.heights[row])
        return places


def in_order(block: Block) -> tuple[Slot, ...]:
    """The block's slots by function, never by verdict."""
    return tuple(sorted(block.slots, key=lambda slot: (slot.rank, slot.key)))


def columns_for(count: int, most: int) -> int:
    """The fewest columns that need no more rows than `most` columns would."""
    most = max(1, min(most, count))
    return max(1, math.ceil(count / math.ceil(count / most))) if count else 1


def head_room(board_width: float) -> float:
    """Width in px of a line of the heading, beside the verdict."""
    return board_width - 2 * PAD - _HEAD_GLYPH


def _one_line(face: BoardFace, board_width: float) -> bool:
    detail = 8 + width(face.detail, NOTE_SIZE) if face.detail else 0.0
    return width(face.title, HEAD_SIZE, bold=True) + detail <= head_room(board_width)


def head_height(block: Block, board_width: float) -> float:
    """Height of the heading that serves both sides."""
    return HEAD_ONE if all(_one_line(face, board_width) for face in block.faces) else HEAD_TWO


def shape(block: Block, columns: int, tile: float, least: float) -> Shape:
    """The shape of `block` with `columns` columns of `tile` px; the board is never narrower than `least` px."""
    slots = in_order(block)
    board_width = up(max(least, columns * tile + (columns - 1) * GAP + 2 * PAD))
    head = head_height(block, board_width)
    rows = [slots[start : start + columns] for start in range(0, len(slots), columns)]
    heights = tuple(max(slot_height(slot, tile) for slot in row) for row in rows)
    tops, y = [], head
    for height in heights:
        tops.append(y)
        y += height + GAP
    total = up(y - GAP + FOOT) if rows else up(head + _EMPTY)
    return Shape(columns, tile, board_width, total, head, tuple(tops), heights)
