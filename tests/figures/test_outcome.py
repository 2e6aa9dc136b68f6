from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import FigureResult, Measure, Outcome, all_figures
from archdiff.quantities import Bounds

FIGURE = all_figures()[0]
NUMBERS = st.floats(0, 1e6, allow_subnormal=False)


def result(left: Bounds | None, right: Bounds | None) -> FigureResult:
    return FigureResult(FIGURE, Measure(left), Measure(right))


@pytest.mark.parametrize(
    ("left", "right", "outcome"),
    [
        (Bounds.exact(3), Bounds.exact(2), Outcome.LEFT_HIGHER),
        (Bounds.exact(2), Bounds.exact(3), Outcome.RIGHT_HIGHER),
        (Bounds.exact(3), Bounds.exact(3), Outcome.SAME),
        (Bounds.exact(0.1 + 0.2), Bounds.exact(0.3), Outcome.SAME),
        (Bounds(3, 2, 4), Bounds(3.5, 3, 5), Outcome.NO_DIFFERENCE),
        (Bounds(3, 2, 4), Bounds.exact(4), Outcome.NO_DIFFERENCE),
        (Bounds(3, 2, 4), Bounds(5, 4.5, 6), Outcome.RIGHT_HIGHER),
        (Bounds.at_least(5), Bounds.exact(4), Outcome.LEFT_HIGHER),
        (Bounds.at_least(3), Bounds.exact(4), Outcome.UNKNOWN),
        (Bounds.at_least(3), Bounds.at_least(3), Outcome.UNKNOWN),
        (None, Bounds.exact(0), Outcome.UNKNOWN),
        (Bounds.exact(0), None, Outcome.UNKNOWN),
    ],
)
def test_two_sides_differ_only_where_their_bounds_do_not_overlap(
    left: Bounds | None, right: Bounds | None, outcome: Outcome
) -> None:
    assert result(left, right).outcome is outcome


def test_a_figure_of_the_pair_has_no_outcome_and_no_ratio() -> None:
    alone = FigureResult(FIGURE, pair=Measure(Bounds.exact(1)))
    assert alone.outcome is Outcome.UNKNOWN
    assert alone.ratio is None


def test_different_currencies_are_never_compared() -> None:
    euros, kroner = Measure(Bounds.exact(100), unit="EUR"), Measure(Bounds.exact(900), unit="DKK")
    assert FigureResult(FIGURE, euros, kroner).outcome is Outcome.UNKNOWN
    assert FigureResult(FIGURE, euros, kroner).ratio is None
    assert FigureResult(FIGURE, euros, replace(kroner, unit="EUR")).outcome is Outcome.RIGHT_HIGHER


@pytest.mark.parametrize(
    ("left", "right", "ratio"),
    [
        (Bounds.exact(4), Bounds.exact(2), (0.5, 0.5)),
        (Bounds(4, 2, 8), Bounds.exact(4), (0.5, 2)),
        (Bounds.exact(4), Bounds.at_least(2), (0.5, inf)),
        (Bounds.at_least(4), Bounds.exact(2), (0, 0.5)),
        (Bounds.exact(4), Bounds.exact(0), (0, 0)),
    ],
)
def test_ratio_is_right_over_left_with_bounds(left: Bounds, right: Bounds, ratio: tuple[float, float]) -> None:
    found = result(left, right).ratio
    assert found is not None
    assert (found.low, found.high) == ratio


@pytest.mark.parametrize(
    ("left", "right"),
    [
        (Bounds.exact(0), Bounds.exact(2)),
        (Bounds(1, 0, 2), Bounds.exact(2)),
        (None, Bounds.exact(2)),
        (Bounds.exact(2), None),
        (Bounds.at_least(3), Bounds.at_least(3)),
    ],
)
def test_no_ratio_where_the_left_may_be_nothing_or_nothing_can_be_said(
    left: Bounds | None, right: Bounds | None
) -> None:
    assert result(left, right).ratio is None


@settings(deadline=None)
@given(NUMBERS, NUMBERS, NUMBERS, NUMBERS, st.floats(0, 1), st.floats(0, 1))
def test_a_shown_difference_holds_for_all_true_values_and_turns_with_the_sides(
    a: float, b: float, c: float, d: float, s: float, t: float
) -> None:
    left, right = Bounds(None, min(a, b), max(a, b)), Bounds(None, min(c, d), max(c, d))
    true_left, true_right = left.low + s * (left.high - left.low), right.low + t * (right.high - right.low)
    outcome, turned = result(left, right).outcome, result(right, left).outcome
    mirror = {Outcome.LEFT_HIGHER: Outcome.RIGHT_HIGHER, Outcome.RIGHT_HIGHER: Outcome.LEFT_HIGHER}
    assert turned is mirror.get(outcome, outcome)
    if outcome is Outcome.LEFT_HIGHER:
        assert true_left > true_right
    if outcome is Outcome.SAME:
        assert true_left == pytest.approx(true_right)
    ratio = result(left, right).ratio
    if ratio is not None and true_left > 0:
        assert ratio.low * (1 - 1e-9) <= true_right / true_left <= ratio.high * (1 + 1e-9)


def test_temperatures_differ_but_have_no_ratio() -> None:
    # 40 is not twice 20 on a scale whose zero is a convention (Stevens 1946).
    warm = replace(result(Bounds.exact(20), Bounds.exact(40)), figure=replace(FIGURE, unit="°C"))
    assert warm.outcome is Outcome.RIGHT_HIGHER
    assert warm.ratio is None
