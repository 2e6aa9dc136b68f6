"""Stored energy: what batteries and cells hold, how long that lasts, and what capacitors keep after switching off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, added, largest, listed, told
from archdiff.figures.facts.entry_facts import as_size
from archdiff.figures.facts.store_facts import (
    CAPACITORS,
    STORES,
    capacitors,
    charge_left,
    energy_of,
    runs_product,
    time_to_safe,
)
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth, as_bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("energy", "Stored energy", 68)
_NO_STORE = "no store of energy recorded"


@figure(
    title="Energy stored",
    unit="Wh",
    order=10,
    meaning="How much electrical energy the product's batteries, cells and large capacitors hold when full.",
    formula="sum over the stores of the stated energy, else voltage x charge, else capacitance x voltage squared / 2",
    source="E = U Q; E = C U^2 / 2; values as marked or measured",
)
def stored_energy(record: Record) -> Measure:
    """Energy in Wh, by store; 0 where it was found that there is none."""
    ledger = Ledger(record)
    whole = ledger.whole(STORES)
    energies = {store.id: energy_of(ledger, store) for store in listed(record, STORES)}
    total = added(energies.values(), whole=whole)
    return ledger.measure(total, f"{_terms(energies, ' + ') or _NO_STORE} = {told(total)} Wh", _known(energies))


@figure(
    title="Largest store against 100 Wh",
    order=20,
    meaning="How near the largest store comes to the energy up to which lithium-ion batteries travel more easily.",
    formula="energy of the largest store / 100 Wh",
    source="ADR, special provision 188; other chemistries and single cells have other limits; no verdict on transport",
)
def transport_share(record: Record) -> Measure:
    """Share of 100 Wh, by store."""
    ledger, row = Ledger(record), read_table("power_classes").rows["lithium-ion battery"]
    whole, limit = ledger.whole(STORES), row.number("energy")
    energies = {store.id: energy_of(ledger, store) for store in listed(record, STORES)}
    shares = {name: None if energy is None else energy / limit for name, energy in energies.items()}
    most = largest(shares.values(), whole=whole)
    if most is None:
        if whole and not energies:
            ledger.moot()
        else:
            ledger.lack("power", "storage")
        return ledger.measure(None, _NO_STORE)
    ledger.assume(f"{limit:g} Wh for a {row.key} ({row.cited})")
    return ledger.measure(most, f"({_terms(energies, ', ')}) / {limit:g} Wh", _known(shares))


@figure(
    title="Run time on stored energy",
    unit="h",
    order=30,
    meaning="How long the stores that run the product would last in normal use if all their energy could be used.",
    formula="energy of the stores that run it / power in use",
    source="t = E / P; cells give less when cold, old or drawn on hard",
    preferred="higher",
)
def run_time(record: Record) -> Measure:
    """Time in h; stores that only keep a clock or a memory are left out."""
    ledger = Ledger(record)
    whole = ledger.whole(STORES)
    energies: dict[str, Bounds | None] = {}
    for store in listed(record, STORES):
        answer = runs_product(ledger, store)
        energy = energy_of(ledger, store) if answer is not Truth.NO else None
        if answer is not Truth.NO:
            energies[store.id] = energy if answer is Truth.YES or energy is None else Bounds(None, 0.0, energy.high)
    taken = as_size(as_bounds(record.power.get("in_use")))
    if not energies:
        if whole:
            ledger.moot()
        else:
            ledger.lack("power", "storage that runs the product")
        return ledger.measure(None, "no store recorded that runs the product")
    if not ledger.note("power", "in_use", known=taken is not None and taken.high > 0) or taken is None:
        return ledger.measure(None, "power in use not known")
    ledger.assume("all the stored energy can be used at the power in use (ours; the true time is shorter)")
    time = added(energies.values(), whole=whole) / taken
    return ledger.measure(time, f"({_terms(energies, ' + ')}) Wh / {told(taken)} W = {told(time)} h")


@figure(
    title="Energy left in capacitors",
    unit="J",
    order=40,
    meaning="What the capacitors that can hold a charge worth minding keep when the supply is taken away.",
    formula="sum over such capacitors of capacitance x (own voltage, else that of the supply)^2 / 2",
    source="E = C U^2 / 2; ceramic capacitors are left out",
    preferred="lower, for whoever opens it",
)
def residual_energy(record: Record) -> Measure:
    """Energy in J, by capacitor; 0 where it was found that there is none."""
    ledger = Ledger(record)
    whole = ledger.whole(*CAPACITORS)
    energies = {part.id: charge_left(ledger, part, answer) for part, answer in capacitors(ledger)}
    total = added(energies.values(), whole=whole)
    return ledger.measure(total, f"{_terms(energies, ' + ') or 'none listed'} = {told(total)} J", _known(energies))


@figure(
    title="Time for capacitors to fall to 60 V",
    unit="s",
    order=50,
    meaning="How long the slowest capacitor takes to fall to a voltage that counts as safe to touch.",
    formula="bleed resistance x capacitance x ln(voltage / 60 V); 0 where it is never above 60 V",
    source="RC discharge; IEC 62368-1, 5.2.2.2, class ES1; measure before touching, this is no verdict",
    preferred="lower, for whoever opens it",
)
def bleed_time(record: Record) -> Measure:
    """Time in s, by thing that may be above 60 V; 0 where it was found that none is."""
    ledger, row = Ledger(record), read_table("power_classes").rows["ES1"]
    whole = ledger.whole(*CAPACITORS)
    found = {thing.id: time_to_safe(ledger, thing) for thing in listed(record, *CAPACITORS)}
    most = largest([Bounds.exact(0.0), *found.values()], whole=whole)
    times = {name: time for name, time in found.items() if time is None or time.high > 0}
    ledger.assume(f"{row.key}: at most {row.number('voltage'):g} V of direct voltage ({row.cited})")
    said = "" if most is None or most.high > 0 else "none above 60 V by what is recorded; measure before touching"
    return ledger.measure(
        most, f"{_terms(times, ', ') or 'none above 60 V listed'}; greatest {told(most)} s", _known(times), said
    )


def _terms(values: Mapping[str, Bounds | None], between: str) -> str:
    return between.join(f"{name} {told(value)}" for name, value in values.items())


def _known(values: Mapping[str, Bounds | None]) -> dict[str, Bounds]:
    return {name: value for name, value in values.items() if value is not None}
