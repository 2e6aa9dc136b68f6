"""How warm outer faces get: what is known of them, what heat reaches them, and how touch is told.

Numbers come from scipy's root of the energy balance and from sums by hand beside each check.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from scipy.constants import Stefan_Boltzmann
from scipy.optimize import brentq

from archdiff.physics.surfaces import DOWN, UP, VERTICAL, Surface, convection

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

RISE, FACE = "source-rise", "face-rise"
PAD = "{what: pad, thickness: 2 mm, area: 100 mm2, conductivity: 2 W/m/K}"  # 10 K/W
SHELL = "{what: shell, thickness: 2 mm, area: 1000 mm2, conductivity: 0.2 W/m/K}"  # 10 K/W, or 100 entered by the pad
ENDS = "power: 0.5 W, ambient: 20 degC, to: air, facing: front"
BUILD = """coverage: {paths: whole}
parts: {U1: {power: 0.5 W}}
enclosure: {shell: {size: 50 x 10 x 40 mm, area: 2000 mm2, emissivity: 0.9, material: ABS}}
"""


def one(*stages: str, ends: str = ENDS) -> str:
    return f"{BUILD}paths: {{out: {{kind: heat, from: U1, {ends}, through: [{', '.join(stages)}]}}}}\n"


def balance(power: float, area: float, length: float, emissivity: float, ambient: float, way: str = VERTICAL) -> float:
    """K at which a face gives off its power; L: scipy's root of the energy balance."""

    def excess(rise: float) -> float:
        cold = ambient + 273.15
        rays = emissivity * Stefan_Boltzmann * ((cold + rise) ** 4 - cold**4)
        return area * (rays + rise * convection(Surface(way, length, emissivity, ambient), rise)) - power

    return float(brentq(excess, 1e-9, 1e4))


