"""One product in two sets of units gives one set of figures; narrower facts give narrower bounds; wrong units are refused."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import all_figures
from archdiff.record import Document
from archdiff.record.build import build_record
from archdiff.record.text import parse_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.quantities import Bounds
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

FAMILIES = ("power", "supply", "ways", "energy")
FIGURES = {figure.id: figure.of_product for figure in all_figures() if figure.family in FAMILIES and figure.of_product}
# {A0} and the like stand for the same quantity in the first and in the second unit.
PRODUCT = """coverage: {{power: whole, interconnects: whole, parts: whole, controls: whole, indicators: whole, sensors: whole, actuators: whole, antennas: whole, shields: whole}}
boards: {{a: {{}}, b: {{}}}}
parts:
  U1: {{means: microcontroller, current: {0}, fed_by: v33}}
  U2: {{means: linear regulator, power: {1}, fed_by: vin}}
  C1: {{means: electrolytic capacitor, capacitance: {2}, voltage: {3}, bleed: {4}}}
interconnects:
  flex: {{between: [a, b], means: flexible printed circuit, current: {5}, supply_ways: 2, length: {6}, conductor_width: {7}, conductor_thickness: {8}}}
power:
  entry:
    port: {{means: USB Type-C, voltage: {9}, current: {10}, configuration: {11}, supplied_with: {{means: USB lead}}}}
    jack: {{means: coaxial dc socket, voltage: {12}, current: {13}, plug_outer: {14}, plug_inner: {15}, supplied_with: {{means: wall adapter, voltage: {16}, current: {17}, power: {18}, no_load: {19}, efficiency: {20}}}}}
  storage: {{cell: {{means: pouch cell, voltage: {21}, charge: {22}}}, pack: {{energy: {23}}}}}
  rails:
    vin: {{voltage: {24}, current: {25}, limit: {26}, from: jack, efficiency: {27}}}
    v33: {{voltage: {28}, current: {29}, limit: {30}, from: vin, made_by: U2}}
  in_use: {31}
  standby: {32}
