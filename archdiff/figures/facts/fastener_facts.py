"""What several families ask of a fastener: whether it can be used again, undone whole or not, and what its drive is."""

from __future__ import annotations

from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING

from archdiff.record import Truth
from archdiff.tables import read_table
from archdiff.vocabulary.folding import fold

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element
    from archdiff.tables import Row


class Kind(StrEnum):
    """What undoing does to it: fastener classes A, B and C of EN 45554:2020 (from memory), in words."""

    REUSABLE = "to be used again"
    REMOVABLE = "undone whole, not to be used again"
    DESTRUCTIVE = "not undone without damage"


_BY_TRAIT = {"reusable": Kind.REUSABLE, "removable": Kind.REMOVABLE, "destructive": Kind.DESTRUCTIVE}


def reusable(ledger: Ledger, joint: Element) -> Truth:
    """Whether it is said to be reusable or its means is; noted."""
    stated = joint.facts.get("reusable")
    if isinstance(stated, bool):
        ledger.use(joint.id, "reusable")
        return Truth.YES if stated else Truth.NO
    answer = ledger.trait(joint, "reusable")
    if answer is Truth.UNKNOWN:
        ledger.lack(joint.id, "reusable")
    return answer


def kinds(ledger: Ledger, joint: Element) -> frozenset[Kind]:
    """All kinds that it may be of; one where that is known."""
    answer = reusable(ledger, joint)
    if answer is Truth.YES:
        return frozenset({Kind.REUSABLE})
    if answer is Truth.UNKNOWN:
        return frozenset(Kind)
    # Where the record says that it is not reusable, that outweighs what such means usually are.
    return _by_means(ledger, joint) - {Kind.REUSABLE} or frozenset({Kind.REMOVABLE, Kind.DESTRUCTIVE})


def _by_means(ledger: Ledger, joint: Element) -> frozenset[Kind]:
    """The kinds that its means is in the vocabulary; noted where that tells of a kind, else what is lacking."""
    term = ledger.record.means_term(joint.means)
    told = frozenset(kind for trait, kind in _BY_TRAIT.items() if term is not None and trait in term.traits)
    if term is None or told - {Kind.REUSABLE}:
        ledger.note(joint.id, "means", known=term is not None)
    else:
        ledger.lack(joint.id, "whether it can be undone without damage")
    return told


def drive_row(drive: str) -> Row | None:
    """The row of the table of drives; None for a drive or a size that it does not have."""
    return _drives().get(fold(drive))


@cache
def _drives() -> Mapping[str, Row]:
    return {fold(name): row for name, row in read_table("drives").rows.items()}
