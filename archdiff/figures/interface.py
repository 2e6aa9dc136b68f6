"""User interface: what the user works, sees and hears, and what the product senses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import (
    Ledger,
    count_listed,
    count_true,
    grouped,
    listed,
    means_of,
    sum_in_words,
)
from archdiff.figures.shelf import Family, figure
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("interface", "User interface", 60)


@figure(
    title="Controls",
    order=10,
    meaning="How many keys, dials, touch fields and other controls the user works.",
    formula="count of controls, by means",
    source="count; common practice, no source",
)
def control_count(record: Record) -> Measure:
    """Controls by means."""
    return count_listed(record, "controls", label=means_of)


@figure(
    title="Indicators",
    order=20,
    meaning="How many lamps, displays and other indicators show something to the user.",
    formula="count of indicators, by means",
    source="count; common practice, no source",
)
def indicator_count(record: Record) -> Measure:
    """Indicators by means."""
    return count_listed(record, "indicators", label=means_of)


@figure(
    title="Sensors",
    order=30,
    meaning="How many sensors the product has, microphones among them.",
    formula="count of sensors, by means",
    source="count; common practice, no source",
)
def sensor_count(record: Record) -> Measure:
    """Sensors by means."""
    return count_listed(record, "sensors", label=means_of)


@figure(
    title="Microphones",
    order=40,
    meaning="How many of the sensors take in sound.",
    formula="count of sensors whose means carries sound, by means",
    source="count; common practice, no source",
)
def microphone_count(record: Record) -> Measure:
    """Sensors whose means has the trait 'carries-sound', by means."""
    ledger = Ledger(record)
    whole = ledger.whole("sensors")

    def hears(element: Element) -> Truth:
        return ledger.trait(element, "carries-sound")

    sensors = listed(record, "sensors")
    count = count_true(sensors, hears, whole=whole)
    answers = {sensor.id: hears(sensor) for sensor in sensors}
    found = [sensor for sensor in sensors if answers[sensor.id] is Truth.YES]
    all_told = whole and Truth.UNKNOWN not in answers.values()
    return ledger.measure(count, sum_in_words(found), grouped(found, lambda e: e.means, whole=all_told))


@figure(
    title="Actuators",
    order=50,
    meaning="How many loudspeakers, motors, heaters and other things move, sound or heat.",
    formula="count of actuators, by means",
    source="count; common practice, no source",
)
def actuator_count(record: Record) -> Measure:
    """Actuators by means."""
    return count_listed(record, "actuators", label=means_of)


@figure(
    title="Antennas",
    order=60,
    meaning="How many antennas and coupling coils the product has.",
    formula="count of antennas, by means",
    source="count; common practice, no source",
)
def antenna_count(record: Record) -> Measure:
    """Antennas by means."""
    return count_listed(record, "antennas", label=means_of)
