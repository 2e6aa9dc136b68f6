import csv
import io
import json

import jsonschema
import pytest
from markdown_it import MarkdownIt

from archdiff.exports import export, exports
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


def test_the_shelf_holds_three_forms():
    assert list(exports()) == ["csv", "json", "markdown"]


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


def test_markdown_names_both_products_and_the_figures(comparison):
    text = export(comparison, "markdown")
    assert comparison.left.name in text
    assert "| Boards |" in text
    assert "Bounds(" not in text
