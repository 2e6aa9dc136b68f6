"""The first screen: what differs most, in sentences, and how the functions fare as a whole."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import chain_anchor, figure_anchor, pair_anchor, section_anchor
from archdiff.page.build_sketch import sketches
from archdiff.page.diagrams.scene import Mark
from archdiff.page.glyphs import mark_of
from archdiff.page.seats import records
from archdiff.page.text import markdown
from archdiff.quantities import NOT_KNOWN
from archdiff.unknowns import telling
from archdiff.wording import names, verdict_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.headlines import Consequence, Headline

TITLE = "What differs most"
SHORT = "Headlines"
ORDER = 10
_MOST, _NEXT = 5, 3
_BODY = ("structure", "opening")
"""Subsystems of what holds, joins and covers: said apart, as of these there are many and the user meets few."""
# The tally in five words; under each stand the verdicts that it is made of.
_KINDS = {
    "alike": (Mark.ALIKE,),
    "done otherwise": (Mark.DIFFERENT, Mark.ELSEWHERE, Mark.BOTH),
    "in one product alone": (Mark.ONLY,),
    "a separate part in one alone": (Mark.SEPARATE_ONLY,),
    NOT_KNOWN: (Mark.UNKNOWN,),
}


def view(comparison: Comparison) -> dict[str, Any]:
    """Sentences, the analyst's own words, the tally of verdicts and the title block's fields."""
    return {
        "said": comparison.notes.headline and markdown(comparison.notes.headline),
        "headlines": [
            (headline, _anchor(comparison, headline), [(then, _leads_to(comparison, then)) for then in headline.then])
            for headline in comparison.headlines[:_MOST]
        ],
        "tally": list(_tally(comparison)),
        "pairs": len(comparison.pairs),
        "sketches": sketches(comparison.left, comparison.right),
        "all_boards": all(record.coverage.is_whole("boards") for _, record in records(comparison)),
        "look_next": telling(comparison.look_at)[:_NEXT],
        "confirm": len(comparison.to_confirm),
        "looked_at": [_looked_at(record.product) for _, record in records(comparison)],
    }


def _anchor(comparison: Comparison, headline: Headline) -> str:
    """Where on the page the thing stands that a headline speaks of."""
    if headline.pair is not None:
        return pair_anchor(comparison, headline.pair)
    return figure_anchor(headline.figure) if headline.figure else section_anchor(headline.section)


def _leads_to(comparison: Comparison, then: Consequence) -> str:
    """Where the chain or the first of the figures stands on which a line under a headline rests."""
    return chain_anchor(comparison, then.chain) if then.chain is not None else figure_anchor(then.figures[0])


def _tally(comparison: Comparison) -> Iterator[dict[str, Any]]:
    """How many functions fall under each of five words, and which verdicts these are made of."""
    called = names(comparison)
    counts: Counter[tuple[Mark, str]] = Counter()
    body: Counter[Mark] = Counter()
    for pair in comparison.pairs:
        mark = mark_of(pair)
        body[mark] += pair.subsystem in _BODY
        counts[mark, NOT_KNOWN if mark is Mark.UNKNOWN else verdict_words(pair, called)] += 1
    order = list(Mark)
    for words, marks in _KINDS.items():
        inner = [(mark, said, n) for (mark, said), n in counts.items() if mark in marks]
        if inner:
            inner.sort(key=lambda entry: (order.index(entry[0]), entry[1]))
            several = inner if len(inner) > 1 or inner[0][1] != words else []
            count, holding = sum(n for _, _, n in inner), sum(body[mark] for mark in marks)
            yield {"mark": marks[0], "words": words, "count": count, "inner": several, "holding": holding}


def _looked_at(product: Any) -> str:
    words = [str(product[key]) for key in ("looked_at", "by") if product.get(key)]
    return ", ".join(words) or "date not stated"
