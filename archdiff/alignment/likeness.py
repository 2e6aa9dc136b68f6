"""How alike two seats are by their own facts, in nats: Fellegi & Sunter 1969, J. Am. Stat. Assoc. 64:1183-1210.

A fact on which both sides agree weighs ln(m/u), one on which they disagree ln((1-m)/(1-u)): m is how often one
job agrees in that fact over two products, u how often two seats of the function agree by chance, which is the
value's share among the function's seats. A fact that a side does not state weighs nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.tables import Column

if TYPE_CHECKING:
    from archdiff.alignment.tables import Floats, Ints, Tables

SAME_FUNCTION, SIBLING, FOREIGN, PURPOSE_UNKNOWN = 2.5, -0.7, -4.0, 0.0
ONLY_ONES = 1.0
ONE_EMPTY = -2.0
# An empty site stands for its own function only: for another job it is no candidate at all.
EMPTY_FOR_OTHER = -100.0
ALL_SAME = 0.1
# m: our own estimates, moved on the tuning seeds of benchmarks/ as far as F1 rose. Moving one of them by 0.05 to 0.1
# changed F1 by less than 0.004 on average, which is no more than the seeds differ.
_AGREES = {"means": 0.80, "package": 0.90, "value": 0.90, "links": 0.65, "section": 0.93}
_USUAL = 0.65
# Two readings of one number lie apart like the difference of two measurements of a few per cent each.
_NUMBER_KEPT = 0.90
_READING = 0.08  # standard deviation of that difference, as a logarithm
_WINDOW = 2 * _READING  # readings this near to each other may be of one number
_BACKGROUND = 3.0  # how many seats the usual in the whole product counts for
_AGREE_CAP, _DISAGREE_CAP = (0.05, 3.5), (-2.5, -0.02)
_FACTS_CAP = (-2.5, 8.0)
_FACTS_FLOOR_OTHER_MEANS = -0.3


@dataclass(slots=True)
class _Weights:
    """Of one column: what agreeing weighs for each seat's value, and what disagreeing weighs for its function."""

    column: Column
    agree: Floats
    disagree: Floats
    chance: Floats | None = None  # of numbers: the share of the function's seats with a reading as near as that


@dataclass(slots=True)
class Terms:
    """The weights of many pairs, one array a term; their sum is `total`."""

    function: Floats
    chance: Floats
    means: Floats
    section: Floats
    facts: list[tuple[str, Floats]]
    empty: Floats

    @property
    def total(self) -> Floats:
        """The sum of all terms."""
        result = self.function + self.chance + self.means + self.section + self.empty
        for _, weights in self.facts:
            result = result + weights
        return result


class Likeness:
    """Weighs pairs of seats by function, means and facts."""

    def __init__(self, tables: Tables, signature: Ints) -> None:
        self.tables = tables
        self._signs = weights_of(tables, Column("links", signature))
        left, right = tables.left_counts(), tables.right_counts()
        self.only_ones = (left == 1) & (right == 1)
        self.prior = -0.5 * np.log(np.maximum(left, 1) * np.maximum(right, 1))
        self.means = weights_of(tables, tables.means)
        self.section = weights_of(tables, tables.section)
        self.facts = [weights_of(tables, column) for column in tables.columns if column.name != "populated"]

    def terms(self, i: Ints, j: Ints) -> Terms:
        """The weights of the pairs (i[k], j[k])."""
        means = self._means(i, j)
        facts = [(w.column.name, weigh(w, i, j)) for w in self.facts]
        self._temper(i, j, facts)
        function = self.tables.function
        one_empty = np.where(function[i] == function[j], ONE_EMPTY, EMPTY_FOR_OTHER)
        empty = np.where(self.tables.empty[i] != self.tables.empty[j], one_empty, 0.0)
        chance = (self.prior[function[i]] + self.prior[function[j]]) / 2
        section = weigh(self.section, i, j)
        return Terms(self._function(i, j), chance, means, section, facts, empty)

    def total(self, i: Ints, j: Ints) -> Floats:
        """The sums of the weights of the pairs (i[k], j[k])."""
        return self.terms(i, j).total

    def signs(self, i: Ints, j: Ints) -> Floats:
        """What the pairs weigh by the kinds of things they are joined to, before anything is paired."""
        return weigh(self._signs, i, j)

    def _means(self, i: Ints, j: Ints) -> Floats:
        weight = weigh(self.means, i, j)
        # Whether a job has a part of its own is a choice of architecture: it says little of which job it is.
        return np.where(self.tables.embedded[i] & self.tables.embedded[j], 0.3, weight)

    def _temper(self, i: Ints, j: Ints, facts: list[tuple[str, Floats]]) -> None:
        """Facts hang together: their sum is capped, and once the means differ a differing fact is no news."""
        total = np.zeros(len(i))
        for _, weights in facts:
            total += weights
        codes = self.tables.means.codes
        other = (codes[i] >= 0) & (codes[j] >= 0) & (codes[i] != codes[j])
        low = np.where(other, _FACTS_FLOOR_OTHER_MEANS, _FACTS_CAP[0])
        capped = np.clip(total, low, _FACTS_CAP[1])
        outside = (capped != total) & (total != 0)
        factor = np.divide(capped, total, out=np.ones_like(total), where=outside)
        for index, (name, weights) in enumerate(facts):
            facts[index] = (name, weights * factor)

    def _function(self, i: Ints, j: Ints) -> Floats:
        t = self.tables
        same = t.function[i] == t.function[j]
        kin = (t.subsystem[i] == t.subsystem[j]) & (t.subsystem[i] >= 0)
        weight = np.where(same, SAME_FUNCTION + ONLY_ONES * self.only_ones[t.function[i]], FOREIGN)
        weight = np.where(kin & ~same, SIBLING, weight)
        return np.where(t.unknown[i] | t.unknown[j], PURPOSE_UNKNOWN, weight)


