"""What is said of two stages that lie side by side: alike, done differently, other numbers, or not known.

A known difference is always told. Likeness is told only of what both sides state, and names it: of two stages whose
means agree and of which one states no material, it is said that they are alike in means.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.alignment import Agreement
from archdiff.alignment.verdict import means_of, weakest, words_agree
from archdiff.paths.model import Amount, Column, Finding, Question
from archdiff.paths.points import material_agrees
from archdiff.paths.stages import AMOUNTS
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.paths.stages import Stage
    from archdiff.quantities import Bounds

SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN
# Two stages that merely face one way are not alike for that.
_LIKENESS = frozenset({"means", "words", "material"})


def column_of(left: Stage, right: Stage, points: int) -> Column:
    """The column of two stages."""
    questions, amounts = tuple(_questions(left, right)), tuple(_amounts(left, right))
    finding = _finding(questions, amounts)
    return Column(left, right, finding, questions, amounts, points, sure=weakest(left.sure, right.sure))


def _finding(questions: tuple[Question, ...], amounts: tuple[Amount, ...]) -> Finding:
    if any(question.agreement is DIFFERENT for question in questions):
        return Finding.DIFFERENT
    if any(amount.differs for amount in amounts):
        return Finding.NUMBERS
    if any(question.agreement is SAME and question.name in _LIKENESS for question in questions):
        return Finding.ALIKE
    return Finding.UNKNOWN


def _questions(left: Stage, right: Stage) -> Iterator[Question]:
    """What at least one side answers; words are asked about only where no means can be."""
    if left.means and right.means:
        yield Question("means", left.means, right.means, means_of(left.means, right.means))
    elif left.words and right.words:
        texts = (" ".join(sorted(left.words)), " ".join(sorted(right.words)))
        same = words_agree(*texts) is SAME
        yield Question("words", left.label, right.label, SAME if same else UNKNOWN)
    elif left.means or right.means:
        yield Question("means", left.means, right.means, UNKNOWN)
    if left.material or right.material:
        agreement = material_agrees(left.material, right.material)
        yield Question("material", left.material, right.material, agreement)
    if left.facing or right.facing:
        yield facing_question(left.facing, right.facing)


def facing_question(left: str, right: str) -> Question:
    """Whether two stages or paths face the same way; open where a side does not say."""
    return Question("facing", left, right, means_of(left, right))


def _amounts(left: Stage, right: Stage) -> Iterator[Amount]:
    for name in AMOUNTS:
        a, b = left.amount(name), right.amount(name)
        if a is not None or b is not None:
            yield amount_of(name, a, b)


def amount_of(name: str, left: Any, right: Any) -> Amount:
    """A quantity of both sides: the same, other where the bounds do not overlap, else no difference is shown."""
    a, b = as_bounds(left), as_bounds(right)
    if a is None or b is None:
        return Amount(name, left, right, UNKNOWN)
    if not a.overlaps(b):
        return Amount(name, left, right, DIFFERENT, _ratio(a, b))
    same = a.is_exact and b.is_exact
    return Amount(name, left, right, SAME if same else UNKNOWN)


def _ratio(left: Bounds, right: Bounds) -> Bounds | None:
    """Right over left; None where the left may be 0 or the ratio has no limit."""
    ratio = right * left.inverse() if left.low > 0 else None
    return ratio if ratio is not None and ratio.is_known else None
