"""Tools: which, how often another is taken up, and which are basic.

List of basic tools: (EU) 2023/1670, definition 50 (read): slotted, cross-recess and hexalobular screwdrivers; hexagon
key; combination wrench; pliers; diagonal cutters; prying lever; tweezers; magnifier; spudger; pick.
"""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

import pytest

from archdiff.figures.facts.tool_facts import is_basic
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WHOLE = "coverage: {opening: whole}\n"
BUILD = """opening:
  - {do: peel, tool: spudger}
  - {do: unscrew, tool: hexalobular 6}
  - {do: unscrew, tool: hexalobular 6}
  - {do: lift}
  - {do: unclip, tool: spudger}
  - {do: unglue, tool: warm air and spudger}
"""
LISTED = (
    "slotted screwdriver", "cross-recess screwdriver", "hexalobular screwdriver", "hexagon key", "combination wrench",
    "pliers", "diagonal cutters", "prying lever", "tweezers", "magnifier", "spudger", "pick",
)  # fmt: skip


@pytest.mark.parametrize("tool", LISTED)
def test_every_tool_of_the_published_list_is_basic(tool: str) -> None:
    assert is_basic(tool) is Truth.YES


@pytest.mark.parametrize(
    ("tool", "answer"),
    [
        ("hexalobular 6", Truth.YES),
        ("Hexalobular T6", Truth.YES),
        ("cross recess H1", Truth.YES),
        ("slot 0.4 x 2.5 mm", Truth.YES),
        ("hexagon socket 2", Truth.YES),
        ("Side cutter", Truth.YES),
        ("spudger, tweezers", Truth.YES),
        ("hexalobular 8 with pin", Truth.NO),
        ("soldering iron", Truth.NO),
        ("warm air and plastic wedge", Truth.NO),  # one of the two is not
        ("the maker's jig", Truth.UNKNOWN),
        ("spudger and the maker's jig", Truth.UNKNOWN),
        ("soldering iron and the maker's jig", Truth.NO),
    ],
)
def test_words_for_tools(tool: str, answer: Truth) -> None:
    assert is_basic(tool) is answer


@pytest.mark.parametrize(("figure", "value"), [("tool-count", 3), ("tool-changes", 4), ("basic-tool-share", 2 / 3)])
def test_all_stated(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf) -> None:
    record = record_of(WHOLE + BUILD)
    assert ends_of(figure, record) == pytest.approx((value, value))
    assert measure_of(figure, record).missing == ()


def test_tools_are_told_apart(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    told = {
        figure: {k: p.best for k, p in measure_of(figure, record).parts.items()}
        for figure in ("tool-count", "tool-changes", "basic-tool-share")
    }
    assert told["tool-count"] == {"hexalobular 6": 2, "spudger": 2, "warm air and spudger": 1}
    assert told["tool-changes"] == {"hexalobular 6": 1, "spudger": 2, "warm air and spudger": 1}
    assert told["basic-tool-share"] == {"hexalobular 6": 1, "spudger": 1, "warm air and spudger": 0}


@pytest.mark.parametrize(("figure", "least"), [("tool-count", 3), ("tool-changes", 4)])
def test_opened_in_part_gives_a_lower_limit(figure: str, least: int, record_of: RecordOf, ends_of: EndsOf) -> None:
    assert ends_of(figure, record_of(BUILD)) == (least, inf)


def test_opened_in_part_there_is_no_share(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("basic-tool-share", record_of(BUILD))
    assert measure.bounds is None
    assert measure.missing == ("opening: how far it was looked at is not stated",)


def test_a_tool_nobody_knows_may_be_basic_or_not(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("basic-tool-share", record_of(WHOLE + BUILD.replace("warm air and spudger", "a jig")))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((2 / 3, 1))
    assert measure.missing == ("opening: whether 'a jig' is a basic tool",)


@pytest.mark.parametrize("figure", ["tool-count", "tool-changes"])
def test_bare_hands_take_no_tool(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    assert ends_of(figure, record_of(WHOLE + "opening:\n  - {do: lift}\n")) == (0, 0)


def test_of_no_tools_there_is_no_share(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("basic-tool-share", record_of(WHOLE + "opening:\n  - {do: lift}\n"))
    assert (measure.bounds, measure.missing) == (None, ("opening: a tool",))


@pytest.mark.parametrize("figure", ["tool-count", "tool-changes", "basic-tool-share"])
def test_never_opened_is_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of("coverage: {opening: none}\n"))
    assert (measure.bounds, measure.missing) == (None, ("opening: not looked at",))
