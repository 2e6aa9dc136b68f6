"""Rules say only what is certain: looser bounds never bring a new finding; and the quick sweep misses no pair."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archdiff.record import read_record
from archdiff.rules import all_rules

if TYPE_CHECKING:
    from pathlib import Path

    from archdiff.record import Record

HEAD = "archdiff: 1\n"
CALM = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
# Every number that may be loose, in the order of the template below.
SPANS = {
    "mass": (1, 400),
    "piece": (1, 400),
    "board": (10, 60),
    "area": (50, 3000),
    "across": (-5, 65),
    "size": (1, 30),
    "near": (1, 60),
    "pitch": (1, 3),
    "width": (1, 20),
    "volts": (1, 20),
    "amps": (1, 5),
    "rail": (1, 20),
    "drawn": (1, 9),
    "limit": (1, 9),
    "watts": (1, 60),
    "port": (1, 200),
    "wall": (1, 120),
    "energy": (1, 90),
    "charge": (100, 9000),
}
TEMPLATE = """\
product: {{name: Thing, kind: device, mass: {mass} g, envelope: 60 x 60 x 30 mm}}
boards:
  main: {{outline: {board} x {board} mm, area: {area} mm2, cut_outs: [{{size: {size} x {size} mm, at: [{across} mm, 20 mm]}}]}}
  front: {{}}
parts:
  U1: {{on: main, side: top, at: [{across} mm, 20 mm], size: {size} x {size} mm}}
  U2: {{on: main, side: top, at: [{near} mm, 22 mm], size: {size} x 8 mm, turned: 90 deg}}
  U3: {{on: main, at: [{across} mm, {near} mm]}}
  U4: {{voltage: {volts} V, current: {amps} A, power: {watts} W, fed_by: v3, mass: {piece} g}}
sensors: {{mic: {{port: {{length: {port} mm}}}}}}
interconnects: {{flex: {{between: [main, front], ways: 12, pitch: {pitch} mm, width: {width} mm}}}}
power:
  entry: {{jack: {{voltage: {volts} V, current: {drawn} A, means: coaxial dc socket, supplied_with: {{current: {limit} A}}}}}}
  storage: {{cell: {{voltage: {volts} V, charge: {charge} mAh, energy: {energy} Wh}}}}
  rails: {{v3: {{from: jack, voltage: {rail} V, current: {drawn} A, limit: {amps} A}}}}
  in_use: {watts} W
enclosure: {{lower: {{mass: {piece} g}}}}
paths: {{heat: {{kind: heat, from: U1, through: [{{what: a, thickness: {wall} mm}}, {{what: b, thickness: {wall} mm}}]}}}}
"""
numbers = st.fixed_dictionaries({name: st.integers(*span) for name, span in SPANS.items()})
looseness = st.fixed_dictionaries({name: st.tuples(st.integers(0, 9), st.integers(0, 9)) for name in SPANS})


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("certainty") / "record.yaml"


def record_of(file: Path, text: str) -> Record:
    file.write_text(HEAD + text, "utf-8")
    record, problems = read_record(file)
    assert record is not None
    assert not problems
    return record


def findings(record: Record) -> set[tuple[str, tuple[str | int, ...]]]:
    return {(known.name, finding.path) for known in all_rules() for finding in known.check(record)}


# Numbers written in two ways at once in the template (a size has one form for all its sides) stay as they are.
ALONE = sorted(set(SPANS) - {"board", "size"})


@given(numbers, looseness)
@CALM
def test_looser_bounds_bring_no_new_finding(
    file: Path, exact: dict[str, int], loose: dict[str, tuple[int, int]]
) -> None:
    ranges = {name: f"{value - loose[name][0]}..{value + loose[name][1]}" for name, value in exact.items()}
    tight = findings(record_of(file, TEMPLATE.format(**exact)))
    wide = findings(record_of(file, TEMPLATE.format(**{**exact, **{name: ranges[name] for name in ALONE}})))
    wider_sizes = findings(record_of(file, TEMPLATE.format(**ranges)))
    # Rules that speak only where a stricter one does not: they may take its place.
    milder = {
        ("ways-need-two-rows", ("interconnects", "flex", "ways")),
        ("pieces-heavier-than-product", ("product", "mass")),
    }
    assert wide - milder <= tight
    assert wider_sizes - milder <= tight


bodies = st.lists(
    st.tuples(st.integers(0, 60), st.integers(0, 40), st.integers(1, 20), st.integers(1, 20), st.booleans()),
    max_size=14,
)


@given(bodies)
@CALM
def test_the_sweep_finds_what_looking_at_every_pair_finds(
    file: Path, bodies: list[tuple[int, int, int, int, bool]]
) -> None:
    lines = [
        f"  U{i}: {{on: main, side: {'top' if top else 'bottom'}, at: [{x} mm, {y} mm], size: {w} x {h} mm, turned: 0 deg}}"
        for i, (x, y, w, h, top) in enumerate(bodies)
    ]
    product = "product: {name: Thing, kind: device}\nboards: {main: {}}\n"
    record = record_of(file, product + ("parts:\n" + "\n".join(lines) + "\n" if lines else ""))
    overlap = next(known for known in all_rules() if known.name == "bodies-overlap")
    expected = []
    for (i, one), (j, other) in combinations(enumerate(bodies), 2):
        # Two intervals share their length less the distance of their middles, at most the shorter of the two.
        shared = [
            min((one[k + 2] + other[k + 2]) / 2 - abs(one[k] - other[k]), one[k + 2], other[k + 2]) for k in (0, 1)
        ]
        if one[4] == other[4] and min(shared) > 0.5:
            expected.append((i, j))
    found = sorted(finding.path for finding in overlap.check(record))
    assert found == sorted(("parts", f"U{j}", "at") for _, j in expected)
