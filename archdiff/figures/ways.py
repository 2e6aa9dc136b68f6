"""Supply ways: what the contacts and conductors of the links carry for the supply."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, largest, listed, told
from archdiff.figures.facts.way_facts import current_each_way, flat_links, voltage_drop, warming_share
from archdiff.figures.shelf import Family, figure

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

    OfLink = Callable[[Ledger, Element], Bounds | None]

FAMILY = Family("ways", "Supply ways", 67)


@figure(
    title="Current in each supply way",
    unit="A",
    order=10,
    meaning="The most current that one contact or conductor of a link carries for the supply.",
    formula="greatest over the links of current / supply ways up to current: all of it may go through one way",
    source="division; even sharing is common practice, no source",
    preferred="lower",
)
def way_current(record: Record) -> Measure:
    """Current in A, by link."""
    ledger = Ledger(record)
    return _over(ledger, listed(record, "interconnects"), current_each_way, "A", "link")


@figure(
    title="Current against that for ten kelvin",
    order=20,
    meaning="How near a flat conductor comes to the current that warms a track of its section by 10 K.",
    formula="current in each supply way / (0.048 x 10^0.44 x (section in square mils)^0.725)",
    source="IPC-2221, outer layer; a free flexible circuit sheds heat otherwise, so a rough guide only",
    preferred="well below 1",
)
def way_load(record: Record) -> Measure:
    """Share of that current, by flat link."""
    ledger = Ledger(record)
    return _over(ledger, flat_links(ledger), warming_share, "", "flat link")


@figure(
    title="Voltage drop along flat conductors",
    unit="V",
    order=30,
    meaning="How much voltage one supply way of a flat link takes, one way out.",
    formula="current in each supply way x resistivity of copper x length / (width x thickness)",
    source="R = rho l / A with annealed copper at 20 degC (IEC 60028); contacts are left out",
    preferred="lower",
)
def way_drop(record: Record) -> Measure:
    """Voltage in V, by flat link, without the way back and without contacts."""
    ledger = Ledger(record)
    return _over(ledger, flat_links(ledger), voltage_drop, "V", "flat link")


def _over(ledger: Ledger, links: Sequence[Element], compute: OfLink, unit: str, kind: str) -> Measure:
    """The greatest over the links; not known where there is none that could have it."""
    whole = ledger.whole("interconnects")
    found = {link.id: compute(ledger, link) for link in links}
    most = largest(found.values(), whole=whole)
    if most is None:
        if whole and not links:
            ledger.moot()
        else:
            ledger.lack("interconnects", f"a {kind} that carries supply")
        return ledger.measure(None, f"no {kind} recorded")
    terms = ", ".join(f"{name} {told(value)}" for name, value in found.items())
    how = f"{terms}; greatest {told(most)} {unit}".rstrip()
    return ledger.measure(most, how, {name: value for name, value in found.items() if value is not None})
