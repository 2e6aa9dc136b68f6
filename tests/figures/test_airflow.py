"""Air: openings, air paths and what drives the air; flow over area is held against a general library of units."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING, Any

import pint
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

HEAD = "archdiff: 1\nproduct: {name: Tarvo, kind: test, envelope: 100 x 50 x 80 mm}\n"
WHOLE = HEAD + "coverage: {enclosure: whole, actuators: whole, paths: whole}\n"
CALM = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
BUILD = """enclosure:
  front: {openings: [{function: sound guiding, area: 42 mm2}]}
  back: {openings: [{function: air inlet, area: 150 mm2, count: 10}, {function: intake, size: 5 x 10 mm, count: 2}, {function: exhaust, area: 3 cm2}]}
  duct: {in: back, means: air duct}
sensors: {damp: {means: humidity sensor chip, power: 1 mW}, gas: {means: photoacoustic, power: 60 mW}, dust: {means: laser scattering, power: 300 mW}}
actuators: {fan: {means: axial fan, power: 175 mW}, voice: {means: moving-coil loudspeaker}}
power: {in_use: 2 W}
paths:
  way: {kind: air, from: room, to: room, flow: 0.9 m3/h, through: [
    {what: slots, area: 250 mm2}, {what: duct, diameter: 12 mm, parallel: 2}, {what: damp, area: 200 mm2},
    {what: gas, area: 180 mm2}, {what: fan, area: 380 mm2}, {what: dust, area: 190 mm2}, {what: holes, area: 300 mm2}]}
