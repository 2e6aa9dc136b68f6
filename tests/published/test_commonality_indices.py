"""Indices of commonality, worked by hand.

Degree of commonality: Collier 1981, Decision Sciences 12:85-96. Total constant commonality: Wacker & Treleven 1986,
Journal of Operations Management 6:219-241. Neither paper was read for this test (formulas from memory); the values
were worked by hand from the formulas.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.figures.facts.shared_kinds import degree_of_commonality, total_constant_commonality, uses_of


@pytest.mark.parametrize(
    ("products", "uses", "distinct", "degree", "constant"),
    [
        (["abc", "abd", "ae"], 8, 5, 1.6, 0.428571),
        (["abc", "abc", "abc"], 9, 3, 3.0, 0.75),
    ],
)
def test_three_products(products: list[str], uses: int, distinct: int, degree: float, constant: float) -> None:
    # Worked by hand: 8 uses of 5 parts, 8 / 5 = 1.6 and 1 - 4 / 7; 9 uses of 3 parts, 3 and 1 - 2 / 8.
    found = uses_of([frozenset(parts) for parts in products])
    assert found == (uses, distinct)
    assert degree_of_commonality(*found) == pytest.approx(degree)
    assert total_constant_commonality(*found) == pytest.approx(constant, abs=1e-6)


def test_what_all_three_products_have_is_one_of_five() -> None:
    products = [frozenset(parts) for parts in ("abc", "abd", "ae")]
    assert len(frozenset.intersection(*products)) / uses_of(products)[1] == pytest.approx(1 / 5)


@pytest.mark.parametrize("count", [1, 2, 5, 40])
def test_two_identical_products_do_not_reach_one(count: int) -> None:
    # Worked by hand: 2 d uses of d parts give 1 - (d - 1) / (2 d - 1) = d / (2 d - 1).
    parts = frozenset(range(count))
    assert total_constant_commonality(*uses_of([parts, parts])) == pytest.approx(count / (2 * count - 1))
    assert degree_of_commonality(*uses_of([parts, parts])) == 2


SETS = st.lists(st.frozensets(st.integers(0, 9), min_size=1), min_size=1, max_size=4)


@given(SETS)
def test_both_stay_within_their_limits(products: list[frozenset[int]]) -> None:
    uses, distinct = uses_of(products)
    assert 1 <= degree_of_commonality(uses, distinct) <= len(products)
    assert 0 <= total_constant_commonality(uses, distinct) <= 1


@given(st.frozensets(st.integers(0, 9), min_size=1), st.frozensets(st.integers(10, 19), min_size=1))
def test_nothing_shared_gives_one_and_nought(one: frozenset[int], other: frozenset[int]) -> None:
    found = uses_of([one, other])
    assert degree_of_commonality(*found) == 1
    assert total_constant_commonality(*found) == pytest.approx(0)
