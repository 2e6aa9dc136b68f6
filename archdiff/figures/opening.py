"""Opening: the steps and time it takes to take the product apart."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.figures.counting import Ledger, added, open_above, told
from archdiff.figures.facts import handling
from archdiff.figures.facts.reach import steps_of, still_in
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("opening", "Opening", 110)
_LOWER = "lower, where the product is to be opened for repair"


@figure(
    title="Opening actions",
    order=10,
    meaning="How many actions the record lists from the closed product to its innards.",
    formula="count of the actions listed",
    source="count; common practice, no source",
    preferred=_LOWER,
)
def opening_actions(record: Record) -> Measure:
    """Actions as listed, by what is done."""
    return _counted(record, lambda _: True)


@figure(
    title="Opening steps",
    glance=True,
    order=20,
    meaning="How many steps opening takes, a step being what ends with something coming off or a change of tool.",
    formula="count of steps; taking up a tool or undoing a fastener alone is none, unplugging the supply is one",
    source="step as defined in (EU) 2023/1669, annex IV 5",
    preferred=_LOWER,
)
def opening_steps(record: Record) -> Measure:
    """Steps in the sense of the energy-label rules for telephones and tablets."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    count = steps_of(record)
    how = f"{len(record.opening)} actions make {count} steps" if record.opening else "none listed"
    return ledger.measure(open_above(count, whole=whole), how)


@figure(
    title="Places to be found first",
    order=24,
    meaning="How many actions begin with a search: the place has to be found before anything can be done.",
    formula="count of the actions said to be hidden; one of which nothing is said counts as open to view",
    source="count; common practice, no source",
    preferred=_LOWER,
)
def hidden_places(record: Record) -> Measure:
    """Actions whose place has to be found first, by what is done."""
    return _counted(record, lambda action: action.get("hidden") is True)


@figure(
    title="Destructive actions",
    order=26,
    meaning="How many actions something does not survive.",
    formula="count of the actions said to be destructive; one of which nothing is said counts as harmless",
    source="count; common practice, no source",
    preferred=_LOWER,
)
def destructive_actions(record: Record) -> Measure:
    """Actions that something does not survive, by what is done."""
    return _counted(record, lambda action: action.get("destructive") is True)


@figure(
    title="Opening time, as timed",
    unit="s",
    glance=True,
    order=40,
    meaning="How long the actions listed take together.",
    formula="sum over actions of the stated time, else joints undone x stated time for one",
    source="sum of stated times; common practice, no source",
    preferred=_LOWER,
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
    return ledger.measure(total, how, dict(sorted(parts.items())), said=still_in(record))


@figure(
    title="Opening time, estimated",
    unit="s",
    glance=True,
    order=50,
    meaning="How long the actions would take a trained hand by predetermined times: an estimate, not a measurement.",
    formula="sum of motions x time by table + fasteners undone x stated time for one; what has no fastener, as timed",
    source="motions after Vanegas et al. 2018, doi 10.1016/j.resconrec.2017.06.022 (from memory); 1 TMU = 0.036 s",
    preferred=_LOWER,
)
def opening_time_estimated(record: Record) -> Measure:
    """Time in s by motion; an undoing of which no time is known leaves the sum open above."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    done = handling.handlings(record, ledger)
    counts = _motions_of(done)
    undoing = added((each.undoing for each in done), whole=whole)
    total = undoing + handling.by_table(counts)
    parts = {motion: added([Bounds.exact(handling.by_table({motion: n}))], whole=whole) for motion, n in counts.items()}
    if done:
        parts["undoing"] = undoing
        ledger.assume(f"times of motions: {handling.tables_cited()}")
        for source in dict.fromkeys(each.source for each in done if each.source):
            ledger.assume(f"times of undoing, as the record has them: {source}")
    words = _estimate_in_words(counts, undoing, total) if done else "none listed"
    return ledger.measure(total, words, parts, said=still_in(record))


def _counted(record: Record, question: Callable[[Mapping[str, Any]], bool]) -> Measure:
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    done: dict[str, int] = {}
    for action in record.opening:
        if question(action):
            done[str(action["do"])] = done.get(str(action["do"]), 0) + 1
    parts = {name: open_above(count, whole=whole) for name, count in sorted(done.items())}
    how = ", ".join(f"{name} {count}" for name, count in sorted(done.items())) or "none listed"
    return ledger.measure(open_above(sum(done.values()), whole=whole), how, parts)


def _motions_of(done: tuple[handling.Handling, ...]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for each in done:
        for motion, count in each.motions.items():
            counts[motion] = counts.get(motion, 0) + count
    return {motion: counts[motion] for motion in handling.times() if motion in counts}


def _estimate_in_words(counts: Mapping[str, int], undoing: Bounds, total: Bounds) -> str:
    times = handling.times()
    terms = [f"{count} x {motion} {times[motion]:g}" for motion, count in counts.items()]
    motions = sum(count * times[motion] for motion, count in counts.items())
    table = f"{' + '.join(terms)} = {motions:g} TMU = {handling.by_table(counts):.6g} s; " if terms else ""
    return f"{table}undoing {told(undoing)} s; together {told(total)} s"


def _time(ledger: Ledger, place: int, action: Mapping[str, Any]) -> Bounds | None:
    subject = f"opening {place}"
    stated = as_bounds(action.get("time"))
    joint = ledger.record.elements.get(str(action.get("what", "")))
    is_joint = joint is not None and joint.section == "joints"
    each = joint.bounds("seconds_each") if joint is not None and is_joint and stated is None else None
    if joint is not None and each is not None:
        ledger.use(joint.id, "seconds_each")
        return each * int(action.get("count", joint.count))
    ledger.note(subject, "time", known=stated is not None)
    return stated
