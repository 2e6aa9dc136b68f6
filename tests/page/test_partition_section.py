"""The partition in the page: picture, table and moves say the same, by letters and signs and not by colour alone."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import HostGroup
from archdiff.notes import Match
from archdiff.page import render_page
from archdiff.page.bands import Band, bands
from archdiff.page.sections import partition
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison

SECTION = re.compile(r'<section id="partition".*?</section>', re.DOTALL)


def section(comparison: Comparison) -> str:
    found = SECTION.search(render_page(comparison))
    assert found is not None
    return found[0]


@pytest.fixture(params=["air_monitors", "bike_lights"])
def example(request: pytest.FixtureRequest) -> Comparison:
    found: Comparison = request.getfixturevalue(request.param)
    return found


def test_each_move_has_its_letter_in_picture_table_and_list(example: Comparison) -> None:
    html = section(example)
    drawn = re.findall(r'<text class="band-letter"[^>]*>([^<]+)</text>', html)
    listed = re.findall(r'<b class="letter">([^<]+)</b>', html)
    moves = example.partition.moves
    assert sorted(drawn) == list("abcdefghijklmnopqrstuvwxyz")[: len(moves)]
    assert Counter(listed) == dict.fromkeys(drawn, 2)  # once in the table, once in the list


def test_the_list_names_every_function_that_moves_and_the_way_it_goes(example: Comparison) -> None:
    view = partition.view(example)
    assert view is not None
    for shown, move in zip(view["moves"], example.partition.moves, strict=True):
        assert shown["way"].casefold() == move.way.casefold()
        assert [pair["function"] for pair in shown["pairs"]] == [pair.function for pair in move.pairs]


def test_the_numbers_of_the_table_are_those_of_the_picture(example: Comparison) -> None:
    view = partition.view(example)
    assert view is not None
    in_table = Counter(cell["count"] for row in view["rows"] for cell in row["cells"] if cell["count"])
    in_picture = Counter(map(int, re.findall(r'<text class="band-number"[^>]*>(\d+)</text>', str(view["picture"]))))
    assert in_table == in_picture
    assert in_table.total() == len([pairs for pairs in example.partition.table.values() if pairs])


def test_the_products_stand_over_their_own_edges_with_their_signs() -> None:
    picture = str(bands({"a": "A"}, {"x": "X"}, [Band("a", "x", 2, moved=False)], {"a": "x"}, ("One", "Two <b>")))
    page = Page(picture)
    assert page.faults == []
    places = {
        attributes["class"]: float(attributes["x"])
        for tag, attributes in page.tags
        if "band-name" in attributes.get("class", "")
    }
    assert places["band-name left"] < 100
    assert places["band-name right"] > 500
    assert {tag for tag, attributes in page.tags if "band-sign" in attributes.get("class", "")} == {"circle", "rect"}
    assert "Two <b>" in page.text


def test_after_z_letters_double() -> None:
    assert [partition._letter(place) for place in (0, 25, 26, 27, 52)] == ["a", "z", "aa", "ab", "ba"]


def grouped(comparison: Comparison, *, tied: bool) -> Comparison:
    group = HostGroup(("main", "front"), ("core",))
    notes = replace(comparison.notes, same_board=(Match(*(group.left, group.right)),) if tied else ())
    return replace(comparison, alignment=replace(comparison.alignment, groups=(group,)), notes=notes)


def test_boards_that_may_have_been_split_are_a_suggestion_to_confirm(comparison: Comparison) -> None:
    text = Page(section(grouped(comparison, tied=False))).text
    assert "A suggestion, to be confirmed in the notes" in text
    assert "may together be what Core board is in Orlim Two" in text
    assert "The analyst holds" not in text


def test_boards_that_the_notes_tie_are_the_analysts_word(comparison: Comparison) -> None:
    text = Page(section(grouped(comparison, tied=True))).text
    assert "The analyst holds Main board and Key board of Veska One together to be what Core board is" in text
    assert "suggestion" not in text


def test_no_boards_in_groups_are_not_spoken_of(comparison: Comparison) -> None:
    assert "suggestion" not in Page(section(comparison)).text


def test_moves_that_ties_make_more_of_say_so(make: Callable[..., Comparison]) -> None:
    comparison = make()
    tied = replace(comparison, partition=replace(comparison.partition, untied=0))
    assert "paired otherwise than the analyst ties them, 0 would do" in Page(section(tied)).text
    assert "analyst ties" not in Page(section(comparison)).text