def test_a_face_lies_between_the_warm_area_and_the_whole_piece(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(FACE, record_of(one(PAD, SHELL)))
    assert measure.bounds is not None
    # At most: 10 cm², 50 mm high. At least: 20 cm² of the piece, in a strip of 10 cm² / 50 mm. Likeliest: a square.
    assert measure.bounds.high == pytest.approx(balance(0.5, 1e-3, 0.05, 0.9, 20), rel=1e-6)
    assert measure.bounds.low == pytest.approx(balance(0.5, 2e-3, 0.02, 0.9, 20), rel=1e-6)
    assert measure.bounds.best == pytest.approx(balance(0.5, 1e-3, math.sqrt(1e-3), 0.9, 20), rel=1e-6)
    assert measure.missing == ()


@pytest.mark.parametrize(
    ("old", "new", "missing"),
    [
        ("facing: front", "facing: around", ()),
        (", facing: front", "", ("out: facing",)),
        (", emissivity: 0.9", "", ("shell: emissivity",)),
        (", emissivity: 0.9, material: ABS", "", ("shell: emissivity",)),
        ("area: 2000 mm2, ", "", ("shell: area",)),
        ("size: 50 x 10 x 40 mm, ", "", ("shell: size", "product: envelope")),
        ("size: 50 x 10 x 40 mm, area: 2000", "size: 50 x 40 mm, area: 2000", ("shell: size", "product: envelope")),
        ("power: 0.5 W, ambient", "ambient", ("power: in_use", "out: power")),
        (", to: air", "", ("out: to",)),
    ],
)
def test_less_known_of_a_face_widens_it_and_is_named(
    old: str, new: str, missing: tuple[str, ...], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    text = one(PAD, SHELL) + "power: {in_use: 0.6 W}\n"
    known = measure_of(FACE, record_of(text)).bounds
    poorer = text.replace(old, new)
    assert poorer != text
    measure = measure_of(FACE, record_of(poorer.replace("power: {in_use: 0.6 W}\n", "") if "power" in old else poorer))
    assert known is not None
    assert set(measure.missing) == set(missing)
    if measure.bounds is not None:
        assert measure.bounds.low <= known.low
        assert measure.bounds.high >= known.high
        assert (measure.bounds.low, measure.bounds.high) != (known.low, known.high)


def test_without_air_around_nothing_is_said_of_a_face(record_of: RecordOf, measure_of: MeasureOf) -> None:
    for figure in (FACE, "face-temperature"):
        measure = measure_of(figure, record_of(one(PAD, SHELL).replace("ambient: 20 degC, ", "")))
        assert measure.bounds is None
        assert "out: ambient" in measure.missing


def test_a_finish_says_more_than_a_material(record_of: RecordOf, measure_of: MeasureOf) -> None:
    bare = one(PAD, SHELL).replace("emissivity: 0.9, material: ABS", "finish: polished aluminium, material: aluminium")
    painted = bare.replace("polished aluminium", "powder coated")
    shiny, dull = (measure_of(FACE, record_of(text)) for text in (bare, painted))
    assert shiny.bounds is not None
    assert dull.bounds is not None
    assert shiny.bounds.high > dull.bounds.high
    assert "shell: finish" in dull.used
    assert any("painted to have an emissivity of 0.8 to 0.98" in text for text in dull.assumed)


def test_ways_that_meet_add_up(record_of: RecordOf, measure_of: MeasureOf) -> None:
    second = f"too: {{kind: heat, from: U2, {ENDS.replace('0.5', '0.3')}, through: [{SHELL}]}}"
    record = record_of(one(PAD, SHELL).replace("paths: {", f"paths: {{{second}, "))
    measure = measure_of(FACE, record)
    assert measure.bounds is not None
    assert measure.bounds.high == pytest.approx(balance(0.8, 1e-3, 0.05, 0.9, 20), rel=1e-6)
    # Through the pad go 0.5 W alone, through the shell that both name up to 0.8 W; its resistance is up to 100 K/W.
    rise = measure_of(RISE, record)
    assert rise.bounds is not None
    assert rise.bounds.high == pytest.approx(measure.bounds.high + 0.5 * 10 + 0.8 * 100)
    assert rise.parts["out"].low == pytest.approx(measure.bounds.low + 0.5 * 10 + 0.5 * 10)


def test_heat_of_which_no_path_speaks_may_leave_by_the_same_face(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = one(PAD, SHELL).replace("paths: whole", "paths: part") + "power: {in_use: 0.9 W}\n"
    measure = measure_of(FACE, record_of(text))
    assert measure.parts["shell (out)"].high == pytest.approx(balance(0.9, 1e-3, 0.05, 0.9, 20), rel=1e-6)
    assert measure.bounds is not None
    assert measure.bounds.high == math.inf
    assert measure.bounds.best == pytest.approx(balance(0.5, 1e-3, math.sqrt(1e-3), 0.9, 20), rel=1e-6)


def test_a_path_that_ends_inside_has_no_face(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(one(PAD, ends=ENDS.replace("to: air", "to: shell")))
    assert measure_of(FACE, record).bounds is None
    rise = measure_of(RISE, record).bounds
    assert rise is not None
    assert (rise.low, rise.high) == pytest.approx((5, math.inf))  # 0.5 W through 10 K/W, above whatever the shell is at


@pytest.mark.parametrize(
    ("power", "words"),
    [
        ("0.1 W", "below 48 °C"),
        ("0.6 W", "it may be below or above 48 °C"),
        ("3 W", "above 48 °C"),
    ],
)
def test_touch_is_told_beside_the_published_value(
    power: str, words: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("face-temperature", record_of(one(PAD, SHELL, ends=ENDS.replace("0.5 W", power))))
    assert f"{words}, the TS1 value of IEC 62368-1 for plastic held for over 1 min" in measure.said
    assert measure.said.endswith("an estimate, no statement on safety")
    assert any("from memory" in text for text in measure.assumed)
    unknown = one(PAD, SHELL).replace(", material: ABS", "")
    assert "for any material held" in measure_of("face-temperature", record_of(unknown)).said


def test_the_outside_lies_between_its_pieces_and_the_box_around_it(record_of: RecordOf, measure_of: MeasureOf) -> None:
    product = "archdiff: 1\nproduct: {name: Tarvo, kind: test object, envelope: 50 x 12 x 40 mm}\n"
    record = record_of(product + one(PAD, SHELL) + "power: {in_use: 0.8 W}\n")
    bounds = measure_of("outside-rise", record).bounds
    assert bounds is not None
    # At most 0.8 W from the shell's 20 cm² at 23 °C, all of it facing down: 40 x 50 mm over an edge of 180 mm.
    assert bounds.high == pytest.approx(balance(0.8, 2e-3, 2.0 / 180, 0.9, 23, DOWN), rel=1e-6)
    # At least the path's 0.5 W from the box of 2 (50 x 12 + 12 x 40 + 40 x 50) = 6160 mm², facing up, 12 x 40 mm
    # over an edge of 104 mm; what no piece states may be black: 1 - 0.1 x 2000 / 6160.
    least = balance(0.5, 6.16e-3, 0.48 / 104, 1 - 0.1 * 2000 / 6160, 23, UP)
    assert bounds.low == pytest.approx(least, rel=1e-6)


def test_power_per_area_by_hand(record_of: RecordOf, measure_of: MeasureOf) -> None:
    product = "archdiff: 1\nproduct: {name: Tarvo, kind: test object, envelope: 50 x 12 x 40 mm}\n"
    board = "boards: {main: {outline: 40 x 20 mm}}\n"
    text = product + one(PAD, SHELL).replace("paths: whole", "paths: whole, boards: whole") + board
    record = record_of(text + "power: {in_use: 0.8 W}\n")
    outer, boards = (measure_of(name, record).bounds for name in ("power-per-outer-area", "power-per-board-area"))
    assert outer is not None
    assert boards is not None
    assert (outer.low, outer.best, outer.high) == pytest.approx((800 / 61.6, 800 / 20, 800 / 20))  # mW over cm²
    assert (boards.low, boards.high) == pytest.approx((100, 100))


def test_a_formula_taken_beyond_its_range_says_so(record_of: RecordOf, measure_of: MeasureOf) -> None:
    # A flat face of 10 cm², a few K warm: its Rayleigh number is far below 10 000, where McAdams' formula begins.
    small = measure_of(FACE, record_of(one(PAD, SHELL).replace("facing: front", "facing: up"))).how
    assert "Rayleigh number" in small
    assert "the formula is given from 1e+04 to 1e+11" in small
    assert "Rayleigh number" not in measure_of(FACE, record_of(one(PAD, SHELL))).how
