from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

WHOLE = "coverage: {parts: whole, shields: whole}\n"
BUILD = """boards: {main: {}}
parts:
  U1: {on: main, function: host processing}
  U2: {on: main, function: wireless networking, hidden_under: can}
  U3: {on: main, function: program storage}
  R1: {on: main, function: signal biasing, count: 5}
shields:
  can: {on: main, means: soldered can, covers: [U1]}
  rim: {on: main, means: black foam light barrier, covers: [U3]}
"""


@pytest.mark.parametrize(
    ("text", "ends", "missing"),
    [
        (BUILD, (2 / 8, 2 / 8), ()),
        (BUILD.replace(", covers: [U1]", ""), (1 / 8, 1), ("can: covers",)),
        (BUILD.replace(", covers: [U3]", ""), (2 / 8, 2 / 8), ()),
        (BUILD.replace("means: black foam light barrier, ", ""), (2 / 8, 3 / 8), ("rim: means",)),
        (BUILD.replace(", hidden_under: can", ""), (1 / 8, 1 / 8), ()),
    ],
)
def test_share_of_parts_that_a_conducting_shield_covers(
    text: str, ends: tuple[float, float], missing: tuple[str, ...], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("share-under-shields", record_of(WHOLE + text))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx(ends)
    assert measure.missing == missing


@pytest.mark.parametrize("lacking", ["parts", "shields"])
def test_the_share_is_not_known_where_parts_or_shields_were_looked_at_in_part(
    lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(
        "share-under-shields", record_of(WHOLE.replace(f"{lacking}: whole", f"{lacking}: part") + BUILD)
    )
    assert measure.bounds is None
    assert measure.missing == (f"{lacking}: looked at only in part",)


def test_no_shields_at_all_cover_nothing(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("share-under-shields", record_of(WHOLE + BUILD.split("shields:", maxsplit=1)[0]))
    assert measure.bounds is not None
    assert measure.bounds.high == 0
