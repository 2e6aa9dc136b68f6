"""Concentration: how evenly the placed parts are shared out over the boards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, told
from archdiff.figures.facts.board_facts import on_board
from archdiff.figures.facts.spread import EFFECTIVE_NUMBER, ENTROPY, GINI, Spread, spread_within
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("concentration", "Concentration", 38)


@figure(
    title="Effective boards",
    order=10,
    meaning="How many equally full boards would spread the placed parts as these boards do.",
    formula="1 / sum of squared shares of placed parts (inverse Herfindahl index)",
    source="Herfindahl index, US Department of Justice page on market shares; inverse: Laakso & Taagepera 1979",
)
def effective_boards(record: Record) -> Measure:
    """Effective number of boards, from 1 to the number of boards."""
    return _spread(record, EFFECTIVE_NUMBER)


@figure(
    title="Gini of placed parts",
    order=20,
    meaning="How unevenly the placed parts are shared out: 0 all boards alike, near 1 all on one of many.",
    formula="sum of (2i - n - 1) x_i / (n sum of x), x ascending",
    source="Gini coefficient, the form for single values; textbook knowledge",
)
def placement_gini(record: Record) -> Measure:
    """Gini coefficient of placed parts over boards."""
    return _spread(record, GINI)


@figure(
    title="Allocation entropy",
    unit="bit",
    order=30,
    meaning="How many yes-or-no questions it takes on average to tell which board a placed part is on.",
    formula="- sum of p log2 p, p the share of placed parts on each board",
    source="Shannon 1948, A Mathematical Theory of Communication",
)
def allocation_entropy(record: Record) -> Measure:
    """Shannon entropy in bits of placed parts over boards."""
    return _spread(record, ENTROPY)


def _spread(record: Record, measure: Spread) -> Measure:
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    boards = [board for board in record.boards for _ in range(board.count)]
    if len(boards) == 1:  # it has all parts, however many they are
        limits, how = [Bounds.exact(1.0)], "one board only"
    else:
        limits = [on_board(ledger, board) for board in boards]
        how = ", ".join(f"{b.id} {told(placed)}" for b, placed in zip(boards, limits, strict=True)) or "no boards"
    return ledger.measure(spread_within(limits, measure) if whole else None, how)
