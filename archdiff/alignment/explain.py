"""The reasons of pairs in plain words, each with its weight; together they are the score."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, overload

import numpy as np

from archdiff.alignment.changes import written
from archdiff.alignment.model import Reason
from archdiff.alignment.tables import jobs_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.alignment.aligner import Run
    from archdiff.alignment.rounds import Candidates
    from archdiff.alignment.tables import Floats

_NAMED_LINKS = 3
_SMALLEST = 0.005  # nats; what weighs less is not worth a line


class Reasons(Sequence[Reason]):
    """The reasons of one pair, put into words when they are first asked for: most are never read."""

    __slots__ = ("_explainer", "_first", "_last", "_made", "_place")

    def __init__(self, explainer: Explainer, place: int, first: list[Reason], last: list[Reason]) -> None:
        self._explainer, self._place = explainer, place
        self._first, self._last = first, last
        self._made: tuple[Reason, ...] | None = None

    def _all(self) -> tuple[Reason, ...]:
        if self._made is None:
            self._made = (*self._first, *self._explainer.reasons(self._place), *self._last)
        return self._made

    @overload
    def __getitem__(self, index: int) -> Reason: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[Reason, ...]: ...
    def __getitem__(self, index: int | slice) -> Reason | tuple[Reason, ...]:
        """As of a tuple."""
        return self._all()[index]

    def __len__(self) -> int:
        """How many there are."""
        return len(self._all())

    def __repr__(self) -> str:
        """As of a tuple."""
        return repr(self._all())

    def __reduce__(self) -> tuple[Any, ...]:
        """Written to a file as the plain tuple, without the run behind it."""
        return tuple, (self._all(),)


class Explainer:
    """Explains the chosen candidates of a run."""

    def __init__(self, run: Run, chosen: Candidates) -> None:
        self.run, self.chosen = run, chosen
        self.pairs = list(zip(chosen.i.tolist(), chosen.j.tolist(), strict=True))

    @cached_property
    def told(self) -> list[list[tuple[Callable[[int, float], str], float]]]:
        """For each pair what is worth a line: how to word it, and what it weighs."""
        engine, i, j = self.run.engine, self.chosen.i, self.chosen.j
        terms = engine.likeness.terms(i, j)
        host, links = engine.hosts.total(i, j), engine.links.total(self.chosen.links, self.run.matching)
        parts: list[tuple[Callable[[int, float], str], Floats]] = [
            (self._function, terms.function),
            (self._chance, terms.chance),
            (self._means, terms.means),
            (self._section, terms.section),
            *((partial(self._fact, name), weights) for name, weights in terms.facts),
            (lambda _k, _w: "one site is populated, the other left empty", terms.empty),
            (self._host, host),
            (self._links, links),
            (lambda _k, _w: "the same in every recorded fact and link", engine.all_same(i, j)),
            (lambda _k, _w: "the last ones of their function on either side", self.chosen.last),
        ]
        told: list[list[tuple[Callable[[int, float], str], float]]] = [[] for _ in i]
        for text, weights in parts:
            at = np.flatnonzero(np.abs(weights) > _SMALLEST)
            for k, weight in zip(at.tolist(), weights[at].tolist(), strict=True):
                told[k].append((text, weight))
        return told

    def reasons(self, k: int) -> list[Reason]:
        """The reasons of the k-th pair, the function first."""
        return [Reason(text(k, weight), weight) for text, weight in self.told[k]]

    def _function(self, k: int, _weight: float) -> str:
        tables = self.run.tables
        i, j = self.pairs[k]
        if tables.unknown[i] or tables.unknown[j]:
            return "the purpose of both is not known"
        one, two = tables.seats[i].function, tables.seats[j].function
        if one != two:
            return f"functions of one family: {one}, {two}"
        if self.run.engine.likeness.only_ones[tables.function[i]]:
            return "same function, and the only one on either side"
        return "same function"

    def _chance(self, k: int, _weight: float) -> str:
        i, j = self.pairs[k]
        counts = self.run.counts
        one, two = counts[0][self.run.tables.function[i]], counts[1][self.run.tables.function[j]]
        return f"one of {one} on the one side and of {two} on the other"

    def _means(self, k: int, _weight: float) -> str:
        i, j = self.pairs[k]
        a, b = self.run.tables.seats[i].means, self.run.tables.seats[j].means
        if self.run.tables.embedded[i] and self.run.tables.embedded[j]:
            return "embedded on both sides"
        return f"same means: {a}" if a == b else f"other means: {a}, {b}"

    def _section(self, k: int, _weight: float) -> str:
        a, b = (self.run.tables.seats[s].section.replace(".", " ") for s in self.pairs[k])
        return f"both are {a}" if a == b else f"one is among {a}, one among {b}"

    def _fact(self, name: str, k: int, weight: float) -> str:
        i, j = self.pairs[k]
        seats = self.run.tables.seats
        values = [seats[s].first.facts[name] for s in (i, j)]
        a, b = (
            jobs_of(value) if isinstance(value, tuple) else written(name, seats[s].members)
            for s, value in zip((i, j), values, strict=True)
        )
        word = name.replace("_", " ")
        if a == b:
            return f"same {word}: {a}"
        return f"{'like' if weight > 0 else 'other'} {word}: {a}, {b}"

    def _host(self, k: int, weight: float) -> str:
        i, j = self.pairs[k]
        a, b = (" and ".join(self.run.host_label(s, name) for name in self.run.tables.seats[s].hosts) for s in (i, j))
        if weight > 0:
            return f"what they sit on has paired things in common ({a}, {b})"
        return f"what they sit on speaks rather against it ({a}, {b})"

    def _links(self, k: int, weight: float) -> str:
        i, j = self.pairs[k]
        if weight <= 0:
            return "what they are joined to speaks rather against it"
        links, mate = self.run.links, self.run.matching.mate
        # Below 0 are targets that are no seat, and the partners of those that have none.
        theirs = {t for t in links.target[links.start[j] : links.start[j + 1]].tolist() if t >= 0}
        mine = [t for t in dict.fromkeys(links.target[links.start[i] : links.start[i + 1]].tolist()) if t >= 0]
        names = [self.run.tables.seats[t].function for t in mine if int(mate[t]) in theirs]
        if not names:
            return "joined to the same kinds of things"
        named = ", ".join(dict.fromkeys(names[:_NAMED_LINKS]))
        more = " and others" if len(names) > _NAMED_LINKS else ""
        return f"both joined to {named}{more}"
