"""From paired seats to pairs: place, means, changes, reasons, verdict; and to paired hosts."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.changes import changes_of, how_many
from archdiff.alignment.explain import Explainer, Reasons
from archdiff.alignment.hosts import as_pairs, host_groups, host_pairs, overlap_of
from archdiff.alignment.model import Agreement, Alignment, Change, Pair, Reason, RunnerUp
from archdiff.alignment.rounds import UNIT, confidence_alone, confidence_of
from archdiff.alignment.seats import carriers_of
from archdiff.alignment.silence import Counts, Silences
from archdiff.alignment.verdict import Doubt, means_of, verdict_alone, verdict_of, weakest
from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment.aligner import Run
    from archdiff.alignment.model import Seat

_FIRM = 2  # shared seats that make two hosts surely correspond
_NOTHING_NEAR = 6 * UNIT  # the margin where nothing at all comes near: 6 nats
SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN


def judged(run: Run) -> Alignment:
    """The alignment that a finished run stands for."""
    seats = run.tables.seats
    mates = [(k, int(run.found.i[k]), int(run.found.j[k])) for k in run.chosen.tolist()]
    empty = run.tables.empty
    overlap = overlap_of((seats[i], seats[j]) for _, i, j in mates if not (empty[i] or empty[j]))
    sites = overlap_of((seats[i], seats[j]) for _, i, j in mates if empty[i] or empty[j])
    ids = ((a, b) for _, i, j in mates for a in seats[i].ids for b in seats[j].ids)
    pieces = {(a, b) for a, b in ids if a in run.hosts[0] and b in run.hosts[1]}
    host_of = host_pairs(*run.hosts, overlap, sites, pieces, run.notes.same_board, run.host_keys)
    judge = Judge(run, host_of, overlap)
    pairs = [*judge.complete(), *judge.alone()]
    left, right = run.tables.records
    return Alignment(
        tuple(_ordered(run, pairs)),
        as_pairs((left, run.hosts[0]), (right, run.hosts[1]), host_of, overlap),
        host_groups(*run.hosts, overlap, run.notes.same_board),
        host_of,
    )


class Judge:
    """Judges the pairs of one run."""

    def __init__(self, run: Run, host_of: Mapping[str, str], overlap: Mapping[tuple[str, str], int]) -> None:
        self.run, self.host_of = run, host_of
        self.left_of = {right: left for left, right in host_of.items()}
        self.overlap = overlap
        self.said_so = {pair for match in run.notes.same_board for pair in product(match.left, match.right)}
        seats, n = run.tables.seats, run.tables.n_left
        left, right = run.tables.records
        self.carriers = (carriers_of(left), carriers_of(right))
        self.counts = (Counts(left), Counts(right))
        self.silences = (
            Silences(left, seats[:n], run.notes.ignore_left),
            Silences(right, seats[n:], run.notes.ignore_right),
        )
        # Lists of Python's own: one by one they are read several times as fast as arrays.
        self.unknown, self.embedded = run.tables.unknown.tolist(), run.tables.embedded.tolist()
        self.empty = run.tables.empty.tolist()

    def complete(self) -> list[Pair]:
        """The pairs that have a seat on either side."""
        run = self.run
        picked = run.found.picked(run.chosen, run.engine.links)
        explainer = Explainer(run, picked)
        score = run.score[run.chosen]
        runners = _runners_up(run)
        tied = run.engine.is_forced(picked)
        best_rival = np.array([max(0, runner[1] if runner else 0) for runner in runners], dtype=np.int64)
        confidence = np.where(tied, 1.0, confidence_of((score - best_rival) / UNIT))
        return [
            self._pair(k, explainer, *rest, tied=fixed)
            for k, (*rest, fixed) in enumerate(
                zip(score.tolist(), confidence.tolist(), runners, tied.tolist(), strict=True)
            )
        ]

    def _pair(
        self, k: int, explainer: Explainer, score: int, confidence: float, runner: tuple[int, int] | None, *, tied: bool
    ) -> Pair:
        run = self.run
        i, j = explainer.pairs[k]
        left, right = run.tables.seats[i], run.tables.seats[j]
        means, place = self._means(i, j), self.place(left, right)
        unknown, empty = self.unknown[i] or self.unknown[j], self.empty[i] != self.empty[j]
        other = left.function != right.function
        tie = [Reason(_tied_because(run, left), 0.0)] if tied else []
        reasons = Reasons(explainer, k, tie, self._remarks(i, j))
        function, subsystem = self._named(i, j)
        pair = Pair(
            left, right, function, subsystem,
            verdict_of(means, place, Doubt(unknown, other)), means, place,
            score / UNIT, confidence, reasons, self._runner_up(score, runner),
            tuple(self._changes(i, j)), None, _sure(left, right), tied,
        )  # fmt: skip
        return self._beside_empty_site(pair, unknown=unknown) if empty else pair

    def _beside_empty_site(self, pair: Pair, *, unknown: bool) -> Pair:
        """One side has the part, the other only a site that was left empty: as if that side had nothing."""
        on_left = pair.left is not None and pair.left.first.populated
        seat, site = (pair.left, pair.right) if on_left else (pair.right, pair.left)
        if seat is None or site is None:
            return pair
        mine, theirs = self.silences if on_left else self.silences[::-1]
        silent = theirs.of(seat, mine)
        verdict = verdict_alone(silent.silence, on_left=on_left, purpose_unknown=unknown)
        return replace(
            pair,
            left=seat if on_left else None,
            right=None if on_left else seat,
            verdict=verdict,
            means=UNKNOWN,
            place=UNKNOWN,
            changes=(),
            silent=silent,
            site=site,
        )

    def _named(self, i: int, j: int) -> tuple[str, str]:
        """The function of a pair, of two names the first by the alphabet, and its subsystem."""
        tables = self.run.tables
        function = min(tables.seats[i].function, tables.seats[j].function)
        if self.unknown[i] != self.unknown[j]:
            function = tables.seats[j if self.unknown[i] else i].function
        left, right = tables.records
        return function, left.subsystem(function) or right.subsystem(function)

    def _means(self, i: int, j: int) -> Agreement:
        tables = self.run.tables
        left, right = tables.seats[i], tables.seats[j]
        if self.embedded[i] or self.embedded[j]:
            return SAME if self.embedded[i] and self.embedded[j] else DIFFERENT
        return means_of(left.means, right.means)

    def place(self, left: Seat, right: Seat) -> Agreement:
        """Whether two seats lie on hosts that correspond; what joins hosts is asked about all of them."""
        if not left.hosts and not right.hosts:
            return self._as_hosts(left, right)
        here, there = self._ends(left, 0), self._ends(right, 1)
        if here is None or there is None:
            return UNKNOWN
        if {self.host_of.get(host, "") for host in here} == there:
            return SAME
        return DIFFERENT if self._surely_apart(here, there) else UNKNOWN

    def _surely_apart(self, left: set[str], right: set[str]) -> bool:
        """Whether hosts that do not correspond are known to be others.

        A board is no enclosure piece. Else one of them must correspond to a third host, and by more than one seat:
        what goes together by a single seat may go with another one as soon as more is known.
        """
        if not self._kinds(left, 0) & self._kinds(right, 1):
            return True
        from_left = any((m := self.host_of.get(h)) and m not in right and self.firm(h, m) for h in left)
        from_right = any((m := self.left_of.get(h)) and m not in left and self.firm(m, h) for h in right)
        return from_left or from_right

    def firm(self, left: str, right: str) -> bool:
        """Whether two hosts that go together are held by enough: two shared seats, or the analyst's word."""
        return self.overlap[left, right] >= _FIRM or (left, right) in self.said_so

    def _kinds(self, hosts: set[str], side: int) -> set[str]:
        return {self.run.hosts[side][host].section for host in hosts}

    def _as_hosts(self, left: Seat, right: Seat) -> Agreement:
        """Of pieces that carry others and sit in nothing themselves: whether they correspond."""
        carry = left.first.id in self.carriers[0] and right.first.id in self.carriers[1]
        return SAME if carry and self.host_of.get(left.first.id) == right.first.id else UNKNOWN

    def _ends(self, seat: Seat, side: int) -> set[str] | None:
        """The hosts of a seat; None where not all of them are known."""
        hosts, record = self.run.hosts[side], self.run.tables.records[side]
        if not seat.hosts or any(host not in hosts for host in seat.hosts):
            return None
        for end in seat.first.texts("between"):
            element = record.elements.get(end)
            if element is None or not (end in hosts or element.hosts):
                return None
        return set(seat.hosts)

    def _remarks(self, i: int, j: int) -> list[Reason]:
        """What is worth saying of a pair beside what it was scored by."""
        tables = self.run.tables
        found: list[Reason] = []
        for s in (i, j):
            if self.embedded[s]:
                record, seat = tables.record_of(s), tables.seats[s]
                carrier = record.elements.get(seat.embedded_in)
                found.append(Reason(f"embedded in {carrier.label}" if carrier else "embedded in another part", 0.0))
        if self.empty[i] != self.empty[j]:
            found.append(Reason("site left empty", 0.0))
        return found

    def _changes(self, i: int, j: int) -> list[Change]:
        tables = self.run.tables
        left, right = tables.seats[i], tables.seats[j]
        found: list[Change] = []
        if left.function != right.function:
            found.append(Change("function", left.function, right.function))
        if self.embedded[i] or self.embedded[j]:
            return found
        # Two counts that are equal cannot differ, however far either is to be trusted; and of several seats of one
        # kind none has a count that could be held against the other product's.
        whole_kind = all(
            side.alike(seat) == seat.count for side, seat in zip(self.silences, (left, right), strict=True)
        )
        if left.count != right.count and whole_kind:
            many = how_many(self.counts[0].of(left), self.counts[1].of(right))
            found += [many] if many is not None else []
        return found + changes_of(left.members, right.members)

    def _runner_up(self, score: int, runner: tuple[int, int] | None) -> RunnerUp | None:
        if runner is None:
            return None
        k, value = runner
        seats, found = self.run.tables.seats, self.run.found
        left, right = seats[int(found.i[k])].first.id, seats[int(found.j[k])].first.id
        return RunnerUp(left, right, value / UNIT, (score - value) / UNIT)

    def alone(self) -> list[Pair]:
        """The seats without a partner, each with what the other record's silence means."""
        tables = self.run.tables
        best = np.full(tables.size, -_NOTHING_NEAR, dtype=np.int64)
        np.maximum.at(best, self.run.found.i, self.run.score)
        np.maximum.at(best, self.run.found.j, self.run.score)
        lonely = np.flatnonzero(self.run.matching.mate < 0).tolist()
        sure = confidence_alone(-best[lonely] / UNIT).tolist()
        return [self._alone(s, confidence) for s, confidence in zip(lonely, sure, strict=True)]

    def _alone(self, s: int, confidence: float) -> Pair:
        tables = self.run.tables
        seat, on_left = tables.seats[s], s < tables.n_left
        record = tables.record_of(s)
        mine, theirs = self.silences if on_left else self.silences[::-1]
        silent = theirs.of(seat, mine)
        verdict = verdict_alone(silent.silence, on_left=on_left, purpose_unknown=bool(tables.unknown[s]))
        reasons = (Reason("site left empty", 0.0),) if tables.empty[s] else ()
        return Pair(
            seat if on_left else None, None if on_left else seat, seat.function, record.subsystem(seat.function),
            verdict, UNKNOWN, UNKNOWN, 0.0, confidence, reasons, None, (), silent,
            weakest(_sure(seat), silent.sure),
        )  # fmt: skip


