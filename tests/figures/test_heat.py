"""What stands in heat's way: stages, what they take from the things they name, and what is not known.

Numbers are recomputed by hand beside each check; published ones stand in tests/published/test_heat.py.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WAY = "heat-path-resistance"
WHOLE = "coverage: {paths: whole}\n"
PAD = "{what: pad, thickness: 2 mm, area: 100 mm2, conductivity: 2 W/m/K}"  # 10 K/W
SHELL = "{what: shell, thickness: 2 mm, area: 1000 mm2, conductivity: 0.2 W/m/K}"  # 10 K/W, or 100 entered by the pad
PIECES = "enclosure: {shell: {size: 50 x 10 x 40 mm, area: 2000 mm2, emissivity: 0.9, material: ABS}}\n"
ENDS = "power: 0.5 W, ambient: 20 degC, to: air, facing: front"


def one(*stages: str, ends: str = ENDS, more: str = PIECES) -> str:
    return f"{WHOLE}parts: {{U1: {{power: 0.5 W}}}}\n{more}paths: {{out: {{kind: heat, from: U1, {ends}, through: [{', '.join(stages)}]}}}}\n"


@pytest.mark.parametrize(
    ("stage", "ends", "missing"),
    [
        (PAD, (10, 10), ()),
        (PAD.replace("}", ", parallel: 4}"), (2.5, 2.5), ()),
        (PAD.replace("thickness", "length"), (10, 10), ()),
        (PAD.replace("2 W/m/K", "1..4 W/m/K"), (5, 20), ()),
        (PAD.replace("conductivity: 2 W/m/K", "material: gap pad"), (20 / 6, 20), ("out stage 1: conductivity",)),
        (PAD.replace("area: 100 mm2, ", ""), None, ("out stage 1: area",)),
        (PAD.replace("conductivity: 2 W/m/K", "material: putty"), None, ("out stage 1: conductivity", "out stage 1: conductivity of putty")),
        ("{what: gap that nobody opened}", None, ("out stage 1: resistance",)),
        ("{what: sink, resistance: 4 K/W, parallel: 2}", (2, 2), ()),
    ],
)  # fmt: skip
def test_resistance_of_one_stage(
    stage: str, ends: tuple[float, float] | None, missing: tuple[str, ...], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(WAY, record_of(one(stage)))
    found = None if measure.bounds is None else (measure.bounds.low, measure.bounds.high)
    assert found is None if ends is None else found == pytest.approx(ends)
    assert measure.missing == missing


def test_a_stage_that_names_a_part_takes_its_body_and_material(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = one("{what: leaf}").replace("parts: {", "parts: {leaf: {size: 10 x 10 x 2 mm, material: solder}, ")
    measure = measure_of(WAY, record_of(text))
    assert measure.bounds is not None
    # 2 mm of solder, 48 to 66 W/mK, over 1 cm²
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((2e-3 / (66 * 1e-4), 2e-3 / (48 * 1e-4)))
    assert measure.missing == ("out stage 1: conductivity",)
    assert {"leaf: size", "leaf: material"} <= set(measure.used)
    assert any("heat to cross the whole face of leaf" in text for text in measure.assumed)
    assert any("solder to conduct 48 to 66 W/(m·K)" in text and "from memory" in text for text in measure.assumed)


def test_heat_that_enters_by_a_smaller_area_spreads_or_does_not(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(WAY, record_of(one(PAD, SHELL)))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.best, measure.bounds.high) == pytest.approx((20, 20, 110))
    assert any("entered by 100 mm²" in part for part in measure.how.split("+"))


def test_heat_leaves_several_alike_by_all_their_areas(record_of: RecordOf, measure_of: MeasureOf) -> None:
    holes = "{what: holes, thickness: 2 mm, area: 20 mm2, conductivity: 2 W/m/K, parallel: 5}"  # 50 K/W each
    measure = measure_of(WAY, record_of(one(PAD, holes, SHELL)))
    assert measure.bounds is not None
    # 10 + 50/5 + 10 K/W; the shell entered by 5 x 20 mm² has 100 instead of 10.
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((30, 120))


@pytest.mark.parametrize("between", ["{what: gap that nobody opened}", SHELL.replace("area: 1000 mm2, ", "")])
def test_a_stage_not_known_leaves_the_end_open_and_is_named(
    between: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(WAY, record_of(one(PAD, between)))
    assert measure.bounds is not None
    assert measure.bounds.low >= 10
    assert measure.bounds.high == math.inf
    assert any("stage 2" in fact for fact in measure.missing)


def test_a_figure_that_is_a_least_value_says_so(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = one(PAD, "{what: gap that nobody opened}")
    assert "at least: nothing is known of gap that nobody opened" in measure_of(WAY, record_of(text)).said
    assert measure_of(WAY, record_of(one(PAD))).said == ""
    part = measure_of(WAY, record_of(one(PAD).replace("paths: whole", "paths: part")))
    assert part.said.startswith("at least")
    assert part.bounds is not None
    assert part.bounds.high == math.inf
    assert "paths: looked at only in part" in part.missing


def test_a_stage_takes_the_wall_of_the_piece_it_names_but_not_all_its_area(
    record_of: RecordOf, ends_of: EndsOf
) -> None:
    shell = PIECES.replace("area: 2000", "thickness: 2 mm, conductivity: 0.2 W/m/K, area: 2000")
    # 2 mm / (0.2 W/mK x 20 cm²) = 5 K/W if heat takes all of it
    assert ends_of(WAY, record_of(one("{what: shell}", more=shell))) == pytest.approx((5, math.inf))


def test_an_electrical_resistance_is_none_of_heat(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = one("{what: R1}").replace("parts: {", "parts: {R1: {resistance: 68 ohm}, ")
    assert measure_of(WAY, record_of(text)).bounds is None


def test_still_air_between_two_solids_is_the_most_that_a_gap_resists(record_of: RecordOf, ends_of: EndsOf) -> None:
    gap = "{what: gap, material: still air, thickness: 2 mm, area: 100 mm2}"
    # 2 mm / (0.0243 W/mK x 1 cm²) and the pad's 10 K/W; rays and stirring may take any share of it away.
    assert ends_of(WAY, record_of(one(gap, PAD))) == pytest.approx((10, 10 + 2e-3 / (0.0243 * 1e-4)))


def test_air_behind_the_last_solid_stage_is_no_stage(record_of: RecordOf, ends_of: EndsOf) -> None:
    air = "{what: room, material: air, thickness: 9 mm, area: 1000 mm2}"
    assert ends_of(WAY, record_of(one(PAD, air))) == ends_of(WAY, record_of(one(PAD)))


def test_both_air_monitors_have_real_numbers(air_monitors: Comparison) -> None:
    results = {r.figure.id: r for r in air_monitors.figures if r.figure.family == "heat"}
    assert len(results) >= 9
    for result in results.values():
        assert result.left is not None
        assert result.right is not None
        assert result.left.bounds is not None, result.figure.id
        assert result.right.bounds is not None, result.figure.id
    way = results["heat-path-resistance"]
    assert way.left is not None
    assert way.right is not None
    # By hand, can 0.2/(60 x 352) + pad 1.5/(2 x 180) + shell 2.2/(0.2 x 2500) mm/(W/mK mm²): the gap is not counted.
    assert way.left.parts["Heat of the radio"].low == pytest.approx(0.00947 + 4.16667 + 4.4, abs=1e-4)
    assert way.left.parts["Heat of the radio"].high == math.inf
    assert "nothing is known of gap under the can lid" in way.left.said
    # By hand, 1.5/(3 x 49) + 1/(190 x 1064) + 3.6/(1.5 x 288) + 1.8/(0.2 x 3000).
    soc = way.right.parts["Heat of the system chip"]
    assert soc.best == pytest.approx(10.20408 + 0.00495 + 8.33333 + 3.0, abs=1e-4)
    assert soc.high == math.inf  # the record says that paths were looked at only in part
    # The face entered by the pad's 288 mm² alone: 1.8/(0.2 x 288) mm/(W/mK mm²).
    face = way.right.parts["Heat of the system chip, stage 4: Face"]
    assert (face.low, face.high) == pytest.approx((3.0, 31.25))
    area = results["power-per-outer-area"]
    assert area.left is not None
    assert area.left.bounds is not None
    assert area.left.bounds.best == pytest.approx(1500 / 435)  # mW over 230 + 205 cm²


def test_no_board_and_no_path_is_told_as_such(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of("coverage: {boards: whole, paths: whole, enclosure: whole}\n")
    assert measure_of("heat-path-resistance", record).missing == ("paths: heat path",)
    assert measure_of("heat-path-resistance", record).how == "no heat path recorded"
    assert measure_of("board-conductivity-along", record).how == "no boards"
    assert measure_of("power-per-outer-area", record).missing == ("power: in_use", "product: envelope")


def test_a_plate_may_stand_away_from_what_carries_it(record_of: RecordOf, measure_of: MeasureOf) -> None:
    """Its height is not its thickness, nor its outline the area that heat takes: both are the most that they can be."""
    text = one("{what: plate}", PAD).replace(
        "paths: {out", "shields: {plate: {size: 20 x 20 x 3 mm, material: copper}}\npaths: {out"
    )
    measure = measure_of(WAY, record_of(text))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((10, math.inf))
    assert {"out stage 1: thickness", "out stage 1: area"} <= set(measure.missing)
