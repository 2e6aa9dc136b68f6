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

WHOLE = "coverage: {opening: whole}\n"
BUILD = """boards: {main: {}}
enclosure: {upper: {}, lower: {}, foot: {}}
power: {entry: {jack: {in: lower}}}
joints: {s1: {between: [upper, lower], means: machine screw, count: 4, seconds_each: 6 s}}
opening:
  - {do: unplug, what: jack, time: 2 s}
  - {do: peel, what: foot, tool: spudger, frees: [foot], time: 10..12 s}
  - {do: unscrew, what: s1, tool: hexalobular 6}
  - {do: unclip, what: rim, tool: spudger, time: 5 s}
  - {do: lift, what: lower, frees: [lower], time: 3 s}
"""


@pytest.mark.parametrize(
    ("figure", "low", "high"),
    [
        ("opening-actions", 5, 5),
        ("opening-steps", 4, 4),  # jack, foot, change of tool after the screws, lower piece
        ("tool-count", 2, 2),
        ("opening-time", 2 + 10 + 24 + 5 + 3, 2 + 12 + 24 + 5 + 3),
    ],
)
def test_all_stated(
    figure: str, low: float, high: float, record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + BUILD)
    assert ends_of(figure, record) == (low, high)
    assert measure_of(figure, record).missing == ()


@pytest.mark.parametrize("figure", ["opening-actions", "opening-steps", "tool-count", "opening-time"])
def test_opened_in_part_gives_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(BUILD)) == (whole[0], inf)


@pytest.mark.parametrize("figure", ["opening-actions", "opening-steps", "tool-count", "opening-time"])
def test_never_opened_is_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of("coverage: {opening: none}\n"))
    assert measure.bounds is None
    assert measure.missing == ("opening: not looked at",)


def test_an_action_without_a_time_leaves_the_time_open(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("opening-time", record_of(WHOLE + BUILD.replace(", time: 5 s", "")))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (39, inf)
    assert measure.missing == ("opening 4: time",)


def test_actions_and_time_are_told_by_what_is_done(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    kinds = ["lift", "peel", "unclip", "unplug", "unscrew"]
    assert {k: p.best for k, p in measure_of("opening-actions", record).parts.items()} == dict.fromkeys(kinds, 1)
    assert measure_of("opening-time", record).parts["unscrew"].best == 24
    assert {k: p.best for k, p in measure_of("tool-count", record).parts.items()} == {"hexalobular 6": 1, "spudger": 2}
