"""Supply: what feeds can feed what it is said to feed, and no supply makes itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.quantities.bounds import total
from archdiff.rules.facts import ids, number, shown
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

# A measured current or voltage may be above a rounded rating by this share without anything being wrong.
_ROUNDING = 1.05
_NOMINAL = 1.10
# IEC 62368-1:2018, 5.2.2.2: up to 60 V dc a source counts as class ES1, which anyone may touch (from memory).
_SAFE_TO_TOUCH = 60.0


@rule("current-above-limit", order=500)
def current_above_limit(record: Record) -> Iterator[Finding]:
    """More current is drawn from a supply than it can give."""
    for element in (*record.section("power.rails"), *record.section("power.entry")):
        drawn, limit = number(element.facts, "current"), _limit(element)
        if drawn is not None and limit is not None and drawn.low > limit.high * _ROUNDING:
            message = f"{shown(drawn, 'A')} go through {element.id}, and its source can give {shown(limit, 'A')}"
            yield Finding((*element.path, "current"), message, "check both currents and their units")


@rule("power-above-source", order=501)
def power_above_source(record: Record) -> Iterator[Finding]:
    """A rail gives more power than the supply it is made from can."""
    for rail, source in _made_from(record):
        given, available = _power(rail, number(rail.facts, "current")), _power(source, _limit(source))
        if given is not None and available is not None and given.low > available.high * _ROUNDING:
            message = (
                f"{rail.id} gives {shown(given, 'W')}, and {source.id}, from which it is made, can give "
                f"{shown(available, 'W')}"
            )
            yield Finding((*rail.path, "current"), message, "check voltages and currents of both, or correct 'from'")


@rule("rail-above-source", order=502, severity=Severity.WARNING)
def rail_above_source(record: Record) -> Iterator[Finding]:
    """A rail has a higher voltage than its source, and nothing is named that raises it."""
    for rail, source in _made_from(record):
        volts, below = number(rail.facts, "voltage"), number(source.facts, "voltage")
        if volts is None or below is None or "made_by" in rail.facts or below.low < 0:
            continue
        if volts.low > below.high * _ROUNDING:
            message = f"{rail.id} has {shown(volts, 'V')}, and {source.id}, from which it is made, {shown(below, 'V')}"
            hint = "name the part that raises it under 'made_by', or correct 'from'"
            yield Finding((*rail.path, "voltage"), message, hint)


@rule("rail-from-empty-site", order=503)
def rail_from_empty_site(record: Record) -> Iterator[Finding]:
    """A supply is made by a site that was left empty."""
    for rail in record.section("power.rails"):
        maker = record.elements.get(str(rail.facts.get("made_by")))
        if maker is not None and not maker.populated:
            line = record.document.spot(maker.path, key=True).line
            message = f"{rail.id} is said to be made by {maker.id}, and that site is empty (line {line})"
            yield Finding((*rail.path, "made_by"), message, "name the part that makes it, or look again at the site")


@rule("supply-loop", order=504)
def supply_loop(record: Record) -> Iterator[Finding]:
    """A supply is made, over one or more steps, from itself."""
    done: set[str] = set()
    for rail in record.section("power.rails"):
        chain: list[str] = []
        step: Element | None = rail
        while step is not None and step.id not in done:
            done.add(step.id)
            chain.append(step.id)
            step = record.elements.get(str(step.facts.get("from")))
        if step is not None and step.id in chain:
            loop = chain[chain.index(step.id) :]
            message = f"made from itself: {' ← '.join((*loop, step.id))}"
            hint = "correct one 'from' of this chain, so that it begins at an entry or a store"
            yield Finding((*step.path, "from"), message, hint)


@rule("fed-by-another", order=505, severity=Severity.WARNING)
def fed_by_another(record: Record) -> Iterator[Finding]:
    """A rail is said to feed something that says it is fed by another."""
    for rail in record.section("power.rails"):
        for index, name in enumerate(ids(rail.facts.get("feeds"))):
            load = record.elements.get(name)
            says = rail.id if load is None else load.facts.get("fed_by", rail.id)
            if says != rail.id:
                message = f"{rail.id} is said to feed {name}, and {name} says 'fed_by: {says}'"
                hint = "correct one; for a part with several supplies list it under 'feeds' of each and drop 'fed_by'"
                yield Finding((*rail.path, "feeds", index), message, hint)


@rule("fed-at-another-voltage", order=506, severity=Severity.WARNING)
def fed_at_another_voltage(record: Record) -> Iterator[Finding]:
    """A load's voltage is not that of the supply that feeds it."""
    for load in record.elements.values():
        source = record.elements.get(str(load.facts.get("fed_by")))
        if source is None or load.section.startswith("power."):
            continue
        wanted, there = number(load.facts, "voltage"), number(source.facts, "voltage")
        if wanted is None or there is None or wanted.low < 0 or there.low < 0:
            continue
        if wanted.low > there.high * _NOMINAL or wanted.high * _NOMINAL < there.low:
            message = f"{load.id} takes {shown(wanted, 'V')}, and {source.id}, which feeds it, has {shown(there, 'V')}"
            yield Finding((*load.path, "voltage"), message, "check both voltages, or correct 'fed_by'")


