import csv
import io
import json

import jsonschema
import pytest
from markdown_it import MarkdownIt

from archdiff.exports import export, exports
from archdiff.notes import Comment, Notes
from archdiff.pipeline import compare
from archdiff.record.schema import load_schema

HOSTILE = """
coverage: {boards: whole, parts: whole}
boards: {main: {outline: 60 x 40 mm}}
parts:
  U1: {name: "=1+1 | *bold* <b>x</b> [a](javascript:x)", on: main, function: host processing, means: "@cmd", package: "-2+3"}
"""


@pytest.fixture(params=["air_monitors", "bike_lights"])
def comparison(request):
    return request.getfixturevalue(request.param)


def test_the_shelf_holds_four_forms():
    assert list(exports()) == ["csv", "figures", "json", "markdown"]


def test_json_follows_its_schema(comparison):
    data = json.loads(export(comparison, "json"))
    jsonschema.Draft7Validator.check_schema(load_schema("comparison"))
    jsonschema.Draft7Validator(load_schema("comparison")).validate(data)


def test_json_has_every_seat_once(comparison):
    data = json.loads(export(comparison, "json"))
    for side, record in (("left", comparison.left), ("right", comparison.right)):
        seats = [(name, pair["function"]) for pair in data["pairs"] for name in pair[f"{side}_members"]]
        assert len(seats) == len(set(seats))
        assert {name for name, _ in seats} <= set(record.elements)


def test_json_has_no_infinity_and_no_unknown_as_zero(comparison):
    text = export(comparison, "json")
    assert "Infinity" not in text
    assert "NaN" not in text
    for figure in json.loads(text)["figures"]:
        for side in ("left", "right", "pair"):
            measure = figure.get(side)
            if measure and measure["low"] is None and measure["high"] is None:
                assert measure["value"] is None


def test_csv_opens_as_a_table_of_one_width(comparison):
    rows = list(csv.reader(io.StringIO(export(comparison, "csv"))))
    assert len(rows) == len(comparison.pairs) + 1
    assert {len(row) for row in rows} == {len(rows[0])}


def test_hostile_text_is_inert_in_csv_and_markdown(record_of):
    left, right = record_of(HOSTILE), record_of(HOSTILE.replace("host processing", "program storage"))
    comparison = compare(left, right)
    for row in list(csv.reader(io.StringIO(export(comparison, "csv"))))[1:]:
        assert not [cell for cell in row if cell[:1] in "=+-@" and cell[:1]]
    html = MarkdownIt("commonmark").render(export(comparison, "markdown"))
    assert "<b>" not in html
    assert "javascript:" not in html or "<a" not in html
    assert "<strong>bold" not in html
    assert "<em>bold" not in html


def test_hostile_notes_show_their_tags_as_text(record_of):
    notes = Notes(headline="<img src=x onerror=alert(1)>", comments=(Comment("<i>a</i> `<b>` <script>x</script>"),))
    comparison = compare(record_of(HOSTILE), record_of(HOSTILE), notes)
    html = MarkdownIt("commonmark").render(export(comparison, "markdown"))
    assert "<img" not in html
    assert "<i>" not in html
    assert "<script" not in html
    assert "<code>&lt;b&gt;</code>" in html


def test_json_holds_the_words_of_the_analyst(comparison):
    data = json.loads(export(comparison, "json"))
    assert data["headline"] == comparison.notes.headline
    assert [c["text"] for c in data["comments"]] == [c.text for c in comparison.notes.comments]
    assert all(c["on"] or c["left"] or c["right"] for c in data["comments"])
    assert None in {c["on"] for c in data["comments"]}


def test_json_without_notes_says_so(record_of):
    data = json.loads(export(compare(record_of(HOSTILE), record_of(HOSTILE)), "json"))
    assert (data["headline"], data["comments"]) == (None, [])


def test_json_tells_the_currency_of_a_price(comparison):
    figures = {figure["id"]: figure for figure in json.loads(export(comparison, "json"))["figures"]}
    assert [figures["price"][side]["unit"] for side in ("left", "right")] == ["EUR", "EUR"]
    assert "unit" not in figures["mass"]["left"]


@pytest.mark.parametrize("word", ["title", "description", "examples"])
def test_the_schema_says_what_every_property_is(word):
    def silent(node, path):
        for key, inner in node.get("properties", {}).items():
            if word not in inner and "$ref" not in inner:
                yield f"{path}/{key}"
        for inner in node.values() if isinstance(node, dict) else ():
            for each in inner if isinstance(inner, list) else [inner]:
                if isinstance(each, dict):
                    yield from silent(each, path)

    assert list(silent(load_schema("comparison"), "#")) == []
