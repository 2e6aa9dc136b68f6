"""Rounds: pair greedily, learn from the pairs what hosts and neighbours say, pair again; the best set at the end.

Scores are kept as whole numbers of a millionth of a nat, ties are broken by numbers that are the same with the
sides exchanged, so the mirrored question gets the mirrored answer.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.assignment import best_assignment
from archdiff.alignment.context import Matching
from archdiff.alignment.likeness import ALL_SAME
from archdiff.alignment.links import TIE_BITS, tie_break
from archdiff.alignment.tables import distinct

if TYPE_CHECKING:
    from archdiff.alignment.context import Compared, HostFit, LinkFit
    from archdiff.alignment.likeness import Likeness
    from archdiff.alignment.links import Keys
    from archdiff.alignment.tables import Floats, Ints, Tables

UNIT = 1_000_000
_ROUNDS = 4
_STILL = 0.002  # share of seats that may change partners in the last round
# The logistic that turns the margin of a finished pair into a probability, fitted by benchmarks/calibrate.py on the
# tuning seeds, half of them hard. In the rounds the plain logistic serves: there it only weighs what to trust.
SLOPE, OFFSET = 0.34, 1.32
# The same for a seat that stays alone: its margin is how far its best candidate stays below 0.
ALONE_SLOPE, ALONE_OFFSET = 0.38, 1.60


@dataclass(slots=True)
class Candidates:
    """Pairs that may be made: left and right index, what never changes of their score, and their tie-breaker."""

    i: Ints
    j: Ints
    own: Floats
    last: Floats  # the bonus of the last ones of a function
    tie: Ints
    links: tuple[Compared, Compared]

    def picked(self, at: Ints, fit: LinkFit) -> Candidates:
        """Only the candidates at these places."""
        i, j = self.i[at], self.j[at]
        return Candidates(i, j, self.own[at], self.last[at], self.tie[at], fit.compared(i, j))


@dataclass(slots=True)
class Engine:
    """All that a round needs."""

    tables: Tables
    likeness: Likeness
    hosts: HostFit
    links: LinkFit
    keys: Keys
    ranked: Keys
    forced: dict[int, int]  # left index to right index
    never: set[tuple[int, int]]

    def candidates(self, i: Ints, j: Ints) -> Candidates:
        """The pairs that the notes allow, the tied ones among them, each once."""
        tied = np.array(list(self.forced.items()), dtype=np.int64).reshape(-1, 2)
        code = distinct(np.concatenate([i * self.tables.size + j, tied[:, 0] * self.tables.size + tied[:, 1]]))
        i, j = np.divmod(code, self.tables.size)
        keep = np.ones(len(i), dtype=bool)
        if self.forced or self.never:
            back = {right: left for left, right in self.forced.items()}
            pairs = zip(i.tolist(), j.tolist(), strict=True)
            keep = np.array([self._allowed(a, b, back) for a, b in pairs], dtype=bool)
        i, j = i[keep], j[keep]
        own = self.likeness.total(i, j) + self.all_same(i, j)
        return Candidates(i, j, own, np.zeros(len(i)), tie_break(self.ranked, i, j), self.links.compared(i, j))

    def _allowed(self, a: int, b: int, back: dict[int, int]) -> bool:
        return self.forced.get(a, b) == b and back.get(b, a) == a and (a, b) not in self.never

    def all_same(self, i: Ints, j: Ints) -> Floats:
        """A small bonus where nothing that is recorded tells the two apart, so that like things are never crossed."""
        return np.where(self.keys[i] == self.keys[j], ALL_SAME, 0.0)

    def score(self, found: Candidates, matching: Matching | None) -> Ints:
        """The score of all candidates in millionths of a nat, given what is paired."""
        if matching is None:
            matching = Matching(np.full(self.tables.size, -1, dtype=np.int64), np.zeros(self.tables.size))
        self.hosts.learn(matching)
        context = self.hosts.total(found.i, found.j) + self.links.total(found.links, matching)
        total = found.own + found.last + context
        return np.round(total * UNIT).astype(np.int64)

    def settle(self, found: Candidates, matching: Matching | None = None) -> Matching:
        """Rounds until hardly anything changes, at most _ROUNDS."""
        for _ in range(_ROUNDS):
            score = self.score(found, matching)
            chosen = self.greedy(found, score)
            before = None if matching is None else matching.mate
            matching = self.matching(found, score, chosen)
            if before is not None and np.count_nonzero(before != matching.mate) <= _STILL * len(before):
                break
        assert matching is not None  # noqa: S101 - _ROUNDS is above 0
        return matching

    def greedy(self, found: Candidates, score: Ints) -> Ints:
        """Indices of the candidates taken, the best first, as long as both seats are free."""
        good = np.flatnonzero((score > 0) | self.is_forced(found))
        good = good[np.lexsort((found.tie[good], -score[good]))]
        taken: set[int] = set()
        chosen = []
        for k, a, b in zip(good.tolist(), found.i[good].tolist(), found.j[good].tolist(), strict=True):
            if a not in taken and b not in taken:
                taken.update((a, b))
                chosen.append(k)
        return np.array(chosen, dtype=np.int64)

    def is_forced(self, found: Candidates) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        """Which candidates are tied by the notes."""
        if not self.forced:
            return np.zeros(len(found.i), dtype=bool)
        pairs = zip(found.i.tolist(), found.j.tolist(), strict=True)
        return np.array([self.forced.get(a) == b for a, b in pairs], dtype=bool)

    def best(self, found: Candidates, score: Ints) -> Ints:
        """Indices of the candidates of the best assignment."""
        forced = self.is_forced(found)
        good = np.flatnonzero((score > 0) | forced)
        lift = int(np.abs(score).max(initial=0)) + 1
        table: dict[int, dict[int, int]] = defaultdict(dict)
        number: dict[tuple[int, int], int] = {}
        rows = zip(good.tolist(), found.i[good].tolist(), found.j[good].tolist(), score[good].tolist(),
                   found.tie[good].tolist(), forced[good].tolist(), strict=True)  # fmt: skip
        for k, a, b, value, tie, fixed in rows:
            table[a][b] = ((lift if fixed else value) << TIE_BITS) + tie
            number[a, b] = k
        return np.array([number[pair] for pair in best_assignment(table).items()], dtype=np.int64)

    def matching(self, found: Candidates, score: Ints, chosen: Ints) -> Matching:
        """The chosen candidates as partners, with the confidence of each."""
        mate = np.full(self.tables.size, -1, dtype=np.int64)
        confidence = np.zeros(self.tables.size)
        i, j = found.i[chosen], found.j[chosen]
        mate[i], mate[j] = j, i
        sure = logistic((score[chosen] - np.maximum(rivals(found, score, chosen, self.tables.size), 0)) / UNIT)
        sure = np.where(self.is_forced(found)[chosen], 1.0, sure)
        confidence[i] = confidence[j] = sure
        return Matching(mate, confidence)


def rivals(found: Candidates, score: Ints, chosen: Ints, size: int) -> Ints:
    """For each chosen candidate the best score that either of its seats has with another; very low for none."""
    others = np.ones(len(score), dtype=bool)
    others[chosen] = False
    best = np.full(size, -(10**12), dtype=np.int64)
    np.maximum.at(best, found.i[others], score[others])
    np.maximum.at(best, found.j[others], score[others])
    return np.maximum(best[found.i[chosen]], best[found.j[chosen]])


def logistic(margin: Floats) -> Floats:
    """1 / (1 + exp(-margin))."""
    return np.asarray(1 / (1 + np.exp(-np.clip(margin, -40, 40))), dtype=np.float64)


def confidence_of(margin: Floats) -> Floats:
    """The probability that a finished pair is right, from its margin in nats."""
    return logistic(SLOPE * margin + OFFSET)


def confidence_alone(margin: Floats) -> Floats:
    """The probability that a seat rightly has no partner, from how far its best candidate stays below 0, in nats."""
    return logistic(ALONE_SLOPE * margin + ALONE_OFFSET)
