"""What a headline is, and what is told of a choice beside the choice itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.knockons import Chain


@dataclass(frozen=True, slots=True)
class Consequence:
    """One line under a headline: what its subject made necessary, or what a figure shows of it.

    It rests on a chain of knock-ons, or on the figures with those ids. `sure` is how a chain is known; figures carry
    their own bounds and need none.
    """

    text: str
    sure: str = ""
    chain: Chain | None = None
    figures: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Headline:
    """One difference that matters, as a sentence; `sure` is how it is known, `then` what goes with it.

    It speaks of a pair, of the figure with that id, or of a section of the page: one of the three is set.
    """

    text: str
    sure: str
    weight: float
    pair: Pair | None = None
    figure: str = ""
    section: str = ""
    then: tuple[Consequence, ...] = ()
