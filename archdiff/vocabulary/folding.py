"""What two spellings of a term must share to count as the same term."""

from __future__ import annotations

import re

_BETWEEN_WORDS = re.compile(r"[\s_\-\u00ad\u2010-\u2015\u2212]+")
_FULL_ENDINGS = ("ches", "shes", "xes", "sses", "nses")
_SHORTEST_PLURAL = 3


def words(text: str) -> list[str]:
    """Part a text into its words, in lower case, at spaces, hyphens, dashes and underscores."""
    return [word for word in _BETWEEN_WORDS.split(text.casefold()) if word]


def fold(text: str) -> str:
    """Strip a text of case, spaces, hyphens, underscores and plural ending: equal for spellings of one term.

    "Push-button", "push buttons" and "pushbutton" fold alike. Folding what was folded changes nothing.
    """
    joined = "".join(words(text))
    while (shorter := _without_plural(joined)) != joined:
        joined = shorter
    return joined


def _without_plural(word: str) -> str:
    # "bus" loses its s too: both sides of a comparison do, and "MCUs" must meet "MCU" in any case.
    if len(word) < _SHORTEST_PLURAL or not word.endswith("s") or word.endswith("ss"):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(_FULL_ENDINGS) else word[:-1]
