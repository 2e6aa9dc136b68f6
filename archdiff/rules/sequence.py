"""Order of the opening: nothing is undone, comes off or comes to light before its time or a second time."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.problems import Severity
from archdiff.rules.dismantling import Dismantling
from archdiff.rules.facts import ids
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.record import Element, Record

_UNDOING = frozenset({"peel", "unscrew", "unclip", "pry", "unplug cable", "desolder", "cut", "unglue", "drill"})


@rule("undone-twice", order=607, severity=Severity.WARNING)
def undone_twice(record: Record) -> Iterator[Finding]:
    """A step undoes a joint or a link of which earlier steps have left nothing to undo."""
    before: dict[str, list[int]] = {}
    for index, step in enumerate(record.opening):
        target = record.elements.get(str(step.get("what")))
        if target is None or target.section not in ("joints", "interconnects") or step["do"] not in _UNDOING:
            continue
        earlier = before.setdefault(target.id, [])
        if earlier and _none_left(record, target, [*earlier, index]):
            line = record.document.spot(("opening", earlier[-1])).line
            message = f"{target.id} is undone here, and was undone already in line {line}"
            hint = "take the step out, or say in both how many are undone, with 'count'"
            yield Finding(("opening", index, "what"), message, hint)
        earlier.append(index)


@rule("comes-off-twice", order=608, severity=Severity.WARNING)
def comes_off_twice(record: Record) -> Iterator[Finding]:
    """Something comes off that came off alone before."""
    first: dict[str, int] = {}
    for index, step in enumerate(record.opening):
        for place, name in enumerate(ids(step.get("frees"))):
            before = first.setdefault(name, index)
            # What came off together with something else may be parted from that later.
            if before != index and len(ids(record.opening[before].get("frees"))) == 1:
                line = record.document.spot(("opening", before)).line
                message = f"{name} comes off here, and came off already in line {line}"
                yield Finding(("opening", index, "frees", place), message, "keep the step in which it comes off")


@rule("revealed-too-late", order=609, severity=Severity.WARNING)
def revealed_too_late(record: Record) -> Iterator[Finding]:
    """A step reveals something that an earlier step has worked on or taken off."""
    for index, step in enumerate(record.opening):
        for place, name in enumerate(ids(step.get("reveals"))):
            before = next((i for i in range(index) if _at_hand(record.opening[i], name)), None)
            if before is not None:
                line = record.document.spot(("opening", before)).line
                message = f"{name} can first be reached after this step, and line {line} has it in hand already"
                yield Finding(
                    ("opening", index, "reveals", place), message, "put the steps in order, or correct 'reveals'"
                )


@rule("revealed-while-covered", order=610, severity=Severity.WARNING)
def revealed_while_covered(record: Record) -> Iterator[Finding]:
    """A step reveals something that is said to lie hidden under what has not come off yet."""
    work = Dismantling(record)
    for index, step in enumerate(record.opening):
        for place, name in enumerate(ids(step.get("reveals"))):
            element = record.elements.get(name)
            cover = record.elements.get(str(element.facts.get("hidden_under"))) if element is not None else None
            if cover is not None and not work.is_off(cover.id, before=index + 1):
                message = f"{name} lies hidden under {cover.id}, and {cover.id} has not come off by then"
                hint = f"put it into 'reveals' of the step that frees {cover.id}, or correct 'hidden_under'"
                yield Finding(("opening", index, "reveals", place), message, hint)


@rule("hidden-under-each-other", order=611)
def hidden_under_each_other(record: Record) -> Iterator[Finding]:
    """Something is said to lie hidden under what lies hidden under it."""
    for element in record.elements.values():
        seen, above = [element.id], str(element.facts.get("hidden_under"))
        while above in record.elements and above not in seen:
            seen.append(above)
            above = str(record.elements[above].facts.get("hidden_under"))
        if above == element.id:
            message = f"{' lies under '.join([*seen, element.id])}: neither could ever be reached"
            yield Finding((*element.path, "hidden_under"), message, "correct one of the two 'hidden_under'")


def _none_left(record: Record, target: Element, steps: list[int]) -> bool:
    """Whether all but the last of these steps undo as many as there are; not where that is not said."""
    stated = [record.opening[index].get("count") for index in steps]
    if not any(stated):
        return True
    return "count" in target.facts and sum(count or target.count for count in stated[:-1]) >= target.count


def _at_hand(step: Mapping[str, Any], name: str) -> bool:
    """Whether a step works on a thing, or takes it off alone; what comes off inside another may be revealed later."""
    return step.get("what") == name or ids(step.get("frees")) == (name,)
