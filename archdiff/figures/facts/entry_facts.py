"""What several figures ask of a power entry: what is drawn there, what its source gives, which class it is of."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, told
from archdiff.physics.circuits import divided_voltage
from archdiff.quantities import Bounds, across
from archdiff.record import Truth, as_bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Element
    from archdiff.tables import Row

_FITS = 0.15  # mm, ours: measured with a caliper on a soft plug, and less than half of what sets two sizes apart
_NOMINAL = 1.1  # a supply of nominally 5 V may be a little above it
BOX = "supplied_with"


def stated(element: Element, name: str) -> Bounds | None:
    """A quantity of an element as a size that is not below 0; None where it is not stated."""
    return as_size(element.bounds(name))


def quantity(ledger: Ledger, element: Element, name: str) -> Bounds | None:
    """The same, noted as used or as lacking."""
    return as_size(ledger.value(element, name))


def as_size(bounds: Bounds | None) -> Bounds | None:
    """How large it is: a voltage without its sign, any other quantity without the part of a tolerance below 0."""
    if bounds is None or bounds.low >= 0:
        return bounds
    best = None if bounds.best is None else abs(bounds.best)
    ends = -bounds.low, abs(bounds.high)
    return Bounds(best, 0.0 if bounds.high > 0 else min(ends), max(ends))


def narrowed(found: Bounds | None, other: Bounds | None) -> Bounds | None:
    """What both leave open of one quantity; the first alone where they contradict each other or one is not known."""
    if found is None or other is None or not found.overlaps(other):
        return other if found is None else found
    low, high = max(found.low, other.low), min(found.high, other.high)
    best = found.best if found.best is not None else other.best
    return Bounds(None if best is None else min(max(best, low), high), low, high)


def sharpened(ledger: Ledger, found: Bounds | None, reckon: Callable[[Ledger], Bounds | None]) -> Bounds | None:
    """A stated quantity, or what it can be reckoned from; both where that narrows it.

    What it is reckoned from is noted only where it matters.
    """
    result = narrowed(found, reckon(Ledger(ledger.record)))
    if found is None or result != found:
        reckon(ledger)
    return result


def power_drawn(ledger: Ledger, entry: Element) -> Bounds | None:
    """Power in W drawn there: as stated, else voltage times current; None where neither is known."""
    power = quantity(ledger, entry, "power") if "power" in entry.facts else None
    return sharpened(ledger, power, lambda notes: _product(notes, entry, quantity))


def boxed(ledger: Ledger, entry: Element, name: str) -> Bounds | None:
    """A quantity of the supply that came in the box, noted; None where it is not stated."""
    box = entry.facts.get(BOX)
    found = as_size(as_bounds(box.get(name))) if isinstance(box, Mapping) else None
    ledger.note(entry.id, f"{BOX} {name}", known=found is not None)
    return found


def came_with_supply(ledger: Ledger, entry: Element) -> Truth:
    """Whether a supply came in the box; not known where the record is silent.

    What has a voltage or a power is a supply; else what came is looked up in the vocabulary: a loose lead is none.
    """
    box = entry.facts.get(BOX)
    box = box if isinstance(box, Mapping) else {}
    if "voltage" in box or "power" in box:
        return Truth.YES
    term = ledger.record.vocabulary.means_term(str(box.get("means", "")))
    if not ledger.note(entry.id, f"{BOX} means", known=term is not None) or term is None:
        return Truth.UNKNOWN
    return Truth.YES if "mains" in term.traits else Truth.NO


def rated_power(ledger: Ledger, entry: Element) -> Bounds | None:
    """Output in W that the supply in the box is rated for: as stated, else its voltage times its current."""
    box = entry.facts.get(BOX)
    power = boxed(ledger, entry, "power") if isinstance(box, Mapping) and "power" in box else None
    return sharpened(ledger, power, lambda notes: _product(notes, entry, boxed))


def _product(ledger: Ledger, entry: Element, read: Callable[[Ledger, Element, str], Bounds | None]) -> Bounds | None:
    volts, amps = read(ledger, entry, "voltage"), read(ledger, entry, "current")
    return None if volts is None or amps is None else volts * amps


def connector(ledger: Ledger, entry: Element) -> Row | None:
    """What the table of connectors says of its means, the means noted; None where it says nothing."""
    known = ledger.record.means_term(entry.means) is not None
    ledger.note(entry.id, "means", known=known)
    return read_table("power_entry").rows.get(entry.means)


def promised_current(ledger: Ledger, entry: Element) -> tuple[Bounds, str] | None:
    """Current in A that every source of its connector's kind gives, and in words why; None where that is not known."""
    row = connector(ledger, entry)
    if row is None:
        return None
    if "guaranteed" in row.values:
        ledger.assume(f"{row.key}: at least {row.number('guaranteed'):g} A ({row.cited})")
        return Bounds.exact(row.number("guaranteed")), row.key
    return _told_current(ledger, entry, str(row.values["told_by"])) if "told_by" in row.values else None


