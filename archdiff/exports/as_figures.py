"""The figures as CSV (RFC 4180) that opens in a spreadsheet: a row a figure and side."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.spreadsheet import as_csv
from archdiff.wording import NOT_ASKED, names, outcome_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure

NAME = "figures"
_COLUMNS = (
    "family", "figure", "id", "of", "best", "lowest", "highest", "unit", "said", "shows", "how", "lacking", "assumed",
    "formula", "source",
)  # fmt: skip


def write(comparison: Comparison) -> str:
    """CSV text with a heading row. An empty cell under lowest or highest means that no limit is known."""
    called = names(comparison)
    return as_csv(_COLUMNS, (row for result in comparison.figures for row in _rows(result, called)))


def _rows(result: FigureResult, called: tuple[str, str]) -> Iterator[list[str]]:
    figure = result.figure
    measures: list[tuple[str, Measure | None]] = [("both", result.pair)]
    shows = ""
    if result.pair is None:
        measures = [(called[0], result.left), (called[1], result.right)]
        shows = outcome_words(result, called)
    for of, measure in measures:
        told = _told(measure) if measure is not None else ("",) * 4
        unit = (measure.unit if measure else "") or figure.unit
        about = [figure.family, figure.title, figure.id, of]
        yield [*about, *_numbers(measure), unit, told[0], shows, *told[1:], figure.formula, figure.source]


def _told(measure: Measure) -> tuple[str, str, str, str]:
    said = NOT_ASKED if measure.moot else measure.said
    return said, measure.how, "; ".join(measure.missing), "; ".join(measure.assumed)


def _numbers(measure: Measure | None) -> tuple[str, str, str]:
    if measure is None or measure.bounds is None:
        return "", "", ""
    bounds = measure.bounds
    best, low, high = (
        "" if value is None or not math.isfinite(value) else f"{value:.10g}"
        for value in (bounds.best, bounds.low, bounds.high)
    )
    return best, low, high
