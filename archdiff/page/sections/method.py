"""How the page was made, how to read its marks, and what it leans on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.page.diagrams.scene import Mark
from archdiff.page.seats import records

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TITLE = "Method, sources, and how to read the marks"
SHORT = "Method"
ORDER = 150

_LEGEND = {
    Mark.ALIKE: ("alike", "the same means at the corresponding place; small facts may still differ"),
    Mark.DIFFERENT: ("done differently", "the same job by another means, or with other facts"),
    Mark.ELSEWHERE: ("placed elsewhere", "the same means on a board or piece that does not correspond"),
    Mark.BOTH: ("done differently and placed elsewhere", "both of these"),
    Mark.ONLY: ("only in …", "the other product was looked at where it could be, and it is not there"),
    Mark.SEPARATE_ONLY: (
        "separate part only in …",
        "the other product has no part of its own for it; the function may live inside another part",
    ),
    Mark.UNKNOWN: ("not known", "the other product was not looked at far enough to say"),
}
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
        "legend": _LEGEND.items(),
        "sure": _SURE,
        "sources": [source for source in sources if source],
        "files": [(side, Path(record.file).name) for side, record in records(comparison)],
        "remarks": [(Path(warning.file).name, warning.line, warning.message) for warning in comparison.warnings],
    }
