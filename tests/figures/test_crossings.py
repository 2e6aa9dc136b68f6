"""Ways of the links on small hand-made records; every expected value is worked out by hand in the case."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import align, partition_of
from archdiff.figures import PairView, all_figures

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WHOLE = "coverage: {boards: whole, interconnects: whole}\n"
BUILD = """boards: {main: {}, front: {}, side: {}}
enclosure: {shell: {}}
actuators: {driver: {in: shell, function: sound output}}
sensors: {mic: {on: front, function: voice capture}}
interconnects:
  flex: {between: [main, front], ways: 14, supply_ways: 2, ground_ways: 3}
  twins: {between: [main, side], ways: 4, supply_ways: 1, ground_ways: 1, count: 2}
  tail: {between: [main, mic], ways: 3, supply_ways: 1, ground_ways: 1}
  lead: {between: [main, driver], ways: 2, supply_ways: 0, ground_ways: 0}
"""


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("ways-of-all-links", 14 + 2 * 4 + 3 + 2),
        ("signal-ways", 9 + 2 * 2 + 1),
        ("supply-and-ground-ways", 5 + 2 * 2 + 2),
        ("ways-between-boards", 14 + 2 * 4 + 3),
    ],
)
def test_all_stated(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (value, value)
    assert measure.missing == ()


def test_signals_supply_and_ground_make_up_all_ways_between_boards(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    signals, supplies, ways = (
        measure_of(figure, record).parts for figure in ("signal-ways", "supply-and-ground-ways", "ways-between-boards")
    )
    assert {key: signals[key].low + supplies[key].low for key in ways} == {
        key: value.low for key, value in ways.items()
    }


@pytest.mark.parametrize(
    ("figure", "hidden", "ends", "missing"),
    [
        # Of the 14 ways of the flex 3 are ground; supply may take none of the other 11, or all.
        ("signal-ways", "supply_ways: 2, ", (5, 16), "flex: supply_ways"),
        ("supply-and-ground-ways", "supply_ways: 2, ", (9, 20), "flex: supply_ways"),
        # The flex has at least the 5 ways that supply and ground take.
        ("signal-ways", "ways: 14, ", (5, inf), "flex: ways"),
        # The tail may end off the boards, and then counts nowhere.
        ("signal-ways", "on: front, ", (13, 14), "mic: on"),
        ("supply-and-ground-ways", "on: front, ", (9, 11), "mic: on"),
        ("signal-ways", "in: shell, ", (14, 16), "driver: on"),
        ("ways-of-all-links", "ways: 14, ", (14, inf), "flex: ways"),
    ],
)
def test_a_lacking_fact_widens_the_figure_and_is_named(
    figure: str,
    hidden: str,
    ends: tuple[float, float],
    missing: str,
    record_of: RecordOf,
    measure_of: MeasureOf,
    ends_of: EndsOf,
) -> None:
    record = record_of(WHOLE + BUILD.replace(hidden, "", 1))
    assert ends_of(figure, record) == ends
    assert missing in measure_of(figure, record).missing


def test_a_place_that_could_add_no_way_is_no_fact_of_the_figure(record_of: RecordOf, measure_of: MeasureOf) -> None:
    # The lead to the loudspeaker carries neither supply nor ground, wherever the loudspeaker lies.
    assert "driver: in" not in measure_of("supply-and-ground-ways", record_of(WHOLE + BUILD)).used
    assert "driver: in" in measure_of("signal-ways", record_of(WHOLE + BUILD)).used


@pytest.mark.parametrize("figure", ["ways-of-all-links", "signal-ways", "supply-and-ground-ways"])
def test_links_looked_at_in_part_give_a_lower_limit_and_none_looked_at_nothing(
    figure: str, record_of: RecordOf, ends_of: EndsOf
) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(BUILD)) == (whole[0], inf)
    assert ends_of(figure, record_of("")) is None


LEFT = """coverage: {boards: whole, parts: whole, interconnects: whole}
boards: {m: {}, f: {}}
parts:
  U1: {on: m, function: host processing, means: microcontroller}
  U2: {on: m, function: program storage, means: serial flash}
  U3: {on: f, function: display driving, means: LED driver}
  U4: {on: f, function: touch sensing, means: touch controller}
"""
FLEX = "interconnects: {flex: {between: [m, f], ways: 12}}\n"
SPRINGS = "interconnects: {springs: {between: [m, f], ways: 4}}\n"


def compared(left: Record, right: Record) -> Measure:
    alignment = align(left, right)
    figure = next(figure for figure in all_figures() if figure.id == "ways-per-paired-function").of_pair
    assert figure is not None
    return figure(PairView(left, right, alignment, partition_of(alignment, left, right)))


def test_ways_for_each_paired_function_are_those_of_the_left_less_those_of_the_right(record_of: RecordOf) -> None:
    # 12 ways against 4, over 4 functions that are in both: 3 against 1.
    measure = compared(record_of(LEFT + FLEX), record_of(LEFT + SPRINGS))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (2, 2)
    assert {side: part.best for side, part in measure.parts.items()} == {"left": 3, "right": 1}
    assert measure.said == "3 in Tarvo, 1 in Tarvo"
    assert {"left flex: ways", "right springs: ways", "left U3: on", "right U3: on"} <= set(measure.used)
    assert measure.missing == ()


def test_below_0_where_the_right_product_has_more(record_of: RecordOf) -> None:
    bounds = compared(record_of(LEFT + SPRINGS), record_of(LEFT + FLEX)).bounds
    assert bounds is not None
    assert (bounds.low, bounds.high) == (-2, -2)


@pytest.mark.parametrize(
    ("left", "right", "ends", "missing"),
    [
        (LEFT + FLEX.replace(", ways: 12", ""), LEFT + SPRINGS, (-0.75, inf), "left flex: ways"),
        (LEFT + FLEX, LEFT + SPRINGS.replace(", ways: 4", ""), (-inf, 2.75), "right springs: ways"),
        (
            LEFT + FLEX,
            (LEFT + SPRINGS).replace("on: f, function: touch", "function: touch"),
            (2, 8 / 3),
            "right U4: on",
        ),
        (LEFT + FLEX, LEFT.replace("interconnects: whole", "interconnects: part") + SPRINGS, (-inf, 2), "right interc"),
    ],
)
def test_what_is_not_known_on_either_side_leaves_it_open(
    left: str, right: str, ends: tuple[float, float], missing: str, record_of: RecordOf
) -> None:
    measure = compared(record_of(left), record_of(right))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx(ends)
    assert any(fact.startswith(missing) for fact in measure.missing)


def test_without_a_paired_function_there_is_nothing_to_divide_by(record_of: RecordOf) -> None:
    measure = compared(record_of("boards: {m: {}}\n"), record_of(LEFT + SPRINGS))
    assert (measure.bounds, measure.how) == (None, "no pair is placed")
