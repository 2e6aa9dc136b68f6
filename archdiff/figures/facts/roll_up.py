"""Prices and masses as stated, thing by thing: what may be added up without counting anything twice."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, NOT_STATED, THINGS, added, listed
from archdiff.figures.facts.board_facts import on_board
from archdiff.quantities import Bounds, Quantity

if TYPE_CHECKING:
    from collections.abc import Callable, Collection

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record

# Sections whose entries can state a price and a mass.
STATING = ("boards", *THINGS, "interconnects", "enclosure")


@dataclass(slots=True)
class Stated:
    """What was found: a value, or None where it is not stated, of each thing that counts; `unlisted` is not listed."""

    values: dict[str, Bounds | None] = field(default_factory=dict)
    currencies: dict[str, str] = field(default_factory=dict)  # of priced things
    unlisted: bool = False

    @property
    def known(self) -> dict[str, Bounds]:
        """The values that are stated."""
        return {name: value for name, value in self.values.items() if value is not None}

    def sum(self, *, whole: bool, currency: str = "", only: Collection[str] | None = None) -> Bounds:
        """All of them, or those in one currency, or only some, together; open above where any may be missing."""
        names = self.values if only is None else [name for name in sorted(only) if name in self.values]
        values = (
            self.values[name] for name in names if not currency or self.currencies.get(name, currency) == currency
        )
        return added(values, whole=whole and not self.unlisted)

    def by(self, label: Callable[[str], str], *, whole: bool) -> dict[str, Bounds]:
        """The sum under each label, the largest first; a label none of whose things states a value is left out."""
        groups: dict[str, list[Bounds | None]] = {}
        for name, value in self.values.items():
            groups.setdefault(label(name), []).append(value)
        sums = {name: added(found, whole=whole and not self.unlisted) for name, found in groups.items() if any(found)}
        return dict(sorted(sums.items(), key=lambda item: (-item[1].low, item[0])))

    def in_words(self) -> str:
        """'31 of 70 listed state one'."""
        return f"{len(self.known)} of {len(self.values)} things listed state one"


def prices(ledger: Ledger) -> Stated:
    """Prices of everything listed: of a bare board each, and of all together that any other entry stands for."""
    found = Stated()
    for thing in listed(ledger.record, *STATING):
        stated = thing.facts.get("price")
        if isinstance(stated, Quantity):
            found.currencies[thing.id] = stated.currency
        price = ledger.value(thing, "price")
        found.values[thing.id] = price * thing.count if price is not None and thing.section == "boards" else price
    for board in ledger.record.boards:
        found.unlisted |= _unlisted_on(ledger, board)
    return found


def masses(ledger: Ledger) -> Stated:
    """Masses of the boards with the parts on them, and of what lies on none: what lies on a board is weighed with it.

    Of what has no stated place it is not known whether it does.
    """
    found = Stated()
    for board in listed(ledger.record, "boards"):
        mass = ledger.value(board, "mass")
        found.values[board.id] = None if mass is None else mass * board.count
    for thing in listed(ledger.record, *THINGS, "interconnects", "enclosure"):
        lies = lies_on(ledger.record, thing)
        if lies is None and thing.section != "enclosure":
            mass = thing.bounds("mass")
            lack_place(ledger, thing)
            found.values[thing.id] = ANY if mass is None else Bounds(None, 0.0, mass.high)
        elif not lies:
            found.values[thing.id] = ledger.value(thing, "mass")
    return found


def subsystem_of(ledger: Ledger) -> Callable[[str], str]:
    """The subsystem of what a thing is there for; bare boards apart."""
    record = ledger.record

    def label(name: str) -> str:
        element = record.elements[name]
        return "bare boards" if element.section == "boards" else record.subsystem(element.function) or NOT_STATED

    return label


def section_of(ledger: Ledger) -> Callable[[str], str]:
    """The section that lists a thing, in words."""
    return lambda name: ledger.record.elements[name].section.replace(".", " ")


def _unlisted_on(ledger: Ledger, board: Element) -> bool:
    """Whether more parts are, or may be, placed on a board than are listed there."""
    record = ledger.record
    here = (
        e
        for e in record.carried.get(board.id, ())
        if e.section in THINGS and e.populated and record.has_trait(e, "placement")
    )
    placed, alike = on_board(ledger, board), sum(element.count for element in here)
    if placed.high > alike:
        ledger.lack(board.id, "prices of the parts placed there and not listed")
    return placed.high > alike


def lies_on(record: Record, thing: Element) -> str | None:
    """The one board that carries it, '' where it is held by something else, None where that is not stated."""
    ends = [record.elements.get(end) for end in thing.texts("between")]
    placed = all(end is not None and (end.hosts or end.id in record.hosts) for end in ends)
    if not thing.hosts or not placed:
        return None
    on_boards = all(host in record.hosts and record.hosts[host].section == "boards" for host in thing.hosts)
    return thing.hosts[0] if on_boards and len(thing.hosts) == 1 else ""


def lack_place(ledger: Ledger, thing: Element) -> None:
    """Note that its place is lacking."""
    ledger.lack(thing.id, "places of its ends" if "between" in thing.facts else "on")


def carried_by_board(record: Record) -> tuple[dict[str, set[str]], list[Element]]:
    """The ids of each board and of what lies on it alone, and what has no stated place."""
    carried = {board.id: {board.id} for board in record.boards}
    placeless = []
    for thing in listed(record, *STATING):
        board = lies_on(record, thing) if thing.section != "boards" else ""
        if board is None and thing.section != "enclosure":
            placeless.append(thing)
        elif board in carried:
            carried[board].add(thing.id)
    return carried, placeless
