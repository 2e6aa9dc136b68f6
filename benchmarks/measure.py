"""How good a pairing is against the truth, twins forgiven."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.alignment import Alignment
    from benchmarks.products import ProductPair

Group = tuple[tuple[str, ...], tuple[str, ...]]  # ids of the left and of the right that were paired


@dataclass(frozen=True)
class Score:
    """Shares from 0 to 1."""

    precision: float
    recall: float
    f1: float


def groups_of(alignment: Alignment) -> list[Group]:
    """What an alignment pairs."""
    return [pair.ids for pair in alignment.pairs if all(pair.ids)]


def score_of(pairs: ProductPair, groups: Iterable[Group]) -> Score:
    """Precision, recall and their harmonic mean over elements.

    A pair is right when both are the same element of the product, or twins of it. Of k and m members that
    were paired as one, the lesser number counts as pairs.
    """
    left = {truth.left: truth.twin for truth in pairs.truths if truth.left}
    right = {truth.right: truth.twin for truth in pairs.truths if truth.right}
    made = good = 0
    for a, b in groups:
        made += min(len(a), len(b))
        here, there = Counter(left[name] for name in a), Counter(right[name] for name in b)
        good += (here & there).total()
    here, there = Counter(left.values()), Counter(right.values())
    true = (here & there).total()
    precision, recall = good / made if made else 0.0, good / true if true else 0.0
    both = precision + recall
    return Score(precision, recall, 2 * precision * recall / both if both else 0.0)


def kinds_of_pairs(pairs: ProductPair, groups: Iterable[Group]) -> Counter[str]:
    """How many pairs are right, and of the wrong ones how many are of which kind.

    'both new': neither has anything on the other side, one was dropped and the other put in; 'one new': only one
    of them has; 'crossed': both have, and neither was found by its own.
    """
    left = {truth.left: truth.twin for truth in pairs.truths if truth.left}
    right = {truth.right: truth.twin for truth in pairs.truths if truth.right}
    here, there = set(left.values()), set(right.values())
    found: Counter[str] = Counter()
    for a, b in groups:
        for one, other in zip(a, b, strict=False):
            known = (left[one] in there) + (right[other] in here)
            found["right" if left[one] == right[other] else ("both new", "one new", "crossed")[known]] += 1
    return found


def moves_found(pairs: ProductPair, alignment: Alignment) -> float:
    """The share of the moved elements that are paired rightly and said to be placed elsewhere."""
    said = {
        (a, b)
        for pair in alignment.pairs
        if pair.left and pair.right and pair.place is Agreement.DIFFERENT
        for a in pair.left.ids
        for b in pair.right.ids
    }
    moved = [truth for truth in pairs.truths if truth.moved]
    return sum((truth.left, truth.right) in said for truth in moved) / len(moved) if moved else 1.0


def judged_pairs(pairs: ProductPair, alignment: Alignment) -> list[tuple[float, bool]]:
    """The confidence of every pair, and whether it is right."""
    left = {truth.left: truth.twin for truth in pairs.truths if truth.left}
    right = {truth.right: truth.twin for truth in pairs.truths if truth.right}
    return [
        (pair.confidence, bool({left[a] for a in pair.left.ids} & {right[b] for b in pair.right.ids}))
        for pair in alignment.pairs
        if pair.left and pair.right
    ]


def judged_alone(pairs: ProductPair, alignment: Alignment) -> list[tuple[float, bool]]:
    """The confidence of every seat that was left alone, and whether the other side has indeed nothing like it."""
    twins = [{t.left: t.twin for t in pairs.truths if t.left}, {t.right: t.twin for t in pairs.truths if t.right}]
    found = []
    for pair in alignment.pairs:
        if not all(pair.ids):
            side = 0 if pair.left else 1
            there = set(twins[1 - side].values())
            found.append((pair.confidence, all(twins[side][name] not in there for name in pair.ids[side])))
    return found
