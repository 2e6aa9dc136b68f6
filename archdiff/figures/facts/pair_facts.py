"""What several figures of the pair ask of both records: the places of paired things, with the facts noted by side."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger
from archdiff.figures.figure import Measure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import PairView
    from archdiff.quantities import Bounds


class PairLedger:
    """A ledger for each side; their facts are told as 'left main: on' and 'right U1: on'."""

    def __init__(self, view: PairView) -> None:
        self.view = view
        self.left, self.right = Ledger(view.left, "left"), Ledger(view.right, "right")

    def note_places(self) -> None:
        """Note the facts that place both seats of every pair of the overlap table, or that are lacking for it."""
        for mine, noted in zip((self.left, self.right), _places(self.view), strict=True):
            mine.take(noted)

    def measure(
        self, bounds: Bounds | None, how: str = "", parts: Mapping[str, Bounds] | None = None, said: str = ""
    ) -> Measure:
        """The measure with all that was noted on both sides."""
        sides = [ledger.measure(None) for ledger in (self.left, self.right)]
        used = tuple(fact for side in sides for fact in side.used)
        missing = tuple(fact for side in sides for fact in side.missing)
        assumed = tuple(dict.fromkeys(words for side in sides for words in side.assumed))
        return Measure(bounds, used, missing, parts or {}, how, assumed, said=said if bounds else "")


@lru_cache(maxsize=2)  # seven figures of a pair rest on the same places
def _places(view: PairView) -> tuple[Ledger, Ledger]:
    partition, ledgers = view.partition, (Ledger(view.left, "left"), Ledger(view.right, "right"))
    placed = (pair for pairs in partition.table.values() for pair in pairs)
    for pair in (*placed, *partition.unplaced):
        for seat, ledger in zip((pair.left, pair.right), ledgers, strict=True):
            for member in seat.members if seat is not None else ():
                ledger.hosts(member)
            if seat is not None and len(seat.hosts) > 1:
                ledger.lack(seat.first.id, "one place for all of its kind")
    return ledgers
