"""Functions: how many each board carries, and how many live inside other parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS, Ledger, added, listed, told
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("functions", "Functions", 35)
_MAIN = "host processing"  # whose board is the main board

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
    meaning="Share of all things listed that lie on the board of the host processor, else on the fullest board.",
    formula="things on the main board / things listed, each by its main function",
    source="own definition; common practice, no source",
)
def main_board_share(record: Record) -> Measure:
    """Share, 0 to 1, of the things listed that the main board carries."""
    ledger = Ledger(record)
    whole = ledger.whole("boards", *THINGS)
    seats = _seats(ledger)
    loose = sum(not ledger.hosts(element) for _, element in seats)
    carried = {board.id: _carried(seats, board.id) for board in record.boards}
    main, certain = _main_boards(ledger, seats)
    if certain and not loose:
        main = [max(main, key=lambda key: carried[key])] if main else []
    counts = [Bounds(None if loose else carried[key], carried[key], carried[key] + loose) for key in main]
    how = " or ".join(f"{key}: {told(count)} of {len(seats)}" for key, count in zip(main, counts, strict=True))
    if not whole or not counts or not seats:
        return ledger.measure(None, f"{how} listed" if how and seats else "no boards or no functions listed")
    low, high = min(c.low for c in counts), max(c.high for c in counts)
    best = counts[0].best if len(counts) == 1 else None
    return ledger.measure(Bounds(best, low, high) / len(seats), how)


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
    ledger.whole(*THINGS)
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


def _seats(ledger: Ledger) -> Seats:
    """The main function of everything listed; what lives inside may not show, and is counted by another figure."""
    return [(element.function, element) for element in listed(ledger.record, *THINGS)]


def _carried(seats: Seats, board: str) -> int:
    return sum(element.hosts == (board,) for _, element in seats)


def _is_unknown(record: Record, function: str) -> bool:
    term = record.function_term(function)
    return not function or (term is not None and term.unknown)


def _by_board(ledger: Ledger) -> tuple[Bounds, dict[str, Bounds]]:
    record = ledger.record
    whole = ledger.whole("boards", *THINGS)
    seats = _seats(ledger)
    for _, element in seats:
        ledger.purpose(element)
    loose = sum(not ledger.hosts(element) for _, element in seats)
    parts: dict[str, Bounds] = {}
    for board in record.boards:
        here = [function for function, element in seats if element.hosts == (board.id,)]
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


def _main_boards(ledger: Ledger, seats: Seats) -> tuple[list[str], bool]:
    """Boards that may be the main board, and whether nothing unknown could make it another one.

    Only those facts are noted that decide between boards.
    """
    record = ledger.record
    boards = [board.id for board in record.boards]
    if len(boards) < 2:  # noqa: PLR2004 - with one board there is nothing to decide
        return boards, True
    term = record.function_term(_MAIN)
    may_host = [e for function, e in seats if function == _MAIN or (term is not None and e.section in term.found_in)]
    hosting = [element for element in may_host if _MAIN in element.functions]
    doubtful = [e for e in may_host if any(_is_unknown(record, function) for function in e.functions or ("",))]
    carriers = {host for element in hosting for host in element.hosts} & set(boards)
    swaying = [element for element in doubtful if not carriers or not carriers.issuperset(element.hosts or ("",))]
    deciding = [element for element in hosting if element.function == _MAIN] if hosting else may_host
    for element in (*swaying, *deciding):
        ledger.purpose(element)
    if not carriers or any(not element.hosts for element in (*hosting, *swaying)):
        return boards, not swaying and all(element.hosts for element in hosting)
    reached = carriers.union(*(element.hosts for element in swaying))
    return [key for key in boards if key in reached], not (reached & set(boards)) - carriers
