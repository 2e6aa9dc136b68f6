"""Reading YAML text: the core schema's scalars, every refusal at its place.

Expected values follow YAML 1.2.2, section 10.3.2 (core schema; from memory of the published text), but for what
archdiff keeps as text on purpose: what would lose digits on the way to a number.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.problems import EnvironmentTroubleError
from archdiff.record import read_document, read_record
from archdiff.record.text import Spot, parse_text

if TYPE_CHECKING:
    from pathlib import Path


def data(text: str) -> object:
    document = parse_text(text, "file.yaml")
    assert not document.problems
    return document.data


def told(text: str) -> list[tuple[int, int, str]]:
    return [(problem.line, problem.column, problem.rule) for problem in parse_text(text, "file.yaml").problems]


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        # What an older YAML would turn into truth values, sixties, octals and dates
        ("on", "on"),
        ("off", "off"),
        ("yes", "yes"),
        ("no", "no"),
        ("NO", "NO"),
        ("y", "y"),
        ("8:1", "8:1"),
        ("04:12", "04:12"),
        ("0603", "0603"),
        ("0o17", "0o17"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        ("2026-03-09", "2026-03-09"),
        # Numbers that would lose digits
        ("1.50", "1.50"),
        ("1e3", "1e3"),
        ("3.30", "3.30"),
        ("123456789012345678901234567890", "123456789012345678901234567890"),
        ("0.1234567890123456789", "0.1234567890123456789"),
        (".5", ".5"),
        ("+5", "+5"),
        ("1.", "1."),
        ("3v3", "3v3"),
        ("=", "="),
        ("-", None),
        # Numbers
        ("0", 0),
        ("12", 12),
        ("-3", -3),
        ("1.5", 1.5),
        ("0.88", 0.88),
        ("-0.25", -0.25),
        # Words
        ("true", True),
        ("True", True),
        ("TRUE", True),
        ("false", False),
        ("tRue", "tRue"),
        ("null", None),
        ("~", None),
        ("", None),
        (".inf", ".inf"),
        (".nan", ".nan"),
        # In quotes everything is text
        ("'12'", "12"),
        ('"true"', "true"),
        ('"a\\nb"', "a\nb"),
        ("''", ""),
        ("[1, on, 0402]", [1, "on", "0402"]),
        ("{a: no}", {"a": "no"}),
    ],
)
def test_a_plain_scalar_is_read_by_the_core_schema(written: str, meant: object) -> None:
    if written == "-":
        assert data("- \n") == [None]
        return
    value = data(f"a: {written}\n")
    assert value == {"a": meant}
    assert type(value["a"]) is type(meant)


def test_block_scalars_are_text() -> None:
    assert data("a: |\n  12\n") == {"a": "12\n"}
    assert data("a: >\n  some\n  words\n") == {"a": "some words\n"}


@given(st.recursive(
    st.none() | st.booleans() | st.integers(-(10**17), 10**17) | st.text("ab 12:-,é", max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("abc1", min_size=1, max_size=4), inner, max_size=3),
    max_leaves=12,
))  # fmt: skip
def test_json_is_read_as_json_reads_it(value: object) -> None:
    """YAML 1.2 is meant to hold JSON; the standard library's own reader is the judge."""
    text = json.dumps(value, ensure_ascii=False)
    assert data(text) == json.loads(text)


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("a: 1\nb: 2\na: 3\n", [(3, 1, "repeated-key")]),
        ("x:\n  U1: {}\n  U1: {on: main}\n", [(3, 3, "repeated-key")]),
        ("{a: 1, 'a': {b: [1, {c: 2}]}}", [(1, 8, "repeated-key")]),
        ("a: &x 1\nb: *x\n", [(1, 4, "alias"), (2, 4, "alias")]),
        ("&k a: 1\n", [(1, 1, "alias")]),
        ("*a : 1\n", [(1, 1, "not-yaml")]),
        ("a: !!int '3'\n", [(1, 4, "tag")]),
        ("a: !thing {b: 1}\n", [(1, 4, "tag")]),
        ("a: 1\n---\nb: 2\n", [(2, 1, "two-documents")]),
        ("? [a]\n: 1\n", [(1, 3, "not-yaml")]),
        ("? {a: 1}\n: 1\n", [(1, 3, "not-yaml")]),
        ("a: b: c\n", [(1, 5, "not-yaml")]),
        ("a: 1\n  b: 2\n", [(2, 4, "not-yaml")]),
        ("a: [1, 2\nb: 3\n", [(2, 2, "not-yaml")]),
        ("a: @x\n", [(1, 4, "not-yaml")]),
        ("a: 1\nb: x\x00y\n", [(2, 5, "not-yaml")]),
        ("a: \x07\n", [(1, 4, "not-yaml")]),
        ("a: \ufffe\n", [(1, 4, "not-yaml")]),
    ],
)
def test_what_cannot_be_read_is_told_at_its_place(text: str, places: list[tuple[int, int, str]]) -> None:
    assert told(text) == places


