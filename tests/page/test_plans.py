"""Board plans: true to scale, true to side, and nothing without a place is drawn or lost."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from archdiff.page.plans import plans_of, scale_of
from archdiff.record.build import build_record
from archdiff.record.text import parse_text

if TYPE_CHECKING:
    from archdiff.page.plans import Plan
    from archdiff.record import Record

RECORD = """\
archdiff: 1
product: {name: Larn, kind: lamp}
coverage: {}
boards:
  main: {outline: 40 x 30 mm, cut_outs: [{size: 4 x 2 mm, at: [10 mm, 5 mm]}]}
  disc: {outline: round 20 mm}
  bare: {}
parts:
  U1: {on: main, side: top, at: [10 mm, 20 mm], size: 8 x 4 mm, function: host processing, means: microcontroller}
  U2: {on: main, side: bottom, at: [10 mm, 20 mm], size: 8 x 4 mm, turned: 90 deg, function: program storage}
  U3: {on: main, side: top, function: working memory}
  U4: {on: main, at: [5 mm, 5 mm], function: working memory}
  U5: {on: main, side: top, at: [30 mm, 10 mm], function: voltage conversion}
  C1: {on: main, side: through, at: [10 mm, 5 mm], size: round 3 mm, function: bulk capacitance}
  X1: {on: bare, side: top, at: [5 mm, 5 mm], function: clock generation}
"""
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def record() -> Record:
    return build_record(parse_text(RECORD, "larn.yaml"))[0]


def plans(record: Record, board: str, ghost: str = "") -> tuple[Plan, ...]:
    other = record.elements[ghost] if ghost else None
    return plans_of(record, record.elements[board], other, 10.0, "left", lambda e: f"#left-{e.id}")


def bodies(plan: Plan) -> dict[str, dict[str, float]]:
    """Left, top, width and height in mm of everything drawn as a rectangle, by its id."""
    root = ET.fromstring(plan.svg)
    found = {}
    for link in root.iter("a"):
        shape = next((e for e in link.iter("rect") if e.get("class") == "plan-body"), None)
        if shape is not None:
            box = {name: float(shape.get(name, "nan")) / 10 for name in ("x", "y", "width", "height")}
            found[link.get("href", "").removeprefix("#left-")] = box
    return found


def test_a_thing_stands_where_its_middle_is_from_the_lower_left_corner(record: Record) -> None:
    # Middle 10 mm across and 20 mm up on a board 30 mm high: 6..14 mm from the left, 8..12 mm from the top.
    assert bodies(plans(record, "main")[0])["U1"] == {"x": 6.0, "y": 8.0, "width": 8.0, "height": 4.0}


def test_the_underside_is_mirrored_and_what_is_turned_is_turned(record: Record) -> None:
    # Seen from below, 10 mm from the left becomes 30 mm; 8 x 4 turned by a quarter is 4 x 8.
    assert bodies(plans(record, "main")[1])["U2"] == {"x": 28.0, "y": 6.0, "width": 4.0, "height": 8.0}


def test_what_has_no_place_or_no_side_is_listed_and_not_drawn(record: Record) -> None:
    top, bottom = plans(record, "main")
    assert set(top.unplaced) == {"U3", "U4"}
    assert bottom.unplaced == ()
    assert "U3" not in top.svg
    assert "U4" not in top.svg


def test_every_thing_on_the_board_is_drawn_or_listed(record: Record) -> None:
    top, bottom = plans(record, "main")
    drawn = {e.get("href", "").removeprefix("#left-") for p in (top, bottom) for e in ET.fromstring(p.svg).iter("a")}
    assert drawn | set(top.unplaced) | set(bottom.unplaced) == {e.id for e in record.carried["main"]}


def test_what_goes_through_is_seen_from_both_sides(record: Record) -> None:
    assert all('href="#left-C1"' in plan.svg for plan in plans(record, "main"))


def test_a_board_without_outline_is_not_drawn(record: Record) -> None:
    assert plans(record, "bare") == ()


def test_one_scale_serves_all_boards(record: Record) -> None:
    scale = scale_of(record.boards)
    assert 40 * scale <= 460
    assert scale_of([record.elements["bare"]]) == 0


def test_a_larger_ghost_is_seen_whole(record: Record) -> None:
    plan = plans(record, "disc", "main")[0]
    x, y, width, height = (float(v) for v in ET.fromstring(plan.svg).get("viewBox", "").split())
    assert (width, height) == (420, 320)  # 40 x 30 mm at 10 px a mm and the margin on both sides
    assert (x, y) == (-110, -60)


def test_a_side_that_nobody_looked_at_is_veiled_and_says_so() -> None:
    text = RECORD.replace("coverage: {}", "coverage: {parts: {main: {top: whole, bottom: none}}}")
    top, bottom = plans(build_record(parse_text(text, "larn.yaml"))[0], "main")
    assert (top.looked_at, bottom.looked_at) == ("whole", "none")
    assert "plan-veil" not in top.svg
    assert "plan-veil" in bottom.svg


def test_several_of_one_entry_are_drawn_once_and_counted_in_words() -> None:
    text = RECORD.replace("U5: {on: main,", "U5: {on: main, count: 3,")
    top = plans(build_record(parse_text(text, "larn.yaml"))[0], "main")[0]
    assert "\N{MULTIPLICATION SIGN} 3, drawn once" in top.svg


def test_what_stands_out_over_the_edge_is_seen_whole() -> None:
    """A socket of 8 by 4 mm with its middle 1 mm from the edge reaches 3 mm beyond: 30 px, and 1 px for its outline."""
    text = RECORD.replace("at: [10 mm, 20 mm], size: 8 x 4 mm, function", "at: [1 mm, 20 mm], size: 8 x 4 mm, function")
    plan = plans(build_record(parse_text(text, "larn.yaml"))[0], "main")[0]
    assert float(ET.fromstring(plan.svg).get("viewBox", "").split()[0]) == -31
