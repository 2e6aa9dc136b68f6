"""What is not known, and what to look at next on the bench.

Every gap is counted by what hangs on it: the verdicts that could not be given and the figures that have only a
bound, or nothing, for want of it. The look-at list puts the gap on which most hangs first.
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
_NAMED = 6  # so many things of one look are named
_NOT_STATED = "not stated in the record"
_VERDICT = "verdict on"


@dataclass(frozen=True, slots=True)
class Unknown:
    """One thing that cannot be said: of which side, about what, why not; `hangs` is what waits for it."""

    side: str  # "left" or "right"
    about: str  # in words
    why: str
    hangs: tuple[str, ...] = ()  # functions and figures, in words


@dataclass(frozen=True, slots=True)
class LookAt:
    """One thing to look at next: where, for what, and how many verdicts and figures it would settle."""

    side: str
    where: str
    what: str
    settles: int
    waiting: tuple[str, ...] = ()


def unknowns_of(
    alignment: Alignment, figures: Sequence[FigureResult], left: Record, right: Record
) -> tuple[Unknown, ...]:
    """Everything that cannot be said of either side: gaps of coverage, open pairs, bounded figures, questions."""
    found: list[Unknown] = []
    for side, record in (("left", left), ("right", right)):
        gaps = gaps_of(record)
        waiting = _waiting(alignment, figures, side, gaps)
        found += [Unknown(side, gap.where, gap.how, tuple(waiting.pop(gap.where, ()))) for gap in gaps]
        found += [Unknown(side, about, _NOT_STATED, tuple(hangs)) for about, hangs in waiting.items()]
        found += [Unknown(side, _about_question(record, entry), str(entry["ask"])) for entry in record.questions]
    return tuple(found)


def look_at(unknowns: Sequence[Unknown], left: Record, right: Record) -> tuple[LookAt, ...]:
    """What to look at next, the most telling first.

    A verdict says more than a figure and counts twice; what the analyst asked counts as much as two verdicts, for
    it was worth a question to someone who had the product in hand.
    """
    ways = {
        ("left" if record is left else "right", str(entry["ask"])): str(entry.get("settle_by", ""))
        for record in (left, right)
        for entry in record.questions
    }
    listed = [LookAt(u.side, u.about, ways.get((u.side, u.why)) or u.why, len(u.hangs), u.hangs) for u in unknowns]
    asked = {(side, ask) for side, ask in ways}
    rank = {
        entry: 2 * sum(hang.startswith(_VERDICT) for hang in entry.waiting)
        + sum(not hang.startswith(_VERDICT) for hang in entry.waiting)
        + 4 * ((u.side, u.why) in asked)
        for entry, u in zip(listed, unknowns, strict=True)
    }
    return _one_look(sorted(listed, key=lambda entry: -rank[entry]))


def _one_look(listed: Sequence[LookAt]) -> tuple[LookAt, ...]:
    """One entry for the same fact of many things where the same statements wait for it: forty prices are one look."""
    groups: dict[tuple[str, str, str, tuple[str, ...]], list[str]] = {}
    for entry in listed:
        thing, _, fact = entry.where.rpartition(": ")
        one = fact if thing and entry.what == _NOT_STATED else entry.where
        groups.setdefault((entry.side, one, entry.what, entry.waiting), []).append(thing)
    return tuple(
        LookAt(side, _of_all(one, things), what, len(waiting), waiting)
        for (side, one, what, waiting), things in groups.items()
    )


def _of_all(fact: str, things: Sequence[str]) -> str:
    """'price of U1, U2, C3 and 45 more'; of one thing 'U1: price'."""
    if len(things) == 1:
        return f"{things[0]}: {fact}" if things[0] else fact
    named = things if len(things) <= _NAMED else things[: _NAMED - 1]
    more = f" and {len(things) - len(named)} more" if len(named) < len(things) else ""
    return f"{fact} of {', '.join(named)}{more}"


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
            wait(about, f"{_VERDICT} {pair.function}")
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
