"""Figures of heat whatever the units, whatever is known how closely, and for the example; nonsense never gets there."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import all_figures
from archdiff.problems import Severity
from archdiff.record import Document, Record, read_record
from archdiff.record.build import build_record
from archdiff.rules import check_record

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from archdiff.quantities import Bounds

    RecordOf = Callable[[str], Record]

FIGURES = {f.id: f.of_product for f in all_figures() if f.family == "heat" and f.of_product is not None}

BUILD = """coverage: {{boards: whole, paths: whole, enclosure: whole}}
product: {{name: Tarvo, kind: test object, envelope: {envelope}}}
boards: {{main: {{outline: {outline}, thickness: {board}, layers: 4, copper: {copper}, material: FR-4}}}}
parts: {{U1: {{power: 1.2 W}}, pad: {{size: {pad}, material: gap pad}}}}
power: {{in_use: {in_use}}}
enclosure: {{shell: {{size: {body}, thickness: {wall}, area: {outer}, emissivity: {emissivity}, conductivity: {plastic}}}}}
paths:
  out: {{kind: heat, from: U1, to: air, facing: up, power: {power}, ambient: {ambient}, through: [
    {{what: package, resistance: {package}}}, {{what: pad}}, {{what: strip, length: {strip}, area: {across}, conductivity: {metal}}},
    {{what: shell, area: {warm}}}]}}
