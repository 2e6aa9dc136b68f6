"""Predetermined times against the definition of their unit and a worked sum.

Definition of the unit, 1 TMU = 0.036 s, so 100 TMU = 3.6 s: read in public texts, recomputed with scipy's hour.
Times of the motions after Vanegas et al. 2018, Resources, Conservation & Recycling, doi
10.1016/j.resconrec.2017.06.022: from memory; the sum: computed by hand.
"""

from __future__ import annotations

import pytest

from archdiff.figures.facts import handling
from archdiff.physics import motions
from archdiff.tables import read_table


def test_a_time_unit_is_a_hundred_thousandth_of_an_hour() -> None:
    constants = pytest.importorskip("scipy.constants")
    unit = read_table("motions").rows["time measurement unit"].number("seconds")
    assert unit == pytest.approx(constants.hour / 1e5)
    assert motions.seconds(100, unit) == pytest.approx(3.6)


def test_worked_sum_of_motions_and_undoing() -> None:
    """1 tool change + 4 x (position 40 + loosen 160) + remove 40 + turn product 50 = 930 TMU = 33.48 s."""
    times = {"tool change": 40, "position": 40, "loosen": 160, "remove": 40, "turn": 50}
    counts = {"tool change": 1, "position": 4, "loosen": 4, "remove": 1, "turn": 1}
    assert motions.handling(counts, times) == 930
    assert motions.seconds(930, 0.036) == pytest.approx(33.48)


def test_times_of_the_table_are_those_of_the_paper_as_remembered() -> None:
    assert dict(handling.times()) == {"tool change": 40, "find": 100, "turn": 50, "position": 40, "remove": 40}


def test_a_motion_without_a_time_is_refused() -> None:
    with pytest.raises(KeyError, match="swing"):
        motions.handling({"swing": 1}, handling.times())
