"""What to look at next on the bench: gaps and lacking facts as tasks, the one on which most hangs first."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from archdiff.unknowns.asked import Thing, asked, thing_of
from archdiff.unknowns.gathered import NOT_STATED, VERDICT, Unknown
from archdiff.unknowns.places import Place, how_to, places_of, sought, where_of
from archdiff.unknowns.ways import LOOK_CLOSELY

if TYPE_CHECKING:
    from collections.abc import Collection, Hashable, Iterable, Iterator, Sequence

    from archdiff.record import Record

_NAMED = 6  # so many things of one look are named
_OF_A_QUESTION = 4  # what the analyst asked counts as two verdicts
_PLACED = re.compile(r"(?P<board>\S+): placements (?P<side>top|bottom)\b.*")


@dataclass(frozen=True, slots=True)
class LookAt:
    """One thing to look at next: where, for what, how, and what waits for it.

    `where` is `things` in words, with the `spot` on them; `settles` is how many verdicts and figures wait.

    >>> all(look.what for look in result.comparison.look_at)
    True
    """

    side: str
    where: str
    what: str
    settles: int
    waiting: tuple[str, ...] = ()
    how: str = ""
    things: tuple[Thing, ...] = ()
    spot: str = ""
    asked: bool = False  # a question that the analyst left open

    @property
    def verdicts(self) -> int:
        """How many verdicts wait for it."""
        return sum(hang.startswith(VERDICT) for hang in self.waiting)

    @property
    def figures(self) -> int:
        """How many figures wait for it."""
        return len(self.waiting) - self.verdicts

    @property
    def weight(self) -> int:
        """What it is ranked by: a verdict counts twice as much as a figure."""
        return 2 * self.verdicts + self.figures + _OF_A_QUESTION * self.asked


@dataclass(slots=True)
class _Task:
    """Unknowns that one look settles, gathered."""

    side: str
    things: list[Thing] = field(default_factory=list)
    what: str = ""
    how: str = ""
    spot: str = ""
    asked: bool = False
    places: list[Place] = field(default_factory=list)
    more: list[str] = field(default_factory=list)  # what else is found out with the same look
    under: list[tuple[Thing, str]] = field(default_factory=list)
    waiting: dict[str, None] = field(default_factory=dict)


def look_at(unknowns: Sequence[Unknown], left: Record, right: Record) -> tuple[LookAt, ...]:
    """What to look at next, the most telling first.

    A verdict says more than a figure and counts twice; what the analyst asked counts as much as two verdicts, for
    it was worth a question to someone who had the product in hand. All that is seen on one side of a board is one
    look, and so is the same fact of many things for which the same statements wait: forty prices are one look.
    """
    records = {"left": left, "right": right}
    places = {side: places_of(record) for side, record in records.items()}
    tasks: dict[Hashable, _Task] = {}
    for unknown in unknowns:
        record, gaps = records[unknown.side], places[unknown.side]
        if unknown.about in gaps:
            _add_place(tasks, unknown, gaps[unknown.about], record)
        elif unknown.why != NOT_STATED:
            _add_question(tasks, unknown, record)
        elif (task := _counted_there(tasks, unknown)) is not None:
            task.more = ["how many are placed there"]
            task.waiting |= dict.fromkeys(unknown.hangs)
        else:
            _add_fact(tasks, unknown, record)
    looks = [_look(task) for task in _together(tasks.values())]
    return tuple(sorted(looks, key=lambda look: -look.weight))


def _counted_there(tasks: dict[Hashable, _Task], unknown: Unknown) -> _Task | None:
    """The look at that side of the board, where one is listed: what is placed there is counted with it."""
    match = _PLACED.fullmatch(unknown.about)
    return tasks.get((unknown.side, ("at", match["board"], match["side"]))) if match else None


def _together(tasks: Collection[_Task]) -> Iterator[_Task]:
    """Several facts of the same things, found out in the same way and for the same ends, as one look."""
    same: dict[Hashable, _Task] = {}
    for task in tasks:
        key = (task.side, tuple(task.things), task.how, tuple(task.waiting))
        if task.places or task.asked or same.setdefault(key, task) is task:
            continue
        same[key].more.append(task.what)
    kept = set(map(id, same.values()))
    return (task for task in tasks if task.places or task.asked or id(task) in kept)


def _add_place(tasks: dict[Hashable, _Task], unknown: Unknown, place: Place, record: Record) -> None:
    task = tasks.setdefault((unknown.side, place.key), _Task(unknown.side))
    thing, task.spot = where_of(record, place)
    task.things, task.how = [thing], how_to(record, place) + _analysts_way(record, thing)
    task.places.append(place)
    task.waiting |= dict.fromkeys(unknown.hangs)


def _analysts_way(record: Record, thing: Thing) -> str:
    """How the analyst would settle a question of that thing: who had it in hand knows best how to get there."""
    ways = [str(q["settle_by"]) for q in record.questions if q.get("about") == thing.id and q.get("settle_by")]
    return f"; to settle the analyst's question of it: {'; '.join(ways)}" if ways else ""


def _add_fact(tasks: dict[Hashable, _Task], unknown: Unknown, record: Record) -> None:
    fact = asked(record, unknown.about)
    key = (unknown.side, fact.what, fact.how, unknown.hangs)
    task = tasks.setdefault(key, _Task(unknown.side, what=fact.what, how=fact.how))
    task.things.append(fact.thing)
    task.under += [(fact.thing, fact.under)] if fact.under else []
    task.waiting |= dict.fromkeys(unknown.hangs)


def _add_question(tasks: dict[Hashable, _Task], unknown: Unknown, record: Record) -> None:
    """A question of the analyst, settled as it says itself; anything else in the words it came in."""
    entry = next((entry for entry in record.questions if str(entry["ask"]) == unknown.why), None)
    about = str(entry.get("about", "")) if entry is not None else unknown.about
    how = str(entry.get("settle_by", "")) if entry is not None else ""
    task = _Task(unknown.side, [thing_of(record, about or "whole product")], unknown.why, how or LOOK_CLOSELY)
    task.asked, task.waiting = entry is not None, dict.fromkeys(unknown.hangs)
    tasks[unknown.side, "asked", about, unknown.why] = task


def _look(task: _Task) -> LookAt:
    things = tuple(dict.fromkeys(task.things))
    where = f"{_named(things)}{f', {task.spot}' if task.spot else ''}"
    what = sought(task.places, task.more) if task.places else ", ".join([task.what, *task.more])
    under = [f"{thing if len(things) > 1 else 'it'} lies under {cover}" for thing, cover in task.under]
    how = "; ".join([task.how, *dict.fromkeys(under)])
    waiting = tuple(task.waiting)
    return LookAt(task.side, where, what, len(waiting), waiting, how, things, task.spot, task.asked)


def _named(things: Sequence[Thing]) -> str:
    """'Radio (U2), Host (U1) and 45 more'."""
    shown, more = first_of(things)
    return f"{', '.join(map(str, shown))}{f' and {more} more' if more else ''}"


def first_of(things: Sequence[Thing]) -> tuple[Sequence[Thing], int]:
    """The things of one look that are named, and how many more there are."""
    shown = things if len(things) <= _NAMED else things[: _NAMED - 1]
    return shown, len(things) - len(shown)


def telling(looks: Iterable[LookAt]) -> list[LookAt]:
    """The looks on which a verdict or a figure hangs."""
    return [look for look in looks if look.settles]
