"""Counting and adding up what a record states, with an eye on what it leaves open.

A figure never reads silence as 0: what was not looked at, or not stated, leaves the upper end of its bounds
open and is named among the facts that are lacking.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.figure import Measure
from archdiff.quantities import Bounds
from archdiff.record import Truth, section
from archdiff.record.gaps import gaps_in

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from archdiff.record import Element, Record
    from archdiff.vocabulary import FunctionTerm

# Sections whose entries are things that do something for the product and are mounted somewhere.
THINGS = (
    "parts",
    "controls",
    "indicators",
    "sensors",
    "actuators",
    "antennas",
    "shields",
    "power.entry",
    "power.storage",
)
ANY = Bounds(None, 0.0, math.inf)  # of something that cannot be below 0 nothing is known
NOT_STATED = "not stated"


class Ledger:
    """Notes which facts one figure uses of one record and which it lacks."""

    def __init__(self, record: Record, side: str = "") -> None:
        self.record = record
        self._before = f"{side} " if side else ""
        self._used: dict[str, None] = {}
        self._missing: dict[str, None] = {}
        self._assumed: dict[str, None] = {}
        self._moot = False

    def assume(self, statement: str) -> None:
        """Note what is taken from a table or a model instead of from the record, with its source."""
        self._assumed[statement] = None

    def moot(self) -> None:
        """Note that the question does not arise: all was looked at, and there is no such thing (no array of one).

        What else is lacking has no bearing then, and `measure` leaves it out.
        """
        self._moot = True

    def use(self, subject: str, fact: str) -> None:
        """Note a fact as used, by the id it belongs to and its name."""
        self._used[f"{self._before}{subject}: {fact}"] = None

    def lack(self, subject: str, fact: str) -> None:
        """Note a fact as lacking."""
        self._missing[f"{self._before}{subject}: {fact}"] = None

    def take(self, other: Ledger) -> None:
        """Note as used and as lacking what another ledger of the same record has noted."""
        self._used |= other._used
        self._missing |= other._missing

    def note(self, subject: str, fact: str, *, known: bool) -> bool:
        """Note a fact as used or as lacking; returns `known`."""
        (self.use if known else self.lack)(subject, fact)
        return known

    def value(self, element: Element, name: str) -> Bounds | None:
        """A quantity or number of an element, noted; None where it is not stated."""
        found = element.bounds(name)
        self.note(element.id, name, known=found is not None)
        return found

    def trait(self, element: Element, trait: str) -> Truth:
        """Whether the element's means has a trait; not known where the means is not, or is in no vocabulary."""
        term = self.record.means_term(element.means)
        if not self.note(element.id, "means", known=term is not None) or term is None:
            return Truth.UNKNOWN
        return Truth.YES if trait in term.traits else Truth.NO

    def kind(self, element: Element, trait: str) -> Truth:
        """Whether it is a thing with that trait; of one inside another the means says where it is, and not what."""
        answer = self.trait(element, trait)
        if answer is Truth.NO and self.record.has_trait(element, "embedded"):
            self.lack(element.id, "what it is, inside another")
            return Truth.UNKNOWN
        return answer

    def hosts(self, element: Element) -> frozenset[str]:
        """The boards and pieces that carry an element, noted; empty where that is not stated."""
        usual = "in" if element.section == "enclosure" else "on"
        fact = next((name for name in ("between", "on", "in", "sits_in") if name in element.facts), usual)
        self.note(element.id, fact if element.hosts else usual, known=bool(element.hosts))
        return frozenset(element.hosts)

    def purpose(self, element: Element) -> FunctionTerm | None:
        """The term of its main function; None where the purpose is not known or no vocabulary has the word.

        Noted only where the record has to state it: a section may have a function that goes without saying.
        """
        term = self.record.function_term(element.function)
        known = term is not None and not term.unknown
        default = self.record.function_term(section(element.section).default_function)
        if not known or default is None or default.unknown:
            self.note(element.id, "function", known=known)
        return term if known else None

    def whole(self, *sections: str) -> bool:
        """Whether all these sections were wholly looked at; each gap is noted in words."""
        answers = [self._section(name) for name in sections]
        return all(answers)

    def _section(self, name: str) -> bool:
        name = name.split(".", maxsplit=1)[0]
        gaps = gaps_in(self.record, name)
        for gap in gaps:
            self.lack(gap.where, gap.how)
        return not gaps and self.note(name, "coverage", known=True)

    def measure(
        self, bounds: Bounds | None, how: str = "", parts: Mapping[str, Bounds] | None = None, said: str = ""
    ) -> Measure:
        """The measure with all that was noted; bounds that say nothing at all become None."""
        if bounds is not None and bounds.low <= 0 and bounds.high == math.inf:
            bounds = None
        moot = self._moot and bounds is None
        return Measure(
            bounds,
            tuple(self._used),
            () if moot else tuple(self._missing),
            parts or {},
            how,
            tuple(self._assumed),
            moot=moot,
            said=said if bounds else "",
        )


