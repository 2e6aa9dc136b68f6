"""Names on board plans: each thing is named once, in the drawing or below it, and no name runs into anything."""

from __future__ import annotations

import itertools
import json
import random
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

import pytest

from archdiff.cli.examples import example_in
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.textwidth import width
from archdiff.page.plan_names import Ground, place_names
from archdiff.page.plan_places import SIZE, Drawn, crosses
from archdiff.page.plans import plans_of, scale_of
from archdiff.record.build import build_record
from archdiff.record.text import parse_text
from tests.page.records.stress import stress_pair

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.page.plans import Plan
    from archdiff.record import Record

EXAMPLES = Path(__file__).parents[2] / "examples"
_ASCENT, _DESCENT = (
    0.72,
    0.21,
)  # of the type size; capitals and the feet of small letters (Adobe's metrics of Helvetica)


@dataclass
class Thing:
    """What is drawn of one element: its outline, its name and the line between them, read back from the picture."""

    name: str
    box: Rect
    hollow: bool
    label: Rect | None
    leader: tuple[float, ...]


def read(plan: Plan) -> list[Thing]:
    return [_thing(link) for link in ET.fromstring(plan.svg).iter("a")]


def _thing(link: ET.Element) -> Thing:
    name = link.get("href", "").removeprefix("#")
    words, leader = link.find("text"), link.find("path[@class='plan-leader']")
    steps = [] if leader is None else leader.get("d", "").replace("M", "").replace("L", " ").split()
    hollow = "shield" in link.get("class", "")
    return Thing(name, _outline(link), hollow, None if words is None else _label(words), tuple(map(float, steps)))


def _outline(link: ET.Element) -> Rect:
    shape = next(e for e in link if e.get("class") in {"plan-body", "plan-cross"})
    value = {name: float(shape.get(name, "nan")) for name in ("x", "y", "width", "height", "cx", "cy", "r")}
    if shape.tag == "rect":
        return Rect(value["x"], value["y"], value["x"] + value["width"], value["y"] + value["height"])
    if shape.tag == "circle":
        return Rect(*(value[m] + s * value["r"] for s in (-1, 1) for m in ("cx", "cy")))
    x, _, across, _, top, down = (float(value) for value in re.findall(r"[-\d.]+", shape.get("d", "")))
    return Rect(x, top, x + across, top + down)


def _label(words: ET.Element) -> Rect:
    half = width(words.text or "", SIZE) / 2
    x, y = float(words.get("x", "nan")), float(words.get("y", "nan"))
    return Rect(x - half, y - _ASCENT * SIZE, x + half, y + _DESCENT * SIZE)


def within(inner: Rect, outer: Rect, slack: float = 0.1) -> bool:
    wide = outer.grown(slack)
    return wide.x0 <= inner.x0 and wide.y0 <= inner.y0 and inner.x1 <= wide.x1 and inner.y1 <= wide.y1


def faults(plan: Plan) -> Iterator[str]:
    """What a name runs into: another name, a tile that is not below its own, the outline of a shield, a leader."""
    things = read(plan)
    named = [thing for thing in things if thing.label is not None]
    for one, other in itertools.combinations(named, 2):
        if one.label.meets(other.label):  # type: ignore[union-attr,arg-type]
            yield f"{one.name} and {other.name}"
    for at, thing in enumerate(things):
        for one in named:
            if one is not thing and _runs_into(one, thing, things.index(one) < at):
                yield f"{one.name} into {thing.name}"
        if thing.label is not None and thing.label.meets(thing.box) and not within(thing.label, thing.box):
            yield f"{thing.name} over its own outline"


def _runs_into(one: Thing, thing: Thing, below: bool) -> bool:  # noqa: FBT001
    label = one.label
    assert label is not None
    if thing.leader and crosses((thing.leader[:2], thing.leader[2:]), label):  # type: ignore[arg-type]
        return True
    if thing.hollow:
        return label.meets(thing.box) and not within(label, thing.box.grown(-1))
    return label.meets(thing.box) and (below or not within(label, one.box))


def plans(record: Record) -> Iterator[Plan]:
    scale = scale_of(record.boards)
    for board in record.boards:
        yield from plans_of(record, board, None, scale, "left", lambda e: f"#{e.id}")


def placed(data: Any, seed: int) -> Any:
    """A record whose parts have places by chance, as crowded as they come."""
    draw = random.Random(seed)
    for section in ("parts", "sensors", "controls", "indicators", "antennas"):
        for entry in data.get(section, {}).values():
            board = data["boards"].get(entry.get("on"))
            if board is not None:
                wide, high = (float(part) for part in board["outline"].removesuffix(" mm").split(" x "))
                entry["side"] = draw.choice(["top", "top", "bottom"])
                entry["at"] = [f"{draw.uniform(1, wide - 1):.1f} mm", f"{draw.uniform(1, high - 1):.1f} mm"]
    return data


