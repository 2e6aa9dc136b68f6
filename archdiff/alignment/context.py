"""How well two seats fit into what is paired already: by their hosts and by their neighbours, in nats.

This is what makes the record linkage collective (Bhattacharya & Getoor 2007, ACM TKDD 1(1)): a board is known
by what it carries, a seat by its board and by what it is joined to.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from archdiff.alignment.links import Links
    from archdiff.alignment.tables import Floats, Ints, Tables

_HOST_CAP = (-2.0, 4.0)
_SMOOTH = 0.5
_BACKGROUND = 2.0  # how many seats the usual in the whole product counts for
_MOSTLY = 0.5
_NEIGHBOUR_KEPT = 0.90  # m: how often a link of one product has its like in the other
_HIT_CAP, _MISS_CAP, _LINKS_CAP = (0.05, 4.0), (-2.0, -0.05), (-6.0, 10.0)


@dataclass(slots=True)
class Matching:
    """The current partner of every seat (-1 for none), and how sure the pairing is (0..1)."""

    mate: Ints
    confidence: Floats


class HostFit:
    """Weighs pairs by whether their hosts carry seats that are paired with each other.

    The weight is the logarithm of the paired mass over the mass that two hosts of their sizes share by chance.
    It is no one-to-one matching of hosts, so that boards may be split or merged. `hosts` has a row a seat,
    padded with -1; hosts are numbered from 0 on each side.
    """

    def __init__(self, tables: Tables, hosts: Ints, n_hosts: tuple[int, int], tied: list[tuple[int, int]]) -> None:
        self.hosts = hosts
        self.shape = (n_hosts[0], n_hosts[1])
        self.single = (hosts >= 0).sum(axis=1) == 1
        self.tied = tied
        self.n_left = tables.n_left
        self.matching: Matching | None = None
        self._take(np.zeros(self.shape))

    def learn(self, matching: Matching) -> None:
        """Take up which seats are paired now."""
        self.matching = matching
        mass = np.zeros(self.shape)
        i = np.flatnonzero(matching.mate[: self.n_left] >= 0)
        j = matching.mate[i]
        both = self.single[i] & self.single[j]
        i, j = i[both], j[both]
        np.add.at(mass, (self.hosts[i, 0], self.hosts[j, 0]), 0.25 + 0.75 * matching.confidence[i])
        for a, b in self.tied:
            mass[a, b] += max(5.0, float(mass[a].sum()), float(mass[:, b].sum()))
        self._take(mass)

    def _take(self, mass: Floats) -> None:
        self.mass, self.all = mass, float(mass.sum())
        self.rows, self.columns = mass.sum(axis=1), mass.sum(axis=0)

    def alike(self) -> list[tuple[int, int]]:
        """Hosts that go together: most of what is paired on one of the two is paired with the other."""
        most = np.maximum(self.mass / np.maximum(self.rows[:, None], 1e-9), self.mass / np.maximum(self.columns, 1e-9))
        return [(int(a), int(b)) for a, b in np.argwhere((most >= _MOSTLY) & (self.mass > 0))]

    def total(self, i: Ints, j: Ints) -> Floats:
        """The weights of the pairs (i[k], j[k]); 0 where a host is not stated."""
        result = np.zeros(len(i))
        if self.matching is None or not min(self.shape):
            return result
        single = self.single[i] & self.single[j]
        result[single] = self._single(i[single], j[single])
        joining = ~single & (self.hosts[i, 0] >= 0) & (self.hosts[j, 0] >= 0)
        if joining.any():
            result[joining] = self._sets(i[joining], j[joining])
        return result

    def _single(self, i: Ints, j: Ints) -> Floats:
        assert self.matching is not None  # noqa: S101 - total() has asked
        a, b = self.hosts[i, 0], self.hosts[j, 0]
        # A pair is no evidence for itself: what it adds to the mass is taken out again.
        own = np.where(self.matching.mate[i] == j, 0.25 + 0.75 * self.matching.confidence[i], 0.0)
        return _log_ratio(self.mass[a, b] - own, self.rows[a] - own, self.columns[b] - own, self.all - own)

    def _sets(self, i: Ints, j: Ints) -> Floats:
        """For what joins hosts: how well each host of one finds its like among the hosts of the other."""
        table = np.full((self.shape[0] + 1, self.shape[1] + 1), -np.inf)  # the last row and column: no host
        table[:-1, :-1] = _log_ratio(self.mass, self.rows[:, None], self.columns[None, :], self.all)
        fits = table[self.hosts[i][:, :, None], self.hosts[j][:, None, :]]
        there = _sum_of_best(fits.max(axis=2), self.hosts[i] >= 0)
        back = _sum_of_best(fits.max(axis=1), self.hosts[j] >= 0)
        return (there + back) / 2


def _log_ratio(mass: Floats, row: Floats, column: Floats, total: Floats | float) -> Floats:
    share = np.maximum(row, 0) * np.maximum(column, 0) / np.maximum(total, 1e-9)
    ratio = (np.maximum(mass, 0) + _SMOOTH) / (share + _SMOOTH)
    return np.asarray(np.clip(np.log(ratio), *_HOST_CAP), dtype=np.float64)


def _sum_of_best(best: Floats, stated: NDArray[np.bool_]) -> Floats:
    # Each end is evidence of its own: what holds the same two things together does the same job.
    return np.asarray(np.where(stated, best, 0.0).sum(axis=1), dtype=np.float64)


@dataclass(slots=True)
class Compared:
    """The links of one side of many pairs, one row a link: which pair, which link, and what never changes."""

    count: int  # of pairs
    pair: Ints
    link: Ints
    target: Ints  # -1 where it is no seat
    first: Ints  # code of (other seat, kind of link), to which the partner of the target is added
    by_sign: Floats
    # What was looked up last, as few partners change from round to round: the partners, and the weights by them.
    partner: Ints
    by_target: Floats


class LinkFit:
    """Weighs pairs by whether what they are joined to is paired too.

    As far as a neighbour is not paired, or not surely, the kind of the neighbour is asked instead: has the
    other seat such a link to something of the same function, or to a rail of the same voltage?
    """

    def __init__(self, tables: Tables, links: Links) -> None:
        self.tables, self.links = tables, links
        self.width = max(len(links.kinds), 1)
        self.has_kind = np.zeros((tables.size, self.width), dtype=bool)
        self.has_kind[links.source, links.kind] = True
        what = links.kind * (tables.size + 1) + links.target + 1
        self.target_width = self.width * (tables.size + 1)
        self.codes, order, targets = self._shares(what, self.target_width, side=True)
        self.hit, self.miss = _hit_and_miss(targets[order]), _hit_and_miss(targets)
        self.sign_width = int(links.sign.max(initial=0)) + 1
        self.signs, order, signs = self._shares(links.sign, self.sign_width, side=False)
        self.sign_hit, self.sign_miss = _hit_and_miss(signs[order]), _hit_and_miss(signs)

    def _shares(self, what: Ints, width: int, *, side: bool) -> tuple[Ints, Ints, Floats]:
        """Of the links' targets or signs: (seat, what) as sorted codes, their order, and each link's chance share.

        The share is that of the seats of the function (on the same side, for targets) that have such a link, the
        seat itself left out, filled up with what is usual in the whole product.
        """
        t, source = self.tables, self.links.source
        group = t.function * 2 + ((np.arange(t.size) >= t.n_left) if side else 0)
        members = np.bincount(group, minlength=2 * t.functions + 2)[group[source]]
        _, inverse, count = np.unique(group[source] * width + what, return_inverse=True, return_counts=True)
        anywhere = np.bincount(what, minlength=width)[what] / max(t.size, 1)
        own = 1 if side else 2
        share = (np.maximum(count[inverse] - own, 0) + _BACKGROUND * anywhere) / (
            np.maximum(members - own, 0) + _BACKGROUND
        )
        code = source * width + what
        order = np.argsort(code, kind="stable")
        return code[order], order, share

    def compared(self, i: Ints, j: Ints) -> tuple[Compared, Compared]:
        """What stays the same over all rounds for the pairs (i[k], j[k]), seen from the left and from the right."""
        return self._one_way(i, j), self._one_way(j, i)

    def total(self, compared: tuple[Compared, Compared], matching: Matching) -> Floats:
        """The weights of the compared pairs given what is paired."""
        there, back = (self._weight(way, matching) for way in compared)
        return np.asarray(np.clip((there + back) / 2, *_LINKS_CAP), dtype=np.float64)

    def _one_way(self, i: Ints, j: Ints) -> Compared:
        """Every link of i of a kind that j has links of, too: what j has not stated at all is no evidence."""
        links = self.links
        degree = links.start[i + 1] - links.start[i]
        pair = np.repeat(np.arange(len(i)), degree)
        link = np.repeat(links.start[i] - np.cumsum(degree) + degree, degree) + np.arange(len(pair))
        told = np.flatnonzero(self.has_kind[j[pair], links.kind[link]])
        pair, link = pair[told], link[told]
        other = j[pair]
        wanted = other * self.sign_width + links.sign[link]
        by_sign = _looked_up(self.signs, wanted, self.sign_hit[0], self.sign_miss[1][link])
        first = other * self.target_width + links.kind[link] * (self.tables.size + 1) + 1
        nothing = np.full(len(pair), -1, dtype=np.int64)
        return Compared(len(i), pair, link, links.target[link], first, by_sign, nothing, np.zeros(len(pair)))

    def _weight(self, way: Compared, matching: Matching) -> Floats:
        """The sum over the links of each pair: by the partner of the target as far as it is sure, else by the sign."""
        if not len(way.pair):
            return np.zeros(way.count)
        partner = np.where(way.target >= 0, matching.mate[way.target], -1)
        trust = np.where(partner >= 0, matching.confidence[way.target], 0.0)
        at = np.flatnonzero((partner != way.partner) & (partner >= 0))
        wanted = way.first[at] + partner[at]
        way.by_target[at] = _looked_up(self.codes, wanted, self.hit[0], self.miss[1][way.link[at]])
        way.partner[at] = partner[at]
        weight = way.by_sign + (way.by_target - way.by_sign) * trust
        return np.asarray(np.bincount(way.pair, weights=weight, minlength=way.count), dtype=np.float64)


def _hit_and_miss(share: Floats) -> tuple[Floats, Floats]:
    chance = np.clip(share, 1e-6, 0.95)
    hit = np.clip(np.log(_NEIGHBOUR_KEPT / chance), *_HIT_CAP)
    miss = np.clip(np.log((1 - _NEIGHBOUR_KEPT) / (1 - chance)), *_MISS_CAP)
    return hit, miss


def _looked_up(codes: Ints, wanted: Ints, hit: Floats, miss: Floats) -> Floats:
    """The weight of the hit where a wanted code is among the sorted codes, else that of the miss."""
    if not len(codes):
        return miss
    spot = np.minimum(np.searchsorted(codes, wanted), len(codes) - 1)
    return np.where(codes[spot] == wanted, hit[spot], miss)
