"""Sums on small hand-made boards; every expected value is worked out by hand in the case."""

from __future__ import annotations

from math import inf, pi
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WHOLE = "coverage: {boards: whole}\n"
TWO = """boards:
  main: {outline: 60 x 50 mm, layers: 4, placements: {top: 100, bottom: 20}}
  front: {outline: 40 x 20 mm, layers: 2, placements: {top: 16, bottom: 0}, count: 2}
"""


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("board-count", 3),
        ("board-area", 30 + 2 * 8),
        ("board-layers", 4),
        ("layer-area", 4 * 30 + 2 * 2 * 8),
        ("placements", 120 + 2 * 16),
        ("placement-density", 152 / 46),
        ("densest-side", 100 / 30),
    ],
)
def test_all_stated_and_all_boards_looked_at_gives_one_value(
    figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(WHOLE + TWO))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(value)
    assert measure.missing == ()
    assert "boards: coverage" in measure.used


@pytest.mark.parametrize("figure", ["board-count", "board-area", "board-layers", "layer-area", "placements"])
def test_boards_looked_at_in_part_give_a_lower_limit(
    figure: str, record_of: RecordOf, measure_of: MeasureOf, ends_of: Callable[[str, Record], tuple[float, float]]
) -> None:
    whole, part = record_of(WHOLE + TWO), record_of(TWO)
    assert ends_of(figure, part) == (ends_of(figure, whole)[0], inf)
    assert measure_of(figure, part).missing == ("boards: how far it was looked at is not stated",)


@pytest.mark.parametrize("figure", ["placement-density", "board-area-to-footprint"])
def test_a_share_of_an_unknown_whole_says_nothing(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(TWO))
    assert measure.bounds is None
    assert "boards: how far it was looked at is not stated" in measure.missing


@pytest.mark.parametrize(
    "figure", ["board-count", "board-area", "board-layers", "layer-area", "placements", "densest-side"]
)
@pytest.mark.parametrize("coverage", ["", "coverage: {boards: none}\n"])
def test_boards_nobody_looked_for_are_not_known_and_never_none(
    figure: str, coverage: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(coverage))
    assert measure.bounds is None
    assert measure.missing == ("boards: not looked at",)


@pytest.mark.parametrize(("figure", "ends"), [("board-count", (0, 0)), ("board-area", (0, 0)), ("densest-side", None)])
def test_boards_looked_for_and_not_found(
    figure: str, ends: tuple[float, float] | None, record_of: RecordOf, ends_of: EndsOf
) -> None:
    assert ends_of(figure, record_of(WHOLE)) == ends


def test_a_board_without_outline_leaves_the_area_open_and_the_density_with_an_upper_limit(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + TWO.replace("outline: 40 x 20 mm, ", ""))
    assert ends_of("board-area", record) == (30, inf)
    assert measure_of("board-area", record).missing == ("front: outline",)
    assert ends_of("layer-area", record) == (120, inf)
    assert ends_of("placement-density", record) == (0, pytest.approx(152 / 30))


def test_a_side_that_was_not_counted_has_at_least_the_placed_parts_listed_there(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(
        WHOLE
        + """boards: {main: {outline: 60 x 50 mm, placements: {top: 100}}}
parts:
  U1: {on: main, side: bottom, function: host processing, means: microcontroller}
  U2: {on: main, side: bottom, function: expansion, means: microcontroller, populated: false}
  R1: {on: main, side: bottom, function: signal biasing, means: resistor, count: 3}
  U3: {on: main, side: top, function: wireless networking, means: transceiver chip}
"""
    )
    assert ends_of("placements", record) == (104, inf)
    assert measure_of("placements", record).missing == ("main: placements bottom",)
    assert ends_of("placement-density", record) == (pytest.approx(104 / 30), inf)
    assert ends_of("densest-side", record) == (pytest.approx(100 / 30), inf)


def test_parts_listed_count_for_the_board_where_their_side_is_not_stated(record_of: RecordOf, ends_of: EndsOf) -> None:
    parts = "parts: {R1: {on: main, function: signal biasing, means: resistor, count: 7}}\n"
    assert ends_of("placements", record_of(WHOLE + "boards: {main: {}}\n" + parts)) == (7, inf)


@pytest.mark.parametrize(
    ("board", "low", "high"),
    [
        ("outline: 60 ± 1 x 50 mm", 29.5, 30.5),
        ("outline: round 40 mm", pi * 4, pi * 4),
        ("outline: 60 x 50 mm, area: 21..22 cm2", 21, 22),
        ("outline: 60 x 50 mm, cut_outs: [{size: 10 x 20 mm}]", 28, 30),
        ("outline: 60 x 50 mm, cut_outs: [{for: main}]", 0, 30),
    ],
)
def test_area_of_one_board_in_every_way_it_can_be_stated(
    board: str, low: float, high: float, record_of: RecordOf, ends_of: EndsOf
) -> None:
    assert ends_of("board-area", record_of(f"{WHOLE}boards: {{main: {{{board}}}}}\n")) == (
        pytest.approx(low),
        pytest.approx(high),
    )


def test_cut_outs_without_a_stated_area_are_named(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + "boards: {main: {outline: 60 x 50 mm, cut_outs: [{size: 10 x 20 mm}]}}\n")
    assert measure_of("board-area", record).missing == ("main: area",)


def test_breakdowns_add_up_to_the_sum(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + TWO)
    for figure in ("board-area", "layer-area", "placements"):
        measure = measure_of(figure, record)
        assert list(measure.parts) == ["main", "front"]
        assert measure.bounds is not None
        assert sum(part.low for part in measure.parts.values()) == pytest.approx(measure.bounds.low)


def test_density_tells_each_board_and_each_side(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + TWO)
    boards = {key: part.best for key, part in measure_of("placement-density", record).parts.items()}
    sides = {key: part.best for key, part in measure_of("densest-side", record).parts.items()}
    assert boards == {"main": pytest.approx(4), "front": pytest.approx(2)}
    assert sides == {
        "main top": pytest.approx(100 / 30),
        "main bottom": pytest.approx(20 / 30),
        "front top": pytest.approx(2),
        "front bottom": 0,
    }


def test_area_to_footprint_takes_width_and_depth_of_the_envelope(record_of: RecordOf, measure_of: MeasureOf) -> None:
    head = "archdiff: 1\nproduct: {name: Tarvo, kind: test object, envelope: 92 x 50 x 146 mm}\n"
    measure = measure_of("board-area-to-footprint", record_of(head + WHOLE + TWO))
    assert measure.bounds is not None
    assert measure.bounds.best == pytest.approx(46 / 46)
    without = measure_of("board-area-to-footprint", record_of(WHOLE + TWO))
    assert (without.bounds, without.missing) == (None, ("product: envelope",))


def test_how_shows_the_sum_with_its_numbers(record_of: RecordOf, measure_of: MeasureOf) -> None:
    assert measure_of("board-area", record_of(WHOLE + TWO)).how == "60 x 50 mm + 2 x (40 x 20 mm) = 46 cm²"
    assert measure_of("placements", record_of(TWO)).how == "main 120 + front 32 = at least 152"
