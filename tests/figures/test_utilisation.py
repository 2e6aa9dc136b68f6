"""How much of the boards lies under bodies; every expected value is worked out by hand in the case."""

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

WHOLE = "coverage: {boards: whole, parts: whole, shields: whole}\n"
# One side has 1000 mm2. On top 100 + 2 x 12.5 pi + 50 mm2 of bodies; the capacitor in the cut-out and the pad on the
# chip lie on no side, the can stands over the chip. Nothing is placed on the underside.
BUILD = """boards: {main: {outline: 50 x 20 mm, placements: {top: 6, bottom: 0}}}
parts:
  U1: {on: main, side: top, means: microcontroller, size: 10 x 10 x 1 mm}
  C1: {on: main, side: top, means: electrolytic capacitor, size: round 5 x 7 mm, count: 2}
  C2: {on: main, side: top, means: electrolytic capacitor, size: 12 x 8 mm, mounting: in cut-out}
  J1: {on: main, side: top, means: film connector, size: 5 x 10 mm}
  TP1: {on: main, side: bottom, means: test pads, size: round 1 mm, count: 9}
  U9: {on: main, side: top, means: microcontroller, size: 9 x 9 mm, populated: false}
  pad: {on: main, side: top, means: thermal pad, size: 9 x 9 mm, sits_in: U1}
shields: {can: {on: main, side: top, means: soldered can, size: 20 x 20 x 2 mm, covers: [U1]}}
"""
BODIES = 100 + 2 * 6.25 * pi + 50


@pytest.mark.parametrize(("figure", "value"), [("area-utilisation", BODIES / 2000), ("fullest-side", BODIES / 1000)])
def test_where_every_placed_part_is_listed_one_value_comes_out(
    figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((value, value))
    assert measure.missing == ()
    assert {name: part.low for name, part in measure.parts.items()} == pytest.approx(
        {"main top": BODIES / 1000, "main bottom": 0}
    )


@pytest.mark.parametrize(
    ("found", "changed", "ends", "missing"),
    [
        ("top: 6", "top: 7", (BODIES, inf), "main: size of every part placed on its top"),
        ("{top: 6, bottom: 0}", "{bottom: 0}", (BODIES, inf), "main: placements top"),
        ("10 x 10 x 1 mm", "10..11 x 10 mm", (BODIES, BODIES + 10), None),
        (", size: 5 x 10 mm", "", (BODIES - 50, inf), "J1: size"),
        ("means: film connector, ", "", (BODIES - 50, inf), "J1: means"),
        ("J1: {on: main, side: top, ", "J1: {on: main, ", (BODIES - 50, inf), "J1: side"),
        ("J1: {on: main, side: top, ", "J1: {side: top, ", (BODIES - 50, inf), "J1: on"),
        # 2 x 1.25 mm, each side give or take a tenth.
        (
            "size: 5 x 10 mm",
            'package: "0805"',
            (BODIES - 50 + 2.5 * 0.81, BODIES - 50 + 2.5 * 1.21),
            "J1: size",
        ),
        # The capacitor is one of those that were counted: without its means nobody knows that all are listed.
        (
            "C2: {on: main, side: top, means: electrolytic capacitor",
            "C2: {on: main, side: top",
            (BODIES, inf),
            "C2: means",
        ),
    ],
)
def test_what_is_lacking_leaves_the_fuller_side_open_and_is_named(
    found: str,
    changed: str,
    ends: tuple[float, float],
    missing: str | None,
    record_of: RecordOf,
    measure_of: MeasureOf,
) -> None:
    assert (WHOLE + BUILD).count(found) == 1
    measure = measure_of("fullest-side", record_of((WHOLE + BUILD).replace(found, changed)))
    assert measure.bounds is not None
    assert (measure.bounds.low * 1000, measure.bounds.high * 1000) == pytest.approx(ends)
    assert (missing in measure.missing) if missing else (measure.missing == ())


def test_a_size_out_of_a_table_is_said_to_be_assumed(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = BUILD.replace("size: 10 x 10 x 1 mm", "package: LQFP, pins: 64, pitch: 0.5 mm")
    measure = measure_of("fullest-side", record_of(WHOLE + text))
    assert len(measure.assumed) == 1
    assert measure.assumed[0].startswith("LQFP-64 at a pitch of 0.5 mm: JEDEC MS-026")
    assert {"U1: package", "U1: pins"} <= set(measure.used)
    assert "U1: pitch" not in measure.used
    assert measure.missing == ("U1: size",)


def test_two_alike_boards_count_twice(record_of: RecordOf, ends_of: EndsOf) -> None:
    more = BUILD.replace(
        "placements: {top: 6, bottom: 0}}",
        "placements: {top: 6, bottom: 0}}, b: {outline: 10 x 10 mm, count: 3, placements: {top: 0, bottom: 0}}",
    )
    assert ends_of("area-utilisation", record_of(WHOLE + more)) == pytest.approx((BODIES / 2600, BODIES / 2600))


@pytest.mark.parametrize("figure", ["area-utilisation", "fullest-side"])
def test_boards_looked_at_in_part_or_not_at_all(
    figure: str, record_of: RecordOf, ends_of: EndsOf, measure_of: MeasureOf
) -> None:
    part = record_of(WHOLE.replace("boards: whole", "boards: part") + BUILD)
    expected = None if figure == "area-utilisation" else (pytest.approx(BODIES / 1000), inf)
    assert ends_of(figure, part) == expected
    assert "boards: looked at only in part" in measure_of(figure, part).missing
    assert measure_of(figure, record_of("")).bounds is None
    assert ends_of(figure, record_of("coverage: {boards: whole}\n")) is None


def test_a_board_without_a_size_is_named(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("fullest-side", record_of(WHOLE + BUILD.replace("outline: 50 x 20 mm, ", "")))
    assert measure.bounds is None
    assert "main: outline" in measure.missing
