"""What the conductors of a link carry, and how flat ones bear it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import listed
from archdiff.figures.facts.entry_facts import quantity
from archdiff.physics.circuits import conductor_resistance, heated_current
from archdiff.quantities import Bounds, across
from archdiff.record import Truth
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element


def flat_links(ledger: Ledger) -> tuple[Element, ...]:
    """The links whose conductors lie side by side in a flat film or band, or may do so."""
    links = listed(ledger.record, "interconnects")
    return tuple(link for link in links if ledger.kind(link, "flat") is not Truth.NO)


def if_flat(ledger: Ledger, link: Element, value: Bounds) -> Bounds:
    """The value of a flat link; anything from 0 up to it where nobody knows whether the link is flat."""
    return value if ledger.record.has_trait(link, "flat") else Bounds(None, 0.0, value.high)


def current_each_way(ledger: Ledger, link: Element) -> Bounds | None:
    """Most current in A in one supply way; 0 where the link has none, None where it is not known.

    At least the even share, at most all of it, as ways of one link may serve supplies that are loaded unlike.
    """
    ways = ledger.value(link, "supply_ways")
    if ways is not None and ways.high == 0:
        return Bounds.exact(0.0)
    amps = quantity(ledger, link, "current")
    if ways is None or amps is None:
        return None
    ledger.assume("the current is that of the whole entry; likeliest is that its supply ways share it evenly (ours)")
    even = amps / (ways * link.count)
    return Bounds(even.best, even.low, amps.high)


def warming_share(ledger: Ledger, link: Element) -> Bounds | None:
    """Current in one supply way over that which warms a track of its section by 10 K."""
    amps = current_each_way(ledger, link)
    section = _finite(ledger, link, "conductor_width", "conductor_thickness")
    if amps is None or section is None:
        return None
    row, rise = read_table("copper").rows["outer layer"], read_table("copper").rows["usual rise"]
    ledger.assume(f"constants of an outer layer ({row.cited}); a free flexible circuit only roughly behaves so")
    names = ("factor", "rise_exponent", "area_exponent")
    factor, rise_exponent, area_exponent = (row.number(name) for name in names)

    def warming(width: float, thickness: float) -> float:
        return heated_current(width, thickness, rise.number("rise"), (factor, rise_exponent, area_exponent))

    most = across(warming, *section)
    return if_flat(ledger, link, amps / most) if most.high > 0 else None


def voltage_drop(ledger: Ledger, link: Element) -> Bounds | None:
    """Voltage in V along one supply way, one way out, at 20 degC."""
    amps = current_each_way(ledger, link)
    sizes = _finite(ledger, link, "length", "conductor_width", "conductor_thickness")
    if amps is None or sizes is None or any(size.low <= 0 for size in sizes[1:]):
        return None
    row = read_table("copper").rows["annealed copper"]
    ledger.assume(
        f"resistivity {row.number('resistivity'):g} ohm m at {row.number('temperature'):g} degC ({row.cited})"
    )
    resistance = across(conductor_resistance, Bounds.exact(row.number("resistivity")), *sizes)
    return if_flat(ledger, link, amps * resistance)


def _finite(ledger: Ledger, link: Element, *names: str) -> list[Bounds] | None:
    """Lengths in mm of which both ends are known; None where one is lacking."""
    found = [quantity(ledger, link, name) for name in names]
    known = [size for size in found if size is not None and size.is_known]
    for name, size in zip(names, found, strict=True):
        if size is not None and not size.is_known:
            ledger.lack(link.id, name)
    return known if len(known) == len(names) else None
