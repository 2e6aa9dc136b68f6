"""A figure that is not applicable is told from one that is not known: on the page and in everything written beside it.

The products are a recorder with one microphone and none, looked at whole or in part: one microphone has no spacing.
"""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING, Any

import pytest

from archdiff.exports.as_figures import write as as_csv
from archdiff.exports.as_json import write as as_json
from archdiff.exports.as_markdown import write as as_markdown
from archdiff.figures import FigureResult, Measure, all_figures
from archdiff.notes import Notes
from archdiff.page import render_page
from archdiff.page.sections.figures import view
from archdiff.pipeline import compare
from archdiff.quantities import NOT_KNOWN, Bounds
from archdiff.wording import NOT_ASKED, amount, outcome_words
from tests.page.conftest import record_of
from tests.page.reading import Page

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

SPACING = "microphone-spacing"
NAMES = ("Sarn", "Tolva")
ONE = "sensors: {m: {on: main, means: MEMS microphone, at: [1 mm, 2 mm]}}\n"
TWO = (
    "sensors: {m: {on: main, means: MEMS microphone, at: [0 mm, 0 mm]},"
    " n: {on: main, means: MEMS microphone, at: [3 mm, 4 mm]}}\n"
)
Side = tuple[str, str]  # how far sensors were looked at, and which there are
MOOT, OPEN, KNOWN = ("whole", ONE), ("part", ONE), ("whole", TWO)


def compared(left: Side, right: Side) -> Comparison:
    records = [
        record_of(
            f"archdiff: 1\nproduct: {{name: {name}, kind: recorder}}\n"
            f"coverage: {{boards: whole, sensors: {coverage}}}\nboards: {{main: {{}}}}\n{sensors}",
            f"{name}.yaml",
        )
        for name, (coverage, sensors) in zip(NAMES, (left, right), strict=True)
    ]
    return compare(records[0], records[1], Notes())


def result_of(comparison: Comparison) -> FigureResult:
    return next(result for result in comparison.figures if result.figure.id == SPACING)


def on_page(comparison: Comparison) -> tuple[dict[str, Any] | None, dict[str, Any] | None]:
    """The figure's row in the table, and its line among those that tell nothing of either side."""
    shown = view(comparison)
    assert shown is not None
    families = [family for _, _, family in shown["families"]]
    found = {
        kind: next((row for family in families for row in family[kind] if row["figure"].id == SPACING), None)
        for kind in ("telling", "alike", "open")
    }
    return found["telling"] or found["alike"], found["open"]


@pytest.mark.parametrize(
    ("left", "right", "words"),
    [
        (MOOT, KNOWN, "not applicable in Sarn"),
        (KNOWN, MOOT, "not applicable in Tolva"),
        (MOOT, MOOT, "not applicable in Sarn and Tolva"),
        (MOOT, OPEN, "not applicable in Sarn"),
        (OPEN, KNOWN, "not known"),
        (OPEN, OPEN, "not known"),
        (KNOWN, KNOWN, "same"),
    ],
)
def test_what_comparing_shows(left: Side, right: Side, words: str) -> None:
    assert outcome_words(result_of(compared(left, right)), NAMES) == words


def test_beside_a_known_value_it_stands_in_the_table() -> None:
    row, line = on_page(compared(MOOT, KNOWN))
    assert line is None
    assert row is not None
    assert [value["number"] for value in row["values"]] == [NOT_ASKED, "5\N{NO-BREAK SPACE}mm"]  # 3, 4 and 5
    assert row["outcome"] == "not applicable in Sarn"
    assert row["values"][0]["missing"] == ()
    assert row["told"][0]["how"] == "one microphone: no array"
    row, _ = on_page(compared(OPEN, KNOWN))
    assert row is not None
    assert row["values"][0]["number"] == NOT_KNOWN
    assert row["outcome"] == NOT_KNOWN
    assert "sensors: looked at only in part" in row["values"][0]["missing"]


