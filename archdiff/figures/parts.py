"""Parts: what is listed, by subsystem, and how many pieces the product is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS, Ledger, added, count_listed, count_true, listed, number, open_above, told
from archdiff.figures.facts.board_facts import placed_in_all
from archdiff.figures.shelf import Family, figure
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

FAMILY = Family("parts", "Parts", 30)


@figure(
    title="Parts listed",
    order=10,
    meaning="How many parts of note the record lists, by the subsystem of their main function.",
    formula="count of parts, controls, indicators, sensors, actuators, antennas, shields, supply entries and stores",
    source="count; common practice, no source",
)
def parts_listed(record: Record) -> Measure:
    """Things listed one by one, by subsystem; sites left empty do not count."""
    return count_listed(record, *THINGS, label=_subsystem)


def _subsystem(ledger: Ledger, element: Element) -> str | None:
    term = ledger.purpose(element)
    return term.subsystem if term is not None else None


@figure(
    title="Parts in all",
    order=20,
    meaning="How many pieces are bought or made and put together, fasteners aside.",
    formula="boards + parts placed on them + listed things off the boards + cables + pieces of the enclosure",
    source="own definition; common practice, no source",
    preferred="lower: each piece is bought, stocked and handled",
)
def parts_in_all(record: Record) -> Measure:
    """Pieces by where they belong: boards, placed on boards, off the boards, cables, enclosure."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    placed, _ = placed_in_all(ledger, whole=whole)
    parts = {
        "boards": open_above(number(record.boards), whole=whole),
        "placed on boards": placed,
        "off the boards": _off_boards(ledger),
        "cables": _cables(ledger),
        "enclosure": open_above(number(listed(record, "enclosure")), whole=ledger.whole("enclosure")),
    }
    total = added(parts.values(), whole=True)
    how = " + ".join(f"{name} {told(value)}" for name, value in parts.items())
    return ledger.measure(total, f"{how} = {told(total)}", parts)


def _off_boards(ledger: Ledger) -> Bounds:
    boards = {board.id for board in ledger.record.boards}

    def off(element: Element) -> Truth:
        hosts = ledger.hosts(element)
        if not hosts:
            return Truth.UNKNOWN
        return Truth.NO if boards & hosts else Truth.YES

    whole = ledger.whole(*THINGS)
    return count_true(listed(ledger.record, *THINGS), off, whole=whole)


def _cables(ledger: Ledger) -> Bounds:
    whole = ledger.whole("interconnects")
    links = listed(ledger.record, "interconnects")
    return count_true(links, lambda link: ledger.trait(link, "flexible"), whole=whole)
