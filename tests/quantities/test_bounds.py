"""Interval arithmetic holds every true result: the fundamental theorem (Moore, Kearfott & Cloud 2009, theorem 5.1).

Checked by drawing numbers inside the operands and computing with them exactly, in fractions.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from archdiff.quantities import Bounds
from archdiff.quantities.bounds import total

INF = math.inf
numbers = st.integers(-1000, 1000).map(lambda n: n / 8)  # exact in binary, so that no rounding hides or makes a fault


@st.composite
def bounds(draw: st.DrawFn) -> Bounds:
    low, best, high = sorted(draw(st.tuples(numbers, numbers, numbers)))
    return Bounds(draw(st.sampled_from([best, None])) if low < high else best, low, high)


@st.composite
def with_inner(draw: st.DrawFn) -> tuple[Bounds, Fraction]:
    """Bounds and one number that lies in them."""
    outer = draw(bounds())
    share = Fraction(draw(st.integers(0, 16)), 16)
    return outer, Fraction(outer.low) + share * (Fraction(outer.high) - Fraction(outer.low))


def holds(outer: Bounds, value: Fraction) -> bool:
    slack = Fraction(1, 10**9) * (1 + abs(value))
    low = outer.low == -INF or Fraction(outer.low) <= value + slack
    return low and (outer.high == INF or value - slack <= Fraction(outer.high))


@given(with_inner(), with_inner())
def test_sums_differences_and_products_hold_the_true_result(
    left: tuple[Bounds, Fraction], right: tuple[Bounds, Fraction]
) -> None:
    (a, x), (b, y) = left, right
    assert holds(a + b, x + y)
    assert holds(a - b, x - y)
    assert holds(a * b, x * y)


@given(with_inner(), with_inner())
def test_quotients_hold_the_true_result(left: tuple[Bounds, Fraction], right: tuple[Bounds, Fraction]) -> None:
    (a, x), (b, y) = left, right
    assume(y != 0)
    assert holds(a / b, x / y)


@given(bounds(), bounds())
def test_ends_are_reached(a: Bounds, b: Bounds) -> None:
    """No wider than need be: every end is the result of two ends (Moore, Kearfott & Cloud 2009, section 2.3)."""
    ends = [(x, y) for x in (a.low, a.high) for y in (b.low, b.high)]
    assert ((a + b).low, (a + b).high) == (min(x + y for x, y in ends), max(x + y for x, y in ends))
    assert ((a - b).low, (a - b).high) == (min(x - y for x, y in ends), max(x - y for x, y in ends))
    assert ((a * b).low, (a * b).high) == (min(x * y for x, y in ends), max(x * y for x, y in ends))


@given(bounds(), numbers)
def test_plain_numbers_are_exact(a: Bounds, n: float) -> None:
    assert a + n == n + a == a + Bounds.exact(n)
    assert a * n == n * a == a * Bounds.exact(n)
    assert a - n == a - Bounds.exact(n)


@given(bounds(), bounds())
def test_the_best_value_goes_along(a: Bounds, b: Bounds) -> None:
    if a.best is not None and b.best is not None:
        assert (a + b).best == a.best + b.best
        assert (a * b).best == a.best * b.best
    else:
        assert (a + b).best is None or (a + b).is_exact


def test_published_examples() -> None:
    """Moore, Kearfott & Cloud 2009, sections 2.2 and 2.3 (from memory; each recomputed by hand)."""
    a, b = Bounds(None, 1, 2), Bounds(None, 3, 4)
    assert a + b == Bounds(None, 4, 6)
    assert a - b == Bounds(None, -3, -1)
    assert a * b == Bounds(None, 3, 8)
    assert Bounds(None, -1, 1) * Bounds(None, -2, 3) == Bounds(None, -3, 3)
    quotient = Bounds(None, 4, 10) / Bounds(None, 1, 2)
    assert (quotient.low, quotient.high) == (2, 10)


@pytest.mark.parametrize(
    ("divisor", "low", "high"),
    [
        (Bounds(None, 0, 2), 0.5, INF),
        (Bounds(None, -2, 0), -INF, -0.5),
        (Bounds(None, -2, 2), -INF, INF),
        (Bounds.at_least(4), 0, 0.25),
        (Bounds(None, -INF, -4), -0.25, 0),
    ],
)
def test_one_over_what_may_be_nothing_or_without_end(divisor: Bounds, low: float, high: float) -> None:
    assert (divisor.inverse().low, divisor.inverse().high) == (low, high)


def test_nothing_is_divided_by_zero() -> None:
    with pytest.raises(ZeroDivisionError):
        Bounds.exact(1.0) / Bounds.exact(0.0)


def test_no_parts_of_unknown_weight_weigh_nothing() -> None:
    assert Bounds.at_least(3) * 0 == Bounds.exact(0.0)
    assert Bounds.unknown() * 0 == Bounds.exact(0.0)


def test_what_has_no_end_stays_without_one() -> None:
    assert (Bounds.at_least(3) + 2) == Bounds.at_least(5)
    assert (Bounds.at_least(3) * 2) == Bounds.at_least(6)
    assert (Bounds.at_least(3) * -2).high == -6
    assert not Bounds.at_least(3).is_known
    assert not Bounds.at_least(3).is_exact
    assert Bounds(1.5, 1, 2).is_known


def test_bounds_that_contradict_themselves_are_refused() -> None:
    with pytest.raises(ValueError, match="above"):
        Bounds(None, 2, 1)
    with pytest.raises(ValueError, match="outside"):
        Bounds(3, 1, 2)
    with pytest.raises(ValueError, match="above"):
        Bounds(None, math.nan, 1)


@given(with_inner())
def test_a_rising_function_holds_the_true_result(case: tuple[Bounds, Fraction]) -> None:
    outer, x = case
    assert holds(outer.mapped(lambda value: value**3), x**3)


@given(bounds(), bounds())
def test_overlap_is_having_a_number_in_common(a: Bounds, b: Bounds) -> None:
    common = max(a.low, b.low) <= min(a.high, b.high)
    assert a.overlaps(b) == b.overlaps(a) == common


@given(st.lists(bounds(), max_size=6))
def test_a_total_is_the_sum_of_the_ends(terms: list[Bounds]) -> None:
    assert total(terms).low == sum(term.low for term in terms)
    assert total(terms).high == sum(term.high for term in terms)
