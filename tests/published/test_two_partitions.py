"""Two partitions of the same things, against published values and scikit-learn and networkx.

Definitions: variation of information H(X) + H(Y) - 2 I (Meila 2007, Journal of Multivariate Analysis
98:873-895), split-join (van Dongen 2000, CWI report INS-R0012). Neither paper was read for this test: the
values of the table were recomputed with general libraries (igraph gave the split-join halves), the two
contingency tables are those of Manning, Raghavan & Schuetze, Introduction to Information Retrieval (2008), fig. 16.4
(from memory; recomputed) and of a worked example of the adjusted Rand index (from memory; recomputed).
"""

from __future__ import annotations

from collections import Counter
from math import log, log2

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import mutual_info_score, normalized_mutual_info_score

from archdiff.alignment.hosts import least_moves
from archdiff.figures.facts.overlap import mutual_information, split_join, variation_of_information

Table = dict[tuple[str, str], int]


def table_of(left: str, right: str) -> Table:
    return dict(Counter(zip(left, right, strict=True)))


def table_from(rows: list[list[int]]) -> Table:
    return {(f"r{i}", f"c{j}"): n for i, row in enumerate(rows) for j, n in enumerate(row) if n}


ROWS = [
    # left, right, variation of information in nats, normalised mutual information, split-join halves (all recomputed)
    ("0011", "0012", 0.346574, 0.8, (1, 0)),
    ("000111", "001122", 0.867563, 0.515804, (2, 1)),
    ("0000111222", "0001111122", 0.891024, 0.579419, (2, 2)),
    ("00001111", "00000000", log(2), 0.0, (0, 4)),
    ("00000000", "01234567", log(8), 0.0, (7, 0)),
]


@pytest.mark.parametrize(("left", "right", "nats", "share", "halves"), ROWS)
def test_tabled_values(left: str, right: str, nats: float, share: float, halves: tuple[int, int]) -> None:
    table = table_of(left, right)
    assert variation_of_information(table) == pytest.approx(nats / log(2), abs=2e-6)
    assert mutual_information(table) == pytest.approx(share, abs=1e-6)
    assert sorted(split_join(table)) == sorted(halves)


def test_a_half_of_nothing_means_that_one_side_only_splits_the_other() -> None:
    assert split_join(table_of("00001111", "00000000")) == (0, 4)
    assert split_join(table_of("00000000", "00001111")) == (4, 0)


def test_clusters_of_the_retrieval_handbook() -> None:
    # Manning et al. 2008: published NMI 0.36 (from memory); VI 1.366306 nats, split-join 5 + 5 (recomputed).
    rows = [[5, 1, 0], [1, 4, 1], [2, 0, 3]]
    table = table_from(rows)
    assert variation_of_information(table) == pytest.approx(1.366306 / log(2), abs=2e-6)
    assert split_join(table) == (5, 5)
    assert mutual_information(table) == pytest.approx(0.36, abs=0.005)
    assert mutual_information(table) == pytest.approx(0.364562, abs=1e-6)  # recomputed
    left = [i for i, row in enumerate(rows) for n in row for _ in range(n)]
    right = [j for row in rows for j, n in enumerate(row) for _ in range(n)]
    assert normalized_mutual_info_score(left, right) == pytest.approx(0.36, abs=0.005)


LABELS = st.lists(st.tuples(st.sampled_from("abcd"), st.sampled_from("wxyz")), min_size=1, max_size=30)


@settings(deadline=None)
@given(LABELS)
def test_variation_of_information_equals_that_from_scikit_learn(pairs: list[tuple[str, str]]) -> None:
    left, right = zip(*pairs, strict=True)
    entropies = mutual_info_score(left, left) + mutual_info_score(right, right)
    expected = (entropies - 2 * mutual_info_score(left, right)) / np.log(2)
    assert variation_of_information(dict(Counter(pairs))) == pytest.approx(expected, abs=1e-9)


@settings(deadline=None)
@given(LABELS)
def test_normalised_mutual_information_equals_that_of_scikit_learn(pairs: list[tuple[str, str]]) -> None:
    left, right = zip(*pairs, strict=True)
    expected = normalized_mutual_info_score(left, right)
    assert mutual_information(dict(Counter(pairs))) == pytest.approx(expected, abs=1e-9)


@settings(deadline=None)
@given(LABELS)
def test_split_join_equals_the_row_and_column_maxima_of_scikit_learn(pairs: list[tuple[str, str]]) -> None:
    from sklearn.metrics.cluster import contingency_matrix

    left, right = zip(*pairs, strict=True)
    matrix = contingency_matrix(left, right)
    expected = (len(pairs) - matrix.max(axis=1).sum(), len(pairs) - matrix.max(axis=0).sum())
    assert split_join(dict(Counter(pairs))) == expected


TRIPLES = st.lists(st.tuples(*[st.sampled_from("abc")] * 3), min_size=1, max_size=25)


def moves_between(table: Table) -> int:
    """Partition distance (Almudevar & Field 1999; Gusfield 2002; both from memory)."""
    return sum(table.values()) - sum(table[pair] for pair in least_moves(table).items())


@settings(deadline=None)
@given(TRIPLES)
def test_moving_one_thing_at_a_time_is_a_distance_too(triples: list[tuple[str, str, str]]) -> None:
    direct, first, second = (
        moves_between(dict(Counter((t[i], t[j]) for t in triples))) for i, j in ((0, 2), (0, 1), (1, 2))
    )
    assert direct <= first + second
    assert moves_between(dict(Counter((t[2], t[0]) for t in triples))) == direct
    assert moves_between(dict(Counter((t[1], t[1]) for t in triples))) == 0
    # Moving by way of the common refinement takes as many moves as the two halves of split-join.
    assert direct <= sum(split_join(dict(Counter((t[0], t[2]) for t in triples))))


@settings(deadline=None)
@given(TRIPLES)
def test_both_are_distances(triples: list[tuple[str, str, str]]) -> None:
    def distances(i: int, j: int) -> tuple[float, int]:
        table = dict(Counter((t[i], t[j]) for t in triples))
        return variation_of_information(table), sum(split_join(table))

    direct, first, second = distances(0, 2), distances(0, 1), distances(1, 2)
    assert direct[0] <= first[0] + second[0] + 1e-9
    assert direct[1] <= first[1] + second[1]
    assert distances(2, 0) == pytest.approx(direct)
    assert distances(1, 1) == (pytest.approx(0, abs=1e-9), 0)
    assert direct[0] <= log2(len(triples)) + 1e-9


@pytest.mark.parametrize(("k", "n"), [(4, 4), (4, 10), (6, 24)])
def test_halving_one_group_costs_its_share_in_bits(k: int, n: int) -> None:
    # Meila 2007: splitting one group of k of n things in halves costs (k / n) ln 2 nats, that is k / n bits.
    left = "a" * k + "b" * (n - k)
    right = "a" * (k // 2) + "c" * (k // 2) + "b" * (n - k)
    assert variation_of_information(table_of(left, right)) == pytest.approx(k / n)


def test_nothing_shared_is_no_distance() -> None:
    assert variation_of_information({}) == 0
    assert mutual_information({}) == 1
    assert split_join({}) == (0, 0)
