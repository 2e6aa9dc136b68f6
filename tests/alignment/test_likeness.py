"""How measured numbers are weighed, against scipy's normal distribution and counting one by one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from archdiff.alignment import likeness

READINGS = st.lists(st.tuples(st.floats(-5, 5), st.integers(0, 3)), max_size=30)


@pytest.mark.parametrize("apart", [0.0, 0.02, 0.08, 0.2])
@pytest.mark.parametrize("chance", [0.1, 0.4, 1.0])
def test_two_readings_weigh_the_ratio_of_normal_density_to_chance(apart: float, chance: float) -> None:
    kept, window = likeness._NUMBER_KEPT, 2 * likeness._WINDOW
    same = norm.pdf(apart, scale=likeness._READING) * window
    expected = np.log(kept * same / chance + 1 - kept)
    assert likeness._by_number(np.array([apart]), np.array([chance]))[0] == pytest.approx(expected)


def test_readings_far_apart_weigh_what_is_left_for_another_number() -> None:
    weight = likeness._by_number(np.array([3.0]), np.array([0.2]))[0]
    assert weight == pytest.approx(np.log(1 - likeness._NUMBER_KEPT))


@given(READINGS)
def test_near_readings_are_those_within_the_window_of_the_same_function(readings: list[tuple[float, int]]) -> None:
    values = np.array([round(value, 3) for value, _ in readings])
    groups = np.array([group for _, group in readings], dtype=np.int64)
    # The edge of the window is left out of the question: there the last digit decides.
    width = likeness._WINDOW
    counted = likeness._near_ones(values, groups)
    for k, (value, group) in enumerate(zip(values, groups, strict=True)):
        gaps = np.abs(values[groups == group] - value)
        assert np.count_nonzero(gaps < width - 1e-9) <= counted[k] <= np.count_nonzero(gaps < width + 1e-9)
