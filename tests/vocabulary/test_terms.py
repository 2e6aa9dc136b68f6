"""Every entry of terms.yaml says what it must, in words that hold."""

import re
from collections.abc import Mapping
from pathlib import Path

import pytest
import yaml

import archdiff.vocabulary
from archdiff.vocabulary import FunctionTerm, MeansTerm, fold, load_vocabulary

TERMS = Path(archdiff.vocabulary.__file__).with_name("terms.yaml")
VOCABULARY = load_vocabulary()
LISTS: dict[str, Mapping[str, FunctionTerm | MeansTerm]] = {
    "functions": VOCABULARY.functions,
    "means": VOCABULARY.means,
}
ALL = [term for terms in LISTS.values() for term in terms.values()]

SUBSYSTEMS = [
    "compute",
    "memory",
    "wireless",
    "audio",
    "sensing",
    "user input",
    "user output",
    "power",
    "thermal",
    "shielding",
    "structure",
    "opening",
]
# fmt: off
SECTIONS = {
    "boards", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas",
    "shields", "power.entry", "power.storage", "power.rails", "enclosure", "joints",
}
# fmt: on
# fmt: off
DRAWINGS = {
    "chip", "module", "passive", "connector", "cable", "key", "touch", "lamp", "display", "sensor",
    "microphone", "loudspeaker", "motor", "fan", "antenna", "coil", "battery", "plug", "shield", "plate",
    "pad", "seal", "screw", "clip", "glue", "guide", "lens", "tag", "case", "board", "other",
}
# fmt: on
# fmt: off
NEEDED_TRAITS = {
    "placement", "active", "flexible", "detachable", "reusable", "removable", "destructive", "moves",
    "carries-heat", "carries-sound", "carries-light", "carries-air", "carries-current", "stores-energy",
    "mains", "embedded", "radiates", "conductive",
}
# fmt: on
# Class letters of reference designators, IEEE 315 / ASME Y14.44, retyped from a second-hand list: the standards'
# own tables were not seen.
# fmt: off
IEEE_315 = {
    "A", "AR", "AT", "B", "BT", "C", "CB", "CP", "D", "DL", "DS", "E", "F", "FL", "G", "H", "J", "K", "L",
    "LS", "M", "MG", "MK", "MP", "P", "PS", "Q", "R", "RT", "RV", "S", "T", "TB", "TC", "TP", "U", "VR",
    "W", "X", "Y", "Z",
}
# fmt: on
# Words that keep a capital: proper names and standard abbreviations.
CAPITALS = {"Ethernet", "Fresnel", "Geiger", "Hall", "Müller", "Rogowski", "Schottky", "Zener", "Type"}


def test_there_are_enough_terms() -> None:
    assert len(VOCABULARY.functions) >= 140
    assert len(VOCABULARY.means) >= 200


def test_the_subsystems_are_these_in_this_order() -> None:
    assert list(VOCABULARY.subsystems) == SUBSYSTEMS
    for name, subsystem in VOCABULARY.subsystems.items():
        assert subsystem.name == name
        assert subsystem.title.casefold() == name
        assert len(subsystem.meaning.split()) >= 4


def test_every_subsystem_has_functions_and_means() -> None:
    for terms in LISTS.values():
        assert {term.subsystem for term in terms.values()} >= set(SUBSYSTEMS)


def test_only_an_unknown_purpose_has_no_subsystem() -> None:
    homeless = [term.name for term in VOCABULARY.functions.values() if not term.subsystem]
    unknown = [term.name for term in VOCABULARY.functions.values() if term.unknown]
    assert homeless == unknown == ["purpose not known"]


def test_only_embedded_means_have_no_subsystem() -> None:
    for term in VOCABULARY.means.values():
        assert (term.subsystem == "") == ("embedded" in term.traits), term.name


def test_fixed_sets() -> None:
    choices = VOCABULARY.choices
    assert set(choices.sections) == SECTIONS
    assert set(choices.drawings) == DRAWINGS
    assert set(choices.traits) >= NEEDED_TRAITS
    assert set(choices.letters) == IEEE_315


def test_no_choice_is_idle() -> None:
    means = VOCABULARY.means.values()
    assert {trait for term in means for trait in term.traits} == set(VOCABULARY.choices.traits)
    assert {term.drawn_as for term in means} == DRAWINGS
    assert {section for term in VOCABULARY.functions.values() for section in term.found_in} == SECTIONS


def test_fields_draw_from_the_fixed_sets() -> None:
    for function in VOCABULARY.functions.values():
        assert function.found_in, function.name
        assert set(function.found_in) <= SECTIONS, function.name
        assert len(set(function.found_in)) == len(function.found_in), function.name
    for means in VOCABULARY.means.values():
        assert means.letter in {"", *IEEE_315}, means.name
        assert means.drawn_as in DRAWINGS, means.name
        assert means.traits <= set(VOCABULARY.choices.traits), means.name


# Well-known designators of everyday parts, named as in IEEE 315's own class headings (second-hand, as above).
@pytest.mark.parametrize(
    ("means", "letter"),
    [
        ("ceramic capacitor", "C"),
        ("rectifier diode", "D"),
        ("LED", "DS"),
        ("printed monopole", "E"),
        ("ferrite bead", "E"),
        ("fuse", "F"),
        ("crystal oscillator", "G"),
        ("machine screw", "H"),
        ("USB Type-C receptacle", "J"),
        ("relay", "K"),
        ("power inductor", "L"),
        ("moving-coil loudspeaker", "LS"),
        ("electret capsule", "MK"),
        ("USB Type-A plug", "P"),
        ("field-effect transistor", "Q"),
        ("resistor", "R"),
        ("thermistor", "RT"),
        ("varistor", "RV"),
        ("tactile switch", "S"),
        ("mains transformer", "T"),
        ("screw terminal", "TB"),
        ("thermocouple", "TC"),
        ("test pad", "TP"),
        ("microcontroller", "U"),
        ("linear regulator", "VR"),
        ("wire harness", "W"),
        ("battery holder", "X"),
        ("quartz crystal", "Y"),
        ("brushed dc motor", "B"),
        ("coin cell", "BT"),
        ("circuit breaker", "CB"),
    ],
)
def test_class_letters(means: str, letter: str) -> None:
    assert VOCABULARY.means[means].letter == letter


