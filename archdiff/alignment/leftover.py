"""The second pass: partners for what found none within its function, through what is paired already."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from archdiff.alignment.context import Matching
    from archdiff.alignment.links import Links
    from archdiff.alignment.rounds import Candidates
    from archdiff.alignment.tables import Floats, Ints, Tables

WEAK = 0.98
LAST_ONES = 1.5
_MOST = 40  # of one neighbour, host or function: beyond that a thing in common says too little


Shelves = tuple[dict[object, list[int]], dict[object, list[int]]]


def second_pairs(
    tables: Tables, links: Links, hosts: Ints, alike_hosts: list[tuple[int, int]], matching: Matching
) -> tuple[Ints, Ints]:
    """Further pairs worth weighing among seats that are alone or paired without much confidence.

    They have a paired neighbour in common, or they are of one subsystem and stand on hosts that go together
    (`alike_hosts`), or they are of one function. Purposes that are not known meet each other only.
    """
    open_seats = np.flatnonzero((matching.mate < 0) | (matching.confidence < WEAK)).tolist()
    found: set[tuple[int, int]] = set()
    for shelves in (
        _shelves(tables, open_seats, lambda s: [(int(tables.function[s]),)]),
        _shelves(tables, open_seats, lambda s: _neighbours(tables, links, matching, s)),
    ):
        for key in shelves[0].keys() & shelves[1].keys():
            _cross(found, shelves[0][key], shelves[1][key])
    if hosts.size:
        shelves = _shelves(tables, open_seats, lambda s: [(int(tables.subsystem[s]), int(hosts[s, 0]))])
        for subsystem in {key[0] for key in shelves[0] if isinstance(key, tuple)}:
            for a, b in alike_hosts:
                _cross(found, shelves[0].get((subsystem, a), []), shelves[1].get((subsystem, b), []))
    pairs = np.array(sorted(found), dtype=np.int64).reshape(-1, 2)
    i, j = pairs[:, 0], pairs[:, 1]
    fit = (tables.unknown[i] == tables.unknown[j]) & (tables.subsystem[i] == tables.subsystem[j])
    return i[fit], j[fit]


def _shelves(tables: Tables, seats: list[int], keys: Callable[[int], Iterable[object]]) -> Shelves:
    """The seats of the left and of the right by each of their keys."""
    shelves: Shelves = (defaultdict(list), defaultdict(list))
    for seat in seats:
        for key in keys(seat):
            shelves[seat >= tables.n_left][key].append(seat)
    return shelves


def _cross(found: set[tuple[int, int]], lefts: list[int], rights: list[int]) -> None:
    if len(lefts) <= _MOST and len(rights) <= _MOST:
        found.update((a, b) for a in lefts for b in rights)


def _neighbours(tables: Tables, links: Links, matching: Matching, seat: int) -> Iterator[tuple[int, int, int]]:
    """Subsystem, kind of link and neighbour, for each neighbour that is paired.

    A paired neighbour goes by its left seat, so that both sides call it the same.
    """
    subsystem = int(tables.subsystem[seat])
    for link in range(links.start[seat], links.start[seat + 1]):
        target = int(links.target[link])
        partner = int(matching.mate[target])
        if partner >= 0:
            yield subsystem, int(links.kind[link]), min(target, partner)


def last_ones(tables: Tables, found: Candidates, matching: Matching) -> Floats:
    """The bonus of pairs whose seats are the only ones of their function that are still alone on either side.

    They do the same job, whatever else they differ in: a job done differently in every respect is what a
    comparison is after.
    """
    alone = (matching.mate < 0) & ~tables.unknown
    left, right = alone.copy(), alone.copy()
    left[tables.n_left :] = False
    right[: tables.n_left] = False
    counts = [np.bincount(tables.function[side], minlength=tables.functions) for side in (left, right)]
    single = (counts[0] == 1) & (counts[1] == 1)
    i, j = found.i, found.j
    last = alone[i] & alone[j] & (tables.function[i] == tables.function[j]) & single[tables.function[i]]
    return np.where(last, LAST_ONES, 0.0)
