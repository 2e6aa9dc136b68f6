"""Both products at a glance: what was bought, what it costs and weighs, who looked and when."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import figure_anchor
from archdiff.page.facts import fact_text
from archdiff.page.seats import records
from archdiff.wording import amount

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure

TITLE = "Both products at a glance"
SHORT = "At a glance"
ORDER = 20
NOT_STATED = "not stated"

_ROWS = (
    ("kind", "Kind"),
    ("maker", "Sold by"),
    ("model", "Model"),
    ("year", "Year"),
    ("price", "Price"),
    ("mass", "Mass"),
    ("envelope", "Envelope, width × depth × height"),  # noqa: RUF001 - the sign is meant
    ("supply", "Energy from"),
    ("looked_at", "Looked at on"),
    ("by", "Looked at by"),
)


def view(comparison: Comparison) -> dict[str, Any]:
    """One row a fact, as written in the two records, and the figures that every reader asks for."""
    products = [record.product for _, record in records(comparison)]
    rows = [
        {"title": title, "values": [fact_text(p[key]) if key in p else NOT_STATED for p in products]}
        for key, title in _ROWS
        if any(key in p for p in products)
    ]
    figures = [
        {
            "title": result.figure.title,
            "anchor": figure_anchor(result.figure.id),
            "meaning": result.figure.meaning,
            "values": [_shown(measure, result) for measure in (result.left, result.right)],
        }
        for result in comparison.figures
        if result.figure.glance and result.pair is None
    ]
    summaries = [str(p.get("summary", "")) for p in products]
    at_least = any(value.startswith("≥") for figure in figures for value in figure["values"])
    return {"rows": rows, "figures": figures, "summaries": summaries, "not_stated": NOT_STATED, "at_least": at_least}


def _shown(measure: Measure | None, result: FigureResult) -> str:
    """The likeliest value with its range behind it, or the range alone; and what has to be said with it."""
    value, likely = amount(measure, result.figure)
    shown = f"{likely} ({value})" if likely else value
    return f"{shown}; {measure.said}" if measure is not None and measure.said else shown
