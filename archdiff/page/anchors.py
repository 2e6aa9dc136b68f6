"""The page's anchors: where headlines, diagram tiles and other readers' links lead.

Anchors follow content, not position in a list, so that a link into a page lives on when the records grow.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.page.text import slug

if TYPE_CHECKING:
    from archdiff.alignment import Alignment, Pair
    from archdiff.comparison import Comparison
    from archdiff.knockons import Chain


def pair_anchor(comparison: Comparison, pair: Pair) -> str:
    """`pair-volume-adjustment`, with `-2`, `-3` ... for further pairs of the function; KeyError for a stranger."""
    return _of_pairs(comparison.alignment)[pair]


def element_anchor(side: str, name: str) -> str:
    """`left-U1`: where the element with that id stands in the parts list."""
    return f"{side}-{name}"


def evidence_anchor(side: str, name: str) -> str:
    """`by-left-P3`: where that evidence is shown; short, as a page leads there two thousand times."""
    return f"by-{side}-{name}"


def figure_anchor(figure_id: str) -> str:
    """`figure-board-area`: where a figure stands."""
    return f"figure-{slug(figure_id)}"


def family_anchor(family: str) -> str:
    """`figures-power`: where the figures of a family begin."""
    return f"figures-{slug(family)}"


def subsystem_anchor(subsystem: str) -> str:
    """`subsystem-user-input`: where the differences of a subsystem begin."""
    return f"subsystem-{slug(subsystem)}"


def chain_anchor(comparison: Comparison, chain: Chain) -> str:
    """`chain-3`: where a chain of knock-ons stands; chains have no id, so they go by their place among all."""
    return f"chain-{comparison.chains.index(chain) + 1}"


def section_anchor(name: str) -> str:
    """`partition`: where a section of the page begins."""
    return name.replace("_", "-")


@lru_cache(maxsize=4)
def _of_pairs(alignment: Alignment) -> dict[Pair, str]:
    taken: set[str] = set()
    found: dict[Pair, str] = {}
    for pair in alignment.pairs:
        stem = f"pair-{slug(pair.function)}"
        anchor, number = stem, 2
        while anchor in taken:
            anchor, number = f"{stem}-{number}", number + 1
        taken.add(anchor)
        found[pair] = anchor
    return found
