"""Power entry, supplies and conductors against published values.

Flags: read (in a stored copy of the source or of a page that quotes it), recomputed (with a general library), by hand,
from memory. No table of an IEC, EIAJ or IPC standard was seen in the standard itself: second-hand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures
from archdiff.physics.circuits import conductor_resistance, divided_voltage, heated_current
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

FIGURES = {figure.id: figure.of_product for figure in all_figures()}
WHOLE = "coverage: {power: whole, parts: whole, interconnects: whole}\n"


def measure(name: str, record: Record) -> Measure:
    compute = FIGURES[name]
    assert compute is not None
    return compute(record)


def value(name: str, record: Record) -> float:
    bounds = measure(name, record).bounds
    assert bounds is not None
    assert bounds.is_exact
    return bounds.low


# USB Type-C: source pull-ups to 5 V and currents read in a vendor's manual that quotes the specification; the voltages
# across the sink's 5.1 kohm by hand.
@pytest.mark.parametrize(
    ("source", "pull_up", "volts", "amps"),
    [("default", 56e3, 0.417, (0.5, 0.9)), ("1.5 A", 22e3, 0.941, (1.5, 1.5)), ("3 A", 10e3, 1.689, (3.0, 3.0))],
)
def test_a_type_c_source_tells_what_it_gives(
    source: str, pull_up: float, volts: float, amps: tuple[float, float]
) -> None:
    table = read_table("usb_sources")
    row, seen = table.rows[source], table.rows[f"told as {source}"]
    assert row.number("pull_up") == pull_up
    assert row.span("current") == amps
    told = divided_voltage(5.0, pull_up, 5.1e3)
    assert told == pytest.approx(volts, abs=5e-4)
    assert seen.number("above") < told < seen.number("below")


def test_a_type_c_source_gives_half_an_ampere_to_three_at_5_v(record_of: RecordOf) -> None:
    # 0.5 A x 5 V to 3 A x 5 V = 15 W: read, products by hand.
    box = "supplied_with: {means: USB lead}"
    entry = f"means: USB Type-C, voltage: 5 V, current: 0.4 A, configuration: 5.1 kohm, {box}"
    record = record_of(f"{WHOLE}power: {{entry: {{port: {{{entry}}}}}}}\n")
    power = measure("source-power", record)
    assert power.bounds is not None
    assert (power.bounds.low, power.bounds.high) == (2.5, 15.0)
    assert power.said.startswith("by rating PS1, at most 15 W")
    assert value("source-load", record) == pytest.approx(0.8)
    assert "0.417" in measure("source-load", record).how


# (EU) 2019/1782, annex II 1: formulas read, values by hand with four digits.
@pytest.mark.parametrize(
    ("volts", "amps", "floor", "no_load"),
    [
        (12, 1, 0.8296, 0.10),
        (15, 3, 0.8773, 0.10),
        (20, 3.25, 0.880, 0.21),
        (5, 2, 0.7870, 0.10),
        (9, 0.1, 0.610, 0.10),  # 0.5 x 0.9 + 0.160
        (5, 0.5, 0.7316, 0.10),  # below 0.55 A, so an ordinary one: 0.071 ln 2.5 - 0.0035 + 0.67
    ],
)
def test_limits_of_external_supplies(
    volts: float, amps: float, floor: float, no_load: float, record_of: RecordOf
) -> None:
    box = f"supplied_with: {{means: wall adapter, voltage: {volts} V, current: {amps} A}}"
    record = record_of(f"{WHOLE}power: {{entry: {{jack: {{means: coaxial dc socket, {box}}}}}}}\n")
    assert value("supply-efficiency-limit", record) == pytest.approx(floor, abs=5e-5)
    assert value("supply-no-load-limit", record) == pytest.approx(no_load)


# IEC 62368-1, 6.2.2: 15 W read in a consultancy's page on the clause, 100 W from memory of the same clause.
@pytest.mark.parametrize(
    ("rated", "words"),
    [
        ("14 W", "PS1, at most 15 W"),
        ("15 W", "PS1, at most 15 W"),
        ("65 W", "PS2, at most 100 W"),
        ("140 W", "PS3, above 100 W"),
    ],
)
def test_classes_of_power_sources(rated: str, words: str, record_of: RecordOf) -> None:
    text = f"{WHOLE}power: {{entry: {{jack: {{supplied_with: {{power: {rated}}}}}}}}}\n"
    said = measure("source-power", record_of(text)).said
    assert said.startswith(f"by rating {words} (")
    assert said.endswith("no verdict)")


# EIAJ RC-5320A as two pages quote it: outer and inner diameter of the plug, and up to how many volts. Read second-hand.
@pytest.mark.parametrize(
    ("outer", "inner", "class_", "above", "to"),
    [
        (2.35, 0.7, 1, 0, 3.15),
        (4.0, 1.7, 2, 3.15, 6.3),
        (4.75, 1.7, 3, 6.3, 10.5),
        (5.5, 3.3, 4, 10.5, 13.5),
        (6.5, 4.4, 5, 13.5, 18),
    ],
)
def test_classes_of_coaxial_plugs(
    outer: float, inner: float, class_: int, above: float, to: float, record_of: RecordOf
) -> None:
    facts = f"means: coaxial dc plug, voltage: {to} V, plug_outer: {outer} mm, plug_inner: {inner} mm"
    said = measure("entry-voltage", record_of(f"{WHOLE}power: {{entry: {{jack: {{{facts}}}}}}}\n")).said
    assert said == f"EIAJ RC-5320A class {class_} (above {above:g} up to {to:g} V)"


@pytest.mark.parametrize("inner", [2.1, 2.5])
def test_the_common_plugs_are_tied_to_no_voltage(inner: float, record_of: RecordOf) -> None:
    # IEC 60130-10 type A: from memory.
    facts = f"means: coaxial dc plug, voltage: 12 V, plug_outer: 5.5 mm, plug_inner: {inner} mm"
    said = measure("entry-voltage", record_of(f"{WHOLE}power: {{entry: {{jack: {{{facts}}}}}}}\n")).said
    assert said == f"IEC 60130-10 type A for a {inner} mm pin (tied to no voltage)"


def test_residual_charge(record_of: RecordOf) -> None:
    # 100 uF at 325 V hold 5.281 J; 0.1 uF behind 1 Mohm fall from 325 V to 60 V in 0.169 s: by hand. 60 V: from memory.
    parts = "C1: {means: electrolytic capacitor, capacitance: 100 uF, voltage: 325 V, bleed: 1 Mohm}"
    assert value("residual-energy", record_of(f"{WHOLE}parts: {{{parts}}}\n")) == pytest.approx(5.281, abs=5e-4)
    slow = "C2: {means: film capacitor, capacitance: 0.1 uF, voltage: 325 V, bleed: 1 Mohm}"
    assert value("bleed-time", record_of(f"{WHOLE}parts: {{{slow}}}\n")) == pytest.approx(0.169, abs=5e-4)


def test_energy_of_a_battery(record_of: RecordOf) -> None:
    # 3.7 V x 2.6 Ah = 9.62 Wh, and 100 Wh the threshold of ADR special provision 188: read, products by hand.
    record = record_of(f"{WHOLE}power: {{storage: {{cell: {{voltage: 3.7 V, charge: 2.6 A*h}}}}}}\n")
    assert value("stored-energy", record) == pytest.approx(9.62)
    assert value("transport-share", record) == pytest.approx(0.0962)


# IPC-2221 as several calculators quote it, read; widths for 1 A, 10 K and 1 oz (1.378 mil) by hand.
@pytest.mark.parametrize(("layer", "width"), [("outer layer", 0.3004), ("inner layer", 0.7814)])
def test_width_of_a_track_for_one_ampere(layer: str, width: float) -> None:
    row, rise = read_table("copper").rows[layer], read_table("copper").rows["usual rise"].number("rise")
    constants = (row.number("factor"), row.number("rise_exponent"), row.number("area_exponent"))
    assert heated_current(width, 1.378 * 0.0254, rise, constants) == pytest.approx(1.0, abs=2e-4)


def test_resistance_of_a_track() -> None:
    # 100 mm x 0.5 mm x 35 um of copper of 1.724e-8 ohm m have 98.51 mohm at 20 degC: by hand.
    copper = read_table("copper").rows["annealed copper"]
    assert copper.number("temperature") == 20
    ohms = conductor_resistance(copper.number("resistivity"), 100, 0.5, 0.035)
    assert ohms == pytest.approx(0.09851, abs=5e-6)


def test_a_flat_link_against_the_current_for_ten_kelvin(record_of: RecordOf) -> None:
    # The same track as a flat link: 1 A in one way is just what warms 0.3004 mm x 35 um by 10 K; drop by R I = 98.51 mV.
    def link(width: str) -> Record:
        sizes = f"length: 100 mm, conductor_width: {width}, conductor_thickness: 35.0012 um"
        facts = f"means: flexible printed circuit, current: 1 A, supply_ways: 1, {sizes}"
        ends = "boards: {a: {}, b: {}}\n"
        return record_of(f"{WHOLE}{ends}interconnects: {{flex: {{between: [a, b], {facts}}}}}\n")

    assert value("way-load", link("0.3004 mm")) == pytest.approx(1.0, abs=2e-4)
    assert value("way-drop", link("0.5 mm")) == pytest.approx(0.09851, abs=1e-5)