"""
UNITS = (
    ("90 mA", "0.09 A"), ("0.2 W", "200 mW"), ("100 uF", "0.0001 F"), ("325 V", "0.325 kV"), ("100 kohm", "0.1 Mohm"),
    ("0.2 A", "200 mA"), ("50 mm", "5 cm"), ("0.25 mm", "250 um"), ("18 um", "0.018 mm"), ("5 V", "5000 mV"),
    ("150 mA", "0.15 A"), ("5.1 kohm", "5100 ohm"), ("12 V", "12000 mV"), ("0.2 A", "200 mA"), ("5.5 mm", "0.55 cm"),
    ("2.1 mm", "2100 um"), ("12 V", "0.012 kV"), ("1500 mA", "1.5 A"), ("18 W", "18000 mW"), ("80 mW", "0.08 W"),
    ("87 %", "0.87"), ("3.7 V", "3700 mV"), ("2600 mAh", "2.6 A*h"), ("9 Wh", "32400 J"), ("5 V", "5000 mV"),
    ("0.2 A", "200 mA"), ("1 A", "1000 mA"), ("100 %", "1"), ("3.3 V", "3300 mV"), ("0.1 A", "100 mA"),
    ("500 mA", "0.5 A"), ("1.2 W", "1200 mW"), ("300 mW", "0.3 W"),
)  # fmt: skip
NOT_A_NUMBER = {"supply-efficiency-limit", "supply-no-load-limit"}  # these also tell a stated text, in its own unit


def test_there_is_a_slot_for_each_quantity() -> None:
    assert PRODUCT.format(*range(len(UNITS))).count("{{") == 0
    assert f"{{{len(UNITS) - 1}}}" in PRODUCT


@pytest.mark.parametrize("name", FIGURES)
def test_the_unit_in_which_a_fact_is_written_makes_no_difference(name: str, record_of: RecordOf) -> None:
    first, second = (record_of(PRODUCT.format(*(pair[side] for pair in UNITS))) for side in (0, 1))
    one, other = FIGURES[name](first), FIGURES[name](second)
    assert one.bounds is not None, one
    assert other.bounds is not None
    assert (one.bounds.low, one.bounds.high) == pytest.approx((other.bounds.low, other.bounds.high), rel=1e-9)
    assert one.parts.keys() == other.parts.keys()
    assert (one.used, one.missing) == (other.used, other.missing)
    assert name in NOT_A_NUMBER or one.said == other.said


@pytest.mark.parametrize("place", range(len(UNITS)))
def test_each_quantity_sways_a_figure_or_its_words(place: int, record_of: RecordOf) -> None:
    # Otherwise the test above would hold nothing of it.
    written = [pair[0] for pair in UNITS]
    changed = [*written[:place], _lowered(written[place]), *written[place + 1 :]]
    one, other = (record_of(PRODUCT.format(*texts)) for texts in (written, changed))
    assert any(
        (a.bounds, a.parts, a.said, a.how) != (b.bounds, b.parts, b.said, b.how)
        for compute in FIGURES.values()
        for a, b in [(compute(one), compute(other))]
    )


def _lowered(text: str) -> str:
    amount, unit = text.split(" ", 1)
    return f"{float(amount) * 0.4:g} {unit}"


@pytest.mark.parametrize(
    "wrong",
    [
        "parts: {U1: {power: 3 g}}",
        "parts: {C1: {capacitance: 100 ohm}}",
        "power: {entry: {jack: {voltage: 5 A}}}",
        "power: {entry: {jack: {voltage: 236 g}}}",
        "power: {entry: {jack: {current: 2}}}",
        "power: {storage: {cell: {charge: 9.6 Wh}}}",
        "power: {rails: {v5: {limit: 3 V}}}",
        "power: {in_use: 2 Wh}",
        "interconnects: {l: {between: [a, b], conductor_width: 3 V}}",
    ],
)
def test_a_mass_in_volts_and_its_like_are_refused_at_their_line(wrong: str) -> None:
    text = f"archdiff: 1\nproduct: {{name: Tarvo, kind: test}}\nboards: {{a: {{}}, b: {{}}}}\n{wrong}\n"
    _, problems = build_record(parse_text(text, "record.yaml"))
    assert {(problem.line, problem.rule) for problem in problems} == {(4, "not-a-quantity")}
    assert all(problem.hint for problem in problems)


AMOUNTS = st.tuples(st.floats(0.2, 0.9), st.floats(1.1, 5.0), st.floats(0.2, 0.9), st.floats(1.1, 5.0))


def spread(best: float, unit: str, share: float, more: float) -> str:
    return f"{best * share!r}..{best * more!r} {unit}"


# The rails stay consistent whatever is drawn: each range holds one true product.
TRUE = {
    ("parts", "U1", "current"): (0.09, "A"), ("parts", "U1", "power"): (0.3, "W"), ("parts", "C1", "capacitance"): (1e-4, "F"),
    ("parts", "C1", "voltage"): (325.0, "V"), ("parts", "C1", "bleed"): (1e5, "ohm"),
    ("interconnects", "flex", "current"): (0.2, "A"), ("interconnects", "flex", "length"): (50.0, "mm"),
    ("interconnects", "flex", "conductor_width"): (0.25, "mm"), ("interconnects", "flex", "conductor_thickness"): (0.018, "mm"),
    ("power", "entry", "jack", "voltage"): (12.0, "V"), ("power", "entry", "jack", "current"): (0.2, "A"),
    ("power", "entry", "jack", "supplied_with", "current"): (1.5, "A"), ("power", "entry", "jack", "supplied_with", "voltage"): (12.0, "V"),
    ("power", "storage", "cell", "voltage"): (3.7, "V"), ("power", "storage", "cell", "charge"): (2600.0, "mAh"),
    ("power", "rails", "v5", "voltage"): (5.0, "V"), ("power", "rails", "v5", "current"): (0.4, "A"), ("power", "rails", "v5", "limit"): (1.0, "A"),
    ("power", "rails", "v33", "voltage"): (3.3, "V"), ("power", "rails", "v33", "current"): (0.1, "A"), ("power", "rails", "v33", "limit"): (0.5, "A"),
    ("power", "in_use"): (1.2, "W"), ("power", "standby"): (0.3, "W"),
}  # fmt: skip
FIXED = {
    ("parts", "U1", "means"): "microcontroller", ("parts", "U1", "fed_by"): "v33", ("parts", "U2", "means"): "linear regulator",
    ("parts", "U2", "power"): "0.2 W", ("parts", "C1", "means"): "electrolytic capacitor", ("interconnects", "flex", "between"): ["a", "b"],
    ("interconnects", "flex", "means"): "flexible printed circuit", ("interconnects", "flex", "supply_ways"): 2,
    ("power", "entry", "jack", "means"): "coaxial dc socket", ("power", "rails", "v5", "from"): "jack",
    ("power", "rails", "v33", "from"): "v5", ("power", "rails", "v33", "made_by"): "U2",
    ("boards", "a", "name"): "a", ("boards", "b", "name"): "b", ("power", "storage", "cell", "name"): "cell",
}  # fmt: skip
COVERED = ("power", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas", "shields")


def made(facts: dict[tuple[str, ...], Any]) -> Record:
    data: dict[str, Any] = {
        "archdiff": 1,
        "product": {"name": "T", "kind": "t"},
        "coverage": dict.fromkeys(COVERED, "whole"),
    }
    for path, fact in (FIXED | facts).items():
        holder = data
        for step in path[:-1]:
            holder = holder.setdefault(step, {})
        holder[path[-1]] = fact
    record, problems = build_record(Document("made", data))
    assert not problems, problems
    return record


def lies_in(inner: Bounds | None, outer: Bounds | None) -> bool:
    if outer is None or inner is None:
        return outer is None
    spare = 1e-9 * max(1.0, abs(inner.low))
    return outer.low <= inner.low + spare and inner.high <= outer.high + spare


@settings(deadline=None, max_examples=100)
@given(st.fixed_dictionaries(dict.fromkeys(TRUE, AMOUNTS)), st.sets(st.sampled_from(sorted(TRUE))))
def test_narrower_facts_give_narrower_bounds_and_all_hold_the_true_value(
    drawn: dict[tuple[str, ...], tuple[float, float, float, float]], hidden: set[tuple[str, ...]]
) -> None:
    wide, narrow, exact = {}, {}, {}
    for path, (best, unit) in TRUE.items():
        low, high, nearer, less = drawn[path]
        exact[path] = f"{best!r} {unit}"
        narrow[path] = spread(best, unit, low + (1 - low) * nearer, 1 + (high - 1) / less)
        wide[path] = spread(best, unit, low, high)
    bare = {path: fact for path, fact in wide.items() if path not in hidden}
    true, some, more, least = (made(facts) for facts in (exact, narrow, wide, bare))
    for name, compute in FIGURES.items():
        chain = [compute(record).bounds for record in (true, some, more, least)]
        for inner, outer in pairwise(chain):
            assert lies_in(inner, outer), (name, chain)
