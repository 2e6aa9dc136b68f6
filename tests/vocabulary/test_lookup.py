"""Looking words up, suggesting what was meant, and a record's own terms."""

import subprocess
import sys
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.vocabulary import Vocabulary, fold, load_vocabulary

VOCABULARY = load_vocabulary()
SPELLINGS = st.sampled_from(
    [(spelling, term.name) for term in VOCABULARY.means.values() for spelling in (term.name, *term.synonyms)],
)
OWN_FUNCTION = {"meaning": "counts the brushing done with one head", "subsystem": "sensing"}


@given(st.text())
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


@given(SPELLINGS, st.data())
def test_looking_up_is_blind_to_case_and_to_what_parts_words(spelling: tuple[str, str], data: st.DataObject) -> None:
    text, name = spelling
    letters = [data.draw(st.sampled_from([letter.upper(), letter.lower(), letter])) for letter in text]
    between = st.sampled_from([" ", "-", "_", "  ", "\N{NON-BREAKING HYPHEN}"])
    written = "".join(data.draw(between) if letter in " -" else letter for letter in letters)
    found = VOCABULARY.means_term(f" {written} ")
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Push-Button", "push buttons"),
        ("pushbutton", "push_button"),
        ("tactile switches", "tactile switch"),
        ("batteries", "battery"),
        ("lenses", "lens"),
        ("MCUs", "mcu"),
        ("glasses", "glass"),
        ("boxes", "box"),
        ("LEDs", "LED"),
        ("heatsink", "Heat  Sink"),
        ("non\N{NON-BREAKING HYPHEN}dispersive", "non dispersive"),
    ],
)
def test_spellings_that_fold_alike(one: str, other: str) -> None:
    assert fold(one) == fold(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("glass", "glas"), ("GNSS", "GNS"), ("colour", "color"), ("lens", "less"), ("s", "")],
)
def test_spellings_that_stay_apart(one: str, other: str) -> None:
    assert fold(one) != fold(other)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("MCU", "host processing"),
        ("microcontroller", "host processing"),
        ("controller chip", "host processing"),
        ("Volume Button", "volume adjustment"),
        ("flash memory", "program storage"),
        ("CO2 sensor", "carbon dioxide sensing"),
        ("PM2.5 sensing", "particle sensing"),
        ("802.11", "wireless networking"),
        ("fuel gauges", "battery gauging"),
        ("unknown", "purpose not known"),
    ],
)
def test_synonyms_of_functions_meet(text: str, name: str) -> None:
    found = VOCABULARY.function(text)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("SoC", "system on chip"),
        ("NDIR", "non-dispersive infrared"),
        ("MOSFET", "field-effect transistor"),
        ("LDO", "linear regulator"),
        ("barrel jack", "coaxial dc socket"),
        ("e-paper", "electronic paper"),
        ("epaper", "electronic paper"),
        ("embedded", "embedded in host"),
        ("FPC", "flexible printed circuit"),
    ],
)
def test_synonyms_of_means_meet(text: str, name: str) -> None:
    found = VOCABULARY.means_term(text)
    assert found is not None
    assert found.name == name


def test_functions_and_means_are_two_spaces() -> None:
    assert VOCABULARY.function("tactile switch") is None
    assert VOCABULARY.means_term("volume adjustment") is None
    assert VOCABULARY.function("MCU") is not None
    assert VOCABULARY.means_term("MCU") is not None


@pytest.mark.parametrize("text", ["", " ", "-", "no such thing at all", "s"])
def test_what_nobody_knows(text: str) -> None:
    assert VOCABULARY.function(text) is None
    assert VOCABULARY.means_term(text) is None
    assert VOCABULARY.subsystem_of(text) is None


def test_subsystem_of_a_function() -> None:
    assert VOCABULARY.subsystem_of("mute key") == "user input"
    assert VOCABULARY.subsystem_of("purpose not known") is None


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("volum adjustment", "volume adjustment"),
        ("adjustment of volume", "volume adjustment"),
        ("temprature sensing", "temperature sensing"),
        ("sensing of temprature", "temperature sensing"),
        ("push buton", "general input"),
        ("loud speker", "sound output"),
        ("voltage regulater", "voltage conversion"),
        ("air quality measuring", "volatile compound sensing"),
    ],
)
def test_near_functions(text: str, name: str) -> None:
    assert VOCABULARY.function(text) is None
    assert VOCABULARY.near_functions(text)[0] == name


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("push-buton", "tactile switch"),
        ("tactil swich", "tactile switch"),
        ("printed inverted F antena", "printed inverted-F"),
        ("metal-oxid gas sensr", "metal oxide"),
        ("screw, thread forming", "thread-forming screw"),
        ("usb type c conector", "USB Type-C receptacle"),
    ],
)
def test_near_means(text: str, name: str) -> None:
    assert VOCABULARY.means_term(text) is None
    assert name in VOCABULARY.near_means(text)


def test_as_many_suggestions_as_asked_where_many_are_near() -> None:
    near = VOCABULARY.near_functions("sensing", 10)
    assert len(near) == 10
    assert all("sens" in " ".join((name, *VOCABULARY.functions[name].synonyms)) for name in near)


def test_nothing_is_near_to_nonsense() -> None:
    assert VOCABULARY.near_functions("qzxv wqkj") == []
    assert VOCABULARY.near_means("") == []