def offered_power(ledger: Ledger, entry: Element) -> Bounds | None:
    """From least to most, in W, what a source of its connector's kind offers without negotiation; else None."""
    promise, row = promised_current(ledger, entry), connector(ledger, entry)
    volts = quantity(ledger, entry, "voltage")
    if promise is None or row is None or volts is None or "told_by" not in row.values:
        return None
    classes = [source for source in read_table("usb_sources").rows.values() if "pull_up" in source.values]
    if volts.high > row.number("voltage") * _NOMINAL:
        return None
    powers = [end * source.number("voltage") for source in classes for end in source.span("current")]
    return Bounds(None, min(powers), max(powers))


def _told_current(ledger: Ledger, entry: Element, fact: str) -> tuple[Bounds, str] | None:
    pull_down = quantity(ledger, entry, fact)
    if pull_down is None or not pull_down.is_known:
        return None
    rows = read_table("usb_sources").rows
    source, seen = rows["default"], rows["told as default"]
    pull_up, volts = Bounds.exact(source.number("pull_up")), Bounds.exact(source.number("voltage"))
    contact = across(divided_voltage, volts, pull_up, pull_down)
    if not seen.number("above") <= contact.low <= contact.high <= seen.number("below"):
        return None
    low, high = source.span("current")
    ledger.assume(f"a default source gives at least {low:g} A, or {high:g} A with a faster data link ({source.cited})")
    ledger.assume(f"{seen.number('above'):g} to {seen.number('below'):g} V tells the default ({seen.cited})")
    why = f"{fact} {told(pull_down)} ohm against {told(pull_up)} ohm at {told(volts)} V: {told(contact)} V"
    return Bounds.exact(low), why


def connector_class(ledger: Ledger, entry: Element) -> str:
    """The class of its connector and the voltage that is meant for it, in words; '' where that is not known.

    The diameters of the plug are noted only where they are lacking: no number hangs on them.
    """
    row = read_table("power_entry").rows.get(entry.means)
    if row is not None and "voltage" in row.values:
        ledger.assume(f"{row.key}: {row.number('voltage'):g} V unless more is negotiated ({row.cited})")
        return f"{row.key}: {row.number('voltage'):g} V unless more is negotiated"
    if row is None or "sized_by" not in row.values:
        return ""
    for name in ("plug_outer", "plug_inner"):
        if entry.bounds(name) is None:
            ledger.lack(entry.id, name)
    return " or ".join(_plug_words(ledger, plug) for plug in plugs_that_fit(entry, str(row.values["sized_by"])))


def plugs_that_fit(entry: Element, table: str) -> list[Row]:
    """The rows of a table of plugs that its measured diameters fit; empty where they are not stated or fit none."""
    outer, inner = entry.bounds("plug_outer"), entry.bounds("plug_inner")
    if outer is None or inner is None:
        return []
    rows = read_table(table).rows.values()
    return [row for row in rows if _fits(outer, row.number("outer")) and _fits(inner, row.number("inner"))]


def _fits(measured: Bounds, wanted: float) -> bool:
    return measured.low - _FITS <= wanted <= measured.high + _FITS


def _plug_words(ledger: Ledger, plug: Row) -> str:
    size = f"{plug.number('outer'):g}/{plug.number('inner'):g} mm"
    ends = f"above {plug.number('above'):g} up to {plug.number('to'):g} V" if "to" in plug.values else ""
    meant = ends or "tied to no voltage"
    ledger.assume(f"{plug.key}: {size}, {meant} ({plug.cited})")
    return f"{plug.key} ({meant})"
