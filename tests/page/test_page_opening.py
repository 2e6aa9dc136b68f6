"""The opening section: what was not timed is shown as such, estimates as estimates, and how deep each board lies."""

from __future__ import annotations

from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

import pytest

from archdiff.page.sections import opening
from archdiff.page.timeline import Step, timeline
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

RECORD = """coverage: {opening: whole}
boards: {main: {name: Main board}, keys: {name: Key board}}
enclosure: {lid: {}, base: {}}
joints: {s1: {name: Screws, between: [lid, base], count: 4, seconds_each: 5.76 s}}
opening:
  - {do: unplug, time: 2 s}
  - {do: unscrew, what: s1, tool: hexalobular 6}
  - {do: lift, what: lid, frees: [lid], time: 3 s}
  - {do: pry, what: the rim, tool: spudger}
  - {do: lift, what: main, frees: [main], time: 1 s}
"""


@pytest.fixture
def side(record_of: Callable[[str], Record]) -> Callable[[str], dict[str, Any]]:
    """The view of one side of a record of its own."""

    def view(text: str) -> dict[str, Any]:
        both: Any = SimpleNamespace(left=record_of(text), right=record_of(""), figures=())
        shown = opening.view(both)
        assert shown is not None
        left: dict[str, Any] = shown["sides"][0]
        return left

    return view


def test_what_was_not_timed_is_estimated_or_open(side: Callable[[str], dict[str, Any]]) -> None:
    """Unscrewing by hand: 40 TMU for the tool, 4 x (40 + 160), 30.24 s in all; how long prying takes nothing tells."""
    shown = side(RECORD)
    assert [step["estimated"] for step in shown["steps"]] == [False, True, False, False, False]
    assert [step["seconds"] for step in shown["steps"]] == pytest.approx([2, 840 * 0.036, 3, None, 1])
    assert shown["steps"][1]["time"].endswith(", estimated")
    assert shown["steps"][3]["time"] == "time not taken"
    assert (shown["untimed"], shown["estimated"]) == (2, 1)


def test_depth_is_told_by_board_and_step(side: Callable[[str], dict[str, Any]]) -> None:
    """Steps by hand: 1 unplugged, 2 lid off, 3 main board off; nothing takes the key board off."""
    shown = side(RECORD)
    assert shown["depth"] == "3 steps"
    assert shown["boards"] == ["Main board is off after step 3", "Key board: not known, no step recorded takes it off"]
    assert [(step["off"], step["ends"]) for step in shown["steps"] if step["off"]] == [
        (["lid"], 2),
        (["Main board"], 3),
    ]


def test_depth_in_part_is_a_lower_limit(side: Callable[[str], dict[str, Any]]) -> None:
    shown = side(RECORD.replace("opening: whole", "opening: part"))
    assert shown["depth"] == "at least 3 steps"
    assert shown["boards"][0] == "Main board is off after step 3 or later"


def test_estimates_are_dashed_and_to_scale() -> None:
    strips = [
        [Step("a", 10, hidden=False), Step("b", 20, hidden=False, estimated=True)],
        [Step("c", None, hidden=False)],
    ]
    page = Page(str(timeline(strips)))
    fields = [attributes for _, attributes in page.tags if attributes.get("class") == "step-field"]
    assert ["stroke-dasharray" in attributes for attributes in fields] == [False, True, False]
    assert float(fields[1]["width"]) == pytest.approx(2 * float(fields[0]["width"]), rel=1e-3)
    kinds = [a["class"] for tag, a in page.tags if tag == "g"]
    assert kinds == ["left timed", "left estimated", "right untimed"]