"""
ONE = {
    "envelope": "76.2 x 50.8 x 25.4 mm", "outline": "50.8 x 25.4 mm", "board": "1.6 mm", "copper": "35 um",
    "pad": "10 x 10 x 2.54 mm", "in_use": "1.5 W", "body": "76.2 x 12.7 x 50.8 mm", "wall": "2.54 mm",
    "outer": "80 cm2", "emissivity": "0.9", "plastic": "0.2 W/m/K", "power": "1.1 ± 0.1 W", "ambient": "25 degC",
    "package": "3 K/W", "strip": "25.4 mm", "across": "20 mm2", "metal": "200 W/m/K", "warm": "3000..4000 mm2",
}  # fmt: skip
OTHER = {
    "envelope": "3 x 2 x 1 in", "outline": "2 x 1 in", "board": "0.16 cm", "copper": "0.035 mm",
    "pad": "1 x 1 x 0.254 cm", "in_use": "0.0015 kW", "body": "3 x 0.5 x 2 in", "wall": "100 mil",
    "outer": "8000 mm2", "emissivity": "90 %", "plastic": "2 mW/cm/K", "power": "1100 ± 100 mW", "ambient": "77 degF",
    "package": "0.003 K/mW", "strip": "1 inch", "across": "0.2 cm2", "metal": "2 W/cm/K", "warm": "0.003..0.004 m2",
}  # fmt: skip


def record_from(text: str) -> Record:
    import yaml

    data: dict[str, Any] = {"archdiff": 1, **yaml.safe_load(text)}
    record, problems = build_record(Document("made", data))
    assert not problems, problems
    return record


def same(a: Bounds, b: Bounds) -> bool:
    pairs = ((a.low, b.low), (a.high, b.high), (a.best or 0.0, b.best or 0.0))
    return all(math.isclose(x, y, rel_tol=1e-6) for x, y in pairs)


@pytest.mark.parametrize("name", sorted(ONE))
def test_each_input_may_be_stated_in_any_unit(name: str) -> None:
    assert ONE[name] != OTHER[name]
    less = re.sub(r"\d+(\.\d+)?", lambda found: f"{float(found[0]) * 0.9:g}", ONE[name], count=1)
    first, second, third = (record_from(BUILD.format(**{**ONE, name: text})) for text in (ONE[name], OTHER[name], less))
    moved = False
    for figure, compute in FIGURES.items():
        a, b, c = (compute(record).bounds for record in (first, second, third))
        assert a is not None, figure
        assert b is not None, figure
        assert same(a, b), (figure, a, b)
        moved = moved or c is None or not same(a, c)
    assert moved, "an input that sways no figure proves nothing"


def test_power_of_a_source_may_be_stated_in_any_unit() -> None:
    text = BUILD.replace("power: {power}, ", "").format(**ONE)  # the path does not say what takes it
    watts, milliwatts, less = (record_from(text.replace("1.2 W", power)) for power in ("1.2 W", "1200 mW", "0.9 W"))
    a, b, c = (FIGURES["face-rise"](record).bounds for record in (watts, milliwatts, less))
    assert a is not None
    assert b is not None
    assert c is not None
    assert same(a, b)
    assert c.high < a.high


# Every number below lies between 1 and 2 times its least: [low, high] as shares of that.
LEAST = {
    "board": (0.8, "mm"), "copper": (18, "um"), "in_use": (3, "W"), "outer": (60, "cm2"), "plastic": (0.1, "W/m/K"),
    "emissivity": (0.45, ""), "power": (0.5, "W"), "package": (1, "K/W"), "strip": (5, "mm"), "across": (20, "mm2"),
    "metal": (150, "W/m/K"), "warm": (1000, "mm2"), "ambient": (15, "degC"), "wall": (1, "mm"),
}  # fmt: skip
shares = st.tuples(*[st.floats(1, 2)] * 4).map(sorted)


@settings(deadline=None, max_examples=60)
@given(st.fixed_dictionaries(dict.fromkeys(LEAST, shares)))
def test_closer_inputs_give_closer_figures(drawn: dict[str, list[float]]) -> None:
    def stated(first: int, last: int) -> Record:
        spans = {
            name: f"{least * drawn[name][first]:.9g}..{least * drawn[name][last]:.9g} {unit}"
            for name, (least, unit) in LEAST.items()
        }
        return record_from(BUILD.format(**{**ONE, **spans}))

    wide, narrow = stated(0, 3), stated(1, 2)
    for figure, compute in FIGURES.items():
        outer, inner = compute(wide).bounds, compute(narrow).bounds
        assert outer is not None, figure
        assert inner is not None, figure
        slack = 1e-6 * max(1.0, inner.high)
        assert outer.low <= inner.low + slack, figure
        assert inner.high <= outer.high + slack, figure


# nonsense


@pytest.mark.parametrize(
    ("name", "nonsense", "rule"),
    [
        ("wall", "-2 mm", "quantity-below-zero"),
        ("warm", "-3 cm2", "quantity-below-zero"),
        ("power", "-1 W", "quantity-below-zero"),
        ("metal", "-200 W/m/K", "quantity-below-zero"),
        ("emissivity", "-0.1", "quantity-below-zero"),
        ("emissivity", "1.4", "ratio-above-one"),
        ("ambient", "-280 degC", "below-absolute-zero"),
        ("metal", "200000 W/m/K", "conductivity-of-no-material"),
        ("warm", "0 mm2", "area-of-nothing"),
        ("wall", "25.4 mm", "thicker-than-its-body"),
        ("power", "3 V", "quantity"),
        ("warm", "30 mm", "quantity"),
        ("ambient", "20 W", "quantity"),
        ("emissivity", "0.9 mm", "quantity"),
        ("package", "3 ohm", "quantity"),
        ("metal", "200 W", "quantity"),
        ("wall", "2", "quantity"),
    ],
)
def test_nonsense_is_refused_at_its_line(name: str, nonsense: str, rule: str, tmp_path: Path) -> None:
    file = tmp_path / "record.yaml"
    text = "archdiff: 1\n" + BUILD.format(**{**ONE, name: nonsense})
    file.write_text(text, "utf-8")
    record, problems = read_record(file)
    found = [*problems, *(check_record(record) if record is not None else [])]
    faults = [problem for problem in found if problem.severity is Severity.FAULT]
    line = next(number for number, words in enumerate(BUILD.splitlines(), start=2) if f"{{{name}}}" in words)
    rules = {problem.rule for problem in faults if problem.line == line}
    assert rules & ({"not-a-quantity", "wrong-shape"} if rule == "quantity" else {rule}), found
    assert all(problem.hint for problem in faults)


def test_a_mass_in_volts_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "record.yaml"
    file.write_text("archdiff: 1\nproduct: {name: Tarvo, kind: test object, mass: 12 V}\n", "utf-8")
    _, problems = read_record(file)
    assert [problem.line for problem in problems] == [2]
    assert "'V' is not a unit of mass" in problems[0].message


def test_a_slipped_decimal_point_is_hinted_at(record_of: RecordOf) -> None:
    product = "product: {name: Tarvo, kind: test object, envelope: 90 x 12 x 60 mm}\n"
    stage = "paths: {out: {kind: heat, from: chip, through: [{what: pad, thickness: 15 mm}]}}\n"
    (problem,) = check_record(record_of("archdiff: 1\n" + product + stage))
    assert problem.rule == "layer-thicker-than-product"
    assert problem.hint.startswith("did you mean '1.5 mm'?")
