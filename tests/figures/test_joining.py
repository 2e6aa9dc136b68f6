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
    [
        ("joint-count", 14),
        ("drive-count", 2),
        ("hidden-joints", 4),
        ("reusable-share", 7 / 14),
    ],
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


@pytest.mark.parametrize("figure", ["joint-count", "drive-count", "hidden-joints", "spent-joints"])
def test_looked_at_in_part_gives_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(BUILD)) == (whole[0], inf)


@pytest.mark.parametrize("figure", ["joint-count", "drive-count", "hidden-joints", "reusable-share", "spent-joints"])
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
        ("spent-joints", "means: thread-forming screw, ", (7, 11), "s1: reusable"),
        ("spent-joints", ", means: double-sided tape", (6, 7), "tape: means"),
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


BONDS = """enclosure: {a: {}, b: {}}
joints:
  weld: {between: [a, b], means: ultrasonic weld, count: 2}
  tape: {between: [a, b], means: double-sided tape}
  clip: {between: [a, b], means: snap-fit, count: 4, reusable: false}
  screw: {between: [a, b], means: machine screw, drive: slot}
"""
SPENT, BROKEN = "undone whole, not to be used again", "not undone without damage"


def test_not_reusable_is_counted_though_the_damage_is_not_known(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("spent-joints", record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (7, 7)
    assert measure.missing == ("clip: whether it can be undone without damage",)


def test_joints_are_told_by_what_undoing_does_to_them(record_of: RecordOf, measure_of: MeasureOf) -> None:
    """Classes B and C of EN 45554:2020 (from memory): tape comes off whole, a weld does not; of the clip it is not said."""
    measure = measure_of("spent-joints", record_of(WHOLE + BONDS))
    assert measure.bounds is not None
    assert measure.bounds.best == 7
    assert {name: (part.low, part.high) for name, part in measure.parts.items()} == {SPENT: (1, 5), BROKEN: (2, 6)}


# ISO 10664 dimension A and ISO 4757 dimension b in mm: read second-hand.
SIZES = {
    "hexalobular 6": "A 1.75", "hexalobular 8": "A 2.40", "hexalobular 10": "A 2.80", "hexalobular 15": "A 3.35",
    "hexalobular 20": "A 3.95", "hexalobular 25": "A 4.50", "hexalobular 30": "A 5.60", "hexalobular 40": "A 6.75",
    "cross recess H0": "b 0.61", "cross recess H1": "b 0.97", "cross recess H2": "b 1.47", "cross recess H3": "b 2.41",
    "cross recess H4": "b 3.48",
}  # fmt: skip


@pytest.mark.parametrize("drive", SIZES)
def test_the_size_of_a_drive_is_told_with_its_source(drive: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = (
        f"enclosure: {{a: {{}}, b: {{}}}}\njoints: {{s: {{between: [a, b], means: machine screw, drive: {drive}}}}}\n"
    )
    measure = measure_of("drive-count", record_of(WHOLE + text))
    assert measure.how == f"{drive} ({SIZES[drive]} mm)"
    assert measure.assumed[0].endswith("read second-hand")


def test_a_drive_no_table_has_is_told_without_a_size(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = "enclosure: {a: {}, b: {}}\njoints: {s: {between: [a, b], means: machine screw, drive: slot}}\n"
    measure = measure_of("drive-count", record_of(WHOLE + text))
    assert (measure.how, measure.assumed) == ("slot", ())
