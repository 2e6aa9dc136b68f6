"""What somebody who writes a record sees in the editor: faults at their line, offers, and explanations."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.editor.language_client import LanguageClient

ROOT = Path(__file__).parents[2]
SCHEMA: dict[str, Any] = json.loads((ROOT / "schema" / "record.schema.json").read_text(encoding="utf-8"))
MODELINE = "# yaml-language-server: $schema=../../schema/record.schema.json\n"
START = "archdiff: 1\nproduct: {name: Tall one, kind: indoor air monitor}\n"
EXAMPLES = sorted((ROOT / "examples").glob("*/*.yaml"))
BEING_WRITTEN = ROOT / "examples" / "air-monitors" / "being-written.yaml"
"""Where the record would lie; it is never written, but the schema's relative path starts from here."""
CURSOR = "¦"


def _at_cursor(text: str) -> tuple[str, tuple[int, int]]:
    """The text with the modeline and without the cursor, and the cursor's line and column from 0."""
    before, after = (MODELINE + text).split(CURSOR)
    return before + after, (before.count("\n"), len(before) - before.rfind("\n") - 1)


def _lines(found: list[dict[str, Any]]) -> list[int]:
    """The lines of the diagnostics, from 1 as editors count."""
    return [item["range"]["start"]["line"] + 1 for item in found]


def _known(term: str) -> list[str]:
    terms = SCHEMA["definitions"][term]
    known: list[str] = terms.get("enum") or terms["anyOf"][0]["enum"]
    return known


def test_misspelt_property_is_reported_at_its_line(editor: LanguageClient) -> None:
    text = MODELINE + START + "parts:\n  U1:\n    on: main\n    fuction: host processing\n"
    found = editor.diagnostics(BEING_WRITTEN, text)
    assert _lines(found) == [7]
    assert "fuction" in found[0]["message"]


def test_word_outside_the_list_is_reported_at_its_line(editor: LanguageClient) -> None:
    text = MODELINE + START + "parts:\n  U1:\n    on: main\n    sure: surmised\n"
    found = editor.diagnostics(BEING_WRITTEN, text)
    assert _lines(found) == [7]
    assert all(word in found[0]["message"] for word in _known("sure"))


def test_section_names_are_offered(editor: LanguageClient) -> None:
    text, cursor = _at_cursor(START + "¦\n")
    offered = editor.completions(BEING_WRITTEN, text, cursor)
    assert set(SCHEMA["properties"]) - {"archdiff", "product"} <= offered
    assert "product" not in offered  # it is there already


@pytest.mark.parametrize(
    ("record", "term"),
    [
        ("parts:\n  U1:\n    on: main\n    sure: ¦\n", "sure"),
        ("coverage:\n  boards: ¦\n", "coverage-word"),
        ("parts:\n  U1:\n    on: main\n    function: ¦\n", "function"),
        ("parts:\n  U1:\n    on: main\n    means: ¦\n", "means"),
        ("parts:\n  U1: {on: main, function: ¦}\n", "function"),
    ],
)
def test_words_of_a_list_are_offered(editor: LanguageClient, record: str, term: str) -> None:
    text, cursor = _at_cursor(START + record)
    assert set(_known(term)) <= editor.completions(BEING_WRITTEN, text, cursor)


def test_vocabulary_reaches_the_editor(editor: LanguageClient) -> None:
    """The function terms of the vocabulary file itself, not of the schema, are what is offered."""
    terms = yaml.safe_load((ROOT / "archdiff" / "vocabulary" / "terms.yaml").read_text(encoding="utf-8"))
    text, cursor = _at_cursor(START + "parts:\n  U1:\n    function: ¦\n")
    offered = editor.completions(BEING_WRITTEN, text, cursor)
    assert set(terms["functions"]) <= offered


@pytest.mark.parametrize(
    ("record", "words"),
    [
        ("co¦verage:\n  boards: whole\n", SCHEMA["definitions"]["coverage"]["description"]),
        ("parts:\n  U1:\n    su¦re: seen\n", SCHEMA["definitions"]["sure"]["description"]),
        ("parts:\n  U1:\n    fun¦ction: host processing\n", SCHEMA["definitions"]["function"]["description"]),
    ],
)
def test_resting_on_a_property_explains_it(editor: LanguageClient, record: str, words: str) -> None:
    text, cursor = _at_cursor(START + record)
    assert words in editor.hover(BEING_WRITTEN, text, cursor).replace("\\", "")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_example_records_and_notes_are_clean_in_the_editor(editor: LanguageClient, path: Path) -> None:
    """A fault added at the end is the only one found: so the file was truly looked at, and is clean."""
    text = path.read_text(encoding="utf-8").rstrip("\n") + "\nno such section: 1\n"
    assert _lines(editor.diagnostics(path, text)) == [text.count("\n")]
