"""What stores of energy and capacitors hold."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, listed
from archdiff.figures.facts.entry_facts import quantity, sharpened
from archdiff.physics.circuits import battery_energy, capacitor_energy, discharge_time, in_watt_hours
from archdiff.quantities import Bounds, across
from archdiff.record import Truth, section
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.record import Element

STORES, CAPACITORS = "power.storage", ("parts", "power.storage")


def energy_of(ledger: Ledger, store: Element) -> Bounds | None:
    """Energy in Wh of all alike of one entry: as stated, else voltage x charge, else that of its capacitance."""
    energy = quantity(ledger, store, "energy") if "energy" in store.facts else None
    energy = sharpened(ledger, energy, lambda notes: _reckoned(notes, store))
    if energy is None:
        ledger.lack(store.id, "energy")
        return None
    return energy * store.count


def _reckoned(ledger: Ledger, store: Element) -> Bounds | None:
    """Energy in Wh from its voltage and what it holds."""
    for fact, formula in (("charge", battery_energy), ("capacitance", _capacitor_watt_hours)):
        if fact in store.facts:
            volts, amount = quantity(ledger, store, "voltage"), quantity(ledger, store, fact)
            return None if volts is None or amount is None else across(formula, volts, amount)
    return None


def runs_product(ledger: Ledger, store: Element) -> Truth:
    """Whether it runs the product, and does not only keep a clock or a memory; not known where its purpose is not."""
    purpose = ledger.purpose(store)
    if purpose is None:
        return Truth.UNKNOWN
    return Truth.YES if purpose.name == section(STORES).default_function else Truth.NO


def capacitors(ledger: Ledger) -> list[tuple[Element, Truth]]:
    """The parts and stores that may keep a charge worth minding, and whether they are known to."""
    found = [(thing, ledger.trait(thing, "holds-charge")) for thing in listed(ledger.record, *CAPACITORS)]
    return [(thing, answer) for thing, answer in found if answer is not Truth.NO]


def charge_left(ledger: Ledger, capacitor: Element, answer: Truth) -> Bounds | None:
    """Energy in J of all alike of one entry at the voltage that they are fed with; None where it is not known."""
    farads, volts = quantity(ledger, capacitor, "capacitance"), feeding_voltage(ledger, capacitor)
    if farads is None or volts is None:
        return None
    energy = across(capacitor_energy, farads, volts) * capacitor.count
    return energy if answer is Truth.YES else Bounds(None, 0.0, energy.high)


def time_to_safe(ledger: Ledger, thing: Element) -> Bounds | None:
    """Time in s until its bleed resistance has brought it to 60 V; None where that is not known.

    0 where it is never above, whatever it is, and where it is known to hold no charge.
    """
    safe = Bounds.exact(read_table("power_classes").rows["ES1"].number("voltage"))
    asked = Ledger(ledger.record)
    volts = feeding_voltage(asked, thing)
    if volts is not None and volts.high <= safe.low:
        feeding_voltage(ledger, thing)
        return Bounds.exact(0.0)
    answer = ledger.trait(thing, "holds-charge")
    if answer is Truth.NO:
        return Bounds.exact(0.0)
    volts = feeding_voltage(ledger, thing)
    farads, ohms = quantity(ledger, thing, "capacitance"), quantity(ledger, thing, "bleed")
    if volts is None or farads is None or ohms is None or math.isinf(volts.high):
        return None
    time = across(discharge_time, ohms, farads, volts, safe)
    return time if answer is Truth.YES else Bounds(None, 0.0, time.high)


def feeding_voltage(ledger: Ledger, capacitor: Element) -> Bounds | None:
    """Voltage in V across it: its own, else that of the supply that feeds it."""
    if "voltage" in capacitor.facts or capacitor.section == STORES:
        return quantity(ledger, capacitor, "voltage")
    supply = ledger.record.elements.get(capacitor.text("fed_by"))
    ledger.note(capacitor.id, "fed_by", known=supply is not None)
    return None if supply is None else quantity(ledger, supply, "voltage")


def _capacitor_watt_hours(volts: float, farads: float) -> float:
    return in_watt_hours(capacitor_energy(farads, volts))