@pytest.mark.parametrize("kind", LISTS)
def test_no_spelling_stands_twice(kind: str) -> None:
    spellings = [fold(s) for term in LISTS[kind].values() for s in (term.name, *term.synonyms)]
    twice = {spelling for spelling in spellings if spellings.count(spelling) > 1}
    assert not twice


def test_synonyms_are_few_and_real() -> None:
    for term in ALL:
        assert len(term.synonyms) <= 8, term.name
        assert all(synonym == synonym.strip() for synonym in term.synonyms), term.name


def test_meanings_are_plain_and_not_circular() -> None:
    for term in ALL:
        name = {fold(word) for word in re.findall(r"[\w.]+", term.name)}
        meaning = {fold(word) for word in re.findall(r"[\w.]+", term.meaning)} - {"a", "an", "the", "of", "and"}
        assert fold(term.name) not in fold(term.meaning), term.name
        assert len(meaning - name) >= 3, f"{term.name}: {term.meaning}"
        assert not term.meaning.endswith("."), term.name
        assert len(term.meaning) <= 100, term.name


def test_names_are_lower_case_but_for_proper_names_and_abbreviations() -> None:
    for term in ALL:
        for word in re.findall(r"[^\W\d_]+", term.name):
            assert word.islower() or word.isupper() or word in CAPITALS, term.name


def test_meanings_differ() -> None:
    for terms in LISTS.values():
        meanings = [fold(term.meaning) for term in terms.values()]
        assert len(set(meanings)) == len(meanings)


def test_a_fastener_is_in_one_class_of_en_45554() -> None:
    classes = {"reusable", "removable", "destructive"}
    for term in VOCABULARY.means.values():
        assert len(term.traits & classes) <= 1, term.name
        if term.subsystem == "opening" and term.drawn_as in {"screw", "clip", "glue"}:
            assert term.traits & classes, term.name


# EN 45554:2020's classes as remembered, not seen: A can be used again, B comes off but is used up, C comes off only
# with damage.
@pytest.mark.parametrize(
    ("means", "trait"),
    [
        ("thread-forming screw", "reusable"),
        ("snap-fit", "reusable"),
        ("bayonet", "reusable"),
        ("double-sided tape", "removable"),
        ("cable tie", "removable"),
        ("ultrasonic weld", "destructive"),
        ("heat stake", "destructive"),
        ("rivet", "destructive"),
    ],
)
def test_fastener_classes(means: str, trait: str) -> None:
    assert trait in VOCABULARY.means[means].traits


def test_what_is_drawn_as_a_battery_stores_energy() -> None:
    for term in VOCABULARY.means.values():
        assert term.drawn_as != "battery" or "stores-energy" in term.traits, term.name
        assert term.drawn_as != "antenna" or "radiates" in term.traits, term.name
        assert term.drawn_as != "fan" or {"moves", "carries-air"} <= term.traits, term.name
        assert term.drawn_as != "microphone" or "carries-sound" in term.traits, term.name


# Functions that a chip beside them often does as well: seeing no part for one proves nothing.
@pytest.mark.parametrize(
    "function",
    [
        "program storage",
        "voltage conversion",
        "real-time keeping",
        "wireless networking",
        "audio conversion",
        "touch sensing",
        "charge control",
        "clock generation",
        "security storage",
        "audio amplification",
        "analogue to digital conversion",
        "display driving",
        "purpose not known",
    ],
)
def test_what_may_hide_in_another_part(function: str) -> None:
    assert VOCABULARY.functions[function].may_be_embedded


@pytest.mark.parametrize(
    "function",
    ["voice capture", "sound output", "volume adjustment", "power entry", "illumination"],
)
def test_what_is_seen_where_it_is(function: str) -> None:
    assert not VOCABULARY.functions[function].may_be_embedded


def test_a_control_may_be_written_down_as_a_control() -> None:
    for term in VOCABULARY.functions.values():
        if term.meaning.startswith("lets the user"):
            wanted = {"user input": "controls", "opening": "enclosure", "structure": "enclosure"}
            assert wanted[term.subsystem] in term.found_in, term.name


def test_an_unknown_purpose_may_be_anywhere() -> None:
    assert set(VOCABULARY.functions["purpose not known"].found_in) == SECTIONS


def test_the_file_reads_as_the_yaml_library_reads_it() -> None:
    data = yaml.safe_load(TERMS.read_text(encoding="utf-8"))
    for kind, terms in LISTS.items():
        assert list(data[kind]) == list(terms)
        for name, entry in data[kind].items():
            term = terms[name]
            assert entry["meaning"] == term.meaning
            assert tuple(entry.get("synonyms", ())) == term.synonyms
            assert entry.get("subsystem", "") == term.subsystem
    for name, entry in data["functions"].items():
        assert entry.get("may_be_embedded", False) is VOCABULARY.functions[name].may_be_embedded
    for name, entry in data["means"].items():
        assert frozenset(entry["traits"]) == VOCABULARY.means[name].traits
        assert entry.get("letter", "") == VOCABULARY.means[name].letter
