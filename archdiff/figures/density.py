"""Density: how closely parts are set on the boards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger, largest, told
from archdiff.figures.facts.board_facts import (
    MM2_PER_CM2,
    SIDES,
    area_in_all,
    area_in_words,
    area_of,
    on_board,
    on_side,
    placed_in_all,
)
from archdiff.figures.facts.main_board import called, main_boards, one_of
from archdiff.figures.shelf import Family, figure

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

FAMILY = Family("density", "Density", 15)


@figure(
    title="Density of the main board",
    unit="parts/cm²",
    glance=True,
    order=5,
    meaning="How many parts, on both sides, are placed on each square centimetre of the board with the host processor.",
    formula="parts placed on the main board / its area, one side counted; of several boards with a host the largest",
    source="own definition; none found in the board standards",
    preferred="lower: a crowded board is harder to lay out, test and mend",
)
def main_board_density(record: Record) -> Measure:
    """Parts placed per cm² of the main board, with each of its sides."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    if not record.boards or not whole:
        return ledger.measure(None, "another board may be the main one" if record.boards else "no boards")
    mains = main_boards(ledger)
    density = one_of(_per_cm2(on_board(ledger, board), area_of(ledger, board)) for board in mains)
    terms = (f"{b.id}: {told(on_board(ledger, b))} parts on {area_in_words(b)}" for b in mains)
    return ledger.measure(density, " or ".join(terms) or called(mains), _known(_by_side(ledger, mains)))


@figure(
    title="Placement density",
    unit="parts/cm²",
    order=10,
    meaning="How many parts, on both sides, are placed on each square centimetre of board.",
    formula="placed parts / board area, one side of each board counted",
    source="own definition; none found in the board standards",
)
def placement_density(record: Record) -> Measure:
    """Parts placed per cm² of board, with each board's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    placed, _ = placed_in_all(ledger, whole=whole)
    area, _ = area_in_all(ledger, whole=whole)
    each = {board.id: _per_cm2(on_board(ledger, board), area_of(ledger, board)) for board in record.boards}
    how = f"{told(placed)} parts on {told(area)} cm²" if each else "no boards"
    return ledger.measure(placed / area if area.high > 0 else None, how, _known(each))


@figure(
    title="Densest board side",
    unit="parts/cm²",
    order=20,
    meaning="How many parts stand on each square centimetre of the most crowded side of any board.",
    formula="maximum over boards and sides of parts placed there / board area",
    source="own definition; none found in the board standards",
    preferred="lower: crowded sides are harder to make, test and mend",
)
def densest_side(record: Record) -> Measure:
    """Greatest number of parts per cm² on one side of one board, with each side's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    each = _by_side(ledger, record.boards)
    how = "largest of " + ", ".join(f"{key} {told(value)}" for key, value in each.items())
    return ledger.measure(largest(each.values(), whole=whole), how if each else "no boards", _known(each))


def _by_side(ledger: Ledger, boards: Iterable[Element]) -> dict[str, Bounds | None]:
    """Parts per cm² on each side of these boards."""
    return {
        f"{board.id} {side}": _per_cm2(on_side(ledger, board, side), area_of(ledger, board))
        for board in boards
        for side in SIDES
    }


def _known(each: Mapping[str, Bounds | None]) -> dict[str, Bounds]:
    return {key: value for key, value in each.items() if value is not None}


def _per_cm2(count: Bounds, area: Bounds | None) -> Bounds | None:
    if area is None or area.high <= 0:
        return None
    density = count / (area * (1 / MM2_PER_CM2))
    return None if (density.low, density.high) == (ANY.low, ANY.high) else density
