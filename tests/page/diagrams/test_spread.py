"""Spreading along a line, against scikit-learn's isotonic regression."""

from itertools import pairwise

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from sklearn.isotonic import IsotonicRegression

from archdiff.page.diagrams.spread import Berths, _pooled, candidates, spread

WANTED = st.lists(st.floats(0, 800), min_size=1, max_size=12)


@given(WANTED)
def test_pooling_is_isotonic_regression(values: list[float]) -> None:
    # scikit-learn's IsotonicRegression computes the same least-squares fit; recomputed at each run.
    theirs = IsotonicRegression().fit_transform(np.arange(len(values)), np.array(values))
    assert np.allclose(_pooled(values), theirs, atol=1e-6)


@given(WANTED, st.floats(8, 60))
def test_spread_things_keep_their_distance_and_order(values: list[float], size: float) -> None:
    values = sorted(values)
    middles = spread(values, [size] * len(values), 0, 800)
    for before, after in pairwise(middles):
        assert after - before >= size
    assert middles[0] >= size / 2


def test_things_with_room_enough_stand_where_they_want() -> None:
    assert spread([104, 304], [20, 20], 0, 400) == [104, 304]


def test_nothing_is_ever_put_where_something_is() -> None:
    berths = Berths()
    berths.take(100, 10)
    assert not berths.free(115, 10)
    assert berths.free(120, 10)
    assert candidates(50, 0, 100)[0] == 48
