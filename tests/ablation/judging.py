"""Every statement of a comparison of poorer records, held against the whole records."""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from archdiff.alignment import Agreement, Verdict
from archdiff.page.diagrams.scene import State
from archdiff.page.diagrams.scene_from_comparison import scene_of
from archdiff.paths import Finding
from archdiff.quantities import Bounds
from tests.ablation.truth import EMBEDDED, Truth

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment import Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure
    from archdiff.headlines import Headline
    from archdiff.paths import Column, PathPair, Stage

ONLY = (Verdict.ONLY_LEFT, Verdict.ONLY_RIGHT)
SEPARATE = (Verdict.SEPARATE_LEFT, Verdict.SEPARATE_RIGHT)
DEFINITE = ("left higher", "right higher", "same")
NEAR = 1e-9
# These tell of the pairing itself, which poorer records may well change.
_OF_PAIRING = ("paired-share",)


@dataclass(slots=True)
class Judgement:
    """How many statements of each kind were checked, and those that the whole records contradict."""

    checked: Counter[str] = field(default_factory=Counter)
    wrong: list[tuple[str, str]] = field(default_factory=list)

    def hold(self, kind: str, *, true: bool, said: str) -> None:
        """Count one statement, and keep it where it is not true."""
        self.checked[kind] += 1
        if not true:
            self.wrong.append((kind, said))


def judge(cut: Comparison, whole: Comparison) -> Judgement:
    """All that is said of `cut`, held against `whole`."""
    return _Court(cut, whole).sit()


def narrower(poorer: Comparison, richer: Comparison, found: Judgement) -> None:
    """Hold that the bounds of the richer records lie within those of the poorer ones."""
    for less, more in zip(poorer.figures, richer.figures, strict=True):
        for side in ("left", "right"):
            _hold_measure(found, "bounds widen with knowledge", less, side, getattr(more, side))


