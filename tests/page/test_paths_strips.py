"""Two strips with like stages under each other: what stands where, for the eye and for a screen reader."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from archdiff.page import render_page
from archdiff.page.sections import paths
from archdiff.paths import STATED
from archdiff.pipeline import compare
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

LEFT = """\
archdiff: 1
product: {name: Tarvo, kind: test object}
coverage: {boards: whole, parts: whole, enclosure: whole, actuators: whole, paths: whole}
boards: {main: {}}
parts: {U1: {name: Chip, on: main, function: host processing}, pad: {name: Soft pad, on: main, function: thermal coupling, means: thermal pad}}
enclosure: {shell: {name: Shell, function: housing, means: moulded shell, material: ABS}, mesh: {name: Mesh, function: dust sealing, means: air filter}}
actuators: {speaker: {name: Speaker, in: shell, function: sound output, means: moving-coil loudspeaker}}
paths:
  heat: {name: Heat out, kind: heat, from: U1, to: air, sure: seen, through: [{what: pad, thickness: 1.5 mm}, {what: shell, sure: guessed}]}
  sound: {name: Voice, kind: sound, from: speaker, to: user, facing: up, sure: seen, through: [{what: mesh}, {what: shell}]}
"""
RIGHT = (
    LEFT.replace("Tarvo", "Ledo").replace("1.5 mm", "0.6 mm").replace("{what: mesh}, ", "").replace("facing: up", "facing: into plate")
    .replace("means: moulded shell", "means: die-cast housing")
)  # fmt: skip


@pytest.fixture
def shown(record_of: Callable[[str], Record]) -> Callable[..., tuple[Comparison, str]]:
    """The comparison of the two records above, changed as told, and the paths section of its page."""

    def make(right: str = RIGHT, left: str = LEFT) -> tuple[Comparison, str]:
        comparison = compare(record_of(left), record_of(right))
        html = render_page(comparison)
        start = html.index('<section id="paths"')
        return comparison, html[start : html.index("</section>", start)] + "</section>"

    return make


def cells(html: str) -> list[list[tuple[str, str]]]:
    """(classes, text) of the cells of every column of every strip, in the order of reading."""
    columns = re.findall(r'<li class="[\w-]+">\s*(<div class="cell.*?)(?=<li class="[\w-]+">|</ol>)', html, re.DOTALL)
    found = []
    for column in columns:
        one = re.findall(r'<div class="cell ([^"]*)">(.*?)</div>', column, re.DOTALL)
        found.append([(classes, Page(text).text) for classes, text in one])
    return found


def test_every_column_holds_left_then_right_and_what_is_said(shown) -> None:
    _, html = shown()
    for column in cells(html):
        assert [classes.split()[0] for classes, _ in column] == ["left", "right"]
        assert column[0][1].startswith("Tarvo: ")
        assert column[1][1].startswith("Ledo: ")
    assert html.count('<p class="finding">') == len(cells(html))


def test_like_stages_stand_in_one_column(shown) -> None:
    _, html = shown()
    texts = [(left[1].split(": ", 1)[1], right[1].split(": ", 1)[1]) for left, right in cells(html)]
    assert texts[0] == ("from Chip", "from Chip")
    assert texts[1] == (
        "1 Soft pad thermal pad 1.5 mm thick 2.5 \N{MULTIPLICATION SIGN} the other",  # 1.5/0.6 = 2.5, by hand
        "1 Soft pad thermal pad 0.6 mm thick",
    )
    assert texts[2][0].startswith("2 Shell moulded shell ABS")
    assert texts[2][0].endswith("guessed")


def test_means_that_differ_are_bold_and_marked(shown) -> None:
    _, html = shown()
    assert "<b>moulded shell</b>" in html
    assert "<b>die-cast housing</b>" in html
    assert "<b>ABS</b>" not in html
    assert re.search(
        r'<p class="finding"><svg class="mark mark-different"[^>]*>.*?</svg> done differently: means</p>', html
    )


def test_a_stage_on_one_side_only_leaves_a_gap_that_says_why(shown) -> None:
    _, whole = shown()
    assert [column for column in cells(whole) if "gap" in column[1][0]] == [
        [("left", "Tarvo: 1 Mesh air filter"), ("right gap known", "Ledo: none")]
    ]
    assert "only in Tarvo" in whole
    _, part = shown(RIGHT.replace("paths: whole", "paths: part"))
    assert [column for column in cells(part) if "gap" in column[1][0]] == [
        [("left", "Tarvo: 1 Mesh air filter"), ("right gap open", "Ledo: not recorded")]
    ]
    text = Page(part).text
    assert "only in Tarvo" not in text
    assert "Not recorded for Ledo : paths looked at only in part." in text


def test_where_it_faces_is_said_and_set_in_bold_where_it_differs(shown) -> None:
    _, html = shown()
    assert "<b>faces up</b>" in html
    assert "<b>faces into a plate</b>" in html
    _, alike = shown(RIGHT.replace("into plate", "up"))
    assert "<b>faces up</b>" not in alike
    assert "faces up" in alike


def test_one_path_alone_has_one_strip_and_a_reason(shown) -> None:
    right = re.sub(r"  sound: .*\n", "", RIGHT)
    _, html = shown(right)
    strip = html[html.index('<ol class="strip one"') :]
    assert not [column for column in cells(strip) if len(column) != 1]
    assert '<p class="finding">' not in strip[: strip.index("</ol>")]
    assert "none: paths looked at whole" in Page(html).text
    _, open_one = shown(right.replace("paths: whole", "paths: none"))
    assert "not known: paths not looked at" in Page(open_one).text


def test_no_path_at_all_leaves_the_section_out(record_of) -> None:
    bare = LEFT[: LEFT.index("paths:\n")]
    assert paths.view(compare(record_of(bare), record_of(bare))) is None


def test_each_pair_of_strips_is_a_named_list_in_an_article(shown) -> None:
    _, html = shown()
    page = Page(html)
    assert page.faults == []
    labels = [a["aria-label"] for tag, a in page.tags if tag == "ol"]
    assert labels == [
        "Heat out of Tarvo beside Heat out of Ledo: stages in order",
        "Voice of Tarvo beside Voice of Ledo: stages in order",
    ]
    assert [a["id"] for tag, a in page.tags if tag == "article"] == ["path-left-heat", "path-left-sound"]


def test_the_points_are_stated(shown) -> None:
    _, html = shown()
    text = Page(html).text
    assert "Needleman & Wunsch 1970" in text
    assert all(f"{worth}".replace("-", "\N{MINUS SIGN}") + f" {words}" in text for words, worth in STATED)


def test_both_examples_show_every_stage_once(air_monitors, bike_lights) -> None:
    for comparison in (air_monitors, bike_lights):
        kinds = paths.view(comparison)["kinds"]
        for side, record in enumerate((comparison.left, comparison.right)):
            shown = [
                column["cells"][side]["title"]
                for kind in kinds for pair in kind["pairs"] for column in pair["columns"]
                if not column["end"] and column["cells"][side]["place"]
            ]  # fmt: skip
            assert len(shown) == sum(len(path.facts.get("through", ())) for path in record.section("paths"))
