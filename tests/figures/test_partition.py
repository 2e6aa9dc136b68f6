"""Figures of the pair on made alignments; partition distance by scipy's assignment, the Rand index by scikit-learn."""

from __future__ import annotations

from collections import Counter
from math import log2
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment
from sklearn.metrics import adjusted_rand_score, mutual_info_score, normalized_mutual_info_score

from archdiff.alignment import Agreement, Alignment, Pair, Seat, Verdict, partition_of
from archdiff.figures import Measure, PairView, all_figures
from archdiff.record.silence import Silence, Silent

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

PLACES = "abc"
FIGURES = {figure.id: figure.of_pair for figure in all_figures() if figure.of_pair is not None}


def record_with(record_of: RecordOf, places: str) -> Record:
    """One part a letter, on the board of that name; '?' for a part whose place is not stated."""
    on = ["" if place == "?" else f"on: {place}, " for place in places]
    parts = "".join(f"  U{i}: {{{place}function: expansion, name: part {i}}}\n" for i, place in enumerate(on))
    boards = "".join(f"  {name}: {{}}\n" for name in PLACES)
    return record_of(f"boards:\n{boards}parts:\n{parts}")


def pair_of(left: Record, right: Record, i: int) -> Pair:
    seats = [Seat("expansion", (r.elements[f"U{i}"],), "", r.elements[f"U{i}"].hosts) for r in (left, right)]
    return Pair(seats[0], seats[1], "expansion", "compute", Verdict.ALIKE, Agreement.SAME, Agreement.UNKNOWN)


def view_of(record_of: RecordOf, left_places: str, right_places: str) -> PairView:
    left, right = record_with(record_of, left_places), record_with(record_of, right_places)
    both = [p for p in zip(left_places, right_places, strict=True) if "?" not in p]
    overlap = np.array([[Counter(both)[a, b] for b in PLACES] for a in PLACES])
    rows, columns = linear_sum_assignment(overlap, maximize=True)
    hosts = {PLACES[i]: PLACES[j] for i, j in zip(rows, columns, strict=True)}
    pairs = tuple(pair_of(left, right, i) for i in range(len(left_places)))
    alignment = Alignment(pairs, (), host_of=hosts)
    return PairView(left, right, alignment, partition_of(alignment, left, right))


def measured(figure: str, view: PairView) -> Measure:
    return FIGURES[figure](view)


def truth(left: str, right: str) -> dict[str, float]:
    overlap = np.array([[Counter(zip(left, right, strict=True))[a, b] for b in PLACES] for a in PLACES])
    kept = overlap[linear_sum_assignment(overlap, maximize=True)].sum()
    x, y = list(left), list(right)
    bits = (mutual_info_score(x, x) + mutual_info_score(y, y) - 2 * mutual_info_score(x, y)) / np.log(2)
    return {
        "partition-distance": len(left) - kept,
        "pairs-placed": len(left),
        "adjusted-rand": adjusted_rand_score(x, y),
        "information-variation": bits,
        "mutual-information-share": normalized_mutual_info_score(x, y),
        "split-join-distance": 2 * len(left) - overlap.max(axis=0).sum() - overlap.max(axis=1).sum(),
        "paired-share": 1,
    }


CUTS = st.integers(2, 8).flatmap(
    lambda n: st.tuples(st.text(PLACES, min_size=n, max_size=n), st.text(PLACES, min_size=n, max_size=n))
)
CALM = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=60)


@CALM
@given(cuts=CUTS)
def test_all_placed_equals_what_the_libraries_say(cuts: tuple[str, str], record_of: RecordOf) -> None:
    view = view_of(record_of, *cuts)
    for figure, value in truth(*cuts).items():
        measure = measured(figure, view)
        assert measure.bounds is not None, figure
        assert measure.bounds.is_exact, figure
        assert measure.bounds.best == pytest.approx(value, abs=1e-9), figure
        assert measure.missing == (), figure


