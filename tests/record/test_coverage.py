"""Three-valued coverage: what is not said is never taken as looked at."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.record import Coverage

WORDS = ("whole", "part", "none")


def coverage(stated: dict[str, object], *filled: str) -> Coverage:
    return Coverage(stated, frozenset(filled))


def test_what_is_not_named_is_part_where_there_are_entries_else_none() -> None:
    silent = coverage({}, "parts")
    assert silent.of("parts") == "part"
    assert silent.of("controls") == "none"
    assert not silent.is_whole("parts")
    assert not silent.is_whole("controls")


def test_one_word_holds_for_every_host_and_side() -> None:
    for word in WORDS:
        stated = coverage({"parts": word})
        assert {stated.of("parts", host, side) for host in ("", "main") for side in ("", "top", "bottom")} == {word}


def test_a_supply_section_is_covered_by_the_word_for_power() -> None:
    assert coverage({"power": "whole"}).is_whole("power.rails")
    assert coverage({"power": "whole"}).is_whole("power.entry", "main", "top")
    assert not coverage({"parts": "whole"}).is_whole("power.entry")


@pytest.mark.parametrize(
    ("host", "side", "word"),
    [
        ("main", "top", "whole"),
        ("main", "bottom", "none"),
        ("main", "", "part"),
        ("main", "edge", "part"),
        ("front", "top", "part"),
        ("front", "", "part"),
        ("third", "", "whole"),
        ("third", "bottom", "whole"),
        ("", "", "part"),
    ],
)
def test_hosts_and_sides_have_words_of_their_own(host: str, side: str, word: str) -> None:
    stated = coverage({"parts": {"main": {"top": "whole", "bottom": "none"}, "front": "part", "elsewhere": "whole"}})
    assert stated.of("parts", host, side) == word


def test_a_host_that_is_not_named_was_not_looked_at() -> None:
    stated = coverage({"parts": {"main": "whole"}}, "parts")
    assert stated.is_whole("parts", "main")
    assert stated.of("parts", "front") == "none"
    # and so the product as a whole was not wholly looked at
    assert not stated.is_whole("parts")


def test_a_side_that_is_not_named_was_not_looked_at() -> None:
    stated = coverage({"parts": {"main": {"top": "whole"}, "elsewhere": "whole"}})
    assert stated.of("parts", "main", "bottom") == "none"
    assert not stated.is_whole("parts", "main")
    assert not stated.is_whole("parts")


side_value = st.sampled_from(WORDS) | st.dictionaries(st.sampled_from(["top", "bottom"]), st.sampled_from(WORDS))
section_value = st.sampled_from(WORDS) | st.dictionaries(st.sampled_from(["main", "front", "elsewhere"]), side_value)


@given(section_value)
def test_the_whole_is_whole_only_where_every_host_and_every_side_is(value: object) -> None:
    stated = coverage({"parts": value})
    places = product(("main", "front", "a host that nobody names"), ("top", "bottom"))
    every = [stated.of("parts", host, side) for host, side in places]
    if stated.is_whole("parts"):
        assert set(every) == {"whole"}
    if stated.of("parts") == "none":
        assert set(every) == {"none"}


@given(section_value)
def test_there_is_a_gap_exactly_where_the_section_is_not_whole(value: object) -> None:
    stated = coverage({"parts": value, "boards": "whole"})
    found = stated.gaps()
    assert all(word in ("part", "none") and section == "parts" for section, _, _, word in found)
    assert bool(found) != stated.is_whole("parts")


def test_all_of_several_sections() -> None:
    stated = coverage({"parts": "whole", "boards": "whole", "controls": "part"})
    assert stated.all_whole(["parts", "boards"])
    assert not stated.all_whole(["parts", "controls"])
    assert stated.all_whole([])
