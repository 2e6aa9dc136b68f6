"""The reasons of pairs in plain words, each with its weight; together they are the score."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.changes import shown
from archdiff.alignment.model import Reason

if TYPE_CHECKING:
    from archdiff.alignment.aligner import Run
    from archdiff.alignment.likeness import Terms
    from archdiff.alignment.rounds import Candidates

_NAMED_LINKS = 3
_SMALLEST = 0.005  # nats; what weighs less is not worth a line


class Explainer:
    """Explains the chosen candidates of a run."""

    def __init__(self, run: Run, chosen: Candidates) -> None:
        engine = run.engine
        self.run, self.chosen = run, chosen
        i, j = chosen.i, chosen.j
        self.pairs = list(zip(i.tolist(), j.tolist(), strict=True))
        self.terms: Terms = engine.likeness.terms(i, j)
        self.same = engine.all_same(i, j)
        self.host = engine.hosts.total(i, j)
        self.links = engine.links.total(chosen.links, run.matching)
        self.facts = [(name, weights, np.abs(weights) > _SMALLEST) for name, weights in self.terms.facts]
        self.used: list[list[int]] = [[] for _ in i]
        for index, (_, _, told) in enumerate(self.facts):
            for k in np.flatnonzero(told).tolist():
                self.used[k].append(index)

    def reasons(self, k: int) -> tuple[Reason, ...]:
        """The reasons of the k-th pair, the function first."""
        found = [
            Reason(self._function(k), float(self.terms.function[k])),
            Reason(self._chance(k), float(self.terms.chance[k])),
            Reason(self._means(k), float(self.terms.means[k])),
            Reason(self._section(k), float(self.terms.section[k])),
            *(self._fact(k, index) for index in self.used[k]),
            Reason("one site is populated, the other left empty", float(self.terms.empty[k])),
            Reason(self._host(k), float(self.host[k])),
            Reason(self._links(k), float(self.links[k])),
            Reason("the same in every recorded fact and link", float(self.same[k])),
            Reason("the last ones of their function on either side", float(self.chosen.last[k])),
        ]
        return tuple(reason for reason in found if abs(reason.weight) > _SMALLEST)

    def _function(self, k: int) -> str:
        tables = self.run.tables
        i, j = self.pairs[k]
        if tables.unknown[i] or tables.unknown[j]:
            return "the purpose of both is not known"
        if tables.function[i] != tables.function[j]:
            return f"functions of one family: {tables.seats[i].function}, {tables.seats[j].function}"
        if self.run.engine.likeness.only_ones[tables.function[i]]:
            return "same function, and the only one on either side"
        return "same function"

    def _chance(self, k: int) -> str:
        i, j = self.pairs[k]
        counts = self.run.counts
        one, two = counts[0][self.run.tables.function[i]], counts[1][self.run.tables.function[j]]
        return f"one of {one} on the one side and of {two} on the other"

    def _means(self, k: int) -> str:
        i, j = self.pairs[k]
        a, b = self.run.tables.seats[i].means, self.run.tables.seats[j].means
        if self.run.tables.embedded[i] and self.run.tables.embedded[j]:
            return "embedded on both sides"
        return f"same means: {a}" if a == b else f"other means: {a}, {b}"

    def _section(self, k: int) -> str:
        a, b = (self.run.tables.seats[s].section.replace(".", " ") for s in self.pairs[k])
        return f"both are {a}" if a == b else f"one is among {a}, one among {b}"

    def _fact(self, k: int, index: int) -> Reason:
        name, weights, _ = self.facts[index]
        i, j = self.pairs[k]
        seats = self.run.tables.seats
        a, b = shown(seats[i].first.facts[name]), shown(seats[j].first.facts[name])
        word = name.replace("_", " ")
        weight = float(weights[k])
        if a == b:
            return Reason(f"same {word}: {a}", weight)
        return Reason(f"{'like' if weight > 0 else 'other'} {word}: {a}, {b}", weight)

    def _host(self, k: int) -> str:
        i, j = self.pairs[k]
        a, b = (" and ".join(self.run.host_label(s, name) for name in self.run.tables.seats[s].hosts) for s in (i, j))
        if self.host[k] > 0:
            return f"what they sit on corresponds ({a}, {b})"
        return f"what they sit on does not correspond ({a}, {b})"

    def _links(self, k: int) -> str:
        i, j = self.pairs[k]
        if self.links[k] <= 0:
            return "joined to things that are not paired with each other"
        links, mate = self.run.links, self.run.matching.mate
        theirs = set(links.target[links.start[j] : links.start[j + 1]].tolist())
        mine = dict.fromkeys(links.target[links.start[i] : links.start[i + 1]].tolist())
        names = [self.run.tables.seats[t].function for t in mine if int(mate[t]) in theirs]
        if not names:
            return "joined to the same kinds of things"
        named = ", ".join(dict.fromkeys(names[:_NAMED_LINKS]))
        more = " and others" if len(names) > _NAMED_LINKS else ""
        return f"both joined to {named}{more}"
