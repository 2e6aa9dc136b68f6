"""Every finished drawing, read back from its SVG: same places on both sides, nothing on top of anything."""

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.scene import Block, BoardFace, Edge, EdgeItem, Face, Link, LinkFace, Scene, Slot

QUIET = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)


def test_the_air_monitors_are_sound(monitors, faults) -> None:
    drawing = draw(monitors, prefix="p")
    assert drawing.unrouted == 0
    assert faults(monitors, drawing.left) == []
    assert faults(monitors, drawing.right) == []


@QUIET
@given(
    seed=st.integers(0, 10**9),
    boards=st.integers(2, 8),
    slots=st.integers(0, 70),
    joins=st.integers(0, 14),
    items=st.integers(0, 16),
)
def test_any_scene_is_sound(random_scene, faults, seed, boards, slots, joins, items) -> None:
    scene = random_scene(random.Random(seed), boards, slots, joins, items)
    drawing = draw(scene, prefix="p", grouped=False)
    assert drawing.unrouted == 0
    assert faults(scene, drawing.left) == []
    assert faults(scene, drawing.right) == []


@QUIET
@given(seed=st.integers(0, 10**9), boards=st.integers(1, 6), slots=st.integers(1, 60))
def test_what_matches_stands_at_the_same_place(random_scene, read, seed, boards, slots) -> None:
    drawing = draw(random_scene(random.Random(seed), boards, slots, boards, 6), prefix="p", grouped=False)
    left, right = read(drawing.left), read(drawing.right)
    for name in ("width", "height", "viewBox"):
        assert left.root.get(name) == right.root.get(name)
    for shelf in ("boards", "tiles", "items", "pills", "nets"):
        ours, theirs = getattr(left, shelf), getattr(right, shelf)
        assert {key: ours[key] for key in ours.keys() & theirs} == {key: theirs[key] for key in ours.keys() & theirs}
    assert left.boards.keys() == right.boards.keys()


@QUIET
@given(seed=st.integers(0, 10**9), slots=st.integers(1, 40))
def test_words_stay_on_their_tile(random_scene, read, spilled, seed, slots) -> None:
    drawing = draw(random_scene(random.Random(seed), 3, slots, 3, 8), prefix="p", grouped=False)
    assert spilled(read(drawing.left)) == []
    assert spilled(read(drawing.right)) == []


def test_twelve_boards_and_four_hundred_parts(random_scene, faults) -> None:
    scene = random_scene(random.Random(4), 12, 400, 26, 24)
    drawing = draw(scene, prefix="p", grouped=False)
    assert drawing.unrouted == 0
    assert faults(scene, drawing.left) == []
    assert faults(scene, drawing.right) == []


@pytest.mark.parametrize("seed", range(5))
def test_a_hub_with_thirty_links_still_finds_room_for_all(seed: int, faults) -> None:
    rng = random.Random(seed)
    face = BoardFace("Board")
    blocks = tuple(Block(f"b{n}", face, face) for n in range(6))
    label = LinkFace("flexible printed circuit, 14 ways", 14)
    links = tuple(Link(f"j{n}", ("b0", f"b{rng.randint(1, 5)}"), label, label) for n in range(30))
    scene = Scene("a", "b", blocks, (), links)
    drawing = draw(scene, prefix="p")
    assert drawing.unrouted == 0
    assert faults(scene, drawing.left) == []


def test_a_crowded_outline_still_holds_every_item(faults, read) -> None:
    board = BoardFace("Board")
    face = Face("Air outlet", "grille, 24 slots", shape="vent")
    items = tuple(EdgeItem(Slot(f"e{n}", face, face, (n,)), Edge.BOTTOM) for n in range(14))
    tie = LinkFace("air")
    links = tuple(Link(f"t{n}", (f"e{n}", "b"), tie, tie, "tie") for n in range(14))
    scene = Scene("a", "b", (Block("b", board, board),), items, links)
    drawing = draw(scene, prefix="p")
    assert drawing.unrouted == 0
    assert faults(scene, drawing.left) == []
    assert len(read(drawing.left).items) == 14


def test_an_empty_scene_is_drawn_too() -> None:
    drawing = draw(Scene("a", "b"), prefix="p")
    assert drawing.width > 0
    assert drawing.height > 0


def test_antennas_above_plugs_left_keys_right_vents_below(read) -> None:
    board = BoardFace("Board", "40 x 30 mm")
    face = Face("Thing", "of some kind")
    items = tuple(EdgeItem(Slot(edge.value, face, face), edge) for edge in Edge)
    tie = LinkFace("tie")
    links = tuple(Link(edge.value, (edge.value, "b"), tie, tie, "tie") for edge in Edge)
    sheet = read(draw(Scene("a", "b", (Block("b", board, board),), items, links), prefix="p").left)
    x0, y0, x1, y1 = sheet.boards["b"]
    assert sheet.items["left"][2] < x0
    assert sheet.items["right"][0] > x1
    assert sheet.items["top"][3] < y0
    assert sheet.items["bottom"][1] > y1
    for edge in ("left", "right", "top", "bottom"):
        assert len(sheet.nets[edge]) == 2, "a tie to the next board over is one straight line"


def test_neighbouring_boards_are_joined_by_a_straight_line(monitors, read) -> None:
    (xa, ya), (xb, yb) = read(draw(monitors, prefix="p").left).nets["ribbon"]
    assert xa == xb
    assert ya != yb
