"""What two products have in common by kind: indices of commonality, and what the kinds of a product are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS, Ledger, listed
from archdiff.figures.facts.matrix_facts import lists_every_part, purpose_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from collections.abc import Set as AbstractSet

    from archdiff.record import Element, Record

    Naming = Callable[[Ledger, Element], object | None]

_SECTIONS = (*THINGS, "enclosure")


def degree_of_commonality(common_use: float, distinct: float) -> float:
    """Collier 1981: uses of all distinct parts over their number; 1 nothing shared, N all shared by N products."""
    return common_use / distinct


def total_constant_commonality(common_use: float, distinct: float) -> float:
    """Wacker & Treleven 1986: 1 - (d - 1) / (uses - 1), from 0 for nothing shared to less than 1; 0 for one use."""
    return 1 - (distinct - 1) / (common_use - 1) if common_use > 1 else 0.0


def uses_of(products: Sequence[AbstractSet[object]]) -> tuple[int, int]:
    """Over all distinct parts the sum of how many products use each, and how many distinct parts there are."""
    return sum(map(len, products)), len(frozenset().union(*products))


@dataclass(slots=True)
class Side:
    """What one product is known to have, and how many of its entries may be anything, `loose`."""

    ledger: Ledger
    has: frozenset[object]
    loose: int
    whole: bool

    @classmethod
    def of(cls, ledger: Ledger, name: Naming) -> Side:
        """One product's side, each thing called by `name`; None for one of which too little is known."""
        whole = ledger.whole(*_SECTIONS) and lists_every_part(ledger)
        found = [name(ledger, element) for element in listed(ledger.record, *_SECTIONS)]
        known = frozenset(one for one in found if one is not None)
        return cls(ledger, known, sum(one is None for one in found), whole)


def function_of(ledger: Ledger, element: Element) -> object | None:
    """The main function of a thing, noted; None where it is not known."""
    term = purpose_of(ledger, element)
    return term.name if term else None


def kind_of(ledger: Ledger, element: Element) -> object | None:
    """Main function and means, noted; None where one of them is not known."""
    function = function_of(ledger, element)
    known = ledger.note(element.id, "means", known=bool(element.means))
    return (function, element.means) if function and known else None


@lru_cache(maxsize=4)
def sides_of(left: Record, right: Record, name: Naming) -> tuple[Side, Side]:
    """Both sides of a pair, each thing called by `name`; several figures ask the same."""
    return Side.of(Ledger(left, "left"), name), Side.of(Ledger(right, "right"), name)


def possible_counts(left: Side, right: Side) -> Iterator[tuple[int, int]]:
    """(in both, in either) for all that the loose entries may turn out to be: for each number in both the ends.

    A loose entry may be one more of what is there, one that so far only the other side has, or a new one.
    """
    both, either = len(left.has & right.has), len(left.has | right.has)
    taken = (min(left.loose, len(right.has - left.has)), min(right.loose, len(left.has - right.has)))
    new = min(left.loose - taken[0], right.loose - taken[1])
    for more in range(sum(taken) + new + 1):
        yield both + more, either + max(0, more - sum(taken))
        yield both + more, either + left.loose + right.loose - more
