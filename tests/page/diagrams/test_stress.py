"""Large products through the whole way, from two records to two drawings: still sound, still complete."""

from __future__ import annotations

import json
from collections import Counter
from typing import TYPE_CHECKING

import pytest

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.grouping import MOST_ON_BOARD, group_slots
from archdiff.page.diagrams.scene import Mark, State
from archdiff.page.diagrams.scene_from_comparison import scene_of
from archdiff.pipeline import compare_files
from tests.page.records.stress import stress_pair, written

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

SIZES = [(2, 10), (2, 400), (3, 60), (5, 25), (7, 90), (9, 200), (12, 30), (12, 400)]
"""Boards and parts a side."""


@pytest.fixture(scope="module", params=SIZES, ids=lambda size: f"{size[0]} boards, {size[1]} parts")
def comparison(request, tmp_path_factory) -> Comparison:
    return compare_files(*written(tmp_path_factory.mktemp("stress"), *request.param))


def test_the_pair_is_what_it_is_said_to_be() -> None:
    pair = stress_pair()
    assert json.dumps(pair) == json.dumps(stress_pair())
    for record in pair:
        assert (len(record["boards"]), len(record["parts"])) == (12, 400)
        for section in ("controls", "indicators", "sensors", "antennas", "actuators", "enclosure", "interconnects"):
            assert record[section], section


def test_about_two_thirds_are_matched(tmp_path) -> None:
    pairs = [p for p in compare_files(*written(tmp_path)).pairs if p.seats[0].section == "parts"]
    ids = {side: sum(len(getattr(p, side).ids) for p in pairs if getattr(p, side)) for side in ("left", "right")}
    both = {side: sum(len(getattr(p, side).ids) for p in pairs if p.left and p.right) for side in ("left", "right")}
    for side in ("left", "right"):
        assert 0.55 <= both[side] / ids[side] <= 0.8


@pytest.mark.parametrize("grouped", [True, False], ids=["grouped", "every seat"])
def test_both_drawings_are_sound(comparison, faults, grouped) -> None:
    scene = scene_of(comparison)
    shown = group_slots(scene) if grouped else scene
    drawing = draw(shown, prefix="p", grouped=False)
    assert drawing.unrouted == 0
    assert faults(shown, drawing.left) == []
    assert faults(shown, drawing.right) == []


def test_nothing_is_lost_between_the_pairs_and_the_scene(comparison) -> None:
    """Every seat that is a thing of its own, works and is no link stands once on its side."""
    scene = scene_of(comparison)
    for number, side in enumerate(("left", "right")):
        wanted = sum(
            seat.count
            for pair in comparison.pairs
            if pair.subsystem not in ("structure", "opening")
            and (seat := getattr(pair, side)) is not None
            and not seat.embedded_in
            and seat.section != "interconnects"
        )
        assert sum(s.faces[number].count for s in scene.slots() if s.faces[number].state is State.DRAWN) == wanted


def test_grouping_loses_no_thing_and_no_doubt(comparison) -> None:
    """Things are still counted, one side's silence is still told by its kind, and every badge is still there."""
    scene = scene_of(comparison)
    grouped = group_slots(scene)
    for number in (0, 1):
        before, after = ([slot.faces[number] for slot in each.slots()] for each in (scene, grouped))
        for mark in Mark:
            counts = [sum(f.count for f in faces if not f.ghost and f.mark is mark) for faces in (before, after)]
            assert counts[0] == counts[1]
        assert {face.state for face in before} == {face.state for face in after}
        assert Counter(f.badge for f in before if f.badge) == Counter(f.badge for f in after if f.badge)


def test_a_crowded_scene_gets_smaller_and_its_boards_readable(comparison) -> None:
    scene = scene_of(comparison)
    grouped = group_slots(scene)
    if sum(1 for _ in scene.slots()) > 300:
        assert sum(1 for _ in grouped.slots()) < 0.7 * sum(1 for _ in scene.slots())
    for block in grouped.blocks:
        assert len([slot for slot in block.slots if not slot.seat]) <= 2 * MOST_ON_BOARD
