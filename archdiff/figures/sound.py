"""Sound: what an array of microphones resolves, where ports resonate, and how a loudspeaker meets the room."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger, count_true, largest, listed, number, told
from archdiff.figures.facts.channel_facts import all_paths, from_zero, open_area, over, own
from archdiff.figures.facts.loudspeaker_facts import HALF_TURN, angle_between, direction, of_loudspeakers
from archdiff.figures.facts.path_facts import stages_of
from archdiff.figures.facts.resonance import resonance_of_microphone, resonance_on_path
from archdiff.figures.facts.sound_facts import (
    laid_out_for_one,
    microphones_of,
    sound_from,
    sound_speed,
    sound_to,
)
from archdiff.figures.facts.spacing import apart, nearest
from archdiff.figures.shelf import Family, figure
from archdiff.physics.acoustics import aliasing_frequency, arrival_difference
from archdiff.physics.acoustics import first_null as null_frequency
from archdiff.quantities import Bounds, across
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.facts.loudspeaker_facts import Found
    from archdiff.figures.facts.sound_facts import Things
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

    _OfSpacings = Callable[[Ledger, Things, list[Bounds]], Found]

FAMILY = Family("sound", "Sound", 85)


@figure(
    title="Microphone sites",
    order=10,
    meaning="How many places are laid out for a microphone, filled or left empty.",
    formula="microphones + empty sites that are laid out for one or have the function of one",
    source="count; common practice, no source",
)
def microphone_sites(record: Record) -> Measure:
    """Fitted and empty sites; a site whose purpose is not known may be one."""
    ledger = Ledger(record)
    whole = ledger.whole("sensors", "parts")
    sensors = listed(record, "sensors")
    answers = {sensor.id: ledger.kind(sensor, "hears") for sensor in sensors}
    fitted = count_true(sensors, lambda sensor: answers[sensor.id], whole=whole)
    empty_sites = [e for name in ("sensors", "parts") for e in record.section(name) if not e.populated]
    microphones = [sensor for sensor in sensors if answers[sensor.id] is Truth.YES]
    for_one = {site.id: laid_out_for_one(ledger, site, microphones) for site in empty_sites}
    empty = count_true(empty_sites, lambda site: for_one[site.id], whole=whole)
    how = f"{told(fitted)} fitted + {told(empty)} left empty"
    return ledger.measure(fitted + empty, how, {"fitted": fitted, "left empty": empty})


def _array(record: Record, of_spacings: Callable[[Ledger, Things, list[Bounds]], tuple[Bounds | None, str]]) -> Measure:
    """A figure of the distances between microphones; None, and why, where there are fewer than two."""
    ledger = Ledger(record)
    microphones = microphones_of(ledger)
    many = number(microphones.found)
    if many > 1:
        spacings = apart(ledger, microphones.found)
        result, words = of_spacings(ledger, microphones, list(spacings.values()))
        return ledger.measure(result, "; ".join([*(f"{ids} {told(d)} mm" for ids, d in spacings.items()), words]))
    if microphones.whole:
        ledger.moot()
    alone = "one microphone: no array" if microphones.whole else "one microphone recorded"
    return ledger.measure(None, alone if many else "no microphone recorded")


@figure(
    title="Microphone spacing",
    unit="mm",
    order=20,
    meaning="Smallest distance between the middles of two microphones, which are the sensors that hear.",
    formula="least of the distances between every two",
    source="plane geometry; common practice, no source",
)
def microphone_spacing(record: Record) -> Measure:
    """Smallest distance in mm."""
    return _array(record, lambda _, microphones, found: (nearest(found, whole=microphones.whole), "the least"))


@figure(
    title="Array aperture",
    unit="mm",
    order=30,
    meaning="Largest distance between the middles of two microphones.",
    formula="greatest of the distances between every two",
    source="plane geometry; common practice, no source",
    preferred="higher: tells low sounds apart by direction",
)
def array_aperture(record: Record) -> Measure:
    """Largest distance in mm."""
    return _array(record, lambda _, microphones, found: (largest(found, whole=microphones.whole), "the greatest"))


@figure(
    title="Aliasing limit of the array",
    unit="Hz",
    order=40,
    meaning="Frequency up to which the two nearest microphones tell from where a sound comes without mistaking it.",
    formula="speed of sound / (2 x smallest spacing)",
    source="sampling theorem in space, half a wavelength; acoustics texts, read second-hand",
    preferred="higher: direction is told up to higher notes",
)
def aliasing_limit(record: Record) -> Measure:
    """Frequency in Hz."""

    def limit(ledger: Ledger, microphones: Things, spacings: list[Bounds]) -> Found:
        smallest = nearest(spacings, whole=microphones.whole) or ANY
        speed = sound_speed(ledger, sound_to(record, *microphones.found))
        return across(aliasing_frequency, speed, smallest), f"{told(speed)} m/s / (2 x {told(smallest)} mm)"

    return _array(record, limit)


@figure(
    title="Greatest arrival difference",
    unit="µs",
    order=50,
    meaning="By how much a sound along the array reaches one of its outermost microphones before the other.",
    formula="largest spacing / speed of sound",
    source="plane wave at grazing incidence; acoustics texts, recomputed",
)
def arrival_spread(record: Record) -> Measure:
    """Time in µs."""

    def difference(ledger: Ledger, microphones: Things, spacings: list[Bounds]) -> Found:
        aperture = largest(spacings, whole=microphones.whole) or ANY
        speed = sound_speed(ledger, sound_to(record, *microphones.found))
        return across(arrival_difference, speed, aperture), f"{told(aperture)} mm / {told(speed)} m/s"

    return _array(record, difference)


@figure(
    title="Lowest port resonance",
    unit="Hz",
    order=60,
    meaning="Where the air in a microphone's port resonates with the cavity behind; of several the lowest; estimated.",
    formula="speed of sound / 2π x √(1 / (cavity x sum of (length + end corrections) / area of each hole in the way))",
    source="Helmholtz resonator, lumped; acoustics texts, read second-hand",
    preferred="higher: the microphone hears evenly up to there",
)
def port_resonance(record: Record) -> Measure:
    """Frequency in Hz of each microphone's port, and the lowest of them.

    By the sound path to it, where paths were wholly looked at or the port does not tell enough; else by its port.
    """
    ledger = Ledger(record)
    microphones = microphones_of(ledger)
    each = {microphone.id: resonance_of_microphone(ledger, microphone, microphones) for microphone in microphones.found}
    if not each and microphones.whole:
        ledger.moot()
    how = "; ".join(f"{name} by its {how}: {told(found)} Hz" for name, (found, how) in each.items())
    known = {name: found for name, (found, _) in each.items() if found != ANY}
    lowest = nearest([found for found, _ in each.values()], whole=microphones.whole)
    return ledger.measure(lowest, how or "no microphone recorded", known)


@figure(
    title="Front volume resonance",
    unit="Hz",
    order=70,
    meaning="Where the air before a loudspeaker resonates with that in the holes; of several the lowest; estimated.",
    formula="speed of sound / 2π x √(1 / (volume x sum of (length + end corrections) / area of the holes behind it))",
    source="Helmholtz resonator, lumped; acoustics texts, read second-hand",
)
def front_volume_resonance(record: Record) -> Measure:
    """Frequency in Hz; at most that of the stages recorded, where paths were looked at in part."""

    def resonance(ledger: Ledger, _: Element, path: Element) -> Found:
        whole = all_paths(ledger, "sound", "from").whole
        found, how = resonance_on_path(ledger, path, sound_speed(ledger, [path]), whole=whole)
        return found, f"{how}: {told(found)} Hz"

    return of_loudspeakers(record, resonance)


@figure(
    title="Sound opening over loudspeaker face",
    order=80,
    meaning="Narrowest open area before a loudspeaker as a share of its own face, frame and all; of several the least.",
    formula="least area of the stages of its sound path / width x depth, or circle, of its size",
    source="ratio; common practice, no source",
)
def sound_opening_share(record: Record) -> Measure:
    """Share; at most that of the stages recorded, where paths were looked at in part."""

    def opening(ledger: Ledger, thing: Element, path: Element) -> Found:
        whole = all_paths(ledger, "sound", "from").whole
        stages = [stage for stage in stages_of(record, path) if own(stage, "volume") is None]
        areas = [open_area(ledger, stage) or ANY for stage in stages]
        if not ledger.note(path.id, "through", known=bool(stages)):
            return None, "no stage recorded"
        size, least = thing.size(), nearest(areas, whole=whole)
        face = from_zero(size.area) if ledger.note(thing.id, "size", known=size is not None) and size else None
        return over(least, face), f"{told(least)} mm² / {told(face)} mm²"

    return of_loudspeakers(record, opening)


@figure(
    title="Angle between loudspeaker and opening",
    unit="°",
    order=90,
    meaning="By how much sound is turned between facing loudspeaker and leaving the product; of several the most.",
    formula="0, 90 or 180 degrees between the two directions recorded",
    source="geometry; common practice, no source",
)
def loudspeaker_turn(record: Record) -> Measure:
    """Angle in degrees, by the sound paths recorded of each loudspeaker."""

    def turn(ledger: Ledger, thing: Element, path: Element) -> Found:
        ways = [direction(ledger, thing, "faces"), direction(ledger, path, "facing")]
        words = f"{ways[0] or 'not known'}, opening {ways[1] or 'not known'}"
        return (None if "" in ways else Bounds.exact(angle_between(*ways))), words

    measure = of_loudspeakers(record, turn, of_all=largest)
    bounds = measure.bounds
    if bounds is None or bounds.high <= HALF_TURN:
        return measure
    return replace(measure, bounds=Bounds(None, bounds.low, HALF_TURN) if bounds.low > 0 else None)


@figure(
    title="First null before a plate",
    unit="Hz",
    order=100,
    meaning="Lowest frequency at which a hard plate before a loudspeaker throws its sound back half a wave late.",
    formula="speed of sound / (4 x distance to the plate)",
    source="quarter-wave path to a hard plate; acoustics texts, read second-hand",
    preferred="higher: the response is even up to there",
)
def first_null(record: Record) -> Measure:
    """Frequency in Hz; of several loudspeakers before plates, the lowest."""
    ledger = Ledger(record)
    whole = ledger.whole("actuators")
    parts: dict[str, Bounds] = {}
    words: list[str] = []
    for thing in listed(record, "actuators"):
        distance = thing.bounds("distance_to_plate")
        if distance is not None:
            ledger.use(thing.id, "distance_to_plate")
            speed = sound_speed(ledger, sound_from(record, thing))
            parts[thing.id] = across(null_frequency, speed, from_zero(distance))
            words.append(f"{thing.id}: {told(speed)} m/s / (4 x {told(distance)} mm)")
        elif ledger.kind(thing, "sounds") is not Truth.NO:
            ledger.lack(thing.id, "distance_to_plate")
            whole = False
    if whole and not parts:  # each that sounds would have lacked its distance
        ledger.moot()
    how = "; ".join(words) or "no loudspeaker before a plate recorded"
    return ledger.measure(nearest(list(parts.values()), whole=whole), how, parts)
