"""Two other ways to pair the elements of two records, each as well as an expert would set it up."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

import numpy as np
from deepdiff import DeepDiff
from scipy.optimize import linear_sum_assignment

if TYPE_CHECKING:
    from benchmarks.measure import Group
    from benchmarks.products import ProductPair

SECTIONS = ("parts", "controls", "indicators", "sensors", "actuators", "antennas")
_NAMES = ("id", "on", "joined_to")


def _flat(data: dict[str, Any]) -> list[dict[str, Any]]:
    """All elements as flat mappings; `id` is kept to tell what was paired and is not compared."""
    return [{"id": name, "section": s, **entry} for s in SECTIONS for name, entry in data.get(s, {}).items()]


def by_deepdiff(pair: ProductPair) -> list[Group]:
    """DeepDiff on the flat lists, blind to order, names and references left out, cutoffs opened as far as they go.

    With `cutoff_distance_for_pairs` and `cutoff_intersection_for_pairs` at 1 it pairs every item with its nearest.
    """
    left, right = _flat(pair.left_data), _flat(pair.right_data)
    tree = DeepDiff(
        left,
        right,
        view="tree",
        ignore_order=True,
        exclude_regex_paths=[rf"\['{name}'\]" for name in _NAMES],
        cutoff_distance_for_pairs=1,
        cutoff_intersection_for_pairs=1,
        cache_size=100_000,
        max_passes=10**9,
        max_diffs=10**9,
    )
    found: dict[int, int] = {}
    unpaired: tuple[set[int], set[int]] = (set(), set())
    for kind, levels in tree.items():
        for level in levels:
            item = level.all_up.down
            if item is None:
                continue
            relation = level.all_up
            a = relation.t1_child_rel.param if relation.t1_child_rel else None
            b = relation.t2_child_rel.param if relation.t2_child_rel else None
            if kind == "iterable_item_added" and b is not None:
                unpaired[1].add(b)
            elif kind == "iterable_item_removed" and a is not None:
                unpaired[0].add(a)
            elif a is not None:
                found[a] = b if b is not None else a
    groups = [((left[a]["id"],), (right[b]["id"],)) for a, b in found.items()]
    return groups + _equal(left, right, found, unpaired)


def _equal(
    left: list[dict[str, Any]], right: list[dict[str, Any]], found: dict[int, int], unpaired: tuple[set[int], set[int]]
) -> list[Group]:
    """What the tree does not name is equal to something on the other side."""
    taken = set(found.values()) | unpaired[1]
    waiting: dict[str, list[str]] = defaultdict(list)
    for b, entry in enumerate(right):
        if b not in taken:
            waiting[_shown(entry)].append(entry["id"])
    groups = []
    for a, entry in enumerate(left):
        if a not in found and a not in unpaired[0] and waiting[_shown(entry)]:
            groups.append(((entry["id"],), (waiting[_shown(entry)].pop(),)))
    return groups


def _shown(entry: dict[str, Any]) -> str:
    return repr(sorted((name, str(value)) for name, value in entry.items() if name not in _NAMES))


def by_attributes(pair: ProductPair) -> list[Group]:
    """Within each function the assignment (scipy) that makes the most stated facts agree; 0.5 a pair beside that."""
    sides: list[dict[str, list[dict[str, Any]]]] = []
    for data in (pair.left_data, pair.right_data):
        by_function: dict[str, list[dict[str, Any]]] = defaultdict(list)
        for entry in _flat(data):
            by_function[entry["function"]].append(entry)
        sides.append(by_function)
    groups = []
    for function in sides[0].keys() & sides[1].keys():
        left, right = sides[0][function], sides[1][function]
        table = np.array([[_agreeing(a, b) for b in right] for a in left])
        rows, columns = linear_sum_assignment(table, maximize=True)
        groups += [((left[a]["id"],), (right[b]["id"],)) for a, b in zip(rows, columns, strict=True)]
    return groups


def _agreeing(a: dict[str, Any], b: dict[str, Any]) -> float:
    return 0.5 + sum(a[name] == b[name] for name in a.keys() & b.keys() if name not in _NAMES)
