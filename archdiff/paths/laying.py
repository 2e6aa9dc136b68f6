"""Two paths side by side: their stages as columns, in one order that is the same with the sides exchanged."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from archdiff.alignment.verdict import weakest
from archdiff.paths.columns import column_of
from archdiff.paths.model import Column, Finding
from archdiff.paths.points import ALONE
from archdiff.paths.sequence import best_alignment
from archdiff.paths.silence import Partner
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.paths.points import Points
    from archdiff.paths.sequence import Matches
    from archdiff.paths.stages import Stage
    from archdiff.record import Element, Record

_TIE_BITS, _SHIFT = 32, 48


@dataclass(frozen=True, slots=True, eq=False)
class Strip:
    """One side: the record, its path and the stages of it."""

    record: Record
    path: Element
    stages: Sequence[Stage]


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Two strips and what lies beside what, as indices from 0."""

    left: Strip
    right: Strip
    points: Points
    matches: Matches

    @property
    def gain(self) -> int:
        """The points that it is better than to leave every stage of both alone; never below 0."""
        return sum(self.worth(i, j) - 2 * ALONE for i, j in self.matches)

    def worth(self, i: int, j: int) -> int:
        """The points of a left and a right stage."""
        return self.points.of(self.left.stages[i], self.right.stages[j])

    def columns(self) -> tuple[Column, ...]:
        """All columns in order, each stage of either side once."""
        return tuple(self._columns())

    def _columns(self) -> Iterator[Column]:
        ends = [(-1, -1), *self.matches, (len(self.left.stages), len(self.right.stages))]
        gaps = self._gaps()
        for (i, j), (next_i, next_j) in pairwise(ends):
            if i >= 0:
                yield column_of(self.left.stages[i], self.right.stages[j], self.worth(i, j))
            lefts, rights = self.left.stages[i + 1 : next_i], self.right.stages[j + 1 : next_j]
            near = (self.left.stages[max(i, 0) : next_i + 1], self.right.stages[max(j, 0) : next_j + 1])
            there = [self._alone(stage, gaps[1], near[1], on_left=True) for stage in lefts]
            here = [self._alone(stage, gaps[0], near[0], on_left=False) for stage in rights]
            first = [stage.key for stage in lefts] <= [stage.key for stage in rights]
            yield from (*there, *here) if first else (*here, *there)

    def _gaps(self) -> tuple[Partner, Partner]:
        """The left and the right path as the one that shows nothing."""
        mates = [(self.left.stages[i], self.right.stages[j], self.worth(i, j)) for i, j in self.matches]
        lefts = {left.place: (right, worth) for left, right, worth in mates}
        rights = {right.place: (left, worth) for left, right, worth in mates}
        return (
            Partner(self.left.record, self.left.path, self.left.stages, lefts, self.points.turned()),
            Partner(self.right.record, self.right.path, self.right.stages, rights, self.points),
        )

    def _alone(self, stage: Stage, there: Partner, near: Sequence[Stage], *, on_left: bool) -> Column:
        left, right = (stage, None) if on_left else (None, stage)
        if (other := there.elsewhere(stage)) is not None:
            sure = weakest(stage.sure, other.sure)
            return Column(left, right, Finding.ELSEWHERE, elsewhere=other, sure=sure)
        silent, only = there.silent(stage, near), Finding.ONLY_LEFT if on_left else Finding.ONLY_RIGHT
        finding = only if silent.silence is Silence.NOT_THERE else Finding.UNKNOWN
        return Column(left, right, finding, silent=silent, sure=weakest(stage.sure, silent.sure))


def laid(left: Strip, right: Strip, points: Points) -> Laid:
    """The best way to lay two strips side by side; of equally good ones the same with the sides exchanged."""
    worth = [[(points.of(a, b) << _SHIFT) + tie_of(a.key, b.key) for b in right.stages] for a in left.stages]
    # Where two stages together are worth no more than both alone, they stay alone.
    alone = (ALONE << _SHIFT) + (1 << _TIE_BITS)
    return Laid(left, right, points, best_alignment(worth, len(right.stages), alone))


def tie_of(*keys: str) -> int:
    """A scattered number below 2^32 for a set of texts, blind to their order: for breaking ties without meaning."""
    text = "\n".join(sorted(keys)).encode("utf-8", "surrogatepass")
    return int.from_bytes(hashlib.blake2b(text, digest_size=_TIE_BITS // 8).digest(), "big")
