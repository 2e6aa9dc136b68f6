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


_WORDS = {
    "way": "one contact or conductor of a link",
    "link": "what joins two boards, or a board and something off it, electrically",
    "placement": "one part soldered in one place of a board",
    "cut": "how the functions are shared out over boards and pieces",
    "verdict": "what is said of one function: alike, done differently, placed elsewhere, only in one, not known",
    "TMU": "unit of predetermined times in work study: 0.036 s",
    "H0, H1": "sizes of the cross recess type H (ISO 4757)",
    "hexalobular": "six-lobed screw head (ISO 10664), by its size number",
    "metric 1608": "a chip part of 1.6 x 0.8 mm; 2020, 3216 and the like in the same way",
}


def view(comparison: Comparison) -> dict[str, Any]:
    """The legend, the words for how sure a thing is and for what it is, the figures' sources, the checks' remarks."""
    sources = dict.fromkeys(result.figure.source for result in comparison.figures)
    return {
        "legend": MEANINGS.items(),
        "sure": _SURE,
        "words_used": sorted(_words_used(comparison).items(), key=lambda entry: entry[0].casefold()),
        "sources": [source for source in sources if source],
        "files": [(side, Path(record.file).name) for side, record in records(comparison)],
        "remarks": [(Path(warning.file).name, warning.line, warning.message) for warning in comparison.warnings],
    }


def _words_used(comparison: Comparison) -> dict[str, str]:
    """The words that a reader may not know: by what things are done, as the vocabulary tells it, and our own."""
    means = (record.means_term(e.means) for _, record in records(comparison) for e in record.elements.values())
    return {term.name: term.meaning for term in means if term is not None} | _WORDS
