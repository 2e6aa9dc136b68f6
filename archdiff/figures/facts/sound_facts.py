"""What the figures of sound ask of a record: what hears and what sounds, the paths of either, and how fast sound is."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from archdiff.figures.counting import listed, told
from archdiff.figures.facts.path_facts import paths_of
from archdiff.physics.acoustics import speed_of_sound
from archdiff.quantities import Bounds, across
from archdiff.record import Truth
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record


class Things(NamedTuple):
    """Things of one kind, and whether those are all there are."""

    found: list[Element]
    whole: bool


def microphones_of(ledger: Ledger) -> Things:
    """The microphones among the sensors: those whose means has the trait 'hears', noted."""
    return _with_trait(ledger, "sensors", "hears")


def loudspeakers_of(ledger: Ledger) -> Things:
    """The loudspeakers and buzzers among the actuators: those whose means has the trait 'sounds', noted."""
    return _with_trait(ledger, "actuators", "sounds")


def _with_trait(ledger: Ledger, section: str, trait: str) -> Things:
    answers = [(element, ledger.kind(element, trait)) for element in listed(ledger.record, section)]
    whole = ledger.whole(section) and all(answer is not Truth.UNKNOWN for _, answer in answers)
    return Things([element for element, answer in answers if answer is Truth.YES], whole)


def laid_out_for_one(ledger: Ledger, site: Element, microphones: list[Element]) -> Truth:
    """Whether an empty site is for a microphone: by its means, else by its function, that of one in the product."""
    if ledger.record.has_trait(site, "hears"):
        ledger.use(site.id, "means")
        return Truth.YES
    purpose, others = ledger.purpose(site), [ledger.purpose(microphone) for microphone in microphones]
    if purpose is not None and purpose in others:
        return Truth.YES
    return Truth.UNKNOWN if purpose is None or None in others else Truth.NO


def sound_to(record: Record, *elements: Element) -> list[Element]:
    """The recorded sound paths that end at one of these elements."""
    ids = {element.id for element in elements}
    return [path for path in paths_of(record, "sound") if path.text("to") in ids]


def sound_from(record: Record, element: Element) -> list[Element]:
    """The recorded sound paths that start at this element."""
    return [path for path in paths_of(record, "sound") if path.text("from") == element.id]


def sound_speed(ledger: Ledger, paths: Sequence[Element]) -> Bounds:
    """Speed of sound in m/s at the temperatures that these paths state; that of rooms where one states none."""
    rows = read_table("sound").rows
    law, zero = rows["speed of sound"], rows["celsius zero"]
    ledger.assume(f"speed of sound: {law.cited}")

    def speed(celsius: float) -> float:
        at_zero, kelvin = law.number("at_zero"), zero.number("kelvin_at_zero")
        return speed_of_sound(celsius, at_zero=at_zero, kelvin_at_zero=kelvin)

    celsius = _temperature(ledger, paths)
    ledger.assume(f"air of {told(celsius)} °C, as the paths state or as in rooms")
    return across(speed, celsius)


def _temperature(ledger: Ledger, paths: Sequence[Element]) -> Bounds:
    stated = [(path, path.bounds("ambient")) for path in paths]
    for path, ambient in stated:
        ledger.note(path.id, "ambient", known=ambient is not None)
    known = [ambient for _, ambient in stated if ambient is not None]
    if not known or len(known) < len(stated):
        return _of_rooms(ledger)
    low, high = min(ambient.low for ambient in known), max(ambient.high for ambient in known)
    bests = {ambient.best for ambient in known}
    return Bounds(bests.pop() if len(bests) == 1 else None, low, high)


def _of_rooms(ledger: Ledger) -> Bounds:
    rows = read_table("sound").rows
    usual, possible = rows["room temperature"], rows["indoor temperature"]
    ledger.assume(f"air as in rooms: {usual.cited}; from and to as in {possible.cited}")
    return Bounds(usual.number("usual"), *possible.span("possible"))
