"""The small signs of the page: a ring for left, a square for right, one glyph a verdict; drawn once, used by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from archdiff.alignment import Verdict
from archdiff.page.diagrams.marks import glyph
from archdiff.page.diagrams.scene import Mark
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from archdiff.alignment import Pair

SIDES = ("left", "right")
# How far a section was looked at: an empty, a half and a full disc.
_COVERAGE_SHAPES = {
    "none": '<circle cx="6" cy="6" r="4.4" fill="none" stroke="currentColor" stroke-dasharray="2 1.4"/>',
    "part": '<circle cx="6" cy="6" r="4.4" fill="none" stroke="currentColor"/>'
    '<path d="M6 1.6a4.4 4.4 0 0 0 0 8.8z" fill="currentColor"/>',
    "whole": '<circle cx="6" cy="6" r="4.9" fill="currentColor"/>',
}

_MARKS = {
    Verdict.ALIKE: Mark.ALIKE,
    Verdict.DIFFERENT: Mark.DIFFERENT,
    Verdict.ELSEWHERE: Mark.ELSEWHERE,
    Verdict.BOTH: Mark.BOTH,
}


def mark_of(pair: Pair) -> Mark:
    """The verdict's mark, by the same judgement as the words for it (`archdiff.wording.verdict_words`)."""
    if pair.is_complete:
        return _MARKS.get(pair.verdict, Mark.UNKNOWN)
    if pair.silent is None or not pair.silent.silence.is_known:
        return Mark.UNKNOWN
    return Mark.ONLY if pair.silent.silence is Silence.NOT_THERE else Mark.SEPARATE_ONLY


def side_sign(side: str) -> Markup:
    """The sign of a side, a ring or a square drawn by style alone: it stands in a page a thousand times.

    It has no words of its own, so it always stands beside some.
    """
    return Markup(f'<i class="sign {side}"></i>')  # noqa: S704 - made of constants


def verdict_sign(mark: Mark) -> Markup:
    """The glyph of a verdict; always beside words, so hidden from screen readers."""
    return _use(f"sign-{mark.value}", f"mark mark-{mark.value}")


def coverage_sign(word: str) -> Markup:
    """The sign for how far something was looked at."""
    return _use(f"sign-{word}", "sign")


def sign_sheet() -> Markup:
    """The definitions that all the signs refer to; stands once in the page."""
    drawn = {**_COVERAGE_SHAPES, **{mark.value: glyph(mark) for mark in Mark}}
    symbols = "".join(f'<symbol id="sign-{name}" viewBox="0 0 12 12">{shape}</symbol>' for name, shape in drawn.items())
    hatches = "".join(_hatch(side, turn) for side, turn in (("left", 45), ("right", -45), ("ink", 45)))
    return Markup(  # noqa: S704 - made of constants
        f'<svg class="sheet-of-signs" width="0" height="0" aria-hidden="true"><defs>{symbols}{hatches}</defs></svg>'
    )


def _hatch(side: str, turn: int) -> str:
    return (
        f'<pattern id="hatch-{side}" width="5" height="5" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({turn})"><path class="hatch-{side}" d="M0 0V5" stroke-width="1.6"/></pattern>'
    )


def _use(name: str, classes: str) -> Markup:
    return Markup(  # noqa: S704 - made of constants
        f'<svg class="{classes}" aria-hidden="true"><use href="#{name}"/></svg>'
    )