@given(st.text(max_size=40), st.integers(0, 5))
def test_suggestions_are_terms_each_once_and_no_more_than_asked(text: str, n: int) -> None:
    near = VOCABULARY.near_functions(text, n)
    assert len(near) <= n
    assert len(set(near)) == len(near)
    assert set(near) <= set(VOCABULARY.functions)


@given(SPELLINGS)
def test_an_exact_spelling_is_nearest_to_its_own_term(spelling: tuple[str, str]) -> None:
    text, name = spelling
    assert name in VOCABULARY.near_means(text)


def test_a_record_adds_its_own_terms() -> None:
    means = {"moulded tag": {"meaning": "tag moulded into the brush head", "synonyms": ["head tag"]}}
    own = VOCABULARY.with_terms({"functions": {"head counting": OWN_FUNCTION}, "means": means})
    function, tag = own.function("Head-Counting"), own.means_term("head tags")
    assert function is not None
    assert tag is not None
    assert function.subsystem == own.subsystem_of("head counting") == "sensing"
    assert function.found_in == VOCABULARY.choices.sections
    assert tag.name == "moulded tag"
    assert (tag.drawn_as, tag.letter, tag.subsystem, tag.traits) == ("other", "", "", frozenset())
    assert own.near_functions("head countng")[0] == "head counting"
    assert list(own.functions)[:-1] == list(VOCABULARY.functions)


def test_a_records_own_terms_stay_its_own() -> None:
    VOCABULARY.with_terms({"functions": {"head counting": OWN_FUNCTION}})
    assert VOCABULARY.function("head counting") is None
    assert "head counting" not in VOCABULARY.near_functions("head counting")


def test_a_vocabulary_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        VOCABULARY.functions["new"] = VOCABULARY.functions["reset"]  # type: ignore[index]
    with pytest.raises(AttributeError):
        VOCABULARY.functions["reset"].name = "other"  # type: ignore[misc]


def test_no_terms_added_changes_nothing() -> None:
    assert VOCABULARY.with_terms({}) == VOCABULARY


@pytest.mark.parametrize(
    ("added", "said"),
    [
        ({"functions": {"MCUs": OWN_FUNCTION}}, "the term 'MCUs' claims 'MCUs', which already means 'host processing'"),
        ({"functions": {"x": OWN_FUNCTION | {"synonyms": ["Volume-key"]}}}, "already means 'volume adjustment'"),
        ({"means": {"Tactile Switch": {"meaning": "a key"}}}, "already means 'tactile switch'"),
        ({"means": {"a": {"meaning": "m", "synonyms": ["b"]}, "b": {"meaning": "m"}}}, "'b', which already means 'a'"),
        ({"functions": {"x": {"meaning": "does it"}}}, "function 'x' needs a subsystem"),
        ({"functions": {"x": {"subsystem": "power"}}}, "function 'x' needs a meaning"),
        ({"functions": {"x": OWN_FUNCTION | {"subsystem": "magic"}}}, "subsystem of function 'x' is 'magic'"),
        ({"functions": {"x": OWN_FUNCTION | {"found_in": ["attic"]}}}, "found_in of function 'x' is 'attic'"),
        ({"functions": {"x": OWN_FUNCTION | {"may_be_embedded": "yes"}}}, "must be true or false"),
        ({"functions": {"x": OWN_FUNCTION | {"colour": "blue"}}}, "no field 'colour'"),
        ({"means": {"x": {"meaning": "m", "traits": ["shiny"]}}}, "traits of means 'x' is 'shiny'"),
        ({"means": {"x": {"meaning": "m", "traits": "placement"}}}, "must be a list of words"),
        ({"means": {"x": {"meaning": "m", "letter": "IC"}}}, "letter of means 'x' is 'IC'"),
        ({"means": {"x": {"meaning": "m", "drawn_as": "cat"}}}, "drawn_as of means 'x' is 'cat'"),
        ({"means": {"x": None}}, "means 'x' must be a mapping"),
        ({"means": {"--": {"meaning": "m"}}}, "has no letter"),
        ({"means": ["x"]}, "must be a mapping from names"),
        ({"materials": {}}, "terms has no 'materials'"),
    ],
)
def test_faulty_terms_are_refused_by_name(added: dict[str, Any], said: str) -> None:
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the words are compared below, as plain text
        VOCABULARY.with_terms(added)
    assert said in str(caught.value)


def test_the_vocabulary_is_read_once() -> None:
    assert load_vocabulary() is VOCABULARY
    assert isinstance(VOCABULARY, Vocabulary)


_FRESH = """
import sys, time
from archdiff.vocabulary import load_vocabulary
begun = time.process_time()
vocabulary = load_vocabulary()
print(time.process_time() - begun)
assert vocabulary.function("mic") and vocabulary.means_term("mic boot")
assert "difflib" not in sys.modules
vocabulary.near_functions("mik")
assert "difflib" in sys.modules
"""


def test_a_fresh_process_reads_it_quickly_and_without_difflib() -> None:
    call = [sys.executable, "-c", _FRESH]
    runs = [subprocess.run(call, capture_output=True, text=True, check=True) for _ in range(3)]
    # Measured 0.034 s; the limit set for it is 0.06 s. The best of three, since others share the machine.
    assert min(float(run.stdout) for run in runs) < 0.06