def test_the_first_of_two_same_keys_is_kept_and_reading_goes_on() -> None:
    document = parse_text("a: 1\na: {b: 2}\nc: 3\n", "file.yaml")
    assert document.data == {"a": 1, "c": 3}
    assert "first in line 1" in document.problems[0].message


def test_nesting_has_an_end() -> None:
    assert not told("[" * 40 + "]" * 40)
    assert told("[" * 41 + "]" * 41) == [(1, 41, "too-deep")]
    # Far beyond what a recursive reader would bear; the C parser has an end of its own.
    ((line, _, rule),) = told("[" * 100_000)
    assert line == 1
    assert rule in {"too-deep", "not-yaml"}


def test_every_key_and_value_has_its_place() -> None:
    document = parse_text("parts:\n  U1: {on: main,\n       at: [1 mm, 2 mm]}\n", "file.yaml")
    assert document.spot(("parts", "U1"), key=True) == Spot(2, 3)
    assert document.spot(("parts", "U1")) == Spot(2, 7)
    assert document.spot(("parts", "U1", "at", 1)) == Spot(3, 19)
    assert document.spot(("parts", "U1", "at"), key=True) == Spot(3, 8)
    # The nearest thing around what does not exist
    assert document.spot(("parts", "U1", "side")) == Spot(2, 7)
    assert document.spot(("joints",)) == Spot(1, 1)
    assert document.spot(()) == Spot(1, 1)


def test_columns_count_characters_and_not_bytes() -> None:
    assert told("a: [é, ☃, 😀, *x]\n") == [(1, 14, "alias")]


def of_bytes(tmp_path: Path, raw: bytes) -> list[tuple[int, int, str]]:
    file = tmp_path / "record.yaml"
    file.write_bytes(raw)
    problems = sorted(read_record(file)[1])
    return [(problem.line, problem.column, problem.rule) for problem in problems]


GOOD = b"archdiff: 1\nproduct: {name: Thing, kind: device}\n"


def test_bytes_that_are_no_utf8_are_told_at_their_place(tmp_path: Path) -> None:
    assert of_bytes(tmp_path, GOOD + b"boards: {m\xff: {}}\n") == [(3, 11, "not-yaml")]
    # Characters are counted, and a byte order mark is none.
    assert of_bytes(tmp_path, b"\xef\xbb\xbf" + "é: é\xff".encode("latin-1").replace(b"\xe9", "é".encode())) == [
        (1, 5, "not-yaml")
    ]


def test_a_byte_order_mark_is_passed_over_and_shifts_nothing(tmp_path: Path) -> None:
    assert of_bytes(tmp_path, b"\xef\xbb\xbf" + GOOD) == []
    assert (1, 1, "unknown-entry") in of_bytes(tmp_path, b"\xef\xbb\xbfarchdif: 1\n")
    assert (2, 1, "unknown-entry") in of_bytes(tmp_path, b"\xef\xbb\xbf" + GOOD.replace(b"product", b"produkt"))


def test_line_ends_of_other_systems_count_the_same(tmp_path: Path) -> None:
    bad = GOOD + b"bords: {}\n"
    expected = of_bytes(tmp_path, bad)
    assert expected == [(3, 1, "unknown-entry")]
    assert of_bytes(tmp_path, bad.replace(b"\n", b"\r\n")) == expected


@pytest.mark.parametrize("raw", [b"", b"\n\n", b"# only words\n", b"---\n", b"~\n", b"\xef\xbb\xbf"])
def test_an_empty_file_is_told_as_empty(tmp_path: Path, raw: bytes) -> None:
    assert of_bytes(tmp_path, raw) == [(1, 1, "empty")]


@pytest.mark.parametrize("raw", [b"- 1\n", b"just words\n", b"12\n", b"[]\n"])
def test_a_file_that_is_no_mapping_is_told_so(tmp_path: Path, raw: bytes) -> None:
    assert of_bytes(tmp_path, raw) == [(1, 1, "wrong-shape")]


def test_a_file_that_cannot_be_read_is_no_fault_of_the_record(tmp_path: Path) -> None:
    with pytest.raises(EnvironmentTroubleError, match=r"nothing\.yaml"):
        read_document(tmp_path / "nothing.yaml", "record")
    with pytest.raises(EnvironmentTroubleError):
        read_document(tmp_path, "record")
