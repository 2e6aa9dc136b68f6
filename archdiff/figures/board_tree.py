"""How the boards hang together: what parts them, and how far the farthest lies from the main board."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, listed, number
from archdiff.figures.facts.board_graph import distances, single_points
from archdiff.figures.facts.link_facts import far_ends, reach_of
from archdiff.figures.facts.main_board import called, main_boards, one_of
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("board-tree", "How the boards hang together", 24)
_SOURCE = "bridges and articulation points of a graph: Hopcroft & Tarjan 1973, Algorithm 447"

Joined = list[tuple[str, frozenset[str]]]


@figure(
    title="Single points of joining: links",
    order=10,
    meaning="How many links leave boards apart that were joined, if that one link fails.",
    formula="count of links between boards without which fewer boards hang together",
    source=_SOURCE,
    preferred="lower: what has a second way survives a bad contact",
)
def parting_links(record: Record) -> Measure:
    """Links that nothing backs up, each named; at most one fewer than there are boards."""
    return _single_points(record, spare=1, of_links=True)


@figure(
    title="Single points of joining: boards",
    order=20,
    meaning="How many boards leave others apart that were joined, if that one board fails or is taken out.",
    formula="count of boards without which fewer of the others hang together",
    source=_SOURCE,
    preferred="lower: what does not pass through a board works without it",
)
def parting_boards(record: Record) -> Measure:
    """Boards that others are joined through, each named; at most two fewer than there are boards."""
    return _single_points(record, spare=2, of_links=False)


@figure(
    title="Depth of the board tree",
    order=30,
    meaning="How many links lie between the main board and the board farthest from it; 0 with one board.",
    formula="greatest over boards of the least number of links from the board with the host processor",
    source="eccentricity of a node of a graph; textbook knowledge",
    preferred="lower: each step is a further joint between a board and its host",
)
def board_depth(record: Record) -> Measure:
    """Links to the farthest board that is joined to the main board, with each board's own distance."""
    ledger = Ledger(record)
    if not ledger.whole("boards") or not record.boards:
        return ledger.measure(None, "another board may be the main one" if record.boards else "no boards")
    mains = main_boards(ledger)
    joined = _joined(record)
    links = [boards for _, boards in joined]
    found = {board.id: distances(board.id, links) for board in mains}
    most = number(record.boards) - 1
    least = one_of(Bounds(None, min(1, len(far) - 1), most) for far in found.values())
    doubtful = least is not None and least.low < most and _is_open(ledger)
    exact = one_of(Bounds.exact(max(far.values())) for far in found.values())
    how = " or ".join(_path_in_words(name, far, record) for name, far in found.items()) or called(mains)
    return ledger.measure(least if doubtful else exact, how, _steps(found, known=not doubtful))


def _single_points(record: Record, *, spare: int, of_links: bool) -> Measure:
    """What the boards are parted by; `spare` boards at least are none such, or joined by no such link."""
    ledger = Ledger(record)
    most = max(0, number(record.boards) - spare)
    if not ledger.whole("boards"):
        return ledger.measure(None, "not all boards are known")
    if not most:
        return ledger.measure(Bounds.exact(0), f"with {number(record.boards) or 'no'} board(s) there is none")
    joined = _joined(record)
    boards, links = single_points([ends for _, ends in joined])
    names = sorted(joined[place][0] for place in links) if of_links else sorted(boards)
    what = "without a second way" if of_links else "others hang together through"
    how = f"{_links_in_words(joined)}; {what}: {' + '.join(names) or 'none'}"
    if _is_open(ledger):
        return ledger.measure(Bounds(None, 0, most), how)
    return ledger.measure(Bounds.exact(len(names)), how, {name: Bounds.exact(1) for name in names})


def _joined(record: Record) -> Joined:
    """Each link that surely joins boards, one of several alike counted for itself: its id and the boards."""
    found = ((link, reach_of(record, link).boards) for link in listed(record, "interconnects"))
    return [(link.id, boards) for link, boards in found if len(boards) > 1 for _ in range(link.count)]


def _is_open(ledger: Ledger) -> bool:
    """Whether boards may be joined otherwise than is known; what decides that is noted."""
    record = ledger.record
    alike = [board for board in record.boards if board.count > 1]
    for board in alike:
        ledger.lack(board.id, "an entry for each of these boards")
    answers = [_noted(ledger, link) for link in listed(record, "interconnects")]
    return not ledger.whole("interconnects") or bool(alike) or any(answers)


def _noted(ledger: Ledger, link: Element) -> bool:
    """Whether a link may join more than is known, with the places noted that decide it."""
    reach = reach_of(ledger.record, link)
    for end in far_ends(ledger.record, link):
        if (reach.is_open and not end.hosts) or reach_of(ledger.record, link, lost=end.id).is_open:
            ledger.hosts(end)
    return reach.is_open


def _steps(found: Mapping[str, Mapping[str, int]], *, known: bool) -> dict[str, Bounds]:
    """How far each board is from the main board, where that is one and all is known."""
    (far,) = found.values() if len(found) == 1 and known else ({},)
    return {name: Bounds.exact(steps) for name, steps in sorted(far.items(), key=lambda item: (item[1], item[0]))}


def _path_in_words(main: str, far: Mapping[str, int], record: Record) -> str:
    steps = ", ".join(f"{name} {steps}" for name, steps in sorted(far.items(), key=lambda item: (item[1], item[0])))
    apart = [board.id for board in record.boards if board.id not in far]
    return f"from {main}: {steps}" + (f"; no link is known to {' or '.join(apart)}" if apart else "")


def _links_in_words(joined: Iterable[tuple[str, frozenset[str]]]) -> str:
    """'flex joins front and main, harness joins main and sensor'."""
    return ", ".join(f"{name} joins {' and '.join(sorted(ends))}" for name, ends in joined) or "no link between boards"
