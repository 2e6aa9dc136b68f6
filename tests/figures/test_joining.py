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

WHOLE = "coverage: {joints: whole}\n"
BUILD = """enclosure: {upper: {}, lower: {}, foot: {}}
joints:
  s1: {between: [upper, lower], means: thread-forming screw, drive: hexalobular 6, count: 4, hidden_under: foot}
  s2: {between: [upper, lower], means: machine screw, drive: cross recess H1, count: 2, reusable: true}
  s3: {between: [upper, lower], means: machine screw, drive: hexalobular 6}
  clip: {between: [upper, lower], means: snap-fit, count: 6, reusable: false}
  tape: {between: [foot, lower], means: double-sided tape}
"""


@pytest.mark.parametrize(
    ("figure", "value"),
    [("joint-count", 14), ("drive-count", 2), ("hidden-joints", 4), ("reusable-share", 7 / 14)],
)
def test_all_stated(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(value)
    assert measure.missing == ()


def test_screws_are_told_by_drive_and_hidden_joints_by_what_lies_over_them(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    record = record_of(WHOLE + BUILD)
    drives = {key: part.best for key, part in measure_of("drive-count", record).parts.items()}
    assert drives == {"hexalobular 6": 5, "cross recess H1": 2}
    assert {k: p.best for k, p in measure_of("hidden-joints", record).parts.items()} == {"under foot": 4}


@pytest.mark.parametrize("figure", ["joint-count", "drive-count", "hidden-joints"])
def test_looked_at_in_part_gives_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(BUILD)) == (whole[0], inf)


@pytest.mark.parametrize("figure", ["joint-count", "drive-count", "hidden-joints", "reusable-share"])
def test_joints_nobody_looked_at_are_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(""))
    assert measure.bounds is None
    assert measure.missing == ("joints: not looked at",)


@pytest.mark.parametrize(
    ("figure", "hidden", "ends", "missing"),
    [
        ("drive-count", "drive: cross recess H1, ", (1, 2), "s2: drive"),
        ("drive-count", "means: double-sided tape", (2, 3), "tape: drive"),
        ("reusable-share", "means: double-sided tape", (7 / 14, 8 / 14), "tape: reusable"),
        ("reusable-share", "means: thread-forming screw, ", (3 / 14, 7 / 14), "s1: means"),
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
    record = record_of(WHOLE + BUILD.replace(hidden, ""))
    assert ends_of(figure, record) == pytest.approx(ends)
    assert missing in measure_of(figure, record).missing


def test_one_screw_of_unknown_drive_still_needs_a_drive(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = "enclosure: {a: {}, b: {}}\njoints: {s: {between: [a, b], means: machine screw, count: 3}}\n"
    assert ends_of("drive-count", record_of(WHOLE + text)) == (1, 1)
