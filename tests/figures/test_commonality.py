"""Figures of commonality: worked by hand on small pairs, and bounds against all that loose facts may turn out to be.

The indices themselves are held against worked examples in tests/published/test_commonality_indices.py.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import jaccard_score

from archdiff.alignment import align, partition_of
from archdiff.figures import Measure, PairView, all_figures
from archdiff.figures.facts.shared_kinds import Side, possible_counts, total_constant_commonality
from archdiff.notes import Notes

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

FIGURES = {f.id: f.of_pair for f in all_figures() if f.family == "commonality" and f.of_pair is not None}
SECTIONS = (
    "parts",
    "controls",
    "indicators",
    "sensors",
    "actuators",
    "antennas",
    "shields",
    "power",
    "enclosure",
    "boards",
)
WHOLE = f"coverage: {{{', '.join(f'{name}: whole' for name in SECTIONS)}}}\n"
LEFT = (
    WHOLE
    + """parts:
  U1: {function: host processing, means: microcontroller, package: QFN, marking: AX 1, maker: Aldersyde}
  U2: {function: program storage, means: serial flash, package: SOIC, marking: f8}
  U3: {function: voltage conversion, means: linear regulator}
controls: {key: {function: mode selection, means: tactile switch}}
"""
)
RIGHT = (
    WHOLE
    + """parts:
  IC1: {function: host processing, means: microcontroller, package: QFN, marking: ax  1, maker: aldersyde}
  IC2: {function: program storage, means: serial flash, package: DFN, marking: f8}
  IC3: {function: voltage conversion, means: step-down regulator}