def weights_of(tables: Tables, column: Column) -> _Weights:
    """The weights of a column, from how often its values occur within each function."""
    stated = column.codes >= 0
    function, codes = tables.function[stated], column.codes[stated]
    width = int(codes.max(initial=0)) + 1
    pair, inverse, count = np.unique(function * width + codes, return_inverse=True, return_counts=True)
    of_function = np.bincount(function, minlength=tables.functions).astype(float)
    anywhere = np.bincount(codes, minlength=width) / max(len(codes), 1)
    # The two seats that are weighed are no evidence of chance, and few others say little: what is usual in the
    # whole product stands in for them.
    of_pair = of_function[pair // width]
    share = (np.maximum(count - 2, 0) + _BACKGROUND * anywhere[pair % width]) / (
        np.maximum(of_pair - 2, 0) + _BACKGROUND
    )
    together = np.bincount(pair // width, weights=(count / of_pair) ** 2, minlength=tables.functions)
    together = (together * of_function + _BACKGROUND * (anywhere**2).sum()) / (of_function + _BACKGROUND)
    m = _AGREES.get(column.name, _USUAL)
    agree = np.zeros(tables.size)
    agree[stated] = np.clip(np.log(m / share[inverse]), *_AGREE_CAP)
    disagree = np.log((1 - m) / np.maximum(1 - together, 1e-9))
    chance = None if column.logs is None else _chance_near(tables, column.logs)
    return _Weights(column, agree, np.clip(disagree, *_DISAGREE_CAP)[tables.function], chance)


def _chance_near(tables: Tables, logs: Floats) -> Floats:
    """For each seat the share of its function's seats that read nearly the same, filled up as for words."""
    stated = np.flatnonzero(~np.isnan(logs))
    values, function = logs[stated], tables.function[stated]
    members = np.bincount(function, minlength=tables.functions)[function]
    anywhere = _near_ones(values, np.zeros(len(stated), dtype=np.int64)) / max(len(stated), 1)
    near = np.maximum(_near_ones(values, function) - 2, 0)
    chance = np.ones(tables.size)
    chance[stated] = (near + _BACKGROUND * anywhere) / (np.maximum(members - 2, 0) + _BACKGROUND)
    return chance


def _near_ones(values: Floats, group: Ints) -> Ints:
    """For each value how many of its group lie within the window, itself included."""
    apart = float(np.ptp(values)) + 3 * _WINDOW if len(values) else 0.0
    place = values + group * apart
    ordered = np.sort(place)
    inside = np.searchsorted(ordered, place + _WINDOW, "right") - np.searchsorted(ordered, place - _WINDOW)
    return np.asarray(inside, dtype=np.int64)


def _by_number(apart: Floats, chance: Floats) -> Floats:
    """What two readings weigh that lie so far apart: a number kept and measured twice against chance.

    The normal density of two readings of one number over the window, by the share of others that fall into it.
    """
    density = (2 * _WINDOW / _READING / np.sqrt(2 * np.pi)) * np.exp(-0.5 * (apart / _READING) ** 2)
    ratio = _NUMBER_KEPT * density / chance + (1 - _NUMBER_KEPT)
    return np.asarray(np.clip(np.log(ratio), _DISAGREE_CAP[0], _AGREE_CAP[1]), dtype=np.float64)


def weigh(weights: _Weights, i: Ints, j: Ints) -> Floats:
    """What the pairs (i[k], j[k]) weigh by one column."""
    codes, logs = weights.column.codes, weights.column.logs
    result = np.zeros(len(i))
    (at,) = np.nonzero((codes[i] >= 0) & (codes[j] >= 0))
    if not len(at):
        return result
    a, b = i[at], j[at]
    agree = (weights.agree[a] + weights.agree[b]) / 2
    disagree = (weights.disagree[a] + weights.disagree[b]) / 2
    found: Floats = np.where(codes[a] == codes[b], agree, disagree)
    if logs is not None and weights.chance is not None:
        apart = np.abs(logs[a] - logs[b])
        found = np.where(np.isnan(apart), found, _by_number(apart, (weights.chance[a] + weights.chance[b]) / 2))
    result[at] = found
    return result
