"""Structural complexity against numpy on the matrix of single things, and the limits against random graphs."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.structure.complexity import (
    complexity,
    energy,
    greatest_complexity,
    greatest_energy,
    least_complexity,
    least_energy,
)

Pairs = list[tuple[int, int]]


@st.composite
def graphs(draw: st.DrawFn) -> tuple[Pairs, list[int]]:
    count = draw(st.integers(1, 8))
    possible = list(combinations(range(count), 2))
    pairs = draw(st.lists(st.sampled_from(possible), unique=True)) if possible else []
    return pairs, draw(st.lists(st.integers(1, 4), min_size=count, max_size=count))


def one_by_one(pairs: Pairs, counts: list[int]) -> np.ndarray:
    owner = [entry for entry, count in enumerate(counts) for _ in range(count)]
    linked = {*pairs, *((b, a) for a, b in pairs)}
    return np.array([[float((a, b) in linked) for b in owner] for a in owner])


@settings(deadline=None, max_examples=200)
@given(graphs())
def test_energy_is_the_sum_of_singular_values_of_the_matrix_of_single_things(drawn: tuple[Pairs, list[int]]) -> None:
    pairs, counts = drawn
    values = np.linalg.svd(one_by_one(pairs, counts), compute_uv=False)
    assert energy(pairs, counts) == pytest.approx(values.sum(), abs=1e-6)


@settings(deadline=None, max_examples=200)
@given(graphs(), st.integers(0, 30), st.integers(0, 6))
def test_no_structure_passes_the_limits(drawn: tuple[Pairs, list[int]], fewer_links: int, fewer: int) -> None:
    # 2 sqrt(m) (Caporossi et al. 1999) and sqrt(2 m n) (McClelland 1971): from memory, held against numpy here.
    pairs, counts = drawn
    things = sum(counts)
    links = sum(counts[a] * counts[b] for a, b in pairs)
    value = energy(pairs, counts)
    assert least_energy(links) <= value + 1e-9
    assert value <= greatest_energy(things, links) + 1e-9
    whole = complexity(things, links, value)
    known = max(0, links - fewer_links)
    assert least_complexity(things, known, more=False) <= whole + 1e-9
    assert least_complexity(max(1, things - fewer), known, more=True) <= whole + 1e-9
    assert whole <= greatest_complexity(things) + 1e-9


@given(st.integers(1, 60), st.integers(0, 900), st.integers(0, 20), st.integers(0, 50))
def test_more_knowledge_only_raises_the_lowest(things: int, links: int, more_things: int, more_links: int) -> None:
    low = least_complexity(things, links, more=True)
    assert low <= least_complexity(things + more_things, links + more_links, more=True) + 1e-9
    assert low <= least_complexity(things, links, more=False) + 1e-9


def test_nothing_is_not_complex() -> None:
    assert energy([], []) == 0
    assert complexity(0, 0, 0.0) == 0
    assert complexity(7, 0, energy([], [7])) == 7
