"""What stands elsewhere says where: on the drawing of the examples and of a large pair."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import Agreement
from archdiff.cli.examples import example_in
from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.scene_from_comparison import scene_of
from archdiff.pipeline import compare_files
from tests.page.records.stress import written

if TYPE_CHECKING:
    from archdiff.alignment import Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.record import Record

EXAMPLES = Path(__file__).parents[3] / "examples"
NS = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=["air-monitors", "bike-lights", "stress"])
def comparison(request, tmp_path_factory) -> Comparison:
    if request.param == "stress":
        return compare_files(*written(tmp_path_factory.mktemp("stress")))
    pair = example_in(EXAMPLES / request.param)
    return compare_files(pair.left, pair.right, pair.notes)


def _words(svg: str, key: str) -> list[str]:
    """The lines of a tile, its badge among them; blanks that keep a number and its unit together are blanks."""
    group = next(g for g in ET.fromstring(svg).iter(f"{NS}g") if g.get("data-key") == key)
    return [(text.text or "").replace("\u00a0", " ") for text in group.iter(f"{NS}text")]


def _host(record: Record, seat: Seat) -> str:
    return " and ".join(record.elements[host].label for host in seat.hosts)


def _moved(comparison: Comparison) -> list[tuple[int, Pair]]:
    """Pairs that are drawn and stand at places that do not correspond."""
    return [
        (number, pair)
        for number, pair in enumerate(comparison.pairs, 1)
        if pair.place is Agreement.DIFFERENT
        and pair.subsystem not in ("structure", "opening")
        and not all(seat.embedded_in for seat in pair.seats)
        and all(seat.section != "interconnects" for seat in pair.seats)
    ]


def test_every_moved_seat_says_where_its_counterpart_is(comparison) -> None:
    drawing = draw(scene_of(comparison), prefix="p", grouped=False)
    svgs, records = (drawing.left, drawing.right), (comparison.left, comparison.right)
    keys = {slot.key for slot in scene_of(comparison).slots()}
    moved = _moved(comparison)
    assert moved
    for number, pair in moved:
        seats = (pair.left, pair.right)
        if f"p{number}" in keys:  # on the enclosure outline: each side names its own place
            for svg, record, seat in zip(svgs, records, seats, strict=True):
                told = " ".join(_words(svg, f"p{number}"))
                assert seat.embedded_in or _host(record, seat) in told, pair.function
            continue
        for side, letter in enumerate("lr"):
            here, there = svgs[side], svgs[1 - side]
            at_home, away = _words(here, f"p{number}{letter}"), _words(there, f"p{number}{letter}")
            badges = {words[-1] if words[-1].isdigit() else words[0] for words in (at_home, away)}
            assert len(badges) == 1, (pair.function, at_home, away)
            assert f"on {_host(records[1 - side], seats[1 - side])}" in " ".join(away)


def test_the_two_places_of_a_moved_seat_are_one_seat(comparison) -> None:
    slots = [slot for slot in scene_of(comparison).slots() if slot.seat]
    badges = {slot.seat: {face.badge for face in slot.faces} for slot in slots}
    assert all(len(each) == 1 for each in badges.values())
    assert len({tuple(each) for each in badges.values()}) == len(badges)
    assert len(slots) == 2 * len(badges)
