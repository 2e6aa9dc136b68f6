"""What the figures of sound ask of the loudspeakers: a figure of each by its sound paths, and the way it faces."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger
from archdiff.figures.facts.sound_facts import loudspeakers_of, sound_from
from archdiff.figures.facts.spacing import nearest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.facts.channel_facts import OfAll
    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

    Found = tuple[Bounds | None, str]  # a number, and how it was worked out

HALF_TURN = 180.0  # degrees
_OPPOSITE = {"up": "down", "down": "up", "front": "back", "back": "front", "left": "right", "right": "left"}


def of_loudspeakers(
    record: Record, of_path: Callable[[Ledger, Element, Element], Found], of_all: OfAll = nearest
) -> Measure:
    """A figure of the loudspeakers, each with the sound paths that start at it: the lowest, or what `of_all` takes."""
    ledger = Ledger(record)
    loudspeakers = loudspeakers_of(ledger)
    each: list[tuple[Element, Found]] = []
    for thing in loudspeakers.found:
        paths = sound_from(record, thing)
        each += [(thing, of_path(ledger, thing, path)) for path in paths]
        if not paths:
            ledger.lack(thing.id, "a sound path from it")
            each.append((thing, (None, "no sound path recorded")))
    if not each and loudspeakers.whole:
        ledger.moot()
    how = "; ".join(f"{thing.id}: {words}" for thing, (_, words) in each) or "no loudspeaker recorded"
    found = [ANY if bounds is None else bounds for _, (bounds, _) in each]
    parts = {thing.id: of_all([b for t, (b, _) in each if t is thing and b], whole=True) for thing, _ in each}
    known = {name: bounds for name, bounds in parts.items() if bounds is not None and bounds != ANY}
    return ledger.measure(of_all(found, whole=loudspeakers.whole), how, known)


def direction(ledger: Ledger, element: Element, fact: str) -> str:
    """One of the six directions; '' where none of them is stated."""
    stated = element.text(fact)
    ledger.note(element.id, fact, known=stated in _OPPOSITE)
    return stated if stated in _OPPOSITE else ""


def angle_between(one: str, other: str) -> float:
    """Angle in degrees between two of the six directions."""
    if one == other:
        return 0.0
    return HALF_TURN if other == _OPPOSITE[one] else HALF_TURN / 2
