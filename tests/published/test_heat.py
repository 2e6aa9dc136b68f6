"""Heat, from records: published and hand-made values of resistances, boards, faces and touch.

Flags: R read in a copy of the source or of a page quoting it, M from memory, C recomputed by hand.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures
from archdiff.physics.materials import material_named
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]


def measured(name: str, record: Record) -> Measure:
    compute = next(figure.of_product for figure in all_figures() if figure.id == name)
    assert compute is not None
    return compute(record)


def path(*stages: str, **facts: str) -> str:
    stated = "".join(f", {name}: {value}" for name, value in facts.items())
    return f"coverage: {{paths: whole}}\npaths: {{out: {{kind: heat, from: chip, through: [{', '.join(stages)}]{stated}}}}}\n"


SLAB = "{what: pad, thickness: 1 mm, conductivity: 3 W/m/K, area: 225 mm2}"
GAP = "{what: gap, thickness: 0.5 mm, conductivity: 0.026 W/m/K, area: 225 mm2}"
RING = math.pi * (0.3 * 0.025 - 0.025**2)  # mm² of copper in a hole of 0.3 mm with 25 um of plating
HOLES = f"{{what: holes, thickness: 1.6 mm, conductivity: 398 W/m/K, area: {RING:.9g} mm2, parallel: 25}}"


@pytest.mark.parametrize(
    ("stages", "resistance"),
    [
        ((SLAB,), 1.4815),  # C: 1 mm of 3 W/mK under 15 x 15 mm
        ((GAP,), 85.47),  # C: 0.5 mm of air there
        ((SLAB, GAP), 86.95),  # C: one after the other
        ((HOLES,), 7.445),  # R, C: 25 plated holes of 186.1 K/W each
        (("{what: 'two ways of 15 K/W', resistance: 15 K/W, parallel: 2}",), 7.5),  # C: half of one
    ],
)
def test_resistance_of_a_path(stages: tuple[str, ...], resistance: float, record_of: RecordOf) -> None:
    bounds = measured("heat-path-resistance", record_of(path(*stages))).bounds
    assert bounds is not None
    assert bounds.low == pytest.approx(resistance, rel=2e-4)
    assert bounds.is_exact


def test_junction_over_case_over_air(record_of: RecordOf) -> None:
    """Ta + P x sum of resistances: 25 + 5 (3 + 1 + 8) = 85 °C at the junction, 70 °C at the case (R, C)."""
    stages = (
        "{what: package, resistance: 3 K/W}",
        "{what: paste, resistance: 1 K/W}",
        "{what: sink, resistance: 8 K/W}",
    )
    measure = measured("heat-path-resistance", record_of(path(*stages)))
    assert measure.bounds is not None
    assert 25 + 5 * measure.bounds.low == pytest.approx(85)
    inside = next(bounds for name, bounds in measure.parts.items() if name.endswith("stage 1: package"))
    assert 85 - 5 * inside.low == pytest.approx(70)


def test_a_board_of_four_layers(record_of: RecordOf) -> None:
    """35.79 and 0.3759 W/mK with copper of 398 (Sarvar et al. 1990, Graebner & Azar 1997; R, C); ours goes to 401."""
    facts = "{layers: 4, copper: 35 um, thickness: 1.6 mm, material: FR-4}"
    record = record_of(f"coverage: {{boards: whole}}\nboards: {{main: {facts}}}\n")
    along = measured("board-conductivity-along", record).bounds
    through = measured("board-conductivity-through", record).bounds
    assert along is not None
    assert through is not None
    assert along.low == 1.059
    assert along.high == pytest.approx(35.79, rel=0.01)
    assert through.low == 0.343
    assert through.high == pytest.approx(0.3759, rel=2e-4)


@pytest.mark.parametrize(
    ("facing", "printed", "agreed"), [("front", 46.6, 46.43), ("up", 42.6, 42.84), ("down", 50.7, 50.20)]
)
def test_a_printed_board_that_gives_off_8_watts(
    facing: str, printed: float, agreed: float, record_of: RecordOf
) -> None:
    """Çengel, Heat and Mass Transfer, ch. 9 (problem R, answers M); sought until both sides agree (C).

    Our air is CoolProp's, which conducts 3 % more than the book's: that makes 0.3 K. The record does not say that
    the board stands on its long side, so its height lies between the two.
    """
    facts = {"power": "8 W", "ambient": "20 degC", "to": "air", "facing": facing}
    stages = "{what: plate, thickness: 2 mm, area: 300 cm2, conductivity: 20 W/m/K}"
    plate = "enclosure: {plate: {size: 200 x 150 x 2 mm, area: 300 cm2, emissivity: 0.8}}\n"
    bounds = measured("face-temperature", record_of(path(stages, **facts) + plate)).bounds
    assert bounds is not None
    assert bounds.low <= printed <= bounds.high + 0.6
    assert bounds.low <= agreed <= bounds.high + 0.3
    assert bounds.high - bounds.low < 1.5


@pytest.mark.parametrize(
    ("material", "low", "high"),
    [
        ("aluminium 6061", 150, 167),
        ("copper", 394, 401),
        ("mild steel", 50, 50),
        ("stainless steel", 20, 20),
        ("polycarbonate", 0.2, 0.2),
        ("ABS", 0.17, 0.2),
        ("air", 0.025, 0.026),
        ("thermal grease", 1, 4),
        ("thermal pad", 1, 6),
        ("FR-4", 0.343, 1.059),
    ],
)
def test_spans_of_conductivity_hold_published_ones(material: str, low: float, high: float) -> None:
    """Handbook values R or M; a word such as 'copper' covers more grades than any one of them."""
    row = material_named(material)
    assert row is not None
    ends = row.span("conductivity")
    assert ends[0] <= low <= high <= ends[1]
    assert ends[0] > low / 2 or ends == (low, high)


# IEC 62368-1 TS1 for metal, glass, plastic in °C (48 read second-hand, the rest from memory).
TOUCH = {
    "over 1 min": (48, 48, 48),
    "10 s to 1 min": (51, 56, 60),
    "1 s to 10 s": (60, 71, 77),
    "up to 1 s": (70, 85, 94),
}


def test_touch_temperatures_are_those_of_the_standard() -> None:
    rows = read_table("touch_limits").rows
    kinds = ("metal", "glass", "plastic")
    assert {name: tuple(row.number(kind) for kind in kinds) for name, row in rows.items()} == TOUCH