@CALM
@given(cuts=CUTS, hidden=st.sets(st.integers(0, 7), max_size=3), side=st.sampled_from(("left", "right")))
def test_hiding_places_never_excludes_the_true_value_and_names_each(
    cuts: tuple[str, str],
    hidden: set[int],
    side: str,
    record_of: RecordOf,
) -> None:
    seen = ["".join("?" if i in hidden else place for i, place in enumerate(cut)) for cut in cuts]
    view = view_of(record_of, *((seen[0], cuts[1]) if side == "left" else (cuts[0], seen[1])))
    names = {f"{side} U{i}: on" for i in hidden if i < len(cuts[0])}
    for figure, value in truth(*cuts).items():
        measure = measured(figure, view)
        if figure != "paired-share":
            assert set(measure.missing) == names, figure
        if measure.bounds is not None:
            assert measure.bounds.low - 1e-9 <= value <= measure.bounds.high + 1e-9, figure
            assert figure == "paired-share" or not names or not measure.bounds.is_exact, figure


def test_worked_by_hand(record_of: RecordOf) -> None:
    # left: a carries 3, b carries 2; right: the third of a sits on b. One move; 1 of 5 outside on each side.
    view = view_of(record_of, "aaabb", "aabbb")
    assert measured("partition-distance", view).how == "5 placed - 4 that may stay = 1"
    assert measured("split-join-distance", view).how == "1 + 1 = 2"
    parts = {key: part.best for key, part in measured("pairs-placed", view).parts.items()}
    assert parts == {"a and a": 2, "a and b": 1, "b and b": 2}
    assert "left U0: on" in measured("partition-distance", view).used


def test_unplaced_pairs_widen_the_upper_bound_only(record_of: RecordOf) -> None:
    view = view_of(record_of, "aaabb", "aa?bb")
    bounds = measured("partition-distance", view).bounds
    assert bounds is not None
    assert (bounds.best, bounds.low, bounds.high) == (0, 0, 1)
    bits = measured("information-variation", view).bounds
    assert bits is not None
    assert (bits.low, bits.high) == (0, log2(5))


def test_the_distance_is_broken_down_by_its_moves(record_of: RecordOf) -> None:
    view = view_of(record_of, "aaabbc", "aabbba")
    measure = measured("partition-distance", view)
    # Of a's three one goes to b, and c's only one to a: c stands for nothing on the right.
    assert {name: part.best for name, part in measure.parts.items()} == {
        "from the a to the b": 1,
        "from the c to the a": 1,
    }
    assert sum(part.low for part in measure.parts.values()) == 2


NEEDS_PLACES = ["adjusted-rand", "information-variation", "mutual-information-share", "split-join-distance"]


@pytest.mark.parametrize("figure", NEEDS_PLACES)
def test_nothing_placed_says_nothing(figure: str, record_of: RecordOf) -> None:
    assert measured(figure, view_of(record_of, "ab", "??")).bounds is None


@pytest.mark.parametrize(
    ("silences", "low", "high", "missing"),
    [
        ([], 2 / 2, 2 / 2, ()),
        ([Silence.NOT_THERE], 2 / 3, 2 / 3, ()),
        ([Silence.NOT_LOOKED_AT], 2 / 3, 3 / 3, ("right expansion: not known",)),
        ([Silence.NO_SEPARATE_PART, Silence.NOT_THERE], 2 / 4, 3 / 4, ("right expansion: not known",)),
    ],
)
def test_a_function_the_other_side_is_silent_about_may_be_there(
    silences: list[Silence], low: float, high: float, missing: tuple[str, ...], record_of: RecordOf
) -> None:
    view = view_of(record_of, "ab", "ab")
    alone = [
        Pair(
            view.alignment.pairs[0].left,
            None,
            "expansion",
            "compute",
            Verdict.UNKNOWN,
            Agreement.UNKNOWN,
            Agreement.UNKNOWN,
            silent=Silent(silence, ""),
        )
        for silence in silences
    ]
    alignment = Alignment((*view.alignment.pairs, *alone), ())
    measure = measured("paired-share", PairView(view.left, view.right, alignment, view.partition))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((low, high))
    assert measure.missing == missing
