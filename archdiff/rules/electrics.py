"""Electrics: connectors, converters, rails and capacitors that are said to bear, give or hold what they cannot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.physics.circuits import capacitor_energy
from archdiff.problems import Severity
from archdiff.quantities.bounds import total
from archdiff.rules.facts import number, shown, size_of
from archdiff.rules.rule import Finding, rule
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

# Rounded values of one thing may contradict each other by this share without anything being wrong.
_ROUNDING = 1.05
_FITS = 0.15  # mm, ours: measured with a caliper, and less than half of what sets two sizes of plug apart
_MM3_PER_CM3 = 1000.0
_LOADS = ("parts", "controls", "indicators", "sensors", "actuators", "antennas")


@rule("voltage-above-connector-class", order=520, severity=Severity.WARNING)
def voltage_above_connector_class(record: Record) -> Iterator[Finding]:
    """A connector is said to bring in more volts than its class is meant for."""
    for entry in record.section("power.entry"):
        volts, known = number(entry.facts, "voltage"), _class_limit(entry)
        if volts is not None and known is not None and volts.low > known[1] * _ROUNDING:
            name, most = known
            message = f"{entry.id} is said to carry {shown(volts, 'V')}, and {name} is meant for at most {most:g} V"
            hint = "check the voltage and its unit, the means, and the diameters of the plug"
            yield Finding((*entry.path, "voltage"), message, hint)


@rule("efficiency-above-voltages", order=521, severity=Severity.WARNING)
def efficiency_above_voltages(record: Record) -> Iterator[Finding]:
    """What lies in series with the current is said to be more efficient than its two voltages allow."""
    for rail in record.section("power.rails"):
        maker, source = (record.elements.get(str(rail.facts.get(name))) for name in ("made_by", "from"))
        if maker is None or source is None or not record.has_trait(maker, "in-series"):
            continue
        ratio, into = number(rail.facts, "efficiency"), number(source.facts, "voltage")
        out = number(rail.facts, "voltage")
        if ratio is None or out is None or into is None or out.low < 0 or into.low <= 0:
            continue
        most = out.high / into.low
        if ratio.low > most * _ROUNDING:
            message = (
                f"{rail.id} is made by {maker.id} ({maker.means}), which hands its current on: at {shown(out, 'V')} "
                f"from {shown(into, 'V')} its efficiency is at most {most:.0%}, and {shown(ratio)} is stated"
            )
            hint = "check the efficiency and both voltages, or the means of what makes it"
            yield Finding((*rail.path, "efficiency"), message, hint)


@rule("loads-above-rail", order=522, severity=Severity.WARNING)
def loads_above_rail(record: Record) -> Iterator[Finding]:
    """What a rail feeds takes more current than goes through the rail."""
    for rail in record.section("power.rails"):
        amps, taken = number(rail.facts, "current"), total(_currents(record, rail))
        if amps is not None and taken.low > amps.high * _ROUNDING:
            message = f"the loads of {rail.id} take {shown(taken, 'A')} together, and {shown(amps, 'A')} go through it"
            hint = "check the currents; all are meant for the same state of use, and for all alike of an entry together"
            yield Finding((*rail.path, "current"), message, hint)


@rule("capacitor-holds-too-much", order=523)
def capacitor_holds_too_much(record: Record) -> Iterator[Finding]:
    """A capacitor is said to hold more energy than any of its size can."""
    densest = read_table("capacitors").rows["densest capacitor"].number("density")
    for thing in (*record.section("parts"), *record.section("power.storage")):
        farads, volts, room = number(thing.facts, "capacitance"), _voltage(record, thing), _volume(thing)
        if farads is None or volts is None or not room or volts.low < 0 or farads.low < 0:
            continue
        joules = capacitor_energy(farads.low, volts.low)
        if joules > densest * room:
            message = (
                f"{thing.id} would hold {joules:.3g} J at {shown(volts, 'V')} in {room:.3g} cm3; the densest "
                f"capacitors hold about {densest:g} J in each cm3"
            )
            hint = "check the unit of the capacitance ('uF' or 'mF' and not 'F'), the voltage and the size"
            yield Finding((*thing.path, "capacitance"), message, hint)


def _class_limit(entry: Element) -> tuple[str, float] | None:
    """The class of a connector and the most volts that it is meant for; None where no class tells."""
    row = read_table("power_entry").rows.get(entry.means)
    if row is None:
        return None
    if "most" in row.values:
        return row.key, row.number("most")
    outer, inner = number(entry.facts, "plug_outer"), number(entry.facts, "plug_inner")
    if "sized_by" not in row.values or outer is None or inner is None:
        return None
    plugs = read_table(str(row.values["sized_by"])).rows.values()
    fitting = [p for p in plugs if _fits(outer, p.number("outer")) and _fits(inner, p.number("inner"))]
    if not fitting or any("to" not in plug.values for plug in fitting):
        return None
    highest = max(fitting, key=lambda plug: plug.number("to"))
    return highest.key, highest.number("to")


def _fits(measured: Bounds, wanted: float) -> bool:
    return measured.low - _FITS <= wanted <= measured.high + _FITS


def _currents(record: Record, rail: Element) -> Iterator[Bounds]:
    """What the loads of a rail take by their own statement; regulators and fuses only hand on."""
    named = rail.texts("feeds")
    for load in (load for name in _LOADS for load in record.section(name) if load.populated):
        amps = number(load.facts, "current")
        fed = load.text("fed_by") == rail.id or (load.id in named and "fed_by" not in load.facts)
        if amps is not None and fed and not record.has_trait(load, "carries-current"):
            yield amps


def _voltage(record: Record, thing: Element) -> Bounds | None:
    """Its own voltage, else that of the supply that feeds it."""
    own = number(thing.facts, "voltage")
    supply = record.elements.get(thing.text("fed_by"))
    return own if own is not None or supply is None else number(supply.facts, "voltage")


def _volume(thing: Element) -> float | None:
    """The most room it takes, in cm3; None where its height is not stated."""
    size = size_of(thing.facts)
    return None if size is None or size.height is None else size.area.high * size.height.high / _MM3_PER_CM3
