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


def _family(key: str, title: str, right: Face, mark: Mark, family: str = "power") -> Slot:
    return Slot(key, Face(title, mark=mark, several="{}"), right, (int(key[1:]),), family=family, family_href="#family")


def _crowd(slots: list[Slot]) -> Scene:
    """The slots on one board, beside others that make the scene too large and have no family."""
    others = tuple(_slot(f"o{n}", f"Function {n}") for n in range(120))
    return Scene("a", "b", (Block("b", BOARD, BOARD, tuple(slots)), Block("c", BOARD, BOARD, others)))


def _alike(key: str, title: str, **more: object) -> Slot:
    return _family(key, title, Face(title, several="{}", count=2), Mark.ALIKE, **more)  # type: ignore[arg-type]


def test_a_crowded_board_collects_what_is_alike_under_its_family() -> None:
    slots = [_alike(f"s{n}", f"Load switching {n}") for n in range(12)]
    (only,) = group_slots(_crowd(slots)).blocks[0].slots
    assert only.key == "s0"
    assert (only.left.heading, only.right.heading) == ("Power \u00d7 12", "Power \u00d7 24")
    assert only.left.detail == "12 functions: load switching 0, load switching 1, load switching 2 and 9 more"
    assert only.left.href == "#family"
    assert "Load switching 11" in only.left.tip


def test_a_board_with_few_slots_keeps_its_functions_and_two_are_not_worth_a_family() -> None:
    few = [_alike(f"s{n}", f"Load switching {n}") for n in range(8)]
    assert len(group_slots(_crowd(few)).blocks[0].slots) == 8
    pairs = [_alike(f"s{n}", f"Function {n}", family=f"family {n // 2}") for n in range(20)]
    assert len(group_slots(_crowd(pairs)).blocks[0].slots) == 20


def test_a_scene_that_can_be_read_is_never_collected_by_family() -> None:
    slots = [_alike(f"s{n}", f"Load switching {n}") for n in range(MOST_ON_BOARD + 10)]
    assert len(group_slots(_scene(slots)).blocks[0].slots) == MOST_ON_BOARD + 10


def test_each_silence_of_a_family_keeps_its_own_words() -> None:
    ghosts = {
        "none of {}": (State.NOT_THERE, "none of 4 power functions"),
        "nothing further for {}": (State.NOT_THERE, "nothing further for 4 power functions"),
        "{}: not looked at": (State.NOT_LOOKED_AT, "4 power functions: not looked at"),
        "{}: not known": (State.NOT_LOOKED_AT, "4 power functions: not known"),
    }
    slots = [
        _family(f"s{4 * at + n}", f"F{at}{n}", Face(f"f{at}{n}", state=state, mark=Mark.ONLY, several=said), Mark.ONLY)
        for at, (said, (state, _)) in enumerate(ghosts.items())
        for n in range(4)
    ]
    shown = {slot.right.title: slot.right.state for slot in group_slots(_crowd(slots)).blocks[0].slots}
    assert shown == {said: state for state, said in ghosts.values()}


def test_a_face_without_words_for_several_is_left_alone() -> None:
    slots = [_family(f"s{n}", f"F{n}", Face(f"no f{n}", state=State.NOT_THERE), Mark.ONLY) for n in range(12)]
    assert len(group_slots(_crowd(slots)).blocks[0].slots) == 12


def test_the_whole_tale_of_details_is_in_the_tile() -> None:
    slots = [_slot(f"s{n:02}", "Supply decoupling", f"{n} uF") for n in range(30)]
    (only,) = group_slots(_scene(slots)).blocks[0].slots
    assert only.left.detail == "0 uF, 1 uF, 2 uF and 27 more"


def test_drawing_groups_unless_told_not_to(read) -> None:
    scene = _scene([_slot(f"s{n}", "Supply decoupling") for n in range(40)])
    assert len(read(draw(scene, prefix="p").left).tiles) == 1
    assert len(read(draw(scene, prefix="p", grouped=False).left).tiles) == 40
