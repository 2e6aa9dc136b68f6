"""Opening: the steps, tools and time it takes to take the product apart."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.figures.counting import Ledger, added, open_above, told
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("opening", "Opening", 110)


@figure(
    title="Opening actions",
    order=10,
    meaning="How many actions the record lists from the closed product to its innards.",
    formula="count of the actions listed",
    source="count; common practice, no source",
    preferred="lower, where the product is to be opened for repair",
)
def opening_actions(record: Record) -> Measure:
    """Actions as listed, by what is done."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    done: dict[str, int] = {}
    for action in record.opening:
        done[str(action["do"])] = done.get(str(action["do"]), 0) + 1
    parts = {name: open_above(count, whole=whole) for name, count in sorted(done.items())}
    how = ", ".join(f"{name} {count}" for name, count in sorted(done.items())) or "none listed"
    return ledger.measure(open_above(len(record.opening), whole=whole), how, parts)


@figure(
    title="Opening steps",
    order=20,
    meaning="How many steps opening takes, a step being what ends with something coming off or a change of tool.",
    formula="count of steps; taking up a tool or undoing a fastener alone is none, unplugging the supply is one",
    source="step as defined in (EU) 2023/1669, annex IV 5",
    preferred="lower, where the product is to be opened for repair",
)
def opening_steps(record: Record) -> Measure:
    """Steps in the sense of the energy-label rules for telephones and tablets."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    count = steps_of(record)
    how = f"{len(record.opening)} actions make {count} steps" if record.opening else "none listed"
    return ledger.measure(open_above(count, whole=whole), how)


@figure(
    title="Tools",
    order=30,
    meaning="How many different tools opening takes, bare hands not counted.",
    formula="count of different tools over all actions",
    source="count; common practice, no source",
    preferred="lower, where the product is to be opened for repair",
)
def tool_count(record: Record) -> Measure:
    """Different tools, with how many actions use each."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    uses: dict[str, int] = {}
    for action in record.opening:
        if "tool" in action:
            uses[str(action["tool"])] = uses.get(str(action["tool"]), 0) + 1
    parts = {tool: open_above(count, whole=whole) for tool, count in sorted(uses.items())}
    how = ", ".join(parts) or "no tool named"
    return ledger.measure(open_above(len(uses), whole=whole), how, parts)


@figure(
    title="Opening time, as timed",
    unit="s",
    order=40,
    meaning="How long the actions listed take together.",
    formula="sum over actions of the stated time, else joints undone x stated time for one",
    source="sum of stated times; common practice, no source",
    preferred="lower, where the product is to be opened for repair",
)
def opening_time(record: Record) -> Measure:
    """Time in s of all actions, by what is done; an action without a time leaves the sum open above."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    times = [_time(ledger, place, action) for place, action in enumerate(record.opening, start=1)]
    total = added(times, whole=whole)
    parts: dict[str, Bounds] = {}
    for action, time in zip(record.opening, times, strict=True):
        name = str(action["do"])
        parts[name] = parts.get(name, Bounds.exact(0.0)) + added([time], whole=whole)
    how = " + ".join(told(time) for time in times) + f" = {told(total)} s" if times else "none listed"
    return ledger.measure(total, how, dict(sorted(parts.items())))


def steps_of(record: Record) -> int:
    """How many actions end a step: by setting something free, or because the next one needs another tool."""
    steps, tool, begun = 0, "", False
    for action in record.opening:
        needed = str(action.get("tool", ""))
        if begun and needed and tool and needed != tool:
            steps += 1
        tool, begun = needed or tool, True
        if action.get("frees") or _parts_supply(record, action):
            steps, begun = steps + 1, False
    return steps


def _parts_supply(record: Record, action: Mapping[str, Any]) -> bool:
    thing = record.elements.get(str(action.get("what", "")))
    return thing is not None and thing.section == "power.entry"


def _time(ledger: Ledger, place: int, action: Mapping[str, Any]) -> Bounds | None:
    subject = f"opening {place}"
    stated = as_bounds(action.get("time"))
    joint = ledger.record.elements.get(str(action.get("what", "")))
    each = joint.bounds("seconds_each") if joint is not None and stated is None else None
    if joint is not None and each is not None:
        ledger.use(joint.id, "seconds_each")
        return each * int(action.get("count", joint.count))
    ledger.note(subject, "time", known=stated is not None)
    return stated