class _Court:
    def __init__(self, cut: Comparison, whole: Comparison) -> None:
        self.cut, self.whole, self.found = cut, whole, Judgement()
        self.truths = {"left": Truth(whole.left), "right": Truth(whole.right)}
        self.same_pairs = _pairing(cut) == _pairing(whole) and cut.alignment.host_of == whole.alignment.host_of
        # Pieces of the enclosure that sit in others by the whole records, and by the poorer ones in nothing.
        sides = ((pair.left, pair.right, whole) for pair in cut.pairs if pair.is_complete)
        self.placeless = any(
            a is not None and b is not None and not a.hosts and not b.hosts
            and bool(w.left.elements[a.first.id].hosts or w.right.elements[b.first.id].hosts)
            for a, b, w in sides
        )  # fmt: skip

    def sit(self) -> Judgement:
        for pair in self.cut.pairs:
            if pair.is_complete:
                self.complete(pair)
            elif pair.verdict is not Verdict.UNKNOWN:
                kind = "only in" if pair.verdict in ONLY else "separate part only in"
                self.found.hold(kind, true=not (why := self.alone(pair)), said=f"{pair.verdict}: {_told(pair)}{why}")
                if pair.verdict in SEPARATE:
                    inside = [seat.embedded_in for seat in pair.seats if seat.embedded_in]
                    said = f"{pair.verdict}: {_told(pair)}, inside {inside}"
                    self.found.hold("a separate part is one", true=not inside, said=said)
        for mine, theirs in zip(self.cut.figures, self.whole.figures, strict=True):
            self.figure(mine, theirs)
        for way in self.cut.paths:
            self.path(way)
        for headline in self.cut.headlines:
            self.headline(headline)
        self.scene()
        return self.found

    # one side alone

    def alone(self, pair: Pair) -> str:
        """What the whole records say against such a verdict; '' for nothing."""
        side, seat = ("left", pair.left) if pair.left else ("right", pair.right)
        assert seat is not None
        other = "right" if side == "left" else "left"
        mine, theirs, function = self.truths[side], self.truths[other], seat.function
        if not seat.first.populated:
            there = theirs.sites[function] + theirs.own[function]
            return f"; {other} has {there}" if there and not _further(pair) else ""
        if _further(pair):
            return self.further(pair, seat, mine, theirs)
        there = theirs.at_all[function] if pair.verdict in ONLY else theirs.own[function]
        return f"; {other} has {there}" if there else ""

    def further(self, pair: Pair, seat: Seat, mine: Truth, theirs: Truth) -> str:
        """'One more than the other': of this function, or of this function by these means, there must be more."""
        assert pair.silent is not None
        function = seat.function
        means = mine.means(seat.first.id, function) if mine.knows(seat.first.id, function) else seat.means
        held = theirs.at_all if pair.verdict in ONLY else theirs.own
        own = mine.at_all if pair.verdict in ONLY else mine.own
        here, there = mine.by_means[function, means], theirs.by_means[function, means]
        if here > there or own[function] > held[function]:
            return ""
        return f"; one more, yet whole records have {own[function]} against {held[function]} ({means}: {here}/{there})"

    # both sides

    def complete(self, pair: Pair) -> None:
        assert pair.left is not None
        assert pair.right is not None
        seats = {"left": pair.left, "right": pair.right}
        if not all(self.truths[s].knows(name, seat.function) for s, seat in seats.items() for name in seat.ids):
            return
        if pair.means is not Agreement.UNKNOWN:
            a, b = ({self.truths[s].means(n, seat.function) for n in seat.ids} for s, seat in seats.items())
            same = a == b if pair.means is Agreement.SAME else a != b
            unsaid = a == {""} or b == {""}
            by = "" if pair.left.means or pair.right.means else ", though neither record states any"
            said = f"means {pair.means}{by}: {_told(pair)}; {sorted(a)} and {sorted(b)}"
            self.found.hold("means agree or differ", true=same or (unsaid and a == b), said=said)
        self.place(pair)
        for change in pair.changes:
            if change.what == "how many":
                self.how_many(pair)
            elif change.what != "function" and EMBEDDED not in (pair.left.embedded_in, pair.right.embedded_in):
                facts = [self.truths[s].fact(seat.first.id, change.what) for s, seat in seats.items()]
                true = facts[0] != facts[1] if None not in facts else " " in change.what
                self.found.hold("facts differ", true=true, said=f"{change}: {_told(pair)}")

    def how_many(self, pair: Pair) -> None:
        """Numbers that differ must do so over all that do the same by the same means on the same hosts."""
        counts, entries = [], []
        for side, seat in (("left", pair.left), ("right", pair.right)):
            assert seat is not None
            alike = self.truths[side].like(seat.first.id, seat.function)
            counts.append(sum(element.count for element in alike))
            entries.append([element.id for element in alike])
        known = next(c for c in pair.changes if c.what == "how many")
        said = (
            f"how many {known.left} / {known.right}: {_told(pair)}; in all {counts} by the same means there: {entries}"
        )
        self.found.hold("counts differ", true=counts[0] != counts[1], said=said)

    def place(self, pair: Pair) -> None:
        assert pair.left is not None
        assert pair.right is not None
        a = self.whole.left.elements[pair.left.first.id].hosts
        b = self.whole.right.elements[pair.right.first.id].hosts
        if pair.place is Agreement.UNKNOWN or len(a) != 1 or len(b) != 1 or "between" in pair.left.first.facts:
            return
        now, then = self.cut.alignment.host_of, self.whole.alignment.host_of
        back, before = ({r: name for name, r in found.items()} for found in (now, then))
        by = "" if pair.left.hosts or pair.right.hosts else ", though neither record states any"
        said = f"place {pair.place}{by}: {_told(pair)}; {a} and {b}; now {now}, whole {then}"
        truly_same = then.get(a[0]) == b[0]
        stands = now.get(a[0]) == then.get(a[0]) and back.get(b[0]) == before.get(b[0])
        kind = "place same or different" if stands else "place, hosts paired otherwise (not held)"
        self.found.hold(kind, true=not stands or (pair.place is Agreement.SAME) == truly_same, said=said)
        if not stands:
            agrees = (pair.place is Agreement.SAME) == truly_same
            self.found.checked["place, hosts paired otherwise (not held), as in the whole"] += agrees

    # paths, stage by stage

    def path(self, pair: PathPair) -> None:
        other = "left" if pair.left is None else "right"
        if not pair.is_complete and pair.silent is not None and pair.silent.silence.is_known:
            there = self.truths[other].of_kind(pair.kind)
            said = f"{pair.paths[0].id}: {pair.silent.further} of {pair.kind} on {other}; whole has {there}"
            self.found.hold("paths only in", true=there == pair.silent.further, said=said)
        if pair.left is None or pair.right is None:
            return
        ids = {"left": pair.left.id, "right": pair.right.id}
        places = {s: _places(self.truths[s].stages(ids[s]), [getattr(c, s) for c in pair.columns]) for s in ids}
        for column in pair.columns:
            if column.left is not None and column.right is not None:
                self.beside(
                    column, {s: self.truths[s].stages(ids[s])[places[s][getattr(column, s).place]][1] for s in ids}
                )
            elif column.finding in (Finding.ONLY_LEFT, Finding.ONLY_RIGHT):
                self.only_stage(column, ids)

    def only_stage(self, column: Column, ids: dict[str, str]) -> None:
        """No stage there that is there for the same, or as many fewer as the words 'one more' say."""
        side, other, stage = ("left", "right", column.left) if column.left else ("right", "left", column.right)
        assert stage is not None
        assert column.silent is not None
        truth = self.truths[side]
        does = truth._stage_does(str(stage.facts["what"]))
        here, there = (sum(d == does for d, _ in self.truths[s].stages(ids[s])) for s in (side, other))
        true = there < here if column.silent.further else not there
        said = f"{column.finding}: {stage.label} ({does}) of {ids}; whole has {here} / {there} on {side} / {other}"
        self.found.hold("stages only in", true=true, said=said)

    def beside(self, column: Column, stages: dict[str, Mapping[str, Any]]) -> None:
        for question in column.questions:
            if question.name == "words" or question.agreement is Agreement.UNKNOWN:
                continue
            names = ("facing", "faces") if question.name == "facing" else (question.name,)
            a, b = (next((t for n in names if (t := self.truths[s].stage_fact(stages[s], n))), "") for s in stages)
            true = (a == b) == (question.agreement is Agreement.SAME)
            said = f"{question}: {column.left.label} / {column.right.label}; whole has {a!r} and {b!r}"  # type: ignore[union-attr]
            # Words that stand for a means have none of their own in the record.
            self.found.hold("stages agree or differ", true=true or not (a and b), said=said)
        for amount in column.amounts:
            if amount.differs:
                a, b = (self.truths[s].stage_fact(stages[s], amount.name) for s in stages)
                self.found.hold("stage numbers differ", true=a != b, said=f"{amount}: whole has {a} and {b}")

    # numbers

    def figure(self, mine: FigureResult, theirs: FigureResult) -> None:
        for side in ("left", "right"):
            _hold_measure(self.found, "figure bounds", mine, side, getattr(theirs, side))
        if mine.pair is not None and self.same_pairs and mine.figure.id not in _OF_PAIRING:
            kind = "partition figures, a piece without its place" if self.placeless else "partition figures, same pairs"
            _hold_measure(self.found, kind, mine, "pair", theirs.pair)
        if mine.left is not None and mine.outcome.value in DEFINITE:
            said = f"{mine.figure.id}: {mine.outcome}, whole records: {theirs.outcome}"
            self.found.hold("figure outcomes", true=mine.outcome is theirs.outcome, said=said)
        if (ratio := mine.ratio) is not None and (truth := theirs.ratio) is not None:
            self.found.hold("ratios", true=_within(truth, ratio), said=f"{mine.figure.id}: ratio {ratio} not {truth}")

    def headline(self, headline: Headline) -> None:
        pair = headline.pair
        if headline.figure:
            mine, theirs = self.cut.figure(headline.figure), self.whole.figure(headline.figure)
            true = mine.outcome is theirs.outcome and self.numbers(headline, theirs)
            self.found.hold("headlines", true=true, said=headline.text)
        elif pair is not None and not pair.is_complete:
            self.found.hold("headlines", true=not (why := self.alone(pair)), said=f"{headline.text}{why}")
        elif pair is not None:
            for side, seat in (("left", pair.left), ("right", pair.right)):
                assert seat is not None
                there = self.truths[side].by_means[seat.function, seat.means]
                exact = f"{seat.count} × {seat.means}" in headline.text and not seat.embedded_in  # noqa: RUF001
                listed = sum(
                    s.count
                    for p in self.cut.pairs
                    for s in [getattr(p, side)]
                    if s and (s.function, s.means) == (seat.function, seat.means)
                )
                # More that are listed stand in pairs of their own; only what was cut makes the sentence untrue.
                true = not (exact and there > listed)
                self.found.hold("headlines", true=true, said=f"{headline.text} ({side} has {there})")

    def numbers(self, headline: Headline, theirs: FigureResult) -> bool:
        """Whether the two numbers of a sentence leave the true ones open."""
        told = re.findall(r"(at least )?\b(\d+) (?:board|steps?)|in (at least )?(\d+)(?:\.|$)", headline.text)
        values = [(bool(a or c), int(b or d)) for a, b, c, d in told]
        for (least, value), measure in zip(values, (theirs.left, theirs.right), strict=True):
            assert measure is not None
            assert measure.bounds is not None
            if measure.bounds.low != value and not (least and measure.bounds.low > value):
                return False
        return True

    # the page's scene

    def scene(self) -> None:
        scene = scene_of(self.cut)
        for slot in scene.slots():
            for side, face in zip(("left", "right"), slot.faces, strict=True):
                title = face.title
                if face.state in (State.NOT_THERE, State.EMBEDDED) and title.startswith("no "):
                    self.ghost(side, title)
        for host in self.cut.alignment.hosts:
            if host.is_board and None in (host.left, host.right) and host.silent and host.silent.silence.is_known:
                side, own = ("right", self.whole.left) if host.right is None else ("left", self.whole.right)
                other = self.whole.right if side == "right" else self.whole.left
                paired = (
                    host.left in self.whole.alignment.host_of or host.right in self.whole.alignment.host_of.values()
                )
                said = f"no board here on {side} for {host.left or host.right}; whole {self.whole.alignment.host_of}"
                true = not paired or len(own.boards) > len(other.boards)
                self.found.hold("ghost boards", true=true, said=said)

    def ghost(self, side: str, title: str) -> None:
        truth, other = self.truths[side], self.truths["left" if side == "right" else "right"]
        if title.startswith("no further "):
            function = title.removeprefix("no further ")
            means = [m for f, m in other.by_means if f == function]
            more = other.at_all[function] + other.sites[function] > truth.at_all[function]
            true = more or any(other.by_means[function, m] > truth.by_means[function, m] for m in means)
        elif title.startswith("no part of its own for "):
            true = not truth.own[title.removeprefix("no part of its own for ")]
        else:
            true = not truth.at_all[title.removeprefix("no ")]
        function = title.rsplit("further " if "further" in title else "no ", 1)[-1]
        site = "; the other side has an empty site" if other.sites[function] else ""
        self.found.hold("ghost tiles", true=true, said=f"{title} on {side}{site}")


