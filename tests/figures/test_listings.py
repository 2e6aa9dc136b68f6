"""Counts of what stands in one section: controls, indicators, sensors, actuators, antennas, shields, joints."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

ROWS = {
    "control-count": ("controls", "function: volume adjustment, means: tactile switch"),
    "indicator-count": ("indicators", "function: status display, means: LED"),
    "sensor-count": ("sensors", "function: voice capture, means: bottom-port MEMS microphone"),
    "microphone-count": ("sensors", "function: voice capture, means: bottom-port MEMS microphone"),
    "actuator-count": ("actuators", "function: sound output, means: moving-coil loudspeaker"),
    "antenna-count": ("antennas", "function: wireless networking, means: chip antenna"),
    "shield-count": ("shields", "means: soldered can"),
    "joint-count": ("joints", "means: thread-forming screw, between: [a, b]"),
}


def build(section: str, facts: str, coverage: str) -> str:
    pieces = "enclosure: {a: {}, b: {}}\n"
    return f"coverage: {{{section}: {coverage}}}\n{pieces}{section}: {{x: {{{facts}}}, y: {{{facts}, count: 3}}}}\n"


@pytest.mark.parametrize("figure", ROWS)
def test_counted_wholly(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    section, facts = ROWS[figure]
    measure = measure_of(figure, record_of(build(section, facts, "whole")))
    assert measure.bounds is not None
    assert (measure.bounds.best, measure.bounds.low, measure.bounds.high) == (4, 4, 4)
    assert measure.missing == ()
    assert measure.how == "x + y x 3 = 4"
    assert [part.best for part in measure.parts.values()] == [4]


@pytest.mark.parametrize("figure", ROWS)
def test_looked_at_in_part(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    section, facts = ROWS[figure]
    measure = measure_of(figure, record_of(build(section, facts, "part")))
    assert measure.bounds is not None
    assert (measure.bounds.best, measure.bounds.low, measure.bounds.high) == (None, 4, inf)
    assert measure.missing == (f"{section}: looked at only in part",)
    assert [part.high for part in measure.parts.values()] == [inf]


@pytest.mark.parametrize("figure", ROWS)
@pytest.mark.parametrize("coverage", ["", "none"])
def test_not_looked_at(figure: str, coverage: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    section, _ = ROWS[figure]
    text = f"coverage: {{{section}: {coverage}}}\n" if coverage else ""
    measure = measure_of(figure, record_of(text))
    assert measure.bounds is None
    assert measure.missing == (f"{section}: not looked at",)
    assert dict(measure.parts) == {}


@pytest.mark.parametrize("figure", ROWS)
def test_looked_at_wholly_and_none_found(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    section, _ = ROWS[figure]
    bounds = measure_of(figure, record_of(f"coverage: {{{section}: whole}}\n")).bounds
    assert bounds is not None
    assert (bounds.low, bounds.high) == (0, 0)


@pytest.mark.parametrize("figure", ROWS)
def test_means_not_stated_is_named_and_the_count_stays(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    section, facts = ROWS[figure]
    bare = ", ".join(fact for fact in facts.split(", ") if not fact.startswith(("means", "b]"))).replace("[a", "[a, b]")
    other = f"coverage: {{{section}: whole}}\nenclosure: {{a: {{}}, b: {{}}}}\n"
    text = f"{other}{section}: {{x: {{{facts}}}, y: {{{bare or 'count: 1'}}}}}\n"
    measure = measure_of(figure, record_of(text))
    assert measure.bounds is not None
    assert "y: means" in measure.missing
    assert measure.bounds.high == 2
    assert measure.bounds.low == (1 if figure == "microphone-count" else 2)


def test_sensors_of_other_kinds_are_no_microphones(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = "coverage: {sensors: whole}\nsensors: {t: {function: temperature sensing, means: thermistor}}\n"
    bounds = measure_of("microphone-count", record_of(text)).bounds
    assert bounds is not None
    assert (bounds.low, bounds.high) == (0, 0)


def test_a_site_left_empty_is_no_control(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = build("controls", "function: reset, means: tactile switch", "whole").replace("count: 3", "populated: false")
    bounds = measure_of("control-count", record_of(text)).bounds
    assert bounds is not None
    assert bounds.high == 1
