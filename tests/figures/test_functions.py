from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

SECTIONS = "boards, parts, controls, indicators, sensors, actuators, antennas, shields, power"
WHOLE = "coverage: {" + ", ".join(f"{name}: whole" for name in SECTIONS.split(", ")) + "}\n"
BUILD = """boards: {main: {}, front: {}}
enclosure: {shell: {}}
parts:
  U1: {on: main, function: host processing, also: [program storage, working memory], means: microcontroller}
  U2: {on: front, function: expansion, means: microcontroller}
controls:
  up: {on: front, function: volume adjustment, means: tactile switch}
  down: {on: front, function: volume adjustment, means: tactile switch}
  next: {on: front, function: mode selection, means: tactile switch}
actuators: {driver: {in: shell, function: sound output}}
"""
# By main functions main carries 1 and front 3 (two keys, one function); things listed: 1 + 4 + 1 = 6. Two more functions
# are said to live inside U1, and there may be more.


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("functions-on-boards", 4),
        ("functions-per-board", 2),
        ("main-board-share", 1 / 6),
    ],
)
def test_all_stated(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(value)
    assert measure.missing == ()


def test_functions_are_told_by_board_and_embedded_ones_by_holder(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    by_board = {key: part.best for key, part in measure_of("functions-on-boards", record).parts.items()}
    assert by_board == {"main": 1, "front": 3}
    inside = measure_of("embedded-functions", record)
    assert {key: part.low for key, part in inside.parts.items()} == {"U1": 2}


def test_what_lives_inside_a_part_is_never_known_to_be_all(record_of: RecordOf, measure_of: MeasureOf) -> None:
    inside = measure_of("embedded-functions", record_of(WHOLE + BUILD))
    assert inside.bounds is not None
    assert (inside.bounds.low, inside.bounds.high) == (2, inf)
    assert inside.missing == ("parts: what else they hold inside",)


def test_an_absence_may_say_where_a_function_lives_and_is_not_counted_twice(
    record_of: RecordOf, ends_of: EndsOf
) -> None:
    absent = "absent: [{function: working memory, embedded_in: U1}, {function: encryption, embedded_in: U1}]\n"
    assert ends_of("embedded-functions", record_of(WHOLE + BUILD + absent)) == (3, inf)


@pytest.mark.parametrize("figure", ["functions-on-boards", "embedded-functions"])
def test_sections_looked_at_in_part_give_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(WHOLE.replace("sensors: whole", "sensors: none") + BUILD)) == (whole[0], inf)


def test_a_share_with_sensors_not_looked_at_is_not_known(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("main-board-share", record_of(WHOLE.replace("sensors: whole", "sensors: none") + BUILD))
    assert measure.bounds is None
    assert measure.missing == ("sensors: not looked at",)
    assert measure.how == "main: 1 of 6 listed"


@pytest.mark.parametrize("figure", ["functions-on-boards", "functions-per-board", "embedded-functions"])
def test_nothing_looked_at_says_nothing(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(""))
    assert measure.bounds is None
    assert "parts: not looked at" in measure.missing


@pytest.mark.parametrize(
    ("figure", "hidden", "ends", "missing"),
    [
        # The expansion chip may do anything: a fourth function, or one of the two of the keys.
        ("functions-on-boards", "function: expansion, ", (3, 4), "U2: function"),
        # The mode key may be on either board: front then carries 2 or 3, main 1 or 2.
        ("functions-on-boards", "on: front, function: mode", (3, 4), "next: on"),
        # The host may be the chip of unknown purpose on the front board.
        ("main-board-share", "function: expansion, ", (1 / 6, 4 / 6), "U2: function"),
        ("main-board-share", "on: front, function: mode", (1 / 6, 2 / 6), "next: on"),
        # The chip of unknown purpose may serve the keys, which lie on its board anyway, or something else.
        ("subsystem-scatter", "function: expansion, ", (3, 4), "U2: function"),
        ("subsystem-scatter", "on: front, function: mode", (4, 5), "next: on"),
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
    record = record_of(WHOLE + BUILD.replace(hidden, "function: mode" if hidden.endswith("mode") else ""))
    assert ends_of(figure, record) == pytest.approx(ends)
    assert missing in measure_of(figure, record).missing


@pytest.mark.parametrize("changed", ["function: signal processing, also: [program storage", "also: [program storage"])
def test_without_a_host_processor_no_board_is_the_main_board(
    changed: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    text = BUILD.replace("function: host processing, also: [program storage", changed)
    measure = measure_of("main-board-share", record_of(WHOLE + text))
    assert (measure.bounds, measure.how) == (None, "no board is known to carry the host processor")
    assert "parts: which one is the host processor, and on which board" in measure.missing


def test_a_subsystem_counts_once_for_each_host_of_its_things(record_of: RecordOf, measure_of: MeasureOf) -> None:
    # compute on main and front, user input on front, audio in the shell: 2 + 1 + 1.
    measure = measure_of("subsystem-scatter", record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (4, 4)
    assert {key: part.best for key, part in measure.parts.items()} == {"compute": 2, "audio": 1, "user input": 1}
    assert measure.missing == ()


def test_a_thing_of_unknown_purpose_may_scatter_any_subsystem_that_is_not_there_anyway(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    more = (
        BUILD.replace("function: sound output", "name: thing")
        + "antennas: {a: {on: front, function: wireless networking}}\n"
    )
    parts = measure_of("subsystem-scatter", record_of(WHOLE + more)).parts
    limits = {key: (part.low, part.high) for key, part in parts.items()}
    assert limits == {"compute": (2, 3), "user input": (1, 2), "wireless": (1, 2)}


def test_scatter_of_what_was_looked_at_in_part_has_no_upper_limit(record_of: RecordOf, ends_of: EndsOf) -> None:
    assert ends_of("subsystem-scatter", record_of(WHOLE.replace("sensors: whole", "sensors: none") + BUILD)) == (4, inf)