def _places(whole: list[tuple[str, Mapping[str, Any]]], stages: list[Stage | None]) -> dict[int, int]:
    """By the place of each stage that was left its index in the whole path: the cut one is part of that, in order."""
    found: dict[int, int] = {}
    index = 0
    for stage in stages:
        if stage is None:
            continue
        while not _is_of(stage, whole[index][1]):
            index += 1
        found[stage.place], index = index, index + 1
    return found


def _is_of(stage: Stage, whole: Mapping[str, Any]) -> bool:
    return all(str(whole.get(name)) == str(value) for name, value in stage.facts.items())


def _hold_measure(found: Judgement, kind: str, mine: FigureResult, side: str, truth: Measure | None) -> None:
    measure: Measure | None = getattr(mine, side)
    if measure is None or truth is None:
        return
    name = f"{mine.figure.id} {side}"
    if measure.bounds is not None and truth.bounds is not None:
        true = _within(truth.bounds, measure.bounds)
        found.hold(kind, true=true, said=f"{name}: {measure.bounds} leaves out {truth.bounds}")
    elif measure.bounds is not None and not math.isinf(measure.bounds.high):
        found.hold(kind, true=False, said=f"{name}: {measure.bounds}, nothing where more is known: {truth.how}")
    for part in measure.parts.keys() & truth.parts.keys() - {"not stated"}:
        rest = measure.parts.get("not stated")
        told = measure.parts[part] + Bounds(None, 0.0, rest.high) if rest else measure.parts[part]
        true = _within(truth.parts[part], told)
        said = f"{name}, {part}: {measure.parts[part]} leaves out {truth.parts[part]}"
        found.hold(f"{kind}, by part", true=true, said=said)


def _within(inner: Bounds, outer: Bounds) -> bool:
    slack = NEAR * max(1.0, *(abs(end) for end in (inner.low, inner.high) if math.isfinite(end)), 1.0)
    return outer.low <= inner.low + slack and outer.high >= inner.high - slack


def _pairing(comparison: Comparison) -> set[tuple[str, tuple[tuple[str, ...], tuple[str, ...]]]]:
    return {(pair.function, pair.ids) for pair in comparison.pairs if pair.is_complete}


def _further(pair: Pair) -> bool:
    return pair.silent is not None and bool(pair.silent.further)


def _told(pair: Pair) -> str:
    return f"{pair.function} {pair.ids[0]} / {pair.ids[1]}"
