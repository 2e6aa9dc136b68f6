"""What is not known, with what hangs on it.

Every gap is counted by what hangs on it: the verdicts that could not be given and the figures that have only a
bound, or nothing, for want of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement, Verdict
from archdiff.record.gaps import gaps_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import Alignment, Pair, Seat
    from archdiff.figures import FigureResult
    from archdiff.record import Record
    from archdiff.record.gaps import Gap


CONFIRM_BELOW = 0.8  # a pair less certain than this is shown as no more than possible
NOT_STATED = "not stated in the record"
VERDICT = "verdict on"


@dataclass(frozen=True, slots=True)
class Unknown:
    """One thing that cannot be said: of which side, about what, why not; `hangs` is what waits for it.

    >>> {unknown.side for unknown in result.comparison.unknowns} <= {"left", "right"}
    True
    """

    side: str  # "left" or "right"
    about: str  # in words
    why: str
    hangs: tuple[str, ...] = ()  # functions and figures, in words


def unknowns_of(
    alignment: Alignment, figures: Sequence[FigureResult], left: Record, right: Record
) -> tuple[Unknown, ...]:
    """Everything that cannot be said of either side: gaps of coverage, open pairs, bounded figures, questions."""
    found: list[Unknown] = []
    for side, record in (("left", left), ("right", right)):
        gaps = gaps_of(record)
        waiting = _waiting(alignment, figures, side, gaps)
        found += [Unknown(side, gap.where, gap.how, tuple(waiting.pop(gap.where, ()))) for gap in gaps]
        found += [Unknown(side, about, NOT_STATED, tuple(hangs)) for about, hangs in waiting.items()]
        found += [Unknown(side, _about_question(record, entry), str(entry["ask"])) for entry in record.questions]
    return tuple(found)


def to_confirm(alignment: Alignment) -> tuple[Pair, ...]:
    """Pairs that the analyst should look at and tie or forbid in the notes, the least certain first."""
    doubtful = [
        pair for pair in alignment.pairs if pair.is_complete and not pair.tied and pair.confidence < CONFIRM_BELOW
    ]
    return tuple(sorted(doubtful, key=lambda pair: pair.confidence))


def _waiting(
    alignment: Alignment, figures: Sequence[FigureResult], side: str, gaps: Sequence[Gap]
) -> dict[str, list[str]]:
    """What hangs on which gap of one side: words of the gap to the functions and figures that wait for it."""
    waiting: dict[str, list[str]] = {}
    known = {gap.where for gap in gaps}

    def wait(gap: str, what: str) -> None:
        hanging = waiting.setdefault(gap, [])
        if what not in hanging:
            hanging.append(what)

    for pair in alignment.pairs:
        for about in _open_in(pair, side, gaps):
            wait(about, f"{VERDICT} {pair.function}")
    for result in figures:
        for fact in _lacking(result, side):
            # A figure names a gap of coverage as 'where: how far'; anything else is a fact that is not stated.
            where = fact.rsplit(": ", 1)[0]
            wait(where if where in known else fact, f"figure: {result.figure.title}")
    return waiting


def _lacking(result: FigureResult, side: str) -> Iterator[str]:
    """The facts of one side that a figure lacks; a figure of the pair names the side before each."""
    measure = result.left if side == "left" else result.right
    yield from measure.missing if measure else ()
    for fact in result.pair.missing if result.pair else ():
        if fact.startswith(f"{side} "):
            yield fact.removeprefix(f"{side} ")


def _open_in(pair: Pair, side: str, gaps: Sequence[Gap]) -> Iterator[str]:
    mine = pair.left if side == "left" else pair.right
    if mine is None:
        if pair.verdict is Verdict.UNKNOWN and pair.silent is not None:
            places = {place.split(".", 1)[0] for place in pair.silent.places}
            yield from (gap.where for gap in gaps if gap.section in places)
            if pair.silent.may_be:
                yield f"{pair.silent.may_be}: function"
        return
    if pair.is_complete:
        if pair.means is Agreement.UNKNOWN and not mine.means:
            yield f"{_called(mine)}: means"
        if pair.place is Agreement.UNKNOWN and not mine.hosts and mine.section != "enclosure":
            yield f"{_called(mine)}: which board or piece carries it"


def _called(seat: Seat) -> str:
    return f"{seat.first.label} ({seat.first.id})"


def _about_question(record: Record, entry: object) -> str:
    name = str(entry.get("about", "")) if hasattr(entry, "get") else ""
    element = record.elements.get(name)
    return f"{element.label} ({element.id})" if element else "open question"
