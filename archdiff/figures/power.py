"""Power: what comes in, through which connector, from which source, and what the product takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, added, largest, listed, told
from archdiff.figures.facts.adapter_facts import beside, efficiency_limit, entries_with_supply, no_load_limit
from archdiff.figures.facts.entry_facts import as_size, connector_class, power_drawn, quantity, rated_power
from archdiff.figures.facts.source_facts import available_power, enough, guaranteed_current, power_class
from archdiff.figures.shelf import Family, figure
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

    Limit = Callable[[Ledger, Element, Bounds], Bounds | None]

FAMILY = Family("power", "Power", 65)
_ENTRY, _NO_ENTRY = "power.entry", "no power entry recorded"


@figure(
    title="Voltage at the power entry",
    unit="V",
    order=10,
    meaning="The highest voltage that a connector brings in, and the class of that connector.",
    formula="greatest of the voltages stated at the entries; class by the diameters of the plug, or by the connector",
    source="EIAJ RC-5320A and IEC 60130-10 for coaxial plugs, the USB specifications for theirs",
)
def entry_voltage(record: Record) -> Measure:
    """Voltage in V, by entry."""
    ledger, parts = Ledger(record), {}
    whole = ledger.whole(_ENTRY)
    for entry in listed(record, _ENTRY):
        parts[entry.id] = quantity(ledger, entry, "voltage")
    words = [words for entry in listed(record, _ENTRY) if (words := connector_class(ledger, entry))]
    return _greatest(ledger, parts, "V", whole=whole, said="; ".join(words))


@figure(
    title="Power drawn at the entry",
    unit="W",
    order=20,
    meaning="How much power comes in through the connectors in the state in which the current was taken.",
    formula="sum over the entries of the stated power, else voltage x current",
    source="P = U I; the record's own values",
)
def entry_power(record: Record) -> Measure:
    """Power in W, by entry; 0 where it was found that there is none."""
    ledger = Ledger(record)
    whole = ledger.whole(_ENTRY)
    powers = {entry.id: power_drawn(ledger, entry) for entry in listed(record, _ENTRY)}
    total = added(powers.values(), whole=whole)
    terms = " + ".join(f"{name} {told(power)}" for name, power in powers.items()) or _NO_ENTRY
    return ledger.measure(total, f"{terms} = {told(total)} W", _known(powers))


@figure(
    title="Current against what the source guarantees",
    order=30,
    meaning="How much of the current that its source is sure to give the product draws.",
    formula="current / current of the supply in the box; where none came, / least current of every source of its kind",
    source="USB Type-C and USB 2.0 specifications for sources that did not come with the product",
    preferred="below 1: above it some sources will not do",
)
def source_load(record: Record) -> Measure:
    """Share of the guaranteed current, the greatest of the entries."""
    ledger = Ledger(record)
    whole = ledger.whole(_ENTRY)
    shares, how, said = {}, [], []
    for entry in listed(record, _ENTRY):
        drawn, (given, why) = quantity(ledger, entry, "current"), guaranteed_current(ledger, entry)
        shares[entry.id] = None if drawn is None or given is None else drawn / given
        how.append(f"{entry.id} {told(drawn)} A of {told(given)} A ({why})")
        said.append(enough(entry, drawn, given))
    return _greatest(ledger, shares, "", whole=whole, how="; ".join(how), said="; ".join(filter(None, said)))


@figure(
    title="Power its source is made for",
    unit="W",
    order=40,
    meaning="What the supply in the box is rated for, or what any source of its kind may offer without negotiation.",
    formula="rated voltage x rated current of the supply; for USB Type-C 5 V x the least to the greatest current",
    source="classes of IEC 62368-1, 6.2.2: by rating here, by measurement with faults in the standard",
)
def source_power(record: Record) -> Measure:
    """Power in W, the greatest of the entries; the class of power source in words, for orientation."""
    ledger = Ledger(record)
    whole = ledger.whole(_ENTRY)
    powers = {entry.id: available_power(ledger, entry) for entry in listed(record, _ENTRY)}
    most = largest(powers.values(), whole=whole)
    return _greatest(ledger, powers, "W", whole=whole, said=power_class(ledger, most))


@figure(
    title="Power in use",
    unit="W",
    glance=True,
    order=50,
    meaning="Power that the product takes in normal use.",
    formula="as stated",
    source="the record's own value",
    preferred="lower, where it does the same",
)
def power_in_use(record: Record) -> Measure:
    """Power in W as stated for the whole product."""
    return _of_product(record, "in_use")


@figure(
    title="Stand-by power",
    unit="W",
    order=60,
    meaning="Power that the product takes while it waits.",
    formula="as stated",
    source="the record's own value",
    preferred="lower",
)
def standby_power(record: Record) -> Measure:
    """Power in W as stated for the whole product."""
    return _of_product(record, "standby")


@figure(
    title="Least efficiency asked of its supply",
    order=70,
    meaning="The average efficiency that EU rules ask of an external supply with the rating of the one in the box.",
    formula="a ln P + b P + c by rated output power P and by whether it is below 6 V and of at least 0.55 A",
    source="(EU) 2019/1782, annex II 1; whether they apply to this supply is not judged",
)
def supply_efficiency_limit(record: Record) -> Measure:
    """Share, 0 to 1, by entry; a stated efficiency is set beside it in words."""
    return _limit(record, efficiency_limit, "efficiency", "")


@figure(
    title="Most no-load power allowed to its supply",
    unit="W",
    order=80,
    meaning="The power that EU rules allow a supply with the rating of the one in the box when it feeds nothing.",
    formula="0.10 W up to 49 W of rated output power, 0.21 W above",
    source="(EU) 2019/1782, annex II 1; whether they apply to this supply is not judged",
)
def supply_no_load_limit(record: Record) -> Measure:
    """Power in W, by entry; a stated no-load power is set beside it in words."""
    return _limit(record, no_load_limit, "no_load", "W")


def _of_product(record: Record, name: str) -> Measure:
    ledger, stated = Ledger(record), as_size(as_bounds(record.power.get(name)))
    ledger.note("power", name, known=stated is not None)
    return ledger.measure(stated, f"stated: {record.power[name]}" if stated is not None else "not stated")


def _limit(record: Record, limit: Limit, fact: str, unit: str) -> Measure:
    """A limit for the supply in the box, and what is stated of it beside that."""
    ledger, words = Ledger(record), []
    whole = ledger.whole(_ENTRY)
    limits: dict[str, Bounds | None] = {}
    for entry in entries_with_supply(ledger, listed(record, _ENTRY)):
        rated = rated_power(ledger, entry)
        limits[entry.id] = None if rated is None else limit(ledger, entry, rated)
        words.append(beside(ledger, entry, fact, limits[entry.id]))
    if not limits:
        if whole:
            ledger.moot()
        else:
            ledger.lack("power", "entry with a supply in the box")
        return ledger.measure(None, "no supply recorded that came in the box")
    return _greatest(ledger, limits, unit, whole=whole, said="; ".join(word for word in words if word))


def _greatest(
    ledger: Ledger, values: Mapping[str, Bounds | None], unit: str, *, whole: bool, how: str = "", said: str = ""
) -> Measure:
    """The greatest of some values, each told; without any it is not known."""
    most = largest(values.values(), whole=whole)
    if most is None:
        if whole:
            ledger.moot()
        else:
            ledger.lack("power", "entry")
        return ledger.measure(None, _NO_ENTRY)
    terms = how or ", ".join(f"{name} {told(value)}" for name, value in values.items())
    return ledger.measure(most, f"{terms}; greatest {told(most)} {unit}".rstrip(), _known(values), said)


def _known(values: Mapping[str, Bounds | None]) -> dict[str, Bounds]:
    return {name: value for name, value in values.items() if value is not None}
