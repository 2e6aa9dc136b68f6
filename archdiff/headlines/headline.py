"""What a headline consists of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.knockons import Chain


@dataclass(frozen=True, slots=True)
class Consequence:
    """One line under a headline: what its subject made necessary, or what figures show of it.

    >>> told = [then for headline in result.comparison.headlines for then in headline.then]
    >>> all(then.chain or then.figures for then in told)
    True
    """

    text: str
    sure: str = ""  # how a chain is known; figures have bounds instead
    chain: Chain | None = None  # what the line rests on, unless on figures
    figures: tuple[str, ...] = ()  # ids


@dataclass(frozen=True, slots=True)
class Headline:
    """One difference that matters, as a sentence. It is about a pair, a figure or a section of the page.

    >>> len(result.comparison.headlines) <= 5
    True
    """

    text: str
    sure: str  # the weakest of the facts it rests on
    weight: float  # what it is ranked by
    pair: Pair | None = None
    figure: str = ""  # id
    section: str = ""  # of the page
    then: tuple[Consequence, ...] = ()  # at most two lines
