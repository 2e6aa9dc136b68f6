"""The sketch of a build: every board once, several of one kind in words, and nothing made up where a fact is lacking."""

from __future__ import annotations

from archdiff.page.build_sketch import sketches
from archdiff.record.build import build_record
from archdiff.record.text import parse_text
from tests.page.reading import Page

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
