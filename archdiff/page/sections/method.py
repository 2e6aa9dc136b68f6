"""How the page was made, how to read its marks, and what it leans on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.page.diagrams.marks import MEANINGS
from archdiff.page.seats import records

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TITLE = "Method, sources, and how to read the marks"
SHORT = "Method"
ORDER = 150

_SURE = (
    ("measured", "with an instrument"),
    ("read", "off a marking or a document"),
    ("seen", "by eye, or in a picture"),
    ("inferred", "follows from other facts"),
    ("guessed", "a hunch, said to be one"),
)


def view(comparison: Comparison) -> dict[str, Any]:
    """The legend, the words for how sure a thing is, the figures' sources, and what the checks remarked."""
    sources = dict.fromkeys(result.figure.source for result in comparison.figures)
    return {
        "legend": MEANINGS.items(),
        "sure": _SURE,
        "sources": [source for source in sources if source],
        "files": [(side, Path(record.file).name) for side, record in records(comparison)],
        "remarks": [(Path(warning.file).name, warning.line, warning.message) for warning in comparison.warnings],
    }
