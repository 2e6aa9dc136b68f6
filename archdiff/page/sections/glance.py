"""Both products at a glance: what was bought, what it costs and weighs, who looked and when."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.facts import fact_text
from archdiff.page.seats import records

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

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
    """One row a fact, as written in the two records; rows that neither states are left out."""
    products = [record.product for _, record in records(comparison)]
    rows = [
        {"title": title, "values": [fact_text(p[key]) if key in p else NOT_STATED for p in products]}
        for key, title in _ROWS
        if any(key in p for p in products)
    ]
    summaries = [str(p.get("summary", "")) for p in products]
    return {"rows": rows, "summaries": summaries, "not_stated": NOT_STATED}
