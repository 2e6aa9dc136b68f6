"""Measures of two partitions of the same things, from their overlap table."""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


def variation_of_information(table: Mapping[tuple[str, str], int]) -> float:
    """Variation of information in bits: H(left) + H(right) - 2 I (Meila 2007); 0 for equal partitions.

    The table maps (left group, right group) to how many things lie in both. 0 for an empty one.
    """
    count = sum(table.values())
    if not count:
        return 0.0
    left, right = _margins(table)
    grouped = sum(_weight(n) for n in left.values()) + sum(_weight(n) for n in right.values())
    # In bits: sum of n log2 n over the margins, less twice that over the cells.
    return max(0.0, (grouped - 2 * sum(_weight(n) for n in table.values())) / count)


def mutual_information(table: Mapping[tuple[str, str], int]) -> float:
    """Normalised mutual information, 0 to 1: 2 I / (H(left) + H(right)); 1 where neither parts anything.

    The table as for `variation_of_information`; 1 for an empty one.
    """
    count = sum(table.values())
    left, right = _margins(table)
    # In bits times the count: H = n log2 n - sum of m log2 m over the margin.
    entropies = [_weight(count) - sum(_weight(n) for n in margin.values()) for margin in (left, right)]
    both = _weight(count) - sum(_weight(n) for n in table.values())
    if sum(entropies) <= 0:
        return 1.0
    return min(max(2 * (sum(entropies) - both) / sum(entropies), 0.0), 1.0)


def split_join(table: Mapping[tuple[str, str], int]) -> tuple[int, int]:
    """The two halves of the split-join distance (van Dongen 2000); a 0 means that one partition refines the other.

    First how many things lie outside the right group that holds most of their left group, then the reverse.
    """
    count = sum(table.values())
    most_left: dict[str, int] = {}
    most_right: dict[str, int] = {}
    for (left, right), shared in table.items():
        most_left[left] = max(most_left.get(left, 0), shared)
        most_right[right] = max(most_right.get(right, 0), shared)
    return count - sum(most_left.values()), count - sum(most_right.values())


def _margins(table: Mapping[tuple[str, str], int]) -> tuple[Counter[str], Counter[str]]:
    left: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for (row, column), shared in table.items():
        left[row] += shared
        right[column] += shared
    return left, right


def _weight(count: int) -> float:
    return count * math.log2(count) if count else 0.0
