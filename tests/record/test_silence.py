"""What may be said of a function that is not listed: never 'not there' where nobody looked."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from archdiff.record import read_record
from archdiff.record.silence import Silence, Silent, silence_about

if TYPE_CHECKING:
    from pathlib import Path

Ask = Callable[[str, str, str], Silent]

# Sections that hold the functions asked for below, as the vocabulary says: see the first test.
STORAGE = "coverage: {parts: whole, boards: whole}\n"
TREBLE = "coverage: {actuators: whole, parts: whole}\n"


@pytest.fixture
def ask(tmp_path: Path) -> Ask:
    def of(text: str, function: str, section: str) -> Silent:
        file = tmp_path / "record.yaml"
        file.write_text("archdiff: 1\nproduct: {name: Thing, kind: device}\n" + text, "utf-8")
        record, problems = read_record(file)
        assert record is not None
        assert not problems
        return silence_about(record, function, section)

    return of


def test_the_functions_asked_for_here_are_what_these_tests_take_them_for(tmp_path: Path) -> None:
    file = tmp_path / "record.yaml"
    file.write_text("archdiff: 1\nproduct: {name: Thing, kind: device}\n", "utf-8")
    record, _ = read_record(file)
    assert record is not None
    storage, treble = record.function_term("program storage"), record.function_term("treble output")
    assert storage is not None
    assert storage.may_be_embedded
    assert set(storage.found_in) == {"parts", "boards"}
    assert treble is not None
    assert not treble.may_be_embedded
    assert set(treble.found_in) == {"actuators", "parts"}


def test_an_empty_record_says_nothing_about_anything(ask: Ask) -> None:
    said = ask("", "treble output", "actuators")
    assert said.silence is Silence.NOT_LOOKED_AT
    assert "not looked at" in said.why
    assert not said.silence.is_known


def test_entries_without_coverage_say_nothing_either(ask: Ask) -> None:
    said = ask("actuators: {driver: {function: sound output}}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_LOOKED_AT
    assert "only in part" in said.why


@pytest.mark.parametrize("word", ["part", "none"])
def test_coverage_that_is_not_whole_says_nothing(ask: Ask, word: str) -> None:
    said = ask(f"coverage: {{actuators: {word}, parts: whole}}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_LOOKED_AT


def test_one_place_where_it_could_be_that_nobody_looked_at_is_enough(ask: Ask) -> None:
    said = ask("coverage: {actuators: whole}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_LOOKED_AT
    assert "parts" in said.why


def test_one_side_of_one_board_is_enough(ask: Ask) -> None:
    text = "coverage: {actuators: whole, parts: {main: {top: whole, bottom: none}, elsewhere: whole}}\nboards: {main: {}}\n"
    assert ask(text, "treble output", "actuators").silence is Silence.NOT_LOOKED_AT


def test_wholly_looked_at_everywhere_it_is_not_there(ask: Ask) -> None:
    said = ask(TREBLE, "treble output", "actuators")
    assert said.silence is Silence.NOT_THERE
    assert said.silence.is_known


def test_what_can_live_inside_another_part_is_only_no_part_of_its_own(ask: Ask) -> None:
    said = ask(STORAGE, "program storage", "parts")
    assert said.silence is Silence.NO_SEPARATE_PART
    assert "may live inside another part" in said.why


def test_something_of_unknown_purpose_may_be_it(ask: Ask) -> None:
    said = ask(TREBLE + "parts: {U9: {function: purpose not known}}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_LOOKED_AT
    assert said.may_be == "U9"
    # A part without a stated function is of unknown purpose as well.
    assert ask(TREBLE + "parts: {U9: {means: microcontroller}}\n", "treble output", "actuators").may_be == "U9"


def test_something_of_unknown_purpose_in_another_section_does_not_matter(ask: Ask) -> None:
    said = ask(TREBLE + "sensors: {S9: {}}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_THERE


def test_an_empty_site_of_unknown_purpose_does_nothing(ask: Ask) -> None:
    said = ask(TREBLE + "parts: {J9: {populated: false}}\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_THERE


def test_a_piece_of_the_enclosure_without_a_function_may_be_it(ask: Ask) -> None:
    text = "coverage: {enclosure: whole, parts: whole, actuators: whole}\nenclosure: {foam: {}}\n"
    assert ask(text, "sound damping", "enclosure").may_be == "foam"
    named = text.replace("foam: {}", "foam: {function: dust sealing}")
    assert ask(named, "sound damping", "enclosure").silence is Silence.NO_SEPARATE_PART


def test_a_stated_absence_speaks_even_where_nobody_says_how_far_he_looked(ask: Ask) -> None:
    said = ask(
        "absent: [{function: treble output, because: one cone only, sure: seen}]\n", "treble output", "actuators"
    )
    assert said.silence is Silence.NOT_THERE
    assert "one cone only" in said.why
    assert said.sure == "seen"


def test_a_stated_absence_as_a_part_of_its_own_says_where_it_may_live(ask: Ask) -> None:
    text = "parts: {U1: {name: Host}}\nabsent: [{function: program storage, as: separate part, embedded_in: U1, sure: inferred}]\n"
    said = ask(text, "program storage", "parts")
    assert said.silence is Silence.NO_SEPARATE_PART
    assert said.may_be == "U1"
    assert "Host (U1)" in said.why
    assert said.sure == "inferred"


def test_an_absence_is_found_by_another_word_for_the_function(ask: Ask) -> None:
    said = ask("absent: [{function: tweeter}]\n", "treble output", "actuators")
    assert said.silence is Silence.NOT_THERE


def test_an_absence_on_one_board_says_nothing_of_the_product(ask: Ask) -> None:
    text = "boards: {main: {}}\nabsent: [{function: treble output, on: main}]\n"
    assert ask(text, "treble output", "actuators").silence is Silence.NOT_LOOKED_AT
    # but does not hide one that does
    both = "boards: {main: {}}\nabsent: [{function: treble output, on: main}, {function: treble output}]\n"
    assert ask(both, "treble output", "actuators").silence is Silence.NOT_THERE


def test_a_function_that_no_vocabulary_knows_may_be_anywhere(ask: Ask) -> None:
    assert ask("coverage: {parts: whole}\n", "frobnication", "parts").silence is Silence.NOT_LOOKED_AT
    sections = (
        "boards parts interconnects controls indicators sensors actuators antennas shields power enclosure joints"
    )
    everything = ", ".join(f"{name}: whole" for name in sections.split())
    said = ask(f"coverage: {{{everything}}}\n", "frobnication", "parts")
    assert said.silence is Silence.NO_SEPARATE_PART


def test_the_three_answers_are_three_different_words() -> None:
    assert len({str(silence) for silence in Silence}) == len(Silence) == 3
    assert [silence for silence in Silence if not silence.is_known] == [Silence.NOT_LOOKED_AT]
