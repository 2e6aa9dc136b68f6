"""What the source at a power entry gives: by the supply in the box, else by what every source of its kind promises."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.facts.entry_facts import boxed, came_with_supply, offered_power, promised_current, rated_power
from archdiff.quantities import Bounds
from archdiff.record import Truth
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element


def guaranteed_current(ledger: Ledger, entry: Element) -> tuple[Bounds | None, str]:
    """Current in A that its source is sure to give, and in words why.

    Where nobody said what came in the box, it may be any supply: at least what every one of its kind gives.
    """
    came = came_with_supply(ledger, entry)
    stated = None if came is Truth.NO else boxed(ledger, entry, "current")
    if stated is not None:
        return stated, "supply in the box"
    promise = promised_current(ledger, entry)
    if promise is None:
        ledger.lack(entry.id, "supplied_with current")
        return None, "no source known"
    least, why = promise
    return (least, why) if came is Truth.NO else (Bounds.at_least(least.low), f"{why}; what came in the box is open")


def enough(entry: Element, drawn: Bounds | None, given: Bounds | None) -> str:
    """Which source gives what is drawn, in words; '' where its kind has no classes or something is not known."""
    row = read_table("power_entry").rows.get(entry.means)
    if drawn is None or given is None or row is None or "told_by" not in row.values:
        return ""
    classes = [
        source.span("current")[0] for source in read_table("usb_sources").rows.values() if "pull_up" in source.values
    ]
    for amps in sorted(classes):
        if drawn.high <= amps:
            least = amps == min(classes)
            return (
                f"{entry.id}: {'the least source is enough' if least else f'a source that offers {amps:g} A is enough'}"
            )
    return f"{entry.id}: may need more than a source offers without negotiation"


def available_power(ledger: Ledger, entry: Element) -> Bounds | None:
    """Power in W that its source can give by its rating or, where none came, by its kind."""
    came = came_with_supply(ledger, entry)
    stated = None if came is Truth.NO else rated_power(ledger, entry)
    if stated is not None:
        return stated
    offered = offered_power(ledger, entry)
    if offered is None:
        ledger.lack(entry.id, "supplied_with power")
        return None
    return offered if came is Truth.NO else Bounds.at_least(offered.low)


def power_class(ledger: Ledger, most: Bounds | None) -> str:
    """'PS1, at most 15 W' or 'PS1 or PS2', with what that is worth; '' where it may be any class."""
    if most is None or math.isinf(most.high):
        return ""
    below, found = 0.0, []
    for name in ("PS1", "PS2"):
        row = read_table("power_classes").rows[name]
        limit = row.number("most")
        if most.low <= limit and most.high > below:
            ledger.assume(f"{name}: at most {limit:g} W ({row.cited})")
            found.append(f"{name}, at most {limit:g} W")
        below = limit
    if most.high > below:
        found.append(f"PS3, above {below:g} W")
    return f"by rating {' or '.join(found)} (IEC 62368-1, which measures with faults; for orientation, no verdict)"
