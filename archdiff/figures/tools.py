"""Tools: which ones taking the product apart asks for, and how often another is taken up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, open_above, share, told
from archdiff.figures.facts.tool_facts import cited, is_basic, tools_used
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("tools", "Tools for opening", 108)
_LOWER = "lower, where the product is to be opened for repair"
_HIGHER = "higher, where the product is to be opened for repair"


@figure(
    title="Tools",
    order=30,
    meaning="How many different tools opening takes, bare hands not counted.",
    formula="count of different tools over all actions",
    source="count; common practice, no source",
    preferred=_LOWER,
)
def tool_count(record: Record) -> Measure:
    """Different tools, with how many actions use each."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    uses = tools_used(record)
    parts = {tool: open_above(count, whole=whole) for tool, count in sorted(uses.items())}
    how = ", ".join(parts) or "no tool named"
    return ledger.measure(open_above(len(uses), whole=whole), how, parts)


@figure(
    title="Changes of tool",
    order=32,
    meaning="How often a tool is taken up that is not the one in hand; the first one counts.",
    formula="count of actions that name another tool than the last one named",
    source="tool change as Vanegas et al. 2018 count it (from memory); doi 10.1016/j.resconrec.2017.06.022",
    preferred=_LOWER,
)
def tool_changes(record: Record) -> Measure:
    """Changes of tool, by the tool taken up."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    named = [str(action["tool"]) for action in record.opening if "tool" in action]
    taken = [tool for last, tool in zip(["", *named], named, strict=False) if tool != last]
    parts = {tool: open_above(taken.count(tool), whole=whole) for tool in sorted(set(taken))}
    return ledger.measure(open_above(len(taken), whole=whole), ", then ".join(taken) or "no tool named", parts)


@figure(
    title="Basic tools",
    order=34,
    meaning="Share of the tools that are basic ones, as the ecodesign rules for telephones and tablets list them.",
    formula="basic tools / different tools; several named together are basic where each is",
    source="(EU) 2023/1670, annex, definition 50 (list read; words for each tool from the trade)",
    preferred=_HIGHER,
)
def basic_tool_share(record: Record) -> Measure:
    """Share, 0 to 1, of different tools; a tool that the list's words do not name may be either."""
    ledger = Ledger(record)
    whole = ledger.whole("opening")
    uses = sorted(tools_used(record))
    answers = {tool: is_basic(tool) for tool in uses}
    for tool in uses:
        if answers[tool] is Truth.UNKNOWN:
            ledger.lack("opening", f"whether '{tool}' is a basic tool")
    for source in cited(uses):
        ledger.assume(f"which tools are basic: {source}")
    if not uses and whole:
        ledger.lack("opening", "a tool")
    count = _true(answers)
    how = f"{told(count)} of {len(uses)} different tools" if uses else "no tool named"
    parts = {tool: _true({tool: answer}) for tool, answer in answers.items()}
    return ledger.measure(share(count, len(uses), whole=whole), how, parts)


def _true(answers: Mapping[str, Truth]) -> Bounds:
    yes = sum(answer is Truth.YES for answer in answers.values())
    maybe = sum(answer is Truth.UNKNOWN for answer in answers.values())
    return Bounds(None if maybe else yes, yes, yes + maybe)