"""
FIGURES = (
    *("air-inlet-area", "air-outlet-area", "outlet-over-inlet", "inlet-area-per-watt", "air-movers"),
    *("narrowest-air-passage", "air-speed", "envelope-changes", "stages-before-sensor", "sensors-ahead-of-mover"),
    "power-ahead-of-sensor",
)


@pytest.mark.parametrize(
    ("figure", "value"),  # all by hand
    [
        ("air-inlet-area", 150 + 2 * 50),
        ("air-outlet-area", 300),
        ("outlet-over-inlet", 300 / 250),
        ("inlet-area-per-watt", 250 / 2),
        ("air-movers", 1),
        ("narrowest-air-passage", 180),
        ("air-speed", 0.9 / 3600 / 180e-6),
        ("envelope-changes", 0.9 / 60 / (0.1 * 0.05 * 0.08)),
        ("stages-before-sensor", 2),
        ("sensors-ahead-of-mover", 2 / 3),
        ("power-ahead-of-sensor", 0.001 + 0.060 + 0.175),
    ],
)
def test_all_stated(record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str, value: float) -> None:
    record = record_of(WHOLE + BUILD)
    assert ends_of(figure, record) == pytest.approx((value, value))
    assert measure_of(figure, record).missing == ()


def test_speed_and_changes_are_those_of_a_library_of_units(record_of: RecordOf, ends_of: EndsOf) -> None:
    # Continuity: 0.9 m³/h through 180 mm², and as many envelopes of 100 x 50 x 80 mm a minute; worked with pint.
    unit: Any = pint.UnitRegistry()
    flow = 0.9 * unit.m**3 / unit.hour
    speed = (flow / (180 * unit.mm**2)).to("m/s").magnitude
    changes = (flow / (100 * 50 * 80 * unit.mm**3)).to("1/minute").magnitude
    record = record_of(WHOLE + BUILD)
    assert ends_of("air-speed", record) == pytest.approx((speed, speed))
    assert ends_of("envelope-changes", record) == pytest.approx((changes, changes))


def test_speed_in_a_duct_as_ventilation_texts_have_it(record_of: RecordOf, ends_of: EndsOf) -> None:
    # 400 cubic feet a minute through one square foot are 400 feet a minute, 2.032 m/s (V = Q/A, from memory).
    text = "paths: {way: {kind: air, from: room, flow: 400 ft**3/min, through: [{what: duct, area: 1 ft**2}]}}\n"
    assert ends_of("air-speed", record_of(WHOLE + text)) == pytest.approx((2.032, 2.032), abs=5e-4)


@pytest.mark.parametrize("figure", FIGURES[:5])
def test_looked_at_in_part_leaves_it_open(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str
) -> None:
    record = record_of(HEAD + BUILD)
    ends, measure = ends_of(figure, record), measure_of(figure, record)
    assert ends is None or ends[1] == inf
    assert any("how far it was looked at is not stated" in fact for fact in measure.missing)


@pytest.mark.parametrize(
    ("figure", "change", "ends", "lacking"),
    [
        ("air-inlet-area", ("front: {openings: [{function: sound guiding, area: 42 mm2}]}", "front: {}"), (250, inf), "front: openings"),
        ("air-inlet-area", ("function: sound guiding, ", ""), (250, 292), "front: function of an opening"),
        ("air-inlet-area", ("area: 150 mm2, ", ""), (100, inf), "back: area of an opening (air inlet)"),
        ("air-outlet-area", ("function: sound guiding, ", ""), (300, 342), "front: function of an opening"),
        ("outlet-over-inlet", ("area: 3 cm2", "edge: top"), None, "back: area of an opening (air outlet)"),
        ("inlet-area-per-watt", ("power: {in_use: 2 W}", "power: {}"), None, "power: in_use"),
        ("air-movers", ("means: axial fan, ", ""), (0, 1), "fan: means"),
        ("narrowest-air-passage", (", area: 180 mm2", ""), (0, 190), "way stage 4: area"),
        ("narrowest-air-passage", (", diameter: 12 mm, parallel: 2", ""), (0, 180), "way stage 2: diameter"),
        ("air-speed", (", area: 180 mm2", ""), (0.9 / 3600 / 190e-6, inf), "way stage 4: area"),
        ("air-speed", (", flow: 0.9 m3/h", ""), None, "way: flow"),
        ("air-speed", ("kind: air", "kind: touch"), None, "paths: an air path; none is recorded"),
        ("envelope-changes", (", flow: 0.9 m3/h", ""), None, "way: flow"),
        ("envelope-changes", (", envelope: 100 x 50 x 80 mm", ""), None, "product: envelope"),
        ("sensors-ahead-of-mover", ("means: axial fan, ", ""), None, "fan: means"),
        ("sensors-ahead-of-mover", ("damp: {means: humidity sensor chip, ", "damp: {"), (0, 2 / 3), "damp: means"),
        ("sensors-ahead-of-mover", ("{what: fan, area: 380 mm2}, ", ""), None, "way: a stage that drives the air; none is recorded"),
        ("power-ahead-of-sensor", ("chip, power: 1 mW", "chip"), (0.235, inf), "damp: power"),
    ],
)  # fmt: skip
def test_what_is_not_stated_leaves_it_open_and_is_named(
    record_of: RecordOf,
    measure_of: MeasureOf,
    ends_of: EndsOf,
    figure: str,
    change: tuple[str, str],
    ends: tuple[float, float] | None,
    lacking: str,
) -> None:
    assert change[0] in WHOLE + BUILD
    record = record_of((WHOLE + BUILD).replace(*change))
    assert ends_of(figure, record) == (None if ends is None else pytest.approx(ends))
    assert lacking in measure_of(figure, record).missing


@pytest.mark.parametrize("figure", ["stages-before-sensor", "sensors-ahead-of-mover", "power-ahead-of-sensor"])
def test_a_path_without_sensors_says_so(record_of: RecordOf, measure_of: MeasureOf, figure: str) -> None:
    text = "paths: {way: {kind: air, from: room, through: [{what: slots, area: 250 mm2}, {what: fan, area: 9 mm2}]}}\n"
    measure = measure_of(figure, record_of(WHOLE + text))
    assert measure.bounds is None
    assert measure.how == "way: no sensor on it recorded"
    assert "way: a stage that is a sensor; none is recorded" in measure.missing


@pytest.mark.parametrize(
    ("actuators", "ends", "said"),
    [
        ("{fan: {means: axial fan, count: 2}}", (2, 2), "driven"),
        (
            "{voice: {means: moving-coil loudspeaker}}",
            (0, 0),
            "no actuator drives the air: passive, if no other part does",
        ),
        ("{}", (0, 0), "no actuator drives the air: passive, if no other part does"),
        ("{odd: {}}", (0, 1), ""),
    ],
)
def test_driven_or_passive(
    record_of: RecordOf, measure_of: MeasureOf, actuators: str, ends: tuple[float, float], said: str
) -> None:
    measure = measure_of("air-movers", record_of(WHOLE + f"actuators: {actuators}\n"))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == ends
    assert measure.said == said


def test_no_openings_at_all_are_stated_by_an_empty_list(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(WHOLE + "enclosure: {shell: {openings: []}, label: {in: shell}}\n")
    assert ends_of("air-inlet-area", record) == (0, 0)
    assert ends_of("outlet-over-inlet", record) is None


def test_openings_of_inner_pieces_do_not_count(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = BUILD.replace("duct: {in: back, ", "duct: {in: back, openings: [{function: air inlet, area: 90 mm2}], ")
    assert ends_of("air-inlet-area", record_of(WHOLE + text)) == (250, 250)


def test_a_mover_may_be_named_by_the_stage_alone(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = BUILD.replace("{what: fan, area: 380 mm2}", "{what: a blower, means: radial blower, area: 380 mm2}")
    assert ends_of("sensors-ahead-of-mover", record_of(WHOLE + text)) == pytest.approx((2 / 3, 2 / 3))


def test_what_drives_air_is_told_by_the_trait_and_not_by_the_name(record_of: RecordOf, ends_of: EndsOf) -> None:
    terms = "terms: {means: {flapper: {meaning: waves, traits: [drives-air]}, fan club: {meaning: people}}}\n"
    text = "actuators: {a: {means: flapper}, b: {means: fan club}}\n"
    assert ends_of("air-movers", record_of(WHOLE + terms + text)) == (1, 1)


@pytest.mark.parametrize(
    ("figure", "both", "side"),  # by hand
    [
        ("narrowest-air-passage", 20, 20),
        ("air-speed", 0.1 / 3600 / 20e-6, 0.1 / 3600 / 20e-6),
        ("envelope-changes", 1.0 / 60 / 0.0004, 0.1 / 60 / 0.0004),
        ("stages-before-sensor", 1, 1),
        ("power-ahead-of-sensor", 0.236, 0),
    ],
)
def test_of_two_air_paths_the_one_that_stands_out_or_both(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, both: float, side: float
) -> None:
    text = (
        BUILD
        + "  side: {kind: air, from: room, flow: 0.1 m3/h, through: [{what: gap, area: 20 mm2}, {what: gas, area: 30 mm2}]}\n"
    )
    measure = measure_of(figure, record_of(WHOLE + text))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((both, both))
    assert set(measure.parts) == {"way", "side"}
    assert measure.parts["side"].best == pytest.approx(side)


@pytest.mark.parametrize(
    ("figure", "ends"),
    [
        ("narrowest-air-passage", (0, 180)),
        ("air-speed", (0.9 / 3600 / 180e-6, inf)),
        ("envelope-changes", (0.9 / 60 / 0.0004, inf)),  # another path may carry air too
        ("stages-before-sensor", None),  # a stage before it may be lacking, and so may a sensor
        ("sensors-ahead-of-mover", None),
        ("power-ahead-of-sensor", (0.236, inf)),
    ],
)
def test_where_paths_were_looked_at_in_part_a_stage_or_a_path_may_be_lacking(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str, ends: tuple[float, float] | None
) -> None:
    record = record_of(WHOLE.replace("paths: whole", "paths: part") + BUILD)
    assert ends_of(figure, record) == (None if ends is None else pytest.approx(ends))
    assert "paths: looked at only in part" in measure_of(figure, record).missing


def test_a_path_of_unknown_kind_may_be_one_of_air(record_of: RecordOf) -> None:
    from archdiff.figures import airflow
    from archdiff.record.build import build_record

    record = record_of(WHOLE + BUILD + "  other: {kind: air, from: room, flow: 0.1 m3/h}\n")
    del record.document.data["paths"]["other"]["kind"]
    measure = airflow.envelope_changes.of_product(build_record(record.document)[0])  # type: ignore[misc]
    assert measure.bounds is not None
    assert measure.bounds.high == inf
    assert "other: kind" in measure.missing


def test_the_functions_of_openings_are_in_the_vocabulary() -> None:
    from archdiff.figures import airflow

    assert {airflow._INLET, airflow._OUTLET} <= set(load_vocabulary().functions)


UNITS = (
    """enclosure: {{shell: {{openings: [{{function: air inlet, area: {a}}}, {{function: air outlet, size: {s}}}]}}}}
