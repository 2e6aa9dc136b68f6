"""The opening section: what was not timed is shown as such, estimates as estimates, and how deep each board lies."""

from __future__ import annotations

import math
import re
from itertools import pairwise
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


def strip(*steps: Step) -> Page:
    return Page(str(timeline([steps, [Step("c", None, None, hidden=False)]])))


def of_class(page: Page, name: str) -> list[dict[str, str]]:
    return [attributes for _, attributes in page.tags if attributes.get("class") == name]


def test_estimates_are_dashed_and_to_scale() -> None:
    page = strip(Step("a", 10, 10, hidden=False), Step("b", 20, 20, hidden=False, estimated=True))
    fields = of_class(page, "step-field")
    assert ["stroke-dasharray" in attributes for attributes in fields] == [False, True, False]
    assert float(fields[1]["width"]) == pytest.approx(2 * float(fields[0]["width"]), rel=1e-3)
    kinds = [a["class"] for tag, a in page.tags if tag == "g"]
    assert kinds == ["left timed", "left estimated", "right untimed"]


def runs(tail: dict[str, str]) -> list[float]:
    """The lengths of the runs of a tail's path along the time axis."""
    return [float(length) for length in re.findall(r"h(-?[\d.]+)", tail["d"])]


def test_an_uncertain_end_is_a_tail_and_what_follows_comes_at_its_latest() -> None:
    """40 to 70 s: filled for 40 s, a tail for 30 s, and the next action, of 10 s, begins at 70 s."""
    page = strip(Step("a", 40, 70, hidden=True), Step("b", 10, 10, hidden=False))
    first, second, _ = of_class(page, "step-field")
    (tail,) = of_class(page, "step-tail")
    second_px = float(second["width"]) / 10
    assert float(first["width"]) == pytest.approx(40 * second_px, rel=1e-3)
    assert runs(tail) == pytest.approx([30 * second_px, -30 * second_px], rel=1e-3)  # there and back: closed at its end
    assert float(second["x"]) - float(first["x"]) == pytest.approx(70 * second_px, rel=1e-3)


def test_without_a_longest_time_the_tail_has_no_end() -> None:
    page = strip(Step("a", 40, math.inf, hidden=False), Step("b", 10, 10, hidden=False))
    (tail,) = of_class(page, "step-tail")
    above, below = runs(tail)
    assert above == below > 0  # two lines, and nothing that closes them
    assert "v" not in tail["d"]
    ends = [float(a["x"]) + float(a["width"]) for a in of_class(page, "step-field")]
    assert max(ends) <= 980.1


def test_a_time_that_is_known_has_no_tail() -> None:
    assert of_class(strip(Step("a", 40, 40, hidden=False)), "step-tail") == []


def test_numbers_stand_in_or_above_their_fields_and_never_on_each_other() -> None:
    steps = [Step(str(s), s, s, hidden=False) for s in (1, 1, 1, 60, 1, 30, 1, 1)]
    picture = str(timeline([steps, []]))
    spots = re.findall(r'<text (?:class="(above)" )?x="([\d.]+)" y="([\d.]+)">(\d+)<', picture)
    shown = [(float(y), float(x), number) for _, x, y, number in spots]
    assert {"4", "6"} <= {number for above, *_, number in spots if not above}
    assert {"1", "5"} <= {number for above, *_, number in spots if above}
    for (y, x, _), (other_y, other_x, _) in pairwise(sorted(shown)):
        assert y != other_y or other_x - x >= 7  # one figure of 11 px is 6.1 px wide (556 thousandths)


def test_the_caption_explains_the_ends_that_are_drawn(record_of: Callable[[str], Record]) -> None:
    for time, flags in (("3 s", (False, False)), ("3...5 s", (True, False)), ("at least 3 s", (False, True))):
        text = RECORD.replace("frees: [lid], time: 3 s", f"frees: [lid], time: {time}")
        both: Any = SimpleNamespace(left=record_of(text), right=record_of(""), figures=())
        view = opening.view(both)
        assert view is not None
        assert (view["tailed"], view["endless"]) == flags, time
