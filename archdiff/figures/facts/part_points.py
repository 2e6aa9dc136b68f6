"""Points of one part for depth, fasteners and tools, by the actions up to the last that says it comes off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.figures.facts.fastener_facts import Kind, kinds
from archdiff.figures.facts.index_points import ANY_POINTS, either, lowest, points, points_of_depth
from archdiff.figures.facts.reach import last_comes_off, steps_through
from archdiff.figures.facts.tool_facts import is_basic, tools_used
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element

# Actions that undo a fastener; whatever else is done leaves none behind.
_UNDOING = frozenset({"peel", "unscrew", "unclip", "pry", "desolder", "cut", "unglue", "drill"})
# Facts that list the tools that come with something, the worse scored first, and the rows with their points.
_SUPPLIED = (("tools_with_product", "with the product"), ("tools_with_spare_part", "with the spare part"))
_LEAST = Bounds.exact(ANY_POINTS.low)
SCALES = ("disassembly depth", "fasteners", "tools")


class PartPoints:
    """The points of the parts of one record; `repair` holds what it says of spare parts and what comes with them.

    Where not the whole opening was recorded there may be more steps and tools on the way to each part, and where not
    all joints were looked at more fasteners may hold it.
    """

    def __init__(self, ledger: Ledger, repair: Mapping[str, Any]) -> None:
        self.ledger, self.repair, self.record = ledger, repair, ledger.record
        opening, joints = ledger.whole("opening"), ledger.whole("joints")
        self._whole = dict(zip(SCALES, (opening, opening and joints, opening), strict=True))
        self._off = last_comes_off(self.record)
        self._steps = steps_through(self.record)

    def of(self, name: str) -> dict[str, Bounds]:
        """Points by scale of the element with that id; anything from 1 to 5 where no action takes it off."""
        place = self._off.get(name)
        if place is None:
            self.ledger.lack(name, "the step in which it comes off")
            return dict.fromkeys(SCALES, ANY_POINTS)
        depth = points_of_depth(Bounds.exact(self._steps[place]))
        # With no fastener and no tool on the way nothing has to be replaced, and bare hands do.
        fasteners = lowest([Bounds.exact(points("fastener", "reusable")), *self._fasteners(name, place)])
        tools = lowest([Bounds.exact(points("tool", "none")), *self._tools(place)])
        found = dict(zip(SCALES, (depth, fasteners, tools), strict=True))
        return {scale: each if self._whole[scale] else either([_LEAST, each]) for scale, each in found.items()}

    def steps(self, name: str) -> int | None:
        """How many steps it takes until that element has come off; None where no action takes it off."""
        return self._steps[self._off[name]] if name in self._off else None

    def _fasteners(self, name: str, last: int) -> Iterator[Bounds]:
        """Points of each joint that holds it to something and is undone on the way."""
        for place, action in enumerate(self.record.opening[: last + 1], start=1):
            target = self.record.elements.get(str(action.get("what", "")))
            if target is not None and target.section == "joints":
                if name in target.texts("between"):
                    yield self._of_joint(target)
            elif action["do"] in _UNDOING:
                self.ledger.lack(f"opening {place}", "which joint is undone")
                yield ANY_POINTS

    def _of_joint(self, joint: Element) -> Bounds:
        return either(self._of_kind(joint, kind) for kind in kinds(self.ledger, joint))

    def _of_kind(self, joint: Element, kind: Kind) -> Bounds:
        if kind is Kind.REUSABLE:
            return Bounds.exact(points("fastener", "reusable"))
        removable, resupplied = points("fastener", "removable"), points("fastener", "resupplied")
        if kind is Kind.DESTRUCTIVE:
            return Bounds.exact(removable)
        supplied = self.repair.get("fasteners_supplied")
        if supplied is None:
            self.ledger.lack("product", "repair, fasteners that come with the spare part")
            return Bounds(None, removable, resupplied)
        return Bounds.exact(resupplied if joint.id in supplied else removable)

    def _tools(self, last: int) -> Iterator[Bounds]:
        for tool in tools_used(self.record, through=last):
            answer = is_basic(tool)
            if answer is Truth.UNKNOWN:
                self.ledger.lack("opening", f"whether '{tool}' is a basic tool")
            basic, other = Bounds.exact(points("tool", "basic")), self._of_other(tool)
            yield {Truth.YES: basic, Truth.NO: other, Truth.UNKNOWN: either([basic, other])}[answer]

    def _of_other(self, tool: str) -> Bounds:
        """Points of a tool that is not a basic one, by what it comes with; lists that are missing leave it open."""
        least = may_be = points("tool", "commercial")
        for fact, words in (
            ("tools_with_product", "with the product"),
            ("tools_with_spare_part", "with the spare part"),
        ):
            listed = self.repair.get(fact)
            if listed is None:
                self.ledger.lack("product", f"repair, tools that come {words}")
                may_be = points("tool", words)
            elif tool in listed:
                least = may_be = points("tool", words)
        return Bounds(None if least < may_be else least, least, may_be)
