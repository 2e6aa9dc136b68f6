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

WHOLE = "coverage: {boards: whole, interconnects: whole}\n"
BUILD = """boards: {main: {}, front: {}, side: {}}
enclosure: {shell: {}}
actuators: {driver: {in: shell, function: sound output}}
sensors: {mic: {on: front, function: voice capture}}
interconnects:
  flex: {between: [main, front], means: flexible printed circuit, ways: 14, pitch: 0.5 mm, width: 7.5 mm}
  ribbon: {between: [main, side], means: flat flexible cable, ways: 24, pitch: 0.5 mm, count: 2}
  stack: {between: [front, side, main], means: board-to-board connector, ways: 10, detachable: true}
  lead: {between: [main, driver], means: soldered wires, ways: 2, width: 3 mm, detachable: false}
  tail: {between: [main, mic], means: flexible printed circuit, ways: 4, width: 3 mm}
"""


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("interconnect-count", 6),
        ("links-between-boards", 5),  # the tail ends at a microphone that sits on the front board
        ("ways-between-boards", 14 + 2 * 24 + 10 + 4),
        ("flex-links", 4),
        ("detachable-share", 5 / 6),
    ],
)
def test_all_stated_gives_one_value(figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(value)
    assert measure.missing == ()


def test_links_are_told_by_means_and_flex_links_by_name(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    means = {key: part.best for key, part in measure_of("interconnect-count", record).parts.items()}
    assert sorted(means.values()) == [1, 1, 2, 2]
    assert means["flexible printed circuit"] == 2
    assert list(measure_of("flex-links", record).parts) == ["flex", "ribbon", "tail"]
    assert list(measure_of("ways-between-boards", record).parts) == ["flex", "ribbon", "stack", "tail"]


def test_cable_width_is_as_stated_else_ways_and_one_more_times_pitch(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("cable-width", record_of(WHOLE + BUILD))
    # 7.5 + 3 as stated, loose wires not counted; two cables of 24 ways at 0.5 mm: 12.5 mm each, give or take 0.5 mm.
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.best, measure.bounds.high) == (34.5, 35.5, 36.5)
    assert measure.missing == ("ribbon: width",)
    (assumed,) = measure.assumed
    assert "(n + 1) x pitch" in assumed
    assert "no source" in assumed


def test_widths_that_are_all_stated_assume_nothing(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = BUILD.replace("pitch: 0.5 mm, count: 2", "pitch: 0.5 mm, width: 12.5 mm, count: 2")
    assert measure_of("cable-width", record_of(WHOLE + text)).assumed == ()


@pytest.mark.parametrize("figure", ["interconnect-count", "links-between-boards", "flex-links", "cable-width"])
def test_links_looked_at_in_part_give_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    part, whole = ends_of(figure, record_of(BUILD)), ends_of(figure, record_of(WHOLE + BUILD))
    assert part is not None
    assert whole is not None
    assert part == (whole[0], inf)


def test_a_share_of_links_looked_at_in_part_is_not_known(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("detachable-share", record_of(BUILD))
    assert measure.bounds is None
    assert "interconnects: how far it was looked at is not stated" in measure.missing


@pytest.mark.parametrize("figure", ["interconnect-count", "ways-between-boards", "flex-links", "cable-width"])
def test_links_nobody_looked_at_are_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(""))
    assert measure.bounds is None
    assert measure.missing == ("interconnects: not looked at",)


@pytest.mark.parametrize(
    ("figure", "hidden", "ends", "missing"),
    [
        ("ways-between-boards", "ways: 14, ", (63, inf), "flex: ways"),  # a link has one way at least
        ("ways-between-boards", "on: front, ", (72, 76), "mic: on"),
        ("links-between-boards", "on: front, ", (4, 5), "mic: on"),
        ("interconnect-count", "means: soldered wires, ", (6, 6), "lead: means"),
        ("flex-links", "means: soldered wires, ", (4, 5), "lead: means"),
        ("detachable-share", "means: flat flexible cable, ", (3 / 6, 5 / 6), "ribbon: detachable"),
        ("cable-width", "means: soldered wires, ", (34.5, inf), "lead: means"),
        ("cable-width", "pitch: 0.5 mm, count", (10.5, inf), "ribbon: pitch"),
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
    text = BUILD.replace(hidden, "count" if hidden.endswith("count") else "", 1)
    assert ends_of(figure, record_of(WHOLE + text)) == pytest.approx(ends)
    assert missing in measure_of(figure, record_of(WHOLE + text)).missing


def test_a_means_outside_the_vocabulary_may_bend_or_not(record_of: RecordOf, ends_of: EndsOf) -> None:
    own = "terms: {means: {woven strap: {meaning: threads with copper in them, traits: [flexible, flat]}}}\n"
    known = record_of(WHOLE + own + BUILD.replace("soldered wires", "woven strap"))
    assert ends_of("flex-links", known) == (5, 5)
