"""What is off, revealed and undone after each step of the opening."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from archdiff.rules.facts import ids

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from archdiff.record import Element, Record

_FAR = 1 << 30


class Dismantling:
    """A record's opening steps read as one history; steps count from 0."""

    def __init__(self, record: Record) -> None:
        self.record = record

    def freed_by(self, index: int) -> tuple[str, ...]:
        """What comes off in a step: what it frees and what it lifts."""
        step = self.record.opening[index]
        lifted = ids(step.get("what")) if step.get("do") == "lift" else ()
        return tuple(dict.fromkeys(name for name in (*ids(step.get("frees")), *lifted) if name in self.record.elements))

    def is_off(self, name: str, *, before: int) -> bool:
        """Whether an earlier step frees it or takes it off by name, or what carries it, or undid all that held it."""
        if any(self._off.get(carrier, _FAR) < before for carrier in (name, *self._carriers(name))):
            return True
        held_by = self.joints_of(name)
        return bool(held_by) and not any(self._still_holds(joint, before - 1) for joint in held_by)

    def is_revealed(self, name: str, *, before: int) -> bool:
        """Whether an earlier step says that it can now be reached."""
        return any(name in ids(step.get("reveals")) for step in self.record.opening[:before])

    def undone_in(self, joint: Element) -> int | None:
        """The step after which it holds no longer; None where no step works on it.

        Alike fasteners may be undone a few at a time: then the step counts with which all of them are.
        """
        holding = joint.count if "count" in joint.facts else 0
        steps = self._worked_on.get(joint.id, ())
        for index in steps:
            holding -= int(self.record.opening[index].get("count", holding))
            if holding <= 0:
                return index
        return steps[-1] if steps else None

    def joints_of(self, name: str) -> Sequence[Element]:
        """The joints that hold it."""
        return self._joints.get(name, ())

    def stays(self, other: str, coming_off: str, index: int) -> bool:
        """Whether `other` is known to stay behind when `coming_off` comes off in that step.

        It does not where it came off before or with it, lies in it, or hangs on nothing else.
        """
        if self._freed.get(other, _FAR) <= index or coming_off in self._carriers(other):
            return False
        if other in self._carriers(coming_off) or other in self._carrying:
            return True
        elsewhere = (joint for joint in self.joints_of(other) if coming_off not in ids(joint.facts["between"]))
        return any(self._still_holds(joint, index) for joint in elsewhere)

    def _still_holds(self, joint: Element, index: int) -> bool:
        done = self.undone_in(joint)
        return done is None or done > index

    def _carriers(self, name: str) -> list[str]:
        """What carries it, what carries that, and so on."""
        chain: list[str] = []
        element = self.record.elements.get(name)
        while element is not None:
            above = next((str(element.facts[word]) for word in ("on", "in", "sits_in") if word in element.facts), "")
            if above in chain or above == name:
                break
            element = self.record.elements.get(above)
            chain += [above] if element is not None else []
        return chain

    @cached_property
    def _freed(self) -> Mapping[str, int]:
        first: dict[str, int] = {}
        for index in range(len(self.record.opening)):
            for name in self.freed_by(index):
                first.setdefault(name, index)
        return first

    @cached_property
    def _off(self) -> Mapping[str, int]:
        first: dict[str, int] = {}
        for index, step in enumerate(self.record.opening):
            for name in (*self.freed_by(index), *ids(step.get("what"))):
                first.setdefault(name, index)
        return first

    @cached_property
    def _worked_on(self) -> Mapping[str, list[int]]:
        found: dict[str, list[int]] = {}
        for index, step in enumerate(self.record.opening):
            for name in dict.fromkeys((*ids(step.get("what")), *ids(step.get("frees")))):
                found.setdefault(name, []).append(index)
        return found

    @cached_property
    def _joints(self) -> Mapping[str, list[Element]]:
        found: dict[str, list[Element]] = {}
        for joint in self.record.section("joints"):
            for end in dict.fromkeys(ids(joint.facts.get("between"))):
                found.setdefault(end, []).append(joint)
        return found

    @cached_property
    def _carrying(self) -> frozenset[str]:
        elements = self.record.elements.values()
        return frozenset(str(e.facts[word]) for e in elements for word in ("on", "in") if word in e.facts)
