"""Functions: how many each board carries, and how many live inside other parts."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS, Ledger, added, listed, told
from archdiff.figures.facts.main_board import called, main_boards, one_of
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record.gaps import gaps_in

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("functions", "Functions", 35)

Seats = list[tuple[str, "Element"]]


@figure(
    title="Functions on boards",
    order=10,
    meaning="How many different functions have a part of their own on a board, one on two boards counted on each.",
    formula="sum over boards of the different main functions of what is listed there",
    source="count; common practice, no source",
)
def functions_on_boards(record: Record) -> Measure:
    """Different functions of each board, and their sum."""
    ledger = Ledger(record)
    total, parts = _by_board(ledger)
    how = " + ".join(f"{key} {told(value)}" for key, value in parts.items())
    return ledger.measure(total, f"{how or 'no boards'} = {told(total)}", parts)


@figure(
    title="Functions per board",
    order=20,
    meaning="How many different functions have a part of their own on a board, on average.",
    formula="functions on boards / boards",
    source="count; common practice, no source",
)
def functions_per_board(record: Record) -> Measure:
    """Average number of different functions of a board, with each board's own."""
    ledger = Ledger(record)
    total, parts = _by_board(ledger)
    boards = sum(board.count for board in record.boards)
    whole = ledger.whole("boards")
    how = f"{told(total)} functions on {boards} boards" if boards else "no boards"
    return ledger.measure(total / boards if boards and whole else None, how, parts)


@figure(
    title="Functions on the main board",
    order=30,
    meaning="Share of all things listed that lie on the board with the host processor; of several such the largest.",
    formula="things on the main board / things listed, each by its main function",
    source="own definition; common practice, no source",
)
def main_board_share(record: Record) -> Measure:
    """Share, 0 to 1, of the things listed that the main board carries."""
    ledger = Ledger(record)
    whole = ledger.whole("boards", *THINGS)
    seats = _seats(ledger)
    loose = sum(not ledger.hosts(element) for _, element in seats)
    mains = main_boards(ledger if whole else Ledger(record))
    carried = [len(_things_on(record, board.id)) for board in mains]
    if not whole or not mains or not seats:
        there = f": {' or '.join(map(str, carried))} of {len(seats)} listed" if mains and seats else ""
        return ledger.measure(None, f"{called(mains)}{there}" if record.boards else "no boards")
    counts = [_between(count, count + loose, whole=True) for count in carried]
    count = one_of(counts)
    how = f"{called(mains)}: {told(count)} of {len(seats)}"
    return ledger.measure(count / len(seats) if count is not None else None, how)


@figure(
    title="Subsystem scatter",
    order=35,
    meaning="On how many boards and pieces of the enclosure the things of each subsystem lie, all subsystems added up.",
    formula="sum over subsystems of the different hosts of its things, each thing by its main function",
    source="own definition; common practice, no source",
    preferred="lower: what serves one end lies in one place",
)
def subsystem_scatter(record: Record) -> Measure:
    """Different hosts of each subsystem, and their sum."""
    ledger = Ledger(record)
    whole = ledger.whole(*THINGS)
    places, loose, doubtful = _scattered(ledger)
    parts = {
        name: _between(len(hosts), _most(hosts, loose[name], doubtful), whole=whole)
        for name, hosts in sorted(places.items(), key=lambda item: (-len(item[1]), item[0]))
    }
    total = sum(len(hosts) for hosts in places.values())
    # A thing of unknown purpose or place may lie where its subsystem lies anyway.
    bounds = _between(total, total + sum(loose.values()) + len(doubtful), whole=whole)
    terms = " + ".join(f"{name} {told(value)}" for name, value in parts.items())
    return ledger.measure(bounds, f"{terms or 'nothing listed of which the purpose is known'} = {told(bounds)}", parts)


