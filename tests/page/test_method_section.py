"""The method section: the words that a reader may not know stand there, each once and with its meaning."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.page.sections.method import view

if TYPE_CHECKING:
    from archdiff.comparison import Comparison


def test_every_means_of_both_records_is_told(air_monitors: Comparison) -> None:
    told = dict(view(air_monitors)["words_used"])
    for record in (air_monitors.left, air_monitors.right):
        for element in record.elements.values():
            term = record.means_term(element.means)
            assert term is None or told[term.name] == term.meaning
    assert all(told.values())


def test_the_words_stand_in_the_order_of_the_alphabet(bike_lights: Comparison) -> None:
    words = [word.casefold() for word, _ in view(bike_lights)["words_used"]]
    assert words == sorted(words)
    assert len(words) == len(set(words))
    assert "way" in words
