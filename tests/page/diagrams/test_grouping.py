"""Counted tiles: what is alike goes first, what differs as late as feasible."""

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.grouping import MOST_ON_BOARD, group_slots
from archdiff.page.diagrams.scene import (
    Block,
    BoardFace,
    Edge,
    EdgeItem,
    Face,
    Link,
    LinkFace,
    Mark,
    Scene,
    Slot,
    State,
)

BOARD = BoardFace("Board")


def _slot(key: str, title: str, detail: str = "", mark: Mark = Mark.ALIKE, badge: str = "", count: int = 1) -> Slot:
    face = Face(title, detail, mark=mark, badge=badge, count=count)
    return Slot(key, face, face)


def _scene(slots: list[Slot]) -> Scene:
    return Scene("a", "b", (Block("b", BOARD, BOARD, tuple(slots)),))


def test_a_small_scene_comes_back_as_it_is() -> None:
    scene = _scene([_slot(f"s{n}", "Supply decoupling") for n in range(MOST_ON_BOARD)])
    assert group_slots(scene) == scene


def test_alike_slots_become_one_counted_tile() -> None:
    slots = [_slot(f"s{n:02}", "Supply decoupling", "ceramic capacitor", count=2) for n in range(30)]
    (only,) = group_slots(_scene(slots)).blocks[0].slots
    assert (only.key, only.left.count, only.right.count) == ("s00", 60, 60)
    assert only.left.heading.endswith("60")


def test_what_differs_stays_as_long_as_the_alike_make_room() -> None:
    alike = [_slot(f"a{n}", "Supply decoupling") for n in range(20)]
    differing = [_slot(f"d{n}", "Level shifting", mark=Mark.DIFFERENT) for n in range(10)]
    kept = group_slots(_scene(alike + differing)).blocks[0].slots
    assert {slot.key for slot in kept} == {"a0", *(f"d{n}" for n in range(10))}


def test_only_then_do_differing_slots_of_one_title_join() -> None:
    slots = [_slot(f"d{n}", "Level shifting", mark=Mark.DIFFERENT) for n in range(30)]
    (only,) = group_slots(_scene(slots)).blocks[0].slots
    assert only.left.mark is Mark.DIFFERENT
    assert only.left.count == 30


def test_not_looked_at_never_joins_not_there() -> None:
    here = Face("Lamp", mark=Mark.UNKNOWN)
    unseen = [Slot(f"u{n}", here, Face("lamp", state=State.NOT_LOOKED_AT, mark=Mark.UNKNOWN)) for n in range(15)]
    absent = [Slot(f"n{n}", here, Face("lamp", state=State.NOT_THERE, mark=Mark.UNKNOWN)) for n in range(15)]
    kept = group_slots(_scene(unseen + absent)).blocks[0].slots
    assert {slot.right.state for slot in kept} == {State.NOT_LOOKED_AT, State.NOT_THERE}
    assert [slot.right.count for slot in kept] == [15, 15]


def test_badged_slots_and_tied_items_are_left_alone() -> None:
    badged = [_slot(f"m{n}", "Status display", mark=Mark.ELSEWHERE, badge=str(n)) for n in range(120)]
    items = tuple(EdgeItem(_slot(f"e{n}", "Air inlet"), Edge.BOTTOM) for n in range(3))
    tie = LinkFace("air")
    scene = Scene(
        "a", "b", (Block("b", BOARD, BOARD, tuple(badged)),), items, (Link("t", ("e1", "b"), tie, tie, "tie"),)
    )
    grouped = group_slots(scene)
    assert len(grouped.blocks[0].slots) == 120
    assert [item.slot.key for item in grouped.edge] == ["e0", "e1"]
    assert grouped.edge[0].slot.left.count == 2


def test_the_whole_tale_of_details_is_in_the_tile() -> None:
    slots = [_slot(f"s{n:02}", "Supply decoupling", f"{n} uF") for n in range(30)]
    (only,) = group_slots(_scene(slots)).blocks[0].slots
    assert only.left.detail == "0 uF, 1 uF, 2 uF and 27 more"


def test_drawing_groups_unless_told_not_to(read) -> None:
    scene = _scene([_slot(f"s{n}", "Supply decoupling") for n in range(40)])
    assert len(read(draw(scene, prefix="p").left).tiles) == 1
    assert len(read(draw(scene, prefix="p", grouped=False).left).tiles) == 40
