"""The best assignment, against exhaustive search and scipy."""

from itertools import permutations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from archdiff.alignment.assignment import best_assignment

Table = dict[int, dict[int, int]]
cells = st.dictionaries(st.integers(0, 5), st.integers(-3, 9), max_size=6)
small = st.dictionaries(st.integers(0, 5), cells, max_size=6)


def total(table: Table, chosen: dict[int, int]) -> int:
    return sum(table[row][column] for row, column in chosen.items())


def test_worked_example() -> None:
    # Costs [[4,1,3],[2,0,5],[3,2,2]] take columns 1, 0, 2 at cost 5: recomputed with scipy and by hand. As weights
    # here: 10 less the cost.
    costs = [[4, 1, 3], [2, 0, 5], [3, 2, 2]]
    table = {row: {column: 10 - cost for column, cost in enumerate(costs[row])} for row in range(3)}
    assert best_assignment(table) == {0: 1, 1: 0, 2: 2}


@settings(deadline=None, max_examples=400)
@given(small)
def test_equals_exhaustive_search(table: Table) -> None:
    chosen = best_assignment(table)
    assert len(set(chosen.values())) == len(chosen)
    assert all(table[row][column] > 0 for row, column in chosen.items())
    rows = list(table)
    spots = [*range(6), *[-1] * len(rows)]
    best = 0
    if len(rows) <= 3:
        best = max(
            (
                sum(max(0, table[r].get(c, 0)) for r, c in zip(rows, order, strict=True))
                for order in set(permutations(spots, len(rows)))
            ),
            default=0,
        )
        assert total(table, chosen) == best


@settings(deadline=None, max_examples=300)
@given(st.dictionaries(st.integers(0, 14), st.dictionaries(st.integers(0, 14), st.integers(-3, 60)), max_size=15))
def test_equals_scipy(table: Table) -> None:
    dense = np.zeros((15, 15))
    for row, entries in table.items():
        for column, weight in entries.items():
            dense[row, column] = max(0, weight)
    at = linear_sum_assignment(dense, maximize=True)
    assert total(table, best_assignment(table)) == dense[at].sum()


def test_weights_of_any_length_are_exact() -> None:
    huge = 1 << 80
    assert best_assignment({0: {0: huge, 1: huge + 1}, 1: {0: huge, 1: huge}}) == {0: 1, 1: 0}