@figure(
    title="Functions inside other parts",
    order=40,
    meaning="How many functions are said to live inside a part that has another main function; chips may hold more.",
    formula="count of further functions of listed parts and of absences said to be embedded somewhere",
    source="count; common practice, no source",
)
def embedded_functions(record: Record) -> Measure:
    """Functions that have no part of their own, by the part that holds them."""
    ledger = Ledger(record)
    for gap in (gap for name in THINGS for gap in gaps_in(record, name)):
        ledger.lack(gap.where, gap.how)
    held = {(function, e.id) for e in listed(record, *THINGS) for function in e.functions[1:]}
    held |= {(absence.function, absence.embedded_in) for absence in record.absences if absence.embedded_in}
    held |= {
        (e.function, e.text("sits_in") or e.id)
        for e in listed(record, *THINGS)
        if e.function and record.has_trait(e, "embedded")
    }
    holders = sorted(holder for _, holder in held)
    # However well the outside was looked at, a part may hold more than it shows.
    ledger.lack("parts", "what else they hold inside")
    parts = {holder: Bounds.at_least(holders.count(holder)) for holder in dict.fromkeys(holders)}
    how = ", ".join(f"{function} in {holder}" for function, holder in sorted(held)) or "none stated"
    return ledger.measure(Bounds.at_least(len(held)), how, parts)


def _scattered(ledger: Ledger) -> tuple[dict[str, set[str]], Counter[str], list[frozenset[str]]]:
    """Hosts by subsystem, how many of its things have no known host, and the hosts of things of unknown purpose."""
    places: dict[str, set[str]] = {}
    loose: Counter[str] = Counter()
    doubtful: list[frozenset[str]] = []
    for element in listed(ledger.record, *THINGS):
        term, hosts = ledger.purpose(element), ledger.hosts(element)
        if term is None:
            doubtful.append(hosts)
            continue
        places.setdefault(term.subsystem, set()).update(hosts)
        loose[term.subsystem] += not hosts
    return places, loose, doubtful


def _most(hosts: set[str], loose: int, doubtful: list[frozenset[str]]) -> int:
    """On how many hosts a subsystem lies at most, if everything of unknown purpose belongs to it."""
    return len(hosts.union(*doubtful)) + loose + sum(not places for places in doubtful)


def _seats(ledger: Ledger) -> Seats:
    """The main function of everything listed; what lives inside may not show, and is counted by another figure."""
    return [(element.function, element) for element in listed(ledger.record, *THINGS)]


def _things_on(record: Record, board: str) -> list[Element]:
    return [e for e in record.carried.get(board, ()) if e.section in THINGS and e.populated]


def _is_unknown(record: Record, function: str) -> bool:
    term = record.function_term(function)
    return not function or (term is not None and term.unknown)


def _by_board(ledger: Ledger) -> tuple[Bounds, dict[str, Bounds]]:
    record = ledger.record
    whole = ledger.whole("boards", *THINGS)
    seats = _seats(ledger)
    loose = sum(not ledger.hosts(element) for _, element in seats)
    parts: dict[str, Bounds] = {}
    for board in record.boards:
        things = _things_on(record, board.id)
        for element in things if len(things) > 1 else ():  # one thing does one job, whatever it is
            ledger.purpose(element)
        here = [element.function for element in things]
        known = {function for function in here if not _is_unknown(record, function)}
        unknown = sum(_is_unknown(record, function) for function in here)
        least = max(len(known), 1) if here else 0
        parts[board.id] = _between(least, len(known) + unknown + loose, whole=whole) * board.count
    total = added(parts.values(), whole=whole)
    # What has no known place may lie on any board, but not on all of them.
    counts = [board.count for board in record.boards]
    spare = loose * (sum(counts) - max(counts, default=0))
    return Bounds(total.best, total.low, total.high - spare) if whole else total, parts


def _between(low: int, high: int, *, whole: bool) -> Bounds:
    if not whole:
        return Bounds.at_least(low)
    return Bounds.exact(low) if low == high else Bounds(None, low, high)
