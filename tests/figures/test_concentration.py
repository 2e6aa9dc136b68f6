"""Spread measures against numpy, scipy and a fine grid over the limits."""

from __future__ import annotations

from itertools import product
from math import inf, log2
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.stats import entropy

from archdiff.figures.facts.spread import (
    EFFECTIVE_NUMBER,
    ENTROPY,
    GINI,
    Spread,
    effective_number,
    entropy_bits,
    gini,
    spread_within,
)
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

COUNTS = st.lists(st.integers(0, 300), min_size=1, max_size=8).filter(any)
MEASURES = [EFFECTIVE_NUMBER, GINI, ENTROPY]


@settings(deadline=None)
@given(COUNTS)
def test_entropy_equals_that_of_scipy(values: list[int]) -> None:
    assert entropy_bits(values) == pytest.approx(float(entropy(values, base=2)), abs=1e-12)


@settings(deadline=None)
@given(COUNTS)
def test_gini_equals_the_mean_absolute_difference_by_numpy(values: list[int]) -> None:
    x = np.array(values, float)
    assert gini(values) == pytest.approx(float(np.abs(x[:, None] - x).mean() / (2 * x.mean())), abs=1e-12)


@settings(deadline=None)
@given(COUNTS)
def test_effective_number_equals_the_inverse_of_the_squared_norm_of_shares_by_numpy(values: list[int]) -> None:
    x = np.array(values, float)
    assert effective_number(values) == pytest.approx(float(1 / np.linalg.norm(x / x.sum()) ** 2))


LIMITS = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)).map(sorted), min_size=2, max_size=4)


@pytest.mark.parametrize("measure", MEASURES)
@settings(deadline=None)
@given(limits=LIMITS, steps=st.lists(st.floats(0, 1), min_size=4, max_size=4))
def test_no_values_within_the_limits_lie_outside_the_bounds(
    measure: Spread, limits: list[list[int]], steps: list[float]
) -> None:
    values = [low + (high - low) * step for (low, high), step in zip(limits, steps, strict=False)]
    assume(sum(values) > 1e-6)
    bounds = spread_within([Bounds(None, low, high) for low, high in limits], measure)
    assert bounds is not None
    assert bounds.low - 1e-9 <= measure.of(values) <= bounds.high + 1e-9


@pytest.mark.parametrize("measure", MEASURES)
@pytest.mark.parametrize(
    "limits", [[(10, 20), (5, 60), (30, 30)], [(0, 8), (1, 2), (4, 40)], [(3, 3), (20, 50), (20, 50)]]
)
def test_bounds_are_no_wider_than_a_fine_grid_over_the_limits(
    measure: Spread, limits: list[tuple[float, float]]
) -> None:
    grid = [measure.of(v) for v in product(*(np.linspace(low, high, 61) for low, high in limits))]
    bounds = spread_within([Bounds(None, low, high) for low, high in limits], measure)
    assert bounds is not None
    assert bounds.low == pytest.approx(min(grid), abs=2e-3)
    assert bounds.high == pytest.approx(max(grid), abs=2e-3)
    assert bounds.low <= min(grid) + 1e-12
    assert bounds.high >= max(grid) - 1e-12


@pytest.mark.parametrize("measure", MEASURES)
def test_a_value_without_upper_limit_is_the_limit_of_ever_larger_ones(measure: Spread) -> None:
    known = [Bounds.exact(40), Bounds.exact(10)]
    bounds = spread_within([*known, Bounds.at_least(5)], measure)
    far = [measure.of([40, 10, x]) for x in np.geomspace(5, 1e9, 4001)]
    assert bounds is not None
    assert bounds.low == pytest.approx(min(far), abs=1e-4)
    assert bounds.high == pytest.approx(max(far), abs=1e-4)


def test_many_values_in_doubt_give_the_widest_bounds_there_can_be() -> None:
    bounds = spread_within([Bounds(None, 1, 9)] * 14, EFFECTIVE_NUMBER)
    assert bounds is not None
    assert (bounds.low, bounds.high) == (1, pytest.approx(14))


def test_nothing_placed_anywhere_has_no_spread() -> None:
    assert spread_within([Bounds.exact(0), Bounds.exact(0)], GINI) is None
    assert spread_within([], GINI) is None


WHOLE = "coverage: {boards: whole}\n"
THREE = """boards:
  a: {placements: {top: 50, bottom: 0}}
  b: {placements: {top: 20, bottom: 10}}
  c: {placements: {top: 20, bottom: 0}}
"""
FIGURES = ("effective-boards", "placement-gini", "allocation-entropy")


def test_placements_are_shared_out_over_boards(record_of: RecordOf, measure_of: MeasureOf) -> None:
    x = np.array([50, 30, 20])
    expected = {
        "effective-boards": x.sum() ** 2 / (x**2).sum(),
        "placement-gini": np.abs(x[:, None] - x).mean() / (2 * x.mean()),
        "allocation-entropy": entropy(x, base=2),
    }
    for figure, value in expected.items():
        bounds = measure_of(figure, record_of(WHOLE + THREE)).bounds
        assert bounds is not None
        assert bounds.low == bounds.high == pytest.approx(float(value))


@pytest.mark.parametrize("figure", FIGURES)
def test_a_side_not_counted_bounds_the_spread_and_is_named(
    figure: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    exact = measure_of(figure, record_of(WHOLE + THREE)).bounds
    measure = measure_of(figure, record_of(WHOLE + THREE.replace(", bottom: 10", "")))
    assert measure.missing == ("b: placements bottom",)
    assert measure.bounds is not None
    assert exact is not None
    assert measure.bounds.low < exact.low < measure.bounds.high < inf


@pytest.mark.parametrize("figure", FIGURES)
def test_boards_looked_at_in_part_say_nothing_of_the_spread(
    figure: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(THREE))
    assert (measure.bounds, measure.missing) == (None, ("boards: how far it was looked at is not stated",))


@pytest.mark.parametrize(("figure", "value"), [*zip(FIGURES, (1, 0, 0), strict=True)])
def test_the_only_board_holds_all_parts_however_many(
    figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    assert measure_of(figure, record_of(WHOLE + "boards: {main: {}}\n")).bounds == Bounds.exact(value)


@pytest.mark.parametrize(("figure", "value"), [*zip(FIGURES, (4, 0, log2(4)), strict=True)])
def test_boards_alike_count_one_by_one(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    bounds = measure_of(figure, record_of(WHOLE + "boards: {a: {count: 4, placements: {top: 7, bottom: 1}}}\n")).bounds
    assert bounds is not None
    assert bounds.low == bounds.high == pytest.approx(value)