def listed(record: Record, *sections: str) -> tuple[Element, ...]:
    """What stands in these sections, without sites that are laid out and left empty."""
    return tuple(e for name in sections for e in record.section(name) if e.populated)


def number(elements: Iterable[Element]) -> int:
    """How many things these entries stand for."""
    return sum(element.count for element in elements)


def open_above(value: float, *, whole: bool) -> Bounds:
    """Exactly `value` where all was looked at, else at least that."""
    return Bounds.exact(value) if whole else Bounds.at_least(value)


def grouped(elements: Iterable[Element], label: Callable[[Element], str | None], *, whole: bool) -> dict[str, Bounds]:
    """How many fall under each label, the most first; what has no label may belong to any of them."""
    counts: dict[str, int] = {}
    for element in elements:
        name = label(element) or NOT_STATED
        counts[name] = counts.get(name, 0) + element.count
    loose = counts.pop(NOT_STATED, 0)
    result = {
        name: Bounds(None, count, count + loose) if whole and loose else open_above(count, whole=whole)
        for name, count in sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    }
    return result | ({NOT_STATED: open_above(loose, whole=whole)} if loose else {})


def count_listed(
    record: Record, *sections: str, label: Callable[[Ledger, Element], str | None] | None = None
) -> Measure:
    """How many things the sections list: exact where they were wholly looked at, else at least that many."""
    ledger = Ledger(record)
    found, whole = listed(record, *sections), ledger.whole(*sections)
    parts = grouped(found, lambda e: label(ledger, e), whole=whole) if label else {}
    return ledger.measure(open_above(number(found), whole=whole), sum_in_words(found), parts)


def count_true(elements: Iterable[Element], question: Callable[[Element], Truth], *, whole: bool) -> Bounds:
    """How many answer yes; those not known may or may not, and so may what was not looked at."""
    yes = maybe = 0
    for element in elements:
        answer = question(element)
        yes += element.count if answer is Truth.YES else 0
        maybe += element.count if answer is Truth.UNKNOWN else 0
    if not whole:
        return Bounds.at_least(yes)
    return Bounds.exact(yes) if not maybe else Bounds(None, yes, yes + maybe)


def share(part: Bounds, everything: int, *, whole: bool) -> Bounds | None:
    """`part` of `everything` as a share of 0 to 1; None where things may be missing or there are none."""
    if not whole or everything == 0:
        return None
    return part / everything


def means_of(ledger: Ledger, element: Element) -> str | None:
    """The means as a label, noted; None where it is not stated."""
    return element.means if ledger.note(element.id, "means", known=bool(element.means)) else None


def added(terms: Iterable[Bounds | None], *, whole: bool) -> Bounds:
    """A sum of what cannot be below 0; a term that is lacking, or not looked at, leaves it open above."""
    result = Bounds.exact(0.0)
    for term in terms:
        result = result + (ANY if term is None else term)
    return result if whole else result + ANY


def largest(terms: Iterable[Bounds | None], *, whole: bool) -> Bounds | None:
    """The greatest of them, with bounds; None where there are none."""
    found = [ANY if term is None else term for term in terms]
    if not found:
        return None
    low = max(term.low for term in found)
    high = max(term.high for term in found) if whole else math.inf
    bests = [term.best for term in found if term.best is not None]
    best = max(bests) if whole and len(bests) == len(found) else None
    return Bounds(low if low == high else best, low, high)


def sum_in_words(elements: Iterable[Element]) -> str:
    """'U1 + U2 + ring x 12 = 14', by id."""
    found = tuple(elements)
    terms = [e.id if e.count == 1 else f"{e.id} x {e.count}" for e in found]
    return f"{' + '.join(terms)} = {number(found)}" if terms else "none listed"


def told(bounds: Bounds | None) -> str:
    """Bounds in few words: '12', 'at least 12', '10 to 14', 'not known'."""
    if bounds is None or (bounds.low <= 0 and bounds.high == math.inf):
        return "not known"
    if bounds.is_exact:
        return f"{bounds.low:.6g}"
    if bounds.high == math.inf:
        return f"at least {bounds.low:.6g}"
    return f"{bounds.low:.6g} to {bounds.high:.6g}"
