"""What the figures of light ask of a record: which indicators are lamps, how far apart, and what they shine through."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from archdiff.figures.counting import ANY, count_true, listed, number, told
from archdiff.figures.facts.channel_facts import all_paths, from_zero
from archdiff.figures.facts.path_facts import stages_of
from archdiff.figures.facts.spacing import between, nearest
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.quantities import Bounds
    from archdiff.record import Element


class Lamps(NamedTuple):
    """The indicators that are lamps, and whether that is all there are."""

    found: list[Element]
    whole: bool


def lamps_of(ledger: Ledger) -> Lamps:
    """The lamps among the indicators: those whose means has the trait 'shines', noted."""
    answers = [(entry, ledger.kind(entry, "shines")) for entry in listed(ledger.record, "indicators")]
    whole = ledger.whole("indicators") and all(answer is not Truth.UNKNOWN for _, answer in answers)
    found = [entry for entry, answer in answers if answer is Truth.YES]
    if whole and not found:
        ledger.moot()
    return Lamps(found, whole)


class Spacing(NamedTuple):
    """Smallest distance of two lamps in mm, what it was taken from, and that of each entry to its nearest neighbour."""

    least: Bounds | None
    how: str
    each: dict[str, Bounds]


def spacing_of(ledger: Ledger, lamps: Lamps) -> Spacing:
    """Smallest distance of two lamps: the pitch within an entry, else that of places; at least 0 between groups."""
    if number(lamps.found) == 1 and lamps.whole:
        ledger.moot()
        return Spacing(None, "one lamp: no neighbour", {})
    found: list[tuple[tuple[Element, ...], Bounds]] = []
    found += [((lamp,), _pitch(ledger, lamp)) for lamp in lamps.found if lamp.count > 1]
    found += [((one, other), _apart(ledger, one, other)) for one, other in combinations(lamps.found, 2)]
    how = "; ".join(f"{' to '.join(lamp.id for lamp in which)} {told(distance)} mm" for which, distance in found)
    least = nearest([distance for _, distance in found], whole=lamps.whole)
    of_each = {lamp.id: [distance for which, distance in found if lamp in which] for lamp in lamps.found}
    each = {name: nearest(distances, whole=lamps.whole) for name, distances in of_each.items()}
    known = {name: bounds for name, bounds in each.items() if bounds is not None}
    return Spacing(least, how or "no two lamps recorded", known)


def _apart(ledger: Ledger, one: Element, other: Element) -> Bounds:
    groups = [lamp for lamp in (one, other) if lamp.count > 1]
    for group in groups:
        ledger.lack(group.id, "at of each")
    return ANY if groups else between(ledger, one, other)


def _pitch(ledger: Ledger, lamp: Element) -> Bounds:
    pitch = ledger.value(lamp, "pitch")
    return ANY if pitch is None else from_zero(pitch)


class Lit(NamedTuple):
    """Light paths that start at a lamp, each with that lamp, and whether those are all, with all their stages."""

    found: list[tuple[Element, Element]]
    whole: bool


def lit_paths(ledger: Ledger, lamps: Lamps) -> Lit:
    """The light paths that start at a lamp."""
    paths = all_paths(ledger, "light", "from")
    by_id = {lamp.id: lamp for lamp in lamps.found}
    found = [(by_id[path.text("from")], path) for path in paths.found if path.text("from") in by_id]
    if not found:
        ledger.lack("paths", "a light path from a lamp; none is recorded")
    return Lit(found, paths.whole and lamps.whole)


class Through(NamedTuple):
    """The lamps that shine through a stage of a path, and how many those are, of which nothing is said among them."""

    lamps: Lamps
    many: Bounds


def shining_through(ledger: Ledger, lamps: Lamps, source: Element, path: Element, *, whole: bool) -> Through:
    """Which lamps shine through a stage of the path that starts at one of them.

    One of which nothing is said may, and so may one seen through what is no stage recorded, unless all are.
    """
    stages = {str(stage.facts["what"]) for stage in stages_of(ledger.record, path)}
    whole = ledger.note(path.id, "through", known=bool(stages)) and whole
    answers = {
        lamp.id: Truth.YES if lamp is source else _shines_through(ledger, lamp, stages, whole=whole)
        for lamp in lamps.found
    }
    count = count_true(lamps.found, lambda lamp: answers[lamp.id], whole=lamps.whole)
    sure = [lamp for lamp in lamps.found if answers[lamp.id] is Truth.YES]
    return Through(Lamps(sure, lamps.whole and Truth.UNKNOWN not in answers.values()), count)


def _shines_through(ledger: Ledger, lamp: Element, stages: set[str], *, whole: bool) -> Truth:
    through = lamp.text("seen_through")
    if not ledger.note(lamp.id, "seen_through", known=bool(through)):
        return Truth.UNKNOWN
    if through in stages:
        return Truth.YES
    return Truth.NO if whole else Truth.UNKNOWN
