"""The limits that (EU) 2019/1782 sets for the supply that came in the box, by its rating."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from archdiff.figures.facts.entry_facts import BOX, boxed, came_with_supply
from archdiff.physics.circuits import efficiency_floor
from archdiff.quantities import Bounds
from archdiff.record import Truth, as_bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element
    from archdiff.tables import Row


def entries_with_supply(ledger: Ledger, entries: tuple[Element, ...]) -> list[Element]:
    """The entries for which a mains supply came in the box, or may have come."""
    return [entry for entry in entries if came_with_supply(ledger, entry) is not Truth.NO]


def efficiency_limit(ledger: Ledger, entry: Element, watts: Bounds) -> Bounds | None:
    """Least average efficiency, 0 to 1, asked of a supply of that rating; None above 250 W."""
    ends = _rows(ledger, entry, watts)
    return _hull([efficiency_floor(end, *_coefficients(row)) for row, end in ends]) if ends else None


def no_load_limit(ledger: Ledger, entry: Element, watts: Bounds) -> Bounds | None:
    """Most power in W that a supply of that rating may take with nothing joined; None above 250 W."""
    ends = _rows(ledger, entry, watts)
    return _hull([row.number("no_load") for row, _ in ends]) if ends else None


def beside(ledger: Ledger, entry: Element, fact: str, limit: Bounds | None) -> str:
    """What is stated of the supply in the box beside its limit, in words.

    It is noted only where it is lacking, for no number hangs on it. An efficiency keeps to its limit from above, a
    no-load power from below.
    """
    box = entry.facts.get(BOX)
    written = box.get(fact) if isinstance(box, Mapping) else None
    stated = as_bounds(written)
    if stated is None:
        ledger.lack(entry.id, f"{BOX} {fact}")
        return ""
    if limit is None:
        return ""
    over, under = stated.low >= limit.high, stated.high <= limit.low
    keeps = over if fact == "efficiency" else under
    breaks = stated.high < limit.low if fact == "efficiency" else stated.low > limit.high
    word = "within the limit" if keeps else "outside the limit" if breaks else "too near the limit to tell"
    return f"{written} stated: {word}, if the rule applies to it, which is not judged"


def _coefficients(row: Row) -> tuple[float, float, float]:
    return row.number("logarithm"), row.number("slope"), row.number("constant")


def _rows(ledger: Ledger, entry: Element, watts: Bounds) -> list[tuple[Row, float]]:
    """The rows that hold for the least and the most rated power, for each kind of supply that it may be.

    The limits never fall with the power, so the two ends tell all between. Empty where an end lies outside.
    """
    wanted = [(kind, end) for kind in _kinds(ledger, entry) for end in (watts.low, watts.high)]
    found = [(row, end) for kind, end in wanted for row in _rows_of(kind) if _holds(row, end)]
    if len(found) < len(wanted):
        return []
    for row, _ in found:
        ledger.assume(f"limits for a supply that is {row.key} ({row.cited})")
    return found


def _rows_of(kind: str) -> list[Row]:
    return [row for row in read_table("supply_limits").rows.values() if row.key.startswith(f"{kind},")]


def _holds(row: Row, watts: float) -> bool:
    return row.number("above") < watts <= row.number("to")


def _kinds(ledger: Ledger, entry: Element) -> tuple[str, ...]:
    """'low-voltage' or 'ordinary'; both where voltage and current leave it open."""
    row = read_table("supply_limits").rows["low voltage"]
    below, least = row.number("voltage"), row.number("current")
    volts, amps = boxed(ledger, entry, "voltage"), boxed(ledger, entry, "current")
    if (volts is not None and volts.low >= below) or (amps is not None and amps.high < least):
        return ("ordinary",)
    if volts is not None and amps is not None and volts.high < below and amps.low >= least:
        return ("low-voltage",)
    return ("ordinary", "low-voltage")


def _hull(values: list[float]) -> Bounds:
    low, high = min(values), max(values)
    return Bounds(low if low == high else None, low, high)