def records() -> Iterator[tuple[str, Record]]:
    for folder in sorted(path.parent for path in EXAMPLES.glob("*/notes.yaml")):
        pair = example_in(folder)
        for file in (pair.left, pair.right):
            yield file.stem, build_record(parse_text(file.read_text("utf-8"), file.name))[0]
    for seed in (1, 2):
        for at, data in enumerate(stress_pair(seed=seed)):
            text = json.dumps(placed(data, seed))
            yield f"stress {seed} {at}", build_record(parse_text(text, "stress.yaml"))[0]


RECORDS = dict(records())


@pytest.mark.parametrize("name", RECORDS)
def test_no_name_runs_into_anything(name: str) -> None:
    shown = list(plans(RECORDS[name]))
    assert sum(plan.drawn for plan in shown) > 0
    assert [fault for plan in shown for fault in faults(plan)] == []


@pytest.mark.parametrize("name", RECORDS)
def test_what_is_drawn_is_named_in_the_drawing_or_below_it(name: str) -> None:
    for plan in plans(RECORDS[name]):
        things = read(plan)
        labelled = [thing.name for thing in things if thing.label is not None]
        assert sorted([*labelled, *plan.unnamed]) == sorted(thing.name for thing in things)


@pytest.mark.parametrize("name", [name for name in RECORDS if "stress" not in name])
def test_on_a_board_as_boards_are_every_name_finds_room(name: str) -> None:
    assert [plan.unnamed for plan in plans(RECORDS[name]) if plan.unnamed] == []


def test_most_names_find_room_on_crowded_boards() -> None:
    shown = list(plans(RECORDS["stress 1 0"]))
    assert sum(len(plan.unnamed) for plan in shown) * 3 < sum(plan.drawn for plan in shown)
    assert any("plan-leader" in plan.svg for plan in shown)


def test_two_drawings_are_the_same() -> None:
    assert list(plans(RECORDS["stress 1 0"])) == list(plans(RECORDS["stress 1 0"]))


# ---- single things on an empty board ---------------------------------------------------------------------------------

BOARD = Rect(0, 0, 200, 100)


def test_a_name_stands_on_a_thing_only_where_its_outline_stays_clear() -> None:
    """'key_up' is 33 px wide at 10.5 px (by the metrics 500+556+500+556+556+556 thousandths): 40 px hold it, 36 do not."""
    for wide, on in ((40.0, True), (36.0, False)):
        box = Rect(50, 40, 50 + wide, 60)
        name = place_names([Drawn("key_up", box)], Ground(BOARD, is_round=False))[0]
        assert within(name.box, box) is on
        assert name.leader is None


def test_a_name_stays_on_the_board() -> None:
    name = place_names([Drawn("R1", Rect(192, 2, 198, 6))], Ground(BOARD, is_round=False))[0]
    assert within(name.box, BOARD)
    assert name.box.x1 < 192


def test_a_thing_walled_in_by_others_is_led_to_or_left_out() -> None:
    walls = [Drawn("", Rect(*box)) for box in ((80, 30, 84, 70), (116, 30, 120, 70), (84, 66, 116, 70))]
    led = place_names(
        [*walls, Drawn("T1", Rect(85, 32, 115, 65.5), hollow=False), Drawn("C", Rect(96, 45, 100, 49))],
        Ground(BOARD, is_round=False),
    )
    assert 4 not in led  # it lies on T1, and a name beside it would cover that
    ring = [Drawn("", Rect(*box)) for box in ((94, 40, 96, 60), (104, 40, 106, 60), (96, 58, 104, 60))]
    name = place_names([*ring, Drawn("wide_name", Rect(98, 50, 102, 54))], Ground(BOARD, is_round=False))[3]
    assert name.leader is not None
    assert name.box.y1 < 40


def test_a_shield_is_named_within_its_outline_and_what_it_covers_stays_clear() -> None:
    things = [Drawn("U1", Rect(60, 20, 90, 40)), Drawn("can", Rect(50, 15, 150, 85), hollow=True)]
    names = place_names(things, Ground(BOARD, is_round=False))
    assert within(names[1].box, things[1].box)
    assert not names[1].box.meets(things[0].box)


def test_a_name_runs_over_the_ghosted_outline_only_where_it_must() -> None:
    thing = Drawn("Y1", Rect(100, 48, 108, 52))
    free = place_names([thing], Ground(BOARD, is_round=False))[0]
    assert free.box.x0 > 108  # to the right, where it is looked for first
    ghost = Rect(0, -20, 115, 120)
    assert place_names([thing], Ground(BOARD, is_round=False, ghost=ghost))[0].box.x1 < 100
