"""Laying two rows side by side, against every other way of doing it and against networkx."""

from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.paths.sequence import best_alignment, sum_of

calm = settings(deadline=None, max_examples=300)


@st.composite
def problems(draw, most):
    rows, columns = draw(st.integers(0, most)), draw(st.integers(0, most))
    row = st.lists(st.integers(-9, 9), min_size=columns, max_size=columns)
    return draw(st.lists(row, min_size=rows, max_size=rows)), columns, draw(st.integers(-5, 1))


def every_way(rows, columns):
    """All sets of pairs that rise in both: as many rows as columns, each chosen in order."""
    for size in range(min(rows, columns) + 1):
        for left in combinations(range(rows), size):
            for right in combinations(range(columns), size):
                yield list(zip(left, right, strict=True))


def longest_way(worth, columns, alone):
    """The longest way over the grid of the 1970 paper, by networkx: one step a row, a column, or both."""
    graph = nx.DiGraph()
    rows = len(worth)
    graph.add_node((0, 0))
    for i in range(rows + 1):
        for j in range(columns + 1):
            if i:
                graph.add_edge((i - 1, j), (i, j), weight=alone)
            if j:
                graph.add_edge((i, j - 1), (i, j), weight=alone)
            if i and j:
                graph.add_edge((i - 1, j - 1), (i, j), weight=worth[i - 1][j - 1])
    turned = nx.DiGraph((a, b, {"weight": -d["weight"]}) for a, b, d in graph.edges(data=True))
    turned.add_node((0, 0))
    return -nx.bellman_ford_path_length(turned, (0, 0), (rows, columns))


def test_textbook_example() -> None:
    # GCATGCG and GATTACA with 1 for a match, -1 for a mismatch and -1 for a gap come to 0, the example under which
    # the method is usually taught: from memory, and recomputed with networkx.
    worth = [[1 if a == b else -1 for b in "GATTACA"] for a in "GCATGCG"]
    assert sum_of(best_alignment(worth, 7, -1), worth, 7, -1) == 0
    assert longest_way(worth, 7, -1) == 0


def test_by_hand() -> None:
    # Rows a, b; columns x, y, z: a-x 5, b-z 4, two together, y alone at -2: 7. Any other way has less (worked by hand).
    worth = [[5, 1, 0], [0, 3, 4]]
    assert best_alignment(worth, 3, -2) == [(0, 0), (1, 2)]
    assert sum_of([(0, 0), (1, 2)], worth, 3, -2) == 7


@calm
@given(problems(4))
def test_no_way_is_better(problem) -> None:
    worth, columns, alone = problem
    found = best_alignment(worth, columns, alone)
    assert found in list(every_way(len(worth), columns))
    best = max(sum_of(way, worth, columns, alone) for way in every_way(len(worth), columns))
    assert sum_of(found, worth, columns, alone) == best


@calm
@given(problems(9))
def test_as_good_as_the_longest_way_over_the_grid(problem) -> None:
    worth, columns, alone = problem
    found = best_alignment(worth, columns, alone)
    assert sum_of(found, worth, columns, alone) == longest_way(worth, columns, alone)


@calm
@given(problems(5))
def test_turned_round_it_is_as_good(problem) -> None:
    worth, columns, alone = problem
    turned = [list(column) for column in zip(*worth, strict=True)] if worth else [[] for _ in range(columns)]
    there, back = best_alignment(worth, columns, alone), best_alignment(turned, len(worth), alone)
    best = [way for way in every_way(len(worth), columns)
            if sum_of(way, worth, columns, alone) == sum_of(there, worth, columns, alone)]  # fmt: skip
    assert [(j, i) for i, j in back] in best
    if len(best) == 1:
        assert [(j, i) for i, j in back] == there


def test_numbers_of_any_length_are_exact() -> None:
    huge = 1 << 80
    assert best_alignment([[huge, huge + 1]], 2, -1) == [(0, 1)]
    assert best_alignment([[huge + 1, huge]], 2, -1) == [(0, 0)]


@pytest.mark.parametrize("columns", [0, 3])
def test_nothing_beside_something_stays_alone(columns) -> None:
    assert best_alignment([], columns, -2) == []
    assert best_alignment([[] for _ in range(columns)], 0, -2) == []
