"""What several families ask of a circuit board: its area and how many parts are placed on it."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, THINGS, added
from archdiff.quantities import Bounds, Size
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record

SIDES = ("top", "bottom")
MM2_PER_CM2 = 100.0


def area_of(ledger: Ledger, board: Element) -> Bounds | None:
    """Area in mm² of one side of one board; None where nothing tells it.

    The stated area, else the outline: the record's format holds a board without a stated area for a full
    rectangle or circle. Where cut-outs are listed it is less than that by no more than their own areas.
    """
    stated = board.bounds("area")
    if stated is not None:
        ledger.use(board.id, "area")
        return stated
    outline = board.size("outline")
    if not ledger.note(board.id, "outline", known=outline is not None) or outline is None:
        return None
    holes = board.facts.get("cut_outs", ())
    if not holes:
        return outline.area
    ledger.lack(board.id, "area")
    sizes = [hole.get("size") for hole in holes]
    cut = [size.area if isinstance(size, Size) else ANY for size in sizes]
    low = outline.area.low - sum(hole.high for hole in cut)
    return Bounds(None, max(0.0, low), outline.area.high)


def area_in_words(board: Element) -> str:
    """What the area was taken from, as written: '62 x 48 mm', 'about 12.9 cm2', 'not known'."""
    words = board.text("area") or board.text("outline") or "area not known"
    return words if board.count == 1 else f"{board.count} x ({words})"


def area_in_all(ledger: Ledger, *, whole: bool) -> tuple[Bounds, dict[str, Bounds]]:
    """Area in cm² of one side of all boards, and of each entry (those of a kind together)."""
    each = {board.id: area_of(ledger, board) for board in ledger.record.boards}
    counts = {board.id: board.count for board in ledger.record.boards}
    known = {key: area * (counts[key] / MM2_PER_CM2) for key, area in each.items() if area is not None}
    return added((known.get(key) for key in each), whole=whole), known


def on_side(ledger: Ledger, board: Element, side: str) -> Bounds:
    """How many parts are placed on one side of one board: as stated, else at least those listed there."""
    stated = as_bounds((board.facts.get("placements") or {}).get(side))
    ledger.note(board.id, f"placements {side}", known=stated is not None)
    if stated is not None and not stated.is_known:
        ledger.lack(board.id, f"placements {side} where nobody could see")
    return stated if stated is not None else Bounds.at_least(_placed(ledger, board, side))


def on_board(ledger: Ledger, board: Element) -> Bounds:
    """How many parts are placed on one board."""
    both = added((on_side(ledger, board, side) for side in SIDES), whole=True)
    if both.high < math.inf:
        return both
    return Bounds.at_least(max(both.low, _placed(ledger, board)))


def placed_in_all(ledger: Ledger, *, whole: bool) -> tuple[Bounds, dict[str, Bounds]]:
    """How many parts are placed on all boards, and on each entry (those of a kind together)."""
    each = {board.id: on_board(ledger, board) * board.count for board in ledger.record.boards}
    return added(each.values(), whole=whole), each


def _placed(ledger: Ledger, board: Element, side: str = "") -> int:
    """How many of the things listed there are placed parts, on one side or on both."""
    return _placed_parts(ledger.record, board.id, side)


@lru_cache(maxsize=2048)  # a dozen figures ask the same of every board
def _placed_parts(record: Record, board: str, side: str) -> int:
    return sum(
        element.count
        for element in record.carried.get(board, ())
        if element.section in THINGS
        and element.populated
        and record.has_trait(element, "placement")
        and (not side or element.text("side") == side)
    )
