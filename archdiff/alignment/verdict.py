"""What is said of a pair or of one side alone: the one place that decides.

Complete pairs, by means (rows) and place (columns):

    | means     | same    | different | not known |
    |-----------|---------|-----------|-----------|
    | same      | alike   | elsewhere | not known |
    | different | done    | both      | done      |
    |           | diff.   |           | diff.     |
    | not known | not     | elsewhere | not known |
    |           | known   |           |           |

A known difference is always told, even where the other question is open; likeness is told only where both
questions are answered.
Exceptions, in this order: a purpose that is not known leaves everything open; functions of two names are never
alike. A site that was left empty on one side only counts as nothing on that side.

One side alone, by what the other record's silence means: not there → only in this one; no separate part →
separate part only in this one; not looked at → not known.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from archdiff.alignment.model import Agreement, Verdict
from archdiff.record.silence import Silence

SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN
_SURENESS = ("measured", "read", "seen", "inferred", "guessed")

_TABLE = {
    (SAME, SAME): Verdict.ALIKE,
    (SAME, DIFFERENT): Verdict.ELSEWHERE,
    (SAME, UNKNOWN): Verdict.UNKNOWN,
    (DIFFERENT, SAME): Verdict.DIFFERENT,
    (DIFFERENT, DIFFERENT): Verdict.BOTH,
    (DIFFERENT, UNKNOWN): Verdict.DIFFERENT,
    (UNKNOWN, SAME): Verdict.UNKNOWN,
    (UNKNOWN, DIFFERENT): Verdict.ELSEWHERE,
    (UNKNOWN, UNKNOWN): Verdict.UNKNOWN,
}


@dataclass(frozen=True, slots=True)
class Doubt:
    """What overrides the table for a complete pair."""

    purpose_unknown: bool = False
    other_function: bool = False


def verdict_of(means: Agreement, place: Agreement, doubt: Doubt) -> Verdict:
    """The verdict of a complete pair."""
    if doubt.purpose_unknown:
        return Verdict.UNKNOWN
    verdict = _TABLE[means, place]
    if doubt.other_function and verdict is Verdict.ALIKE:
        return Verdict.DIFFERENT
    return verdict


def verdict_alone(silence: Silence, *, on_left: bool, purpose_unknown: bool) -> Verdict:
    """The verdict of a seat that only one side has."""
    if purpose_unknown or silence is Silence.NOT_LOOKED_AT:
        return Verdict.UNKNOWN
    if silence is Silence.NO_SEPARATE_PART:
        return Verdict.SEPARATE_LEFT if on_left else Verdict.SEPARATE_RIGHT
    return Verdict.ONLY_LEFT if on_left else Verdict.ONLY_RIGHT


def means_of(left: str, right: str) -> Agreement:
    """Whether two means agree; unknown where a side states none."""
    if left and right:
        return SAME if left == right else DIFFERENT
    return UNKNOWN


def words_agree(left: str, right: str) -> Agreement:
    """Whether two free texts name the same: equal words yes, words of which none is common no, else open."""
    a, b = words(left), words(right)
    if a == b:
        return SAME
    return UNKNOWN if a & b else DIFFERENT


def words(text: str) -> frozenset[str]:
    """The words of a free text, blind to case, order and punctuation."""
    return frozenset(re.findall(r"[\w.]+", text.casefold()))


def weakest(*words_of_sureness: str) -> str:
    """The weakest of several words of sureness; unstated ('') counts as seen."""
    return max((word or "seen" for word in words_of_sureness), key=_SURENESS.index, default="seen")
