"""How well a grouping cuts a graph into modules, and the best grouping that a search finds.

Modularity: Newman & Girvan 2004, Physical Review E 69:026113, with weights as in Newman 2004, Physical Review E
70:056131. The search moves single members, then whole groups, as long as that gains anything (Blondel et al. 2008,
Journal of Statistical Mechanics P10008), from several starts. The best grouping there is may be better: finding it
is NP-hard (Brandes et al. 2008, IEEE Transactions on Knowledge and Data Engineering 20:172-188).
"""

from __future__ import annotations

import zlib
from random import Random
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    Links = Sequence[Mapping[int, float]]  # for each member its neighbours with the weight of the link, both ways

LOWEST, HIGHEST = -0.5, 1.0  # no grouping of any graph lies beyond (Brandes et al. 2008)
_SMALL, _SHUFFLES = 120, 6  # more starts, and second thoughts, where they cost next to nothing
_ROUNDS = 3
_GAIN = 1e-12


def modularity(links: Links, groups: Sequence[int]) -> float | None:
    """Share of the links within groups, less the share to be expected there by chance; None without links.

    `groups` gives each member the number of its group. From -1/2 to less than 1; 0 for one group.
    """
    shares = shares_within(links, groups)
    return None if shares is None else shares[0] - shares[1]


def shares_within(links: Links, groups: Sequence[int]) -> tuple[float, float] | None:
    """The share of the links within groups, and the share to be expected there by chance; None without links."""
    twice = sum(sum(near.values()) for near in links)
    if twice <= 0:
        return None
    within = 0.0
    degree: dict[int, float] = {}
    for member, near in enumerate(links):
        group = groups[member]
        degree[group] = degree.get(group, 0.0) + sum(near.values())
        within += sum(weight for other, weight in near.items() if groups[other] == group)
    return within / twice, sum((total / twice) ** 2 for total in degree.values())


def best_grouping(links: Links, starts: Sequence[Sequence[int]] = ()) -> list[int]:
    """The grouping with the greatest modularity that the search finds, never worse than any of the `starts`.

    The same for any order of the members, as far as the links tell them apart.
    """
    ranks = _ranks(links)
    order = sorted(range(len(links)), key=ranks.__getitem__)
    place = {member: at for at, member in enumerate(order)}
    sorted_links = [dict(sorted((place[other], weight) for other, weight in links[m].items())) for m in order]
    best = _best(sorted_links, [list(range(len(links))), *([start[m] for m in order] for start in starts)])
    return [best[place[member]] for member in range(len(links))]


def _best(links: Links, starts: list[list[int]]) -> list[int]:
    ways = list(_ways(len(links)))
    found = starts + [_climbed(links, way, start) for way in ways for start in starts]
    best = max(found, key=lambda groups: _worth(links, groups))
    return _shaken(links, best) if len(links) <= _SMALL else best


def _worth(links: Links, groups: Sequence[int]) -> float:
    """The modularity, rounded so that sums in another order do not decide between equals."""
    return round(modularity(links, groups) or 0.0, 12)


def _shaken(links: Links, best: list[int]) -> list[int]:
    """The grouping after small pushes, each followed by a climb, as long as one of them gains."""
    gained = True
    while gained:
        pushed = (_climbed(links, way, start) for way, start in _pushes(links, best))
        better = next((groups for groups in pushed if _worth(links, groups) > _worth(links, best)), None)
        gained, best = better is not None, better or best
    return best


def _pushes(links: Links, groups: list[int]) -> Iterator[tuple[list[int], list[int]]]:
    """An order and a start each: a group broken up, or a member put into a neighbouring group and asked last."""
    members = list(range(len(links)))
    for broken in dict.fromkeys(groups):
        # Numbers above those of all groups leave the other groups whole and make none with a loose member.
        yield members, [m if group == broken else len(links) + group for m, group in enumerate(groups)]
    for member in members:
        for other in dict.fromkeys(groups[near] for near in links[member] if groups[near] != groups[member]):
            start = list(groups)
            start[member] = other
            yield [*(m for m in members if m != member), member], start


def _ways(count: int) -> Iterator[list[int]]:
    """The orders in which members are asked to move."""
    yield list(range(count))
    for seed in range(_SHUFFLES if count <= _SMALL else 0):
        mixed = list(range(count))
        Random(seed).shuffle(mixed)  # noqa: S311 - a fixed row of numbers, so that every run is the same
        yield mixed


def _ranks(links: Links) -> list[int]:
    """A number for each member that tells how it is bound up: colour refinement (Weisfeiler & Leman 1968)."""
    ranks = [zlib.crc32(str(sorted(near.values())).encode()) for near in links]
    for _ in range(_ROUNDS):
        around = (sorted((ranks[other], weight) for other, weight in near.items()) for near in links)
        ranks = [zlib.crc32(f"{own} {near}".encode()) for own, near in zip(ranks, around, strict=True)]
    return ranks


def _climbed(links: Links, order: Sequence[int], start: Sequence[int]) -> list[int]:
    """A grouping from which no move of one member or one group gains anything."""
    groups = list(start)
    while True:
        moved = _moved(links, order, groups)
        merged = _merged(links, groups)
        if not moved and not merged:
            return groups


def _merged(links: Links, groups: list[int]) -> bool:
    """Move whole groups, taken as members with the links between them; whether any moved."""
    names = list(dict.fromkeys(groups))
    number = {name: place for place, name in enumerate(names)}
    between: list[dict[int, float]] = [{} for _ in names]
    for member, near in enumerate(links):
        mine = between[number[groups[member]]]
        for other, weight in near.items():
            theirs = number[groups[other]]
            mine[theirs] = mine.get(theirs, 0.0) + weight
    joined = list(range(len(names)))
    order = sorted(joined, key=lambda g: -sum(between[g].values()))
    if not _moved(between, order, joined):
        return False
    groups[:] = [joined[number[group]] for group in groups]
    return True


def _moved(links: Links, order: Sequence[int], groups: list[int]) -> bool:
    """Move members one by one to the neighbouring group where each gains most, until none gains; whether any moved.

    A link of a member to itself counts in its degree and goes wherever it goes.
    """
    degree = [sum(near.values()) for near in links]
    twice = sum(degree)
    in_group: dict[int, float] = {}
    for member, group in enumerate(groups):
        in_group[group] = in_group.get(group, 0.0) + degree[member]
    any_moved, again = False, twice > 0
    while again:
        again = False
        for member in order:
            mine = groups[member]
            near: dict[int, float] = {mine: 0.0}
            for other, weight in links[member].items():
                if other != member:
                    near[groups[other]] = near.get(groups[other], 0.0) + weight
            in_group[mine] -= degree[member]
            share = degree[member] / twice
            gain = {group: weight - share * in_group[group] for group, weight in near.items()}
            best = max(gain, key=gain.__getitem__)
            if gain[best] <= gain[mine] + _GAIN * twice:
                best = mine
            in_group[best] += degree[member]
            if best != mine:
                groups[member] = best
                any_moved = again = True
    return any_moved
