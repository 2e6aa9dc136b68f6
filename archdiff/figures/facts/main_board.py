"""Which board is the main board: the one that carries the host processor; of several such boards the largest.

A board counts by what is known to lie on it, never by its name. Facts are noted only where they decide: a board
that is smaller than the one with the host stays out of it whatever else it may carry.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, THINGS, Ledger, listed
from archdiff.figures.facts.board_facts import area_of
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from archdiff.record import Element, Record

_MAIN = "host processing"  # the vocabulary's word for running the product's main program
_ALL = "parts"  # stands for what nobody looked at


@dataclass(frozen=True, slots=True)
class _Sight:
    """What is known of where host processors lie, and how large the boards are.

    `sure` maps what does host processing to its board, `maybe` what may do it, or may lie there, to the boards
    that this leaves open.
    """

    sure: Mapping[str, str]
    maybe: Mapping[str, frozenset[str]]
    areas: Mapping[str, Bounds]

    @property
    def certain(self) -> frozenset[str]:
        """The boards that carry a host processor."""
        return frozenset(self.sure.values())

    @property
    def contenders(self) -> tuple[str, ...]:
        """The boards that would be the main board, or might, if they carried a host processor."""
        certain = self.certain
        return tuple(b for b in self.areas if not any(self._beats(c, b) for c in certain))

    @property
    def mains(self) -> tuple[str, ...]:
        """The boards that may be the main board; none where none is known to carry a host processor."""
        certain = self.certain
        reached = certain.union(*self.maybe.values()) if certain else certain
        return tuple(b for b in self.contenders if b in reached)

    def _beats(self, one: str, other: str) -> bool:
        """Whether `one` is surely the larger; of boards of one size the first by id is taken."""
        if one == other:
            return False
        least, most = self.areas[one].low, self.areas[other].high
        return least > most or (least == most and one < other)

    def without(self, thing: str, may_be_on: frozenset[str]) -> _Sight:
        """The same with one thing of which it is no longer known whether, or where, it does host processing."""
        sure = {key: board for key, board in self.sure.items() if key != thing}
        return replace(self, sure=sure, maybe={**self.maybe, thing: may_be_on})

    def unsized(self, board: str) -> _Sight:
        """The same with one board of which the area is not known."""
        return replace(self, areas={**self.areas, board: ANY})


def main_boards(ledger: Ledger) -> tuple[Element, ...]:
    """The boards that may be the main board: one where that is decided, none where no host processor is known.

    Noted are the facts without which it would be another one or would be open, and those that keep it open.
    """
    record = ledger.record
    if len(record.boards) < 2:  # noqa: PLR2004 - with one board there is nothing to decide
        return record.boards
    sight = _sight(record)
    found = sight.mains
    _note_things(ledger, sight)
    _note_areas(ledger, sight)
    if not found:
        ledger.lack("parts", "which one is the host processor, and on which board")
    return tuple(board for board in record.boards if board.id in found)


def called(mains: tuple[Element, ...]) -> str:
    """The main board in words: 'main', 'main or front', 'no board is known to carry the host processor'."""
    return " or ".join(board.id for board in mains) or "no board is known to carry the host processor"


def one_of(values: Iterable[Bounds | None]) -> Bounds | None:
    """The main board's value, given that of each board that may be it; None where there is none."""
    found = [ANY if value is None else value for value in values]
    if len(found) < 2:  # noqa: PLR2004 - no choice
        return found[0] if found else None
    return Bounds(None, min(value.low for value in found), max(value.high for value in found))


def _sight(record: Record) -> _Sight:
    boards = frozenset(board.id for board in record.boards)
    sure: dict[str, str] = {}
    maybe: dict[str, frozenset[str]] = {}
    for element, hosting in _candidates(record):
        here = boards.intersection(element.hosts)
        if hosting and len(here) == 1:
            sure[element.id] = next(iter(here))
        elif hosting or _is_open(record, element):
            maybe[element.id] = here or (frozenset() if element.hosts else boards)
    unseen = frozenset(name for name in boards if not record.coverage.is_whole("parts", name))
    if unseen:
        maybe[_ALL] = unseen
    silent = Ledger(record)
    return _Sight(sure, maybe, {board.id: area_of(silent, board) or ANY for board in record.boards})


def _candidates(record: Record) -> Iterator[tuple[Element, bool]]:
    """What is listed and does host processing, or stands where that may be written down; and whether it does."""
    term = record.function_term(_MAIN)
    found_in = term.found_in if term is not None else ()
    for element in listed(record, *THINGS):
        hosting = _MAIN in element.functions
        if hosting or element.section in found_in:
            yield element, hosting


def _is_open(record: Record, element: Element) -> bool:
    """Whether any of its jobs is not known."""
    terms = [record.function_term(name) for name in element.functions]
    return not terms or any(term is not None and term.unknown for term in terms)


def _note_things(ledger: Ledger, sight: _Sight) -> None:
    """Note what decides between boards among the things that are listed, and what keeps it open."""
    found = frozenset(sight.mains)
    may_enter = frozenset(sight.contenders) - found if found else frozenset()
    in_doubt = found - sight.certain
    for element, hosting in _candidates(ledger.record):
        if element.id in sight.sure:
            _note_host(ledger, sight, element)
        elif element.id in sight.maybe:
            if not found or sight.maybe[element.id] & in_doubt:
                ledger.hosts(element) if hosting else ledger.lack(element.id, "function")
        elif may_enter.intersection(element.hosts):
            ledger.use(element.id, "function")
    unseen = sight.maybe.get(_ALL, frozenset())
    if (may_enter and not unseen) or unseen & in_doubt or not found:
        ledger.whole("parts")


def _note_host(ledger: Ledger, sight: _Sight, element: Element) -> None:
    """Note job and place of one host processor where it would be another board, or open, without them."""
    found = sight.mains
    if sight.without(element.id, frozenset({sight.sure[element.id]})).mains != found:
        ledger.use(element.id, "function" if element.function == _MAIN else "also")
    if sight.without(element.id, frozenset(sight.areas)).mains != found:
        ledger.hosts(element)


def _note_areas(ledger: Ledger, sight: _Sight) -> None:
    """Note the areas that decide; where it is open between boards, those of all of them."""
    found = sight.mains
    for board in ledger.record.boards:
        in_doubt = len(found) > 1 and board.id in found
        if in_doubt or sight.unsized(board.id).mains != found:
            area_of(ledger, board)