indicators: {lamp: {function: status display, means: LED}}
"""
)


def view_of(left: Record, right: Record) -> PairView:
    alignment = align(left, right, Notes())
    return PairView(left, right, alignment, partition_of(alignment, left, right))


def measured(record_of: RecordOf, left: str, right: str) -> dict[str, Measure]:
    view = view_of(record_of(left), record_of(right))
    return {name: compute(view) for name, compute in FIGURES.items()}


def ends(measure: Measure) -> tuple[float, float] | None:
    return None if measure.bounds is None else (measure.bounds.low, measure.bounds.high)


def test_worked_by_hand(record_of: RecordOf) -> None:
    found = measured(record_of, LEFT, RIGHT)
    # Functions: 3 of 5. Kinds: 2 (host, storage) of 6. Uses 4 + 4 = 8 of 6 kinds: 8 / 6, and 1 - 5 / 7.
    assert ends(found["functions-in-both"]) == pytest.approx((3 / 5, 3 / 5))
    assert ends(found["kinds-in-both"]) == pytest.approx((2 / 6, 2 / 6))
    assert ends(found["commonality-degree"]) == pytest.approx((8 / 6, 8 / 6))
    assert ends(found["commonality-constant"]) == pytest.approx((2 / 7, 2 / 7))
    assert ends(found["same-means"]) == pytest.approx((2 / 3, 2 / 3))
    # The hosts agree in all three, whatever the spelling; the memories' packages and the regulators' means differ.
    assert ends(found["same-parts"]) == pytest.approx((1 / 3, 1 / 3))
    assert found["kinds-in-both"].how == "2 of 6: 4 in left and 4 in right"
    assert found["kinds-in-both"].said == "2 of 6 as listed"
    assert found["same-means"].said == "2 of 3"


def test_a_product_compared_with_itself_has_all_in_common(record_of: RecordOf) -> None:
    found = measured(record_of, LEFT, LEFT)
    assert ends(found["functions-in-both"]) == ends(found["kinds-in-both"]) == ends(found["same-means"]) == (1, 1)
    assert ends(found["commonality-degree"]) == (2, 2)
    # Wacker & Treleven 1986 (formula from memory): d identical kinds give d / (2 d - 1), here 4 / 7.
    assert ends(found["commonality-constant"]) == pytest.approx((4 / 7, 4 / 7))


@pytest.mark.parametrize(
    ("old", "new", "figure", "wanted"),
    [
        # A means that is not stated may be any: the other side's step-down regulator, or one more kind.
        (", means: linear regulator", "", "kinds-in-both", (2 / 6, 3 / 5)),
        (", means: linear regulator", "", "same-means", (2 / 3, 3 / 3)),
        # A purpose that is not known may be the other side's status display, or a new function.
        ("function: mode selection", "function: purpose not known", "functions-in-both", (3 / 5, 4 / 4)),
        # Without its maker nobody can say that it is the very same part.
        (", maker: Aldersyde", "", "same-parts", (0, 1 / 3)),
        (", marking: AX 1", "", "same-parts", (0, 1 / 3)),
        ("package: SOIC, ", "", "same-parts", (1 / 3, 2 / 3)),
        # What was not looked at may be common, or not.
        ("controls: whole", "controls: part", "functions-in-both", (0, 1)),
        ("indicators: whole", "indicators: none", "commonality-degree", (1, 2)),
        ("enclosure: whole", "enclosure: part", "commonality-constant", (0, 1)),
    ],
)
def test_what_is_not_known_opens_the_bounds(
    old: str, new: str, figure: str, wanted: tuple[float, float], record_of: RecordOf
) -> None:
    assert old in LEFT
    poorer = measured(record_of, LEFT.replace(old, new), RIGHT)[figure]
    assert ends(poorer) == pytest.approx(wanted)
    assert any(fact.startswith("left ") for fact in poorer.missing)


def test_parts_that_are_placed_and_not_listed_may_be_of_any_kind(record_of: RecordOf) -> None:
    board = "boards: {main: {placements: {top: 2, bottom: 0}}}\n"
    listed = LEFT.replace("U1: {", "U1: {on: main, ").replace("U2: {", "U2: {on: main, ")
    assert ends(measured(record_of, listed + board, RIGHT)["kinds-in-both"]) == pytest.approx((2 / 6, 2 / 6))
    more = measured(record_of, listed + board.replace("2", "9"), RIGHT)["kinds-in-both"]
    assert ends(more) == (0, 1)
    assert "left main: parts that are placed and not listed one by one" in more.missing


def test_a_partly_covered_product_still_has_a_best_value(record_of: RecordOf) -> None:
    found = measured(record_of, LEFT.replace("parts: whole", "parts: part"), RIGHT)["functions-in-both"]
    assert found.bounds is not None
    assert found.bounds.best == pytest.approx(3 / 5)
    assert found.how.endswith("as far as listed")
    assert "left parts: looked at only in part" in found.missing


@pytest.mark.parametrize("name", list(FIGURES))
def test_nothing_listed_has_nothing_in_common(name: str, record_of: RecordOf) -> None:
    found = measured(record_of, "coverage: {parts: none}\n", "coverage: {}\n")[name]
    assert found.bounds is None
    assert found.how


def test_functions_inside_other_parts_are_left_out(record_of: RecordOf) -> None:
    inside = RIGHT.replace("function: host processing,", "function: host processing, also: [mode selection],")
    assert ends(measured(record_of, LEFT, inside)["functions-in-both"]) == pytest.approx((3 / 5, 3 / 5))


KINDS = st.frozensets(st.integers(0, 5), max_size=5)


def every_outcome(left: frozenset[int], right: frozenset[int], loose: tuple[int, int]) -> list[tuple[int, int]]:
    """(in both, in either) for each way in which the loose entries may be of a known or of a new kind."""
    kinds = range(6 + sum(loose))
    found = []
    for taken in product(kinds, repeat=sum(loose)):
        a, b = left | set(taken[: loose[0]]), right | set(taken[loose[0] :])
        found.append((len(a & b), len(a | b)))
    return found


@settings(deadline=None, max_examples=60)
@given(KINDS, KINDS, st.tuples(st.integers(0, 2), st.integers(0, 2)))
def test_bounds_are_those_of_trying_every_outcome(
    left: frozenset[int], right: frozenset[int], loose: tuple[int, int]
) -> None:
    if not left | right:
        return
    sides = [Side(None, has, count, whole=True) for has, count in zip((left, right), loose, strict=True)]  # type: ignore[arg-type]
    tried, said = every_outcome(left, right, loose), list(possible_counts(*sides))

    def share(both: int, either: int) -> float:
        return both / either

    def constant(both: int, either: int) -> float:
        return total_constant_commonality(both + either, either)

    for index in (share, constant):
        true, told = [index(*counts) for counts in tried], [index(*counts) for counts in said]
        assert (min(told), max(told)) == pytest.approx((min(true), max(true)))


@settings(deadline=None)
@given(st.frozensets(st.integers(0, 9), min_size=1), st.frozensets(st.integers(0, 9), min_size=1))
def test_the_share_in_both_is_that_of_scikit_learn(left: frozenset[int], right: frozenset[int]) -> None:
    sides = [Side(None, has, 0, whole=True) for has in (left, right)]  # type: ignore[arg-type]
    (counts,) = set(possible_counts(*sides))
    expected = jaccard_score([n in left for n in range(10)], [n in right for n in range(10)])
    assert counts[0] / counts[1] == pytest.approx(expected)
