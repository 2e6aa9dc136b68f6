"""The first screen: what differs most, in sentences, and how the functions fare as a whole."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import figure_anchor, pair_anchor, section_anchor
from archdiff.page.diagrams.scene import Mark
from archdiff.page.glyphs import mark_of
from archdiff.page.seats import records
from archdiff.page.text import markdown
from archdiff.quantities import NOT_KNOWN
from archdiff.wording import names, verdict_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.headlines import Headline

TITLE = "What differs most"
SHORT = "Headlines"
ORDER = 10
_MOST = 5


def view(comparison: Comparison) -> dict[str, Any]:
    """Sentences, the analyst's own words, the tally of verdicts and the title block's fields."""
    return {
        "said": comparison.notes.headline and markdown(comparison.notes.headline),
        "headlines": [(headline, _anchor(comparison, headline)) for headline in comparison.headlines[:_MOST]],
        "tally": list(_tally(comparison)),
        "pairs": len(comparison.pairs),
        "looked_at": [_looked_at(record.product) for _, record in records(comparison)],
    }


def _anchor(comparison: Comparison, headline: Headline) -> str:
    """Where on the page the thing stands that a headline speaks of."""
    if headline.pair is not None:
        return pair_anchor(comparison, headline.pair)
    return figure_anchor(headline.figure) if headline.figure else section_anchor(headline.section)


def _tally(comparison: Comparison) -> Iterator[dict[str, Any]]:
    """How many functions have each verdict; one side's own are told apart by side."""
    called = names(comparison)
    counts: Counter[tuple[Mark, str]] = Counter()
    for pair in comparison.pairs:
        mark = mark_of(pair)
        counts[mark, NOT_KNOWN if mark is Mark.UNKNOWN else verdict_words(pair, called)] += 1
    order = list(Mark)
    for (mark, words), count in sorted(counts.items(), key=lambda entry: (order.index(entry[0][0]), entry[0][1])):
        yield {"mark": mark, "words": words, "count": count}


def _looked_at(product: Any) -> str:
    words = [str(product[key]) for key in ("looked_at", "by") if product.get(key)]
    return ", ".join(words) or "date not stated"
