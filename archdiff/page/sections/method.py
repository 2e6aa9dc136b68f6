"""How the page was made, how to read its marks, and what it leans on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.page.diagrams.marks import TITLES
from archdiff.page.seats import records
from archdiff.vocabulary.glossary import glossary
from archdiff.wording import coverage_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TITLE = "Method, sources, and how to read the marks"
SHORT = "Method"
ORDER = 150

# Groups of the glossary that stand in full beside their signs; the rest stands among the words used.
_COVERAGE, _SURE = "How far it was looked at", "How a fact is known"


def view(comparison: Comparison) -> dict[str, Any]:
    """The legend, the words for how sure a thing is and for what it is, the figures' sources, the checks' remarks."""
    sources = dict.fromkeys(result.figure.source for result in comparison.figures)
    return {
        "legend": [(mark, glossary()[title]) for mark, title in TITLES.items()],
        "coverage": [(word, glossary()[coverage_words(word)]) for word in ("whole", "part", "none")],
        "sure": [word for word in glossary().values() if word.group == _SURE],
        "words_used": sorted(_words_used(comparison).items(), key=lambda entry: entry[0].casefold()),
        "sources": [source for source in sources if source],
        "files": [(side, Path(record.file).name) for side, record in records(comparison)],
        "remarks": [(Path(warning.file).name, warning.line, warning.message) for warning in comparison.warnings],
    }


def _words_used(comparison: Comparison) -> dict[str, str]:
    """By what things are done, as the vocabulary tells it, and the words of the glossary that no legend explains."""
    means = (record.means_term(e.means) for _, record in records(comparison) for e in record.elements.values())
    ours = [word for word in glossary().values() if "page" in word.where and word.group not in (_COVERAGE, _SURE)]
    told = {word.name: word.meaning for word in ours if word.name not in TITLES.values()}
    return {term.name: term.meaning for term in means if term is not None} | told
