"""Shielding: how many shields, and how much lies under them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, count_listed, count_true, listed, means_of, number, share, told
from archdiff.figures.shelf import Family, figure
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("shielding", "Shielding", 95)


@figure(
    title="Shields",
    order=10,
    meaning="How many cans, foils, plates and barriers keep radio energy or light where it belongs.",
    formula="count of shields, by means",
    source="count; common practice, no source",
)
def shield_count(record: Record) -> Measure:
    """Shields by means."""
    return count_listed(record, "shields", label=means_of)


@figure(
    title="Parts under metal shields",
    order=20,
    meaning="Share of the parts listed that lie under a shield that conducts.",
    formula="parts covered by a conducting shield / parts listed",
    source="count; common practice, no source",
)
def share_under_shields(record: Record) -> Measure:
    """Share, 0 to 1, of listed parts that a conducting shield covers."""
    ledger = Ledger(record)
    whole = ledger.whole("shields", "parts")
    shields = [(shield, ledger.trait(shield, "conductive")) for shield in listed(record, "shields")]
    over = [(shield.id, metal, _covered(ledger, shield)) for shield, metal in shields if metal is not Truth.NO]

    def lies_under(part: Element) -> Truth:
        answers = {_lies_under(part, *shield) for shield in over}
        return next((answer for answer in (Truth.YES, Truth.UNKNOWN) if answer in answers), Truth.NO)

    parts = listed(record, "parts")
    count = count_true(parts, lies_under, whole=whole)
    how = f"{told(count)} of {number(parts)}" + ("" if whole else " listed")
    return ledger.measure(share(count, number(parts), whole=whole), how)


def _lies_under(part: Element, shield: str, metal: Truth, covers: frozenset[str]) -> Truth:
    """Whether a part lies under a shield that may be metal: not known where nobody said what it covers."""
    if part.id in covers or part.text("hidden_under") == shield:
        return metal
    return Truth.NO if covers else Truth.UNKNOWN


def _covered(ledger: Ledger, shield: Element) -> frozenset[str]:
    """Ids of what it is said to cover; empty where that is not stated."""
    ids = frozenset(shield.texts("covers"))
    ledger.note(shield.id, "covers", known=bool(ids))
    return ids