@rule("loads-above-entry", order=507, severity=Severity.WARNING)
def loads_above_entry(record: Record) -> Iterator[Finding]:
    """What is listed takes more power than comes in."""
    coming_in = number(record.power, "in_use")
    if coming_in is None:
        coming_in = _entries(record)
    taking = (
        element
        for element in record.elements.values()
        if element.populated and not element.section.startswith("power.") and element.section != "paths"
    )
    powers = [power for element in taking if (power := number(element.facts, "power")) is not None]
    taken = total(powers)
    if coming_in is not None and taken.low > coming_in.high * _ROUNDING:
        message = f"the powers listed add up to {shown(taken, 'W')}, and {shown(coming_in, 'W')} come in"
        hint = "check the powers; all are meant for the same state of use, and not for the worst moment"
        yield Finding(("power", *(("in_use",) if "in_use" in record.power else ("entry",))), message, hint, key=True)


@rule("high-voltage-at-entry", order=508, severity=Severity.WARNING)
def high_voltage_at_entry(record: Record) -> Iterator[Finding]:
    """A connector that is not made for the public supply is said to carry more than 60 V."""
    for entry in record.section("power.entry"):
        volts = number(entry.facts, "voltage")
        if volts is None or record.means_term(entry.means) is None or record.has_trait(entry, "mains"):
            continue
        if volts.low > _SAFE_TO_TOUCH:
            message = (
                f"{entry.id} ({entry.means}) is said to carry {shown(volts, 'V')}; above {_SAFE_TO_TOUCH:.0f} V dc a "
                "contact may not be touched (IEC 62368-1, class ES1)"
            )
            yield Finding((*entry.path, "voltage"), message, "check the voltage and its unit, or the means")


def _made_from(record: Record) -> Iterator[tuple[Element, Element]]:
    for rail in record.section("power.rails"):
        source = record.elements.get(str(rail.facts.get("from")))
        if source is not None and source is not rail:
            yield rail, source


def _limit(source: Element) -> Bounds | None:
    """The most current it can give in A, where that is stated."""
    limit = number(source.facts, "limit")
    return limit if limit is not None else number(source.facts, "supplied_with", "current")


def _power(supply: Element, amps: Bounds | None) -> Bounds | None:
    volts = number(supply.facts, "voltage")
    if volts is None or amps is None or volts.low < 0 or amps.low < 0:
        return None
    return volts * amps


def _entries(record: Record) -> Bounds | None:
    """The most that all entries take in, in W; None where one is not known or a store may help out."""
    powers = [
        stated if (stated := number(entry.facts, "power")) is not None else _power(entry, _limit(entry))
        for entry in record.section("power.entry")
    ]
    known = [power for power in powers if power is not None]
    if not known or len(known) < len(powers) or record.section("power.storage"):
        return None
    return total(known)