def _tied_because(run: Run, left: Seat) -> str:
    for match in (*run.notes.tie, *run.notes.same_board):
        if set(match.left) & set(left.ids):
            return f"tied by the analyst: {match.because}" if match.because else "tied by the analyst"
    return "tied by the analyst"


def _sure(*seats: Seat) -> str:
    return weakest(*(member.sure for seat in seats for member in seat.members))


def _runners_up(run: Run) -> list[tuple[int, int] | None]:
    """For each chosen candidate the best other candidate of either seat and its score."""
    found = run.found
    others = np.ones(len(found.i), dtype=bool)
    others[run.chosen] = False
    others = np.flatnonzero(others)
    others = others[np.lexsort((found.tie[others], run.score[others]))]
    rank = np.full(run.tables.size, -1, dtype=np.int64)
    for ends in (found.i, found.j):
        np.maximum.at(rank, ends[others], np.arange(len(others)))
    top = np.maximum(rank[found.i[run.chosen]], rank[found.j[run.chosen]]).tolist()
    names, values = others.tolist(), run.score[others].tolist()
    return [(names[k], values[k]) if k >= 0 else None for k in top]


def _ordered(run: Run, pairs: list[Pair]) -> list[Pair]:
    """In the order of the vocabulary, complete pairs first; the same with the sides exchanged."""
    vocabulary = load_vocabulary()
    subsystems = {name: index for index, name in enumerate(vocabulary.subsystems)}
    functions = {name: index for index, name in enumerate(vocabulary.functions)}
    number = {id(seat): index for index, seat in enumerate(run.tables.seats)}
    keys, ranked = run.keys.tolist(), run.ranked.tolist()

    def place(pair: Pair) -> tuple[object, ...]:
        own = [number[id(seat)] for seat in pair.seats]
        return (
            subsystems.get(pair.subsystem, len(subsystems)),
            functions.get(pair.function, len(functions)),
            pair.function,
            -len(own),
            sorted(keys[s] for s in own),
            sorted(ranked[s] for s in own),
        )

    return sorted(pairs, key=place)
