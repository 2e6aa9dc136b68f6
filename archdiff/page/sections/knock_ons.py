"""What follows from what: chains from a choice to the things it made necessary."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import chain_anchor, element_anchor
from archdiff.wording import sure_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.knockons import Chain, Link

TITLE = "Knock-ons: one choice forces the next"
SHORT = "Knock-ons"
ORDER = 110
_FIRST = 8


def view(comparison: Comparison) -> dict[str, Any] | None:
    """All chains, the first few open and the rest folded; None where there is none."""
    chains = [_chain(chain, chain_anchor(comparison, chain)) for chain in comparison.chains]
    return {"shown": chains[:_FIRST], "folded": chains[_FIRST:]} if chains else None


def _chain(chain: Chain, anchor: str) -> dict[str, Any]:
    because = {link.because for link in chain.links}
    alike: dict[tuple[str, str, str], list[Link]] = {}
    for link in chain.links:
        alike.setdefault((link.effect, link.because, link.sure), []).append(link)
    return {
        "anchor": anchor,
        "root": chain.root,
        "side": chain.side,
        "analyst": chain.analyst,
        "because": because.pop() if len(because) == 1 else "",
        "effects": [
            {
                "count": len(links),
                "effect": effect,
                "anchor": element_anchor(chain.side, links[0].effect_id),
                "because": because,
                "sure": sure_words(sure),
            }
            for (effect, because, sure), links in alike.items()
        ],
    }
