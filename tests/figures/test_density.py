"""Density of the main board, and which board that is: by what lies on it, never by its name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WHOLE = "coverage: {boards: whole, parts: whole}\n"
BOARDS = """boards:
  main: {outline: 20 x 10 mm, placements: {top: 2, bottom: 1}}
  other: {outline: 50 x 20 mm, placements: {top: 40, bottom: 10}}
  third: {outline: 10 x 10 mm, placements: {top: 9, bottom: 0}}
"""
PARTS = """parts:
  U1: {on: other, function: host processing, means: microcontroller}
  U2: {on: main, function: program storage, means: serial flash}
  U3: {on: third, function: expansion, means: connector}
"""
# main 3 parts on 2 cm2, other 50 parts on 10 cm2, third 9 parts on 1 cm2.
MAIN, OTHER, THIRD = 1.5, 5.0, 9.0


def test_the_main_board_is_the_one_with_the_host_processor_whatever_it_is_called(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("main-board-density", record_of(WHOLE + BOARDS + PARTS))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(OTHER)
    assert measure.missing == ()
    assert measure.how == "other: 50 parts on 50 x 20 mm"
    sides = {name: part.best for name, part in measure.parts.items()}
    assert sides == {"other top": pytest.approx(4), "other bottom": pytest.approx(1)}


@pytest.mark.parametrize(
    ("found", "changed", "ends", "missing"),
    [
        # A second processor lies on a smaller board: the larger one stays the main board.
        ("program storage", "host processing", (OTHER, OTHER), set()),
        # What a chip on a smaller board does is not known: it may be a second processor, and would not matter.
        ("function: program storage", "name: unread", (OTHER, OTHER), set()),
        # The only processor lies on a smaller board, and what the chip on the larger one does is not known.
        (
            "function: host processing, means: microcontroller}\n  U2: {on: main, function: program storage",
            "means: microcontroller}\n  U2: {on: main, function: host processing",
            (MAIN, OTHER),
            {"U1: function"},
        ),
        # Nobody knows which board carries the processor.
        ("on: other, function: host", "function: host", None, {"U1: on"}),
        ("host processing", "signal processing", None, {"parts: which one is the host processor, and on which board"}),
        # The board with the processor has no known size, and no other one carries one.
        ("outline: 50 x 20 mm, ", "", None, {"other: outline"}),
    ],
)
def test_which_board_it_is_where_more_or_less_is_known(
    found: str,
    changed: str,
    ends: tuple[float, float] | None,
    missing: set[str],
    record_of: RecordOf,
    measure_of: MeasureOf,
    ends_of: EndsOf,
) -> None:
    text = WHOLE + BOARDS + PARTS
    assert text.count(found) == 1
    record = record_of(text.replace(found, changed))
    assert ends_of("main-board-density", record) == (ends and pytest.approx(ends))
    assert missing <= set(measure_of("main-board-density", record).missing)


def test_of_two_boards_with_a_processor_the_larger_is_the_main_board_and_a_missing_size_leaves_it_open(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    two = WHOLE + BOARDS + PARTS.replace("program storage", "host processing")
    assert ends_of("main-board-density", record_of(two)) == pytest.approx((OTHER, OTHER))
    record = record_of(two.replace("outline: 20 x 10 mm, ", ""))
    assert ends_of("main-board-density", record) is None  # it may be the larger one, of any size
    assert "main: outline" in measure_of("main-board-density", record).missing


def test_of_two_alike_in_size_the_first_by_id_is_taken_so_that_one_value_comes_out(
    record_of: RecordOf, ends_of: EndsOf
) -> None:
    text = BOARDS.replace("50 x 20 mm", "20 x 10 mm") + PARTS.replace("program storage", "host processing")
    assert ends_of("main-board-density", record_of(WHOLE + text)) == pytest.approx((MAIN, MAIN))


@pytest.mark.parametrize(
    ("parts", "ends"),
    [
        ("{main: {top: none}, other: whole, third: whole, elsewhere: whole}", (OTHER, OTHER)),  # the smaller one
        ("{main: whole, other: none, third: whole, elsewhere: whole}", (OTHER, OTHER)),  # has a processor anyway
        ("none", (OTHER, OTHER)),  # no larger board could be it
    ],
)
def test_what_was_not_looked_at_matters_only_where_a_larger_board_may_carry_a_processor(
    parts: str, ends: tuple[float, float], record_of: RecordOf, ends_of: EndsOf
) -> None:
    text = WHOLE.replace("parts: whole", f"parts: {parts}") + BOARDS + PARTS
    assert ends_of("main-board-density", record_of(text)) == pytest.approx(ends)


def test_a_larger_board_that_was_not_looked_at_may_be_the_main_board(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    on_main = PARTS.replace("on: other, function: host", "on: other, function: voltage").replace(
        "voltage processing", "voltage conversion"
    )
    text = BOARDS + on_main.replace("program storage", "host processing")
    assert ends_of("main-board-density", record_of(WHOLE + text)) == pytest.approx((MAIN, MAIN))
    seen = "coverage: {boards: whole, parts: {other: part, elsewhere: whole, main: whole, third: none}}\n"
    assert ends_of("main-board-density", record_of(seen + text)) == pytest.approx((MAIN, OTHER))
    missing = measure_of("main-board-density", record_of(seen + text)).missing
    assert "parts on other: looked at only in part" in missing


def test_the_only_board_is_the_main_board_whatever_it_carries(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = "coverage: {boards: whole}\nboards: {b: {outline: 20 x 10 mm, placements: {top: 4, bottom: 0}}}\n"
    assert ends_of("main-board-density", record_of(text)) == pytest.approx((2, 2))


@pytest.mark.parametrize(("coverage", "how"), [("part", "another board may be the main one"), ("none", "no boards")])
def test_boards_not_all_looked_at_say_nothing_of_the_main_board(
    coverage: str, how: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    text = BOARDS + PARTS if coverage == "part" else ""
    measure = measure_of("main-board-density", record_of(f"coverage: {{boards: {coverage}}}\n{text}"))
    assert (measure.bounds, measure.how) == (None, how)
    assert measure.missing


def test_a_side_that_was_not_counted_leaves_it_open_above(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + BOARDS.replace("top: 40, bottom: 10", "top: 40") + PARTS)
    assert ends_of("main-board-density", record) == (pytest.approx(4), float("inf"))
    assert measure_of("main-board-density", record).missing == ("other: placements bottom",)


def test_what_was_counted_at_least_is_at_least_as_dense(record_of, ends_of) -> None:
    # Of a board of 10 cm² with at least 40 and 10 parts by hand: 5 /cm² or more.
    text = "coverage: {boards: whole, parts: whole}\nboards: {main: {outline: 50 x 20 mm, placements: {top: at least 40, bottom: 10}}}\n"
    low, high = ends_of("placement-density", record_of(text))
    assert low == 5
    assert high == float("inf")
