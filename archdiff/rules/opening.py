"""Opening: no step works on what is still hidden, and nothing comes off while it is still held."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.rules.dismantling import Dismantling
from archdiff.rules.facts import ids
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Element, Record


@rule("lifted-while-fastened", order=600)
def lifted_while_fastened(record: Record) -> Iterator[Finding]:
    """Something comes off before the joint that holds it is undone."""
    work = Dismantling(record)
    for index, name, joint, other in _held(record, work):
        later = work.undone_in(joint)
        if later is not None:
            line = record.document.spot(("opening", later)).line
            message = f"{name} comes off here, and {joint.id} still holds it to {other} (undone in line {line})"
            hint = "put the steps in the order they were done, or correct 'frees'"
            yield Finding(("opening", index), message, hint)


@rule("lifted-and-never-unfastened", order=601, severity=Severity.WARNING)
def lifted_and_never_unfastened(record: Record) -> Iterator[Finding]:
    """Something comes off, and no step undoes a joint that holds it."""
    work = Dismantling(record)
    for index, name, joint, other in _held(record, work):
        if work.undone_in(joint) is None:
            message = f"{name} comes off here, and no step undoes {joint.id}, which holds it to {other}"
            hint = f"add the step that undoes {joint.id} before this one, with 'what: {joint.id}'"
            yield Finding(("opening", index), message, hint)


@rule("worked-on-while-hidden", order=602)
def worked_on_while_hidden(record: Record) -> Iterator[Finding]:
    """A step works on something that is still hidden under something else."""
    work = Dismantling(record)
    for index, step in enumerate(record.opening):
        target = record.elements.get(str(step.get("what")))
        if target is None:
            continue
        cover = record.elements.get(str(target.facts.get("hidden_under")))
        if cover is None or work.is_off(cover.id, before=index) or work.is_revealed(target.id, before=index):
            continue
        message = f"{target.id} lies hidden under {cover.id}, and no step before this one takes {cover.id} off"
        hint = f"add the step that frees {cover.id}, put it before this one, or correct 'hidden_under'"
        yield Finding(("opening", index, "what"), message, hint)


_TAKES_OFF = frozenset({"lift", "pull", "slide", "remove battery"})


@rule("nothing-comes-off", order=606, severity=Severity.WARNING)
def nothing_comes_off(record: Record) -> Iterator[Finding]:
    """A step takes something off or reveals something, and does not say what comes off."""
    for index, step in enumerate(record.opening):
        if step.get("frees") or step["do"] == "turn over":
            continue
        if step["do"] in _TAKES_OFF or step.get("reveals"):
            message = f"'{step['do']}' does not say what comes off, so it is not counted as a step"
            yield Finding(("opening", index), message, "add 'frees: […]' with what comes off in this step")


@rule("revealed-twice", order=603, severity=Severity.WARNING)
def revealed_twice(record: Record) -> Iterator[Finding]:
    """A step reveals what an earlier one has revealed already."""
    first: dict[str, int] = {}
    for index, step in enumerate(record.opening):
        for place, name in enumerate(ids(step.get("reveals"))):
            if first.setdefault(name, index) != index:
                line = record.document.spot(("opening", first[name])).line
                hint = "keep it where it can first be reached"
                yield Finding(("opening", index, "reveals", place), f"{name} is already revealed in line {line}", hint)


@rule("mains-not-unplugged-first", order=604, severity=Severity.WARNING)
def mains_not_unplugged_first(record: Record) -> Iterator[Finding]:
    """A product on the public supply is opened without being unplugged first."""
    at_mains = "mains" in record.product.get("supply", ()) or any(
        record.has_trait(entry, "mains") for entry in record.section("power.entry")
    )
    if at_mains and record.opening and record.opening[0].get("do") != "unplug":
        message = "this product is fed from the public supply, and the first step is not to unplug it"
        yield Finding(("opening", 0), message, "begin with '- {do: unplug}', then let stored energy run down")


@rule("not-all-undone", order=605, severity=Severity.WARNING)
def not_all_undone(record: Record) -> Iterator[Finding]:
    """The steps undo fewer, or more, of alike fasteners than there are."""
    counted: dict[str, list[int]] = {}
    last: dict[str, int] = {}
    for index, step in enumerate(record.opening):
        joint = record.elements.get(str(step.get("what")))
        if joint is not None and "between" in joint.facts and "count" in step and "count" in joint.facts:
            counted.setdefault(joint.id, []).append(step["count"])
            last[joint.id] = index
    for name, counts in counted.items():
        there = record.elements[name].count
        if sum(counts) != there:
            message = f"{sum(counts)} of {name} are undone, and there are {there}"
            yield Finding(("opening", last[name], "count"), message, "correct one of the two counts")


def _held(record: Record, work: Dismantling) -> Iterator[tuple[int, str, Element, str]]:
    """(step, what comes off, joint that still holds it, what it holds it to)."""
    for index in range(len(record.opening)):
        coming_off = work.freed_by(index)
        for name in coming_off:
            for joint in work.joints_of(name):
                done = work.undone_in(joint)
                if done is not None and done <= index:
                    continue
                others = [end for end in ids(joint.facts["between"]) if end != name]
                rest = next((end for end in others if work.stays(end, name, index)), None)
                if rest is not None:
                    yield index, name, joint, rest
