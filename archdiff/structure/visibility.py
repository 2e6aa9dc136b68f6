"""Who depends on whom over any number of steps: visibility, propagation cost, and the roles that follow from it.

Visibility and propagation cost: MacCormack, Rusnak & Baldwin 2006, Management Science 52(7):1015-1030; core, control,
shared and periphery: Baldwin, MacCormack & Rusnak 2014, Research Policy 43:1381-1397.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    Graph = Sequence[Sequence[int]]  # for each row the columns that it depends on


class Role(StrEnum):
    """What a thing is to the largest group whose members all depend on each other."""

    CORE = "core"
    CONTROL = "control"
    SHARED = "shared"
    PERIPHERY = "periphery"


@dataclass(frozen=True, eq=False)
class Visibility:
    """How many things each one depends on (`fan_out`) and how many depend on it (`fan_in`), itself counted.

    `group_of` numbers the groups whose members depend on each other in a circle; most have one member.
    """

    counts: Sequence[int]
    fan_out: Sequence[int]
    fan_in: Sequence[int]
    group_of: Sequence[int]

    @property
    def total(self) -> int:
        """The number of marks in the visibility matrix."""
        return sum(count * seen for count, seen in zip(self.counts, self.fan_out, strict=True))

    @property
    def propagation_cost(self) -> float:
        """The share of the visibility matrix that is marked; ZeroDivisionError where there are no things."""
        return self.total / sum(self.counts) ** 2

    @cached_property
    def core(self) -> frozenset[int]:
        """The largest group of two or more entries in a circle; empty where there is none.

        Of groups of one size the one on which most depend, and that depends on most, goes first.
        """
        members: dict[int, list[int]] = {}
        for entry, group in enumerate(self.group_of):
            members.setdefault(group, []).append(entry)
        circles = [group for group in members.values() if len(group) > 1]
        return frozenset(max(circles, key=self._rank, default=()))

    def _rank(self, group: Sequence[int]) -> tuple[int, int, int]:
        return sum(self.counts[e] for e in group), self.fan_in[group[0]], self.fan_out[group[0]]

    def roles(self) -> list[Role]:
        """The role of each entry; all are periphery where there is no core."""
        if not self.core:
            return [Role.PERIPHERY] * len(self.counts)
        one = min(self.core)
        return [
            Role.CORE if entry in self.core else _role(seen_by >= self.fan_in[one], sees >= self.fan_out[one])
            for entry, (seen_by, sees) in enumerate(zip(self.fan_in, self.fan_out, strict=True))
        ]


def _role(wanted: bool, wanting: bool) -> Role:  # noqa: FBT001 - the two halves of one comparison
    if wanted:
        # What lies outside the core can reach both its values only by another way than through it.
        return Role.SHARED
    return Role.CONTROL if wanting else Role.PERIPHERY


def visibility_of(depends_on: Graph, counts: Sequence[int]) -> Visibility:
    """The visibility of a graph whose entries stand for `counts` things each, alike in all they depend on."""
    turned = _turned(depends_on)
    group_of = circles(depends_on)
    return Visibility(counts, _fan(depends_on, counts, group_of), _fan(turned, counts, circles(turned)), group_of)


def circles(graph: Graph) -> list[int]:
    """The number of each entry's strongly connected component; no component leads to one of a higher number.

    Two searches in depth, the second against the arrows (Kosaraju; Sharir 1981, Computers & Mathematics with
    Applications 7:67-72).
    """
    found = [-1] * len(graph)
    groups = 0
    for root in reversed(_finished(_turned(graph))):
        waiting = [root] if found[root] < 0 else []
        groups += len(waiting)
        while waiting:
            entry = waiting.pop()
            if found[entry] < 0:
                found[entry] = groups - 1
                waiting += [target for target in graph[entry] if found[target] < 0]
    return found


def _finished(graph: Graph) -> list[int]:
    """All entries, each after those that a search in depth comes to from it."""
    done: list[int] = []
    seen = [False] * len(graph)
    for root in range(len(graph)):
        path = [] if seen[root] else [(root, iter(graph[root]))]
        seen[root] = True
        while path:
            entry, targets = path[-1]
            target = next((t for t in targets if not seen[t]), None)
            if target is None:
                done.append(entry)
                path.pop()
            else:
                seen[target] = True
                path.append((target, iter(graph[target])))
    return done


def _turned(graph: Graph) -> list[list[int]]:
    turned: list[list[int]] = [[] for _ in graph]
    for row, columns in enumerate(graph):
        for column in columns:
            turned[column].append(row)
    return turned


def _fan(graph: Graph, counts: Sequence[int], group_of: Sequence[int]) -> list[int]:
    """How many things each entry reaches, itself counted: one bit an entry, group by group."""
    groups = max(group_of, default=-1) + 1
    members: list[list[int]] = [[] for _ in range(groups)]
    for entry, group in enumerate(group_of):
        members[group].append(entry)
    reach = [0] * groups
    planes = _planes(counts)
    result = [0] * len(graph)
    for group, entries in enumerate(members):
        for entry in entries:
            reach[group] |= 1 << entry
            for other in {group_of[target] for target in graph[entry]} - {group}:
                reach[group] |= reach[other]
        seen = sum((reach[group] & plane).bit_count() << power for power, plane in planes)
        # Several alike under one entry see each other only round a circle.
        alone = len(entries) == 1
        for entry in entries:
            result[entry] = seen - counts[entry] + 1 if alone else seen
    return result


def _planes(counts: Sequence[int]) -> list[tuple[int, int]]:
    """For each binary digit of the counts the entries that have it, as bits."""
    top = max(counts, default=0).bit_length()
    return [(power, sum(1 << e for e, count in enumerate(counts) if count >> power & 1)) for power in range(top)]