def test_where_neither_side_tells_anything_each_says_why() -> None:
    row, line = on_page(compared(MOOT, OPEN))
    assert row is None
    assert line is not None
    assert line["why"] == (
        "not applicable (one microphone: no array) for Sarn; not known (one microphone recorded) for Tolva"
    )
    assert line["lacks"] == ["sensors: looked at only in part"]
    _, line = on_page(compared(MOOT, MOOT))
    assert line is not None
    assert (line["why"], line["lacks"]) == ("not applicable (one microphone: no array) for Sarn and Tolva", [])


def test_the_page_says_it_only_where_it_is_so() -> None:
    def text(left: Side, right: Side) -> str:
        return Page(render_page(compared(left, right))).text

    assert "not applicable in Sarn" in text(MOOT, KNOWN)
    assert "not applicable (one microphone: no array) for Sarn" in text(MOOT, OPEN)
    assert NOT_ASKED not in text(OPEN, KNOWN)


@pytest.mark.parametrize(("left", "moot"), [(MOOT, True), (OPEN, False), (KNOWN, False)])
def test_json_marks_it(left: Side, moot: bool) -> None:  # noqa: FBT001 - a case of a table
    figures = json.loads(as_json(compared(left, KNOWN)))["figures"]
    row = next(row for row in figures if row["id"] == SPACING)
    assert row["left"].get("not_applicable", False) is moot
    assert "not_applicable" not in row["right"]
    assert (row["left"]["value"] is None) == (left is not KNOWN)
    assert ("left: sensors: looked at only in part" in row["missing"]) == (left is OPEN)


def rows_of(comparison: Comparison) -> list[dict[str, str]]:
    return [row for row in csv.DictReader(io.StringIO(as_csv(comparison))) if row["id"] == SPACING]


def test_the_table_of_figures_says_it_of_its_side() -> None:
    moot, known = rows_of(compared(MOOT, KNOWN))
    assert (moot["of"], moot["said"], moot["lacking"]) == ("Sarn", NOT_ASKED, "")
    assert (moot["best"], moot["lowest"], moot["highest"]) == ("", "", "")
    assert (known["of"], known["said"], known["best"]) == ("Tolva", "", "5")
    assert {moot["shows"], known["shows"]} == {"not applicable in Sarn"}
    unknown, _ = rows_of(compared(OPEN, KNOWN))
    assert (unknown["said"], unknown["shows"]) == ("", NOT_KNOWN)
    assert "sensors: looked at only in part" in unknown["lacking"]


def test_markdown_says_it() -> None:
    def line(comparison: Comparison) -> str:
        return next(text for text in as_markdown(comparison).splitlines() if text.startswith("| Microphone spacing |"))

    assert line(compared(MOOT, KNOWN)).count(NOT_ASKED) == 2  # its value, and what comparing shows
    assert NOT_ASKED not in line(compared(OPEN, KNOWN))


def test_nothing_waits_for_it() -> None:
    waiting = [hang for unknown in compared(MOOT, KNOWN).unknowns for hang in unknown.hangs]
    assert "figure: Microphone spacing" not in waiting
    open_ones = [hang for unknown in compared(OPEN, KNOWN).unknowns for hang in unknown.hangs]
    assert "figure: Microphone spacing" in open_ones


def test_what_has_a_value_or_lacks_something_never_fails_to_arise(
    air_monitors: Comparison, bike_lights: Comparison
) -> None:
    figure = next(figure for figure in all_figures() if figure.id == SPACING)
    assert amount(Measure(None, moot=True), figure) == (NOT_ASKED, "")
    assert amount(Measure(None), figure)[0] == NOT_KNOWN
    assert amount(Measure(Bounds.exact(5)), figure)[0] == "5\N{NO-BREAK SPACE}mm"
    results = [*air_monitors.figures, *bike_lights.figures]
    measures = [m for result in results for m in (result.left, result.right, result.pair) if m is not None]
    assert any(measure.moot for measure in measures)
    for measure in measures:
        assert measure.moot in (True, False)
        assert not measure.moot or (measure.bounds, measure.missing) == (None, ()), measure
