"""The sketch of a build: every board once, several of one kind in words, and nothing made up where a fact is lacking."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from archdiff.page.build_sketch import sketches
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.textwidth import width as width_of
from archdiff.record.build import build_record
from archdiff.record.text import parse_text
from tests.page.reading import Page
from tests.page.records.stress import stress_pair

if TYPE_CHECKING:
    from archdiff.record import Record

RECORD = """\
archdiff: 1
product: {name: Larn, kind: lamp}
coverage: {}
boards: {main: {outline: 40 x 30 mm}, lamp: {outline: round 20 mm, count: 6}, bare: {}}
interconnects: {a: {between: [main, lamp], ways: 8}, b: {between: [main, bare]}}
"""


def test_boards_are_drawn_once_with_their_number_and_unknown_sizes_are_said() -> None:
    record = build_record(parse_text(RECORD, "larn.yaml"))[0]
    empty = build_record(parse_text("archdiff: 1\nproduct: {name: Tosk, kind: lamp}\ncoverage: {}\n", "tosk.yaml"))[0]
    left, right = sketches(record, empty)
    page = Page(str(left))
    boards = [a["class"] for _, a in page.tags if a.get("class", "").startswith("build-board")]
    assert len(boards) == 3
    assert sum("not-known" in kind for kind in boards) == 1
    assert "lamp \N{MULTIPLICATION SIGN} 6" in page.text
    assert "outline not recorded" in page.text
    assert "8" in page.text.split()
    assert "?" in page.text.split()  # the ways of the other link are not recorded
    assert right == ""


# ---- read back from the picture -------------------------------------------------------------------------------------


@dataclass
class Read:
    """Boards, the words round them and the runs of every line, with what each line is said to join."""

    boards: list[Rect]
    names: list[Rect]
    numbers: list[tuple[str, Rect]]
    lines: list[tuple[str, list[Rect]]]
    width: float


def read(svg: str) -> Read:
    root = ET.fromstring(svg)
    texts = [(text.get("class", ""), text.text or "", _words(text)) for text in root.iter("text")]
    return Read(
        [_board(e) for e in root if e.get("class", "").startswith("build-board")],
        [box for kind, _, box in texts if kind in {"build-name", "build-size"}],
        [(words, box) for kind, words, box in texts if kind == "build-ways"],
        [(line[0].text or "", _runs(line)) for line in root.iter("path")],
        float(root.get("width", "nan")),
    )


def _words(text: ET.Element) -> Rect:
    """What a line of text covers: from the tops of capitals (0.72 of the size) to the feet of small letters (0.21)."""
    x, y, centred = float(text.get("x", "nan")), float(text.get("y", "nan")), text.get("class") == "build-ways"
    wide = width_of(text.text or "", 11, bold=text.get("class") != "build-size")
    left = x - wide / 2 if centred else x
    return Rect(left, y - 0.72 * 11, left + wide, y + (0 if centred else 0.21 * 11))


def _board(shape: ET.Element) -> Rect:
    value = {name: float(shape.get(name, "nan")) for name in ("x", "y", "width", "height", "cx", "cy", "r")}
    if shape.tag == "circle":
        return Rect(*(value[m] + s * value["r"] for s in (-1, 1) for m in ("cx", "cy")))
    return Rect(value["x"], value["y"], value["x"] + value["width"], value["y"] + value["height"])


def _runs(line: ET.Element) -> list[Rect]:
    corners = [tuple(map(float, at.split())) for at in line.get("d", "")[1:].split("L")]
    half = float(line.get("stroke-width", "nan")) / 2
    return [
        Rect(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(half)
        for a, b in pairwise(corners)
    ]


@pytest.fixture(scope="module")
def stress() -> tuple[Record, Record]:
    """Twelve boards a side, joined by chance."""
    left, right = (build_record(parse_text(json.dumps(data), "stress.yaml"))[0] for data in stress_pair())
    return left, right


def test_with_twelve_boards_numbers_and_names_stand_clear(stress: tuple[Record, Record]) -> None:
    for svg in sketches(*stress):
        seen = read(str(svg))
        assert len(seen.boards) == 12
        words = [*seen.names, *(box for _, box in seen.numbers)]
        for one, other in combinations([*seen.boards, *words], 2):
            assert not one.grown(-0.3).meets(other)
        for box in (*seen.boards, *words):
            assert 0 <= box.x0 < box.x1 <= seen.width


def test_with_twelve_boards_each_line_has_its_number_to_itself(stress: tuple[Record, Record]) -> None:
    for svg in sketches(*stress):
        seen = read(str(svg))
        for words, box in seen.numbers:
            on_it = [said for said, runs in seen.lines if any(run.meets(box) for run in runs)]
            assert len(on_it) == 1
            assert on_it[0].endswith(f": {words} ways")
        assert len(seen.numbers) == len(seen.lines)


def test_no_line_passes_behind_a_board_or_a_name(stress: tuple[Record, Record]) -> None:
    for svg in sketches(*stress):
        seen = read(str(svg))
        for _, runs in seen.lines:
            touched = [board for board in seen.boards if any(run.meets(board) for run in runs)]
            assert len(touched) == 2  # its own, at their edges
            assert not any(run.meets(name) for run in runs for name in seen.names)


def test_every_pair_of_boards_that_is_joined_has_one_line_with_all_its_ways(stress: tuple[Record, Record]) -> None:
    record = stress[0]
    wanted: Counter[str] = Counter()
    for link in record.section("interconnects"):
        ends = sorted(set(link.hosts))
        wanted[" and ".join(record.elements[name].label for name in ends)] += int(link.facts["ways"])
    assert sorted(said for said, _ in read(str(sketches(*stress)[0])).lines) == sorted(
        f"{ends}: {ways} ways" for ends, ways in wanted.items()
    )


def test_both_products_are_drawn_at_one_scale(stress: tuple[Record, Record]) -> None:
    small = build_record(parse_text(RECORD, "larn.yaml"))[0]
    for pair in (stress, (stress[0], small)):
        left, right = (read(str(svg)) for svg in sketches(*pair))
        scale = max(box.width for box in left.boards) / 148  # the widest board of the left product in mm
        widest = 148 if pair is stress else 40
        assert max(box.width for box in right.boards) / widest == pytest.approx(scale, rel=0.01)


def test_few_boards_stand_beside_each_other() -> None:
    record = build_record(parse_text(RECORD, "larn.yaml"))[0]
    seen = read(str(sketches(record, record)[0]))
    foot = min(box.y1 for box in seen.boards)
    main, other = sorted((box for box in seen.boards if box.y1 == pytest.approx(foot)), key=lambda box: box.x0)
    assert other.x0 > main.x1
    assert all(box.x1 <= seen.width for box in seen.boards)
