"""What takes power, and how much by what is stated of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import THINGS, listed
from archdiff.figures.facts.entry_facts import quantity, sharpened
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record

ROUNDING = 1.05  # ours: rounded values may contradict each other by this share without anything being wrong
_SUPPLIES = ("power.rails", "power.entry", "power.storage")
LOADS = tuple(name for name in THINGS if not name.startswith("power."))


def loads_by_supply(record: Record) -> dict[str, list[Element]]:
    """What each supply feeds by its own entry or by that of the load; what makes another rail of it is no load."""
    makers = {rail.text("made_by") for rail in record.section("power.rails")}
    loads = {load.id: load for load in listed(record, *LOADS) if load.id not in makers and takes_current(record, load)}
    found: dict[str, dict[str, Element]] = {}
    for load in loads.values():
        found.setdefault(load.text("fed_by"), {})[load.id] = load
    for supply in (supply for name in _SUPPLIES for supply in record.section(name)):
        named = {name: loads[name] for name in supply.texts("feeds") if name in loads}
        found[supply.id] = found.get(supply.id, {}) | named
    return {supply: list(fed.values()) for supply, fed in found.items()}


def takes_current(record: Record, element: Element) -> bool:
    """Whether it works from a supply and keeps what it takes; a regulator or a fuse hands it on."""
    return record.has_trait(element, "active") and not record.has_trait(element, "in-series")


def power_of_loads(ledger: Ledger) -> tuple[dict[str, Bounds], bool]:
    """Power in W by load, and whether that of some load is not known. A load is what by its means works from a supply.

    That others take none counts as used only where all loads are known: else the sum is open above anyway.
    """
    things = listed(ledger.record, *LOADS)
    known = {thing.id: ledger.record.means_term(thing.means) is not None for thing in things}
    loads = [thing for thing in things if not known[thing.id] or ledger.record.has_trait(thing, "active")]
    found = {load.id: _power(ledger, load, sure=known[load.id]) for load in loads}
    powers = {name: power for name, power in found.items() if power is not None}
    is_open = len(powers) < len(found)
    for thing in things:
        if not known[thing.id] or thing.id in powers or not is_open:
            ledger.note(thing.id, "means", known=known[thing.id])
    return powers, is_open


def _power(ledger: Ledger, load: Element, *, sure: bool) -> Bounds | None:
    """As stated, else its current times the voltage that feeds it; none at all where it may be no load after all."""
    power = sharpened(ledger, quantity(ledger, load, "power"), lambda notes: _from_current(notes, load))
    return power if sure or power is None else Bounds(None, 0.0, power.high)


def _from_current(ledger: Ledger, load: Element) -> Bounds | None:
    """Current times voltage, give or take rounding; not of what hands its current on."""
    if ledger.record.has_trait(load, "carries-current"):
        return None
    amps = quantity(ledger, load, "current")
    volts = None if amps is None else _voltage(ledger, load)
    if amps is None or volts is None:
        return None
    ledger.assume("a power worked out from current and voltage is right within 5 % (ours)")
    product = amps * volts
    return Bounds(product.best, product.low / ROUNDING, product.high * ROUNDING)


def _voltage(ledger: Ledger, load: Element) -> Bounds | None:
    if "voltage" in load.facts:
        return quantity(ledger, load, "voltage")
    record = ledger.record
    supply = record.elements.get(load.text("fed_by"))
    if supply is not None:
        ledger.use(load.id, "fed_by")
        return quantity(ledger, supply, "voltage")
    supply = next((rail for rail in record.section("power.rails") if load.id in rail.texts("feeds")), None)
    if supply is None:
        ledger.lack(load.id, "fed_by")
        return None
    ledger.use(supply.id, "feeds")
    return quantity(ledger, supply, "voltage")