sensors: {{damp: {{power: {p}}}, gas: {{}}}}
power: {{in_use: {p}}}
paths: {{way: {{kind: air, from: room, flow: {f}, through: [{{what: duct, diameter: {d}}}, {{what: damp, area: {a}}}, {{what: gas, area: {a}}}]}}}}
""",
    {"a": "150 mm2", "s": "10 x 5 mm", "p": "500 mW", "f": "0.9 m3/h", "d": "12.7 mm"},
    {"a": "1.5 cm2", "s": "1 x 0.5 cm", "p": "0.5 W", "f": "15 l/min", "d": "0.5 inch"},
)


@pytest.mark.parametrize(
    "figure", [*FIGURES[:4], "narrowest-air-passage", "air-speed", "envelope-changes", "power-ahead-of-sensor"]
)
def test_units_do_not_matter(record_of: RecordOf, ends_of: EndsOf, figure: str) -> None:
    template, metric, other = UNITS
    ends = ends_of(figure, record_of(WHOLE + template.format(**metric)))
    assert ends is not None
    other_head = WHOLE.replace("100 x 50 x 80 mm", "10 x 5 x 8 cm")
    assert ends_of(figure, record_of(other_head + template.format(**other))) == pytest.approx(ends, rel=1e-9)


LOOSE = """enclosure: {{shell: {{openings: [{{function: air inlet, area: {0} mm2}}, {{function: air outlet, size: {1} x {1} mm}}]}}}}
sensors: {{damp: {{power: {1} mW}}, gas: {{}}}}
actuators: {{fan: {{means: axial fan, power: {2} mW}}}}
power: {{in_use: {2} W}}
paths: {{way: {{kind: air, from: room, flow: {2} m3/h, through: [
  {{what: duct, diameter: {1} mm}}, {{what: damp, area: {0} mm2}}, {{what: fan, area: {2} mm2}}, {{what: gas, area: {1} mm2}}]}}}}
"""
tenths = st.integers(1, 400).map(lambda n: n / 10)


@given(st.lists(st.tuples(tenths, tenths, tenths), min_size=3, max_size=3))
@CALM
def test_narrower_facts_give_narrower_figures(
    record_of: RecordOf, ends_of: EndsOf, facts: list[tuple[float, float, float]]
) -> None:
    ordered = [sorted(fact) for fact in facts]
    wide = record_of(WHOLE + LOOSE.format(*(f"{low}..{high}" for low, _, high in ordered)))
    narrow = record_of(WHOLE + LOOSE.format(*(f"{low}..{middle}" for low, middle, _ in ordered)))
    exact = record_of(WHOLE + LOOSE.format(*(middle for _, middle, _ in ordered)))
    for figure in FIGURES:
        outer, inner, least = (ends_of(figure, record) for record in (wide, narrow, exact))
        for one, other in ((outer, inner), (inner, least)):
            assert one is None or other is not None, figure
            if one is not None and other is not None:
                assert one[0] <= other[0] * (1 + 1e-9) + 1e-12, figure
                assert other[1] <= one[1] * (1 + 1e-9) + 1e-12, figure
