"""What the figures of structure ask of a record: its matrix, and how far things and links are known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS as COUNTED
from archdiff.figures.counting import Ledger, listed, number
from archdiff.figures.facts.board_facts import SIDES, on_side
from archdiff.quantities import Bounds
from archdiff.record import section
from archdiff.structure import IN_USE, LINKS, MAKERS, THINGS, Layer, Matrix, matrix_of

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record
    from archdiff.vocabulary import FunctionTerm

_MOST_ENTRIES = 2000  # beyond that the sums over links take longer than all other figures together


@dataclass(frozen=True, slots=True)
class Known:
    """A matrix of so many entries, and how far it is known: all things, and all links between them."""

    ledger: Ledger
    entries: int
    things: bool
    links: bool

    @property
    def matrix(self) -> Matrix:
        """The matrix that figures may rest on: without what is next on a path where a stage between may be lacking."""
        record = self.ledger.record
        found = matrix_of(record)
        if record.coverage.is_whole("paths"):
            return found
        return Matrix(found.ids, found.counts, {**found.marks, Layer.PATH: {}})

    def between(self, value: float, low: float, high: float, *, falls: bool = True) -> Bounds:
        """Exactly `value` where all is known, else a best value within `low` and `high`.

        Where all things are known and more links never make the value `falls`, it is itself the lowest.
        """
        if self.links:
            return Bounds.exact(value)
        return Bounds(value, low if falls or not self.things else value, high)

    @property
    def why_not(self) -> str:
        """Why nothing can be said of links; '' where something can."""
        if self.entries > _MOST_ENTRIES:
            return f"not computed for more than {_MOST_ENTRIES} entries"
        # Without signals and supply the rest would only repeat what carries what.
        silent = not self.links and not any(_states_links(e) for e in self.ledger.record.elements.values())
        return "no signal or supply link is recorded" if silent or not self.entries else ""

    def nothing(self, how: str = "") -> Measure:
        """The measure of a figure of which nothing can be said, and why not."""
        if self.entries <= _MOST_ENTRIES:
            self.ledger.lack(LINKS, "what things are joined to and fed by")
        return self.ledger.measure(None, how or self.why_not)


def look(record: Record) -> Known:
    """The matrix of a record, with every gap of what it rests on noted."""
    ledger = Ledger(record)
    if record.section("paths") and not record.coverage.is_whole("paths"):
        ledger.assume("nothing on what is next on a path: where paths were looked at in part, a stage may lie between")
    things = ledger.whole(*THINGS) and lists_every_part(ledger)
    makers = ledger.whole(*MAKERS)
    traced = _traced(ledger)
    return Known(ledger, len(listed(record, *THINGS)), things, things and makers and traced)


def lists_every_part(ledger: Ledger) -> bool:
    """Whether nothing is placed on any board beside what is listed: small parts are often counted and not listed."""
    boards = [_lists_all_on(ledger, board) for board in ledger.record.boards]
    return all(boards)


def _lists_all_on(ledger: Ledger, board: Element) -> bool:
    placed = [on_side(ledger, board, side) for side in SIDES]
    here = [e for e in ledger.record.carried.get(board.id, ()) if e.populated and e.section in COUNTED]
    if sum(side.high for side in placed) <= number(e for e in here if ledger.record.has_trait(e, "placement")):
        return True
    ledger.lack(board.id, "parts that are placed and not listed one by one")
    return False


def _traced(ledger: Ledger) -> bool:
    """Whether it is said that all was traced that each thing sits on, is joined to and is fed by."""
    if LINKS in ledger.record.coverage.stated:
        return ledger.whole(LINKS)
    return ledger.note(LINKS, "how far they were traced", known=False)


def _states_links(element: Element) -> bool:
    return any(element.facts.get(fact) for fact in ("joined_to", "fed_by", "serves", "feeds"))


def links_in_use(matrix: Matrix) -> list[dict[int, float]]:
    """For each entry its neighbours by signal, supply or path, with how many pairs of things that stands for."""
    links: list[dict[int, float]] = [{} for _ in matrix.ids]
    for a, b in matrix.pairs(IN_USE):
        links[a][b] = links[b][a] = matrix.counts[a] * matrix.counts[b]
    return links


def by_host(known: Known) -> list[int]:
    """For each thing the number of what carries it; a board, a piece that carries others, a lone thing its own."""
    record, number = known.ledger.record, known.matrix.number
    carriers = {host for name in number for host in record.elements[name].hosts}
    groups = []
    for name, own in number.items():
        element = record.elements[name]
        is_group = element.section == "boards" or name in carriers or len(element.hosts) != 1
        groups.append(own if is_group else number.get(element.hosts[0], own))
    return groups


def purpose_of(ledger: Ledger, thing: Element) -> FunctionTerm | None:
    """The term of what a thing is mainly there for, noted; None where that is not known.

    What it does beside its purpose says nothing of that.
    """
    if "function" not in thing.facts and "also" in thing.facts and not section(thing.section).default_function:
        ledger.lack(thing.id, "function")
        return None
    return ledger.purpose(thing)
