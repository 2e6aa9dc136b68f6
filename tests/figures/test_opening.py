from __future__ import annotations

from itertools import pairwise
from math import inf
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

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
  - {do: peel, what: foot, tool: spudger, frees: [foot], time: 10..12 s, hidden: true, destructive: true}
  - {do: unscrew, what: s1, tool: hexalobular 6}
  - {do: unclip, what: rim, tool: spudger, time: 5 s}
  - {do: lift, what: lower, frees: [lower], time: 3 s}
"""


@pytest.mark.parametrize(
    ("figure", "low", "high"),
    [
        ("opening-actions", 5, 5),
        ("opening-steps", 4, 4),  # jack, foot, change of tool after the screws, lower piece
        ("hidden-places", 1, 1),
        ("destructive-actions", 1, 1),
        ("opening-time", 2 + 10 + 24 + 5 + 3, 2 + 12 + 24 + 5 + 3),
    ],
)
def test_all_stated(
    figure: str, low: float, high: float, record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + BUILD)
    assert ends_of(figure, record) == (low, high)
    assert measure_of(figure, record).missing == ()


@pytest.mark.parametrize(
    "figure", ["opening-actions", "opening-steps", "hidden-places", "opening-time", "opening-time-estimated"]
)
def test_opened_in_part_gives_a_lower_limit(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(WHOLE + BUILD))
    assert whole is not None
    assert ends_of(figure, record_of(BUILD)) == (whole[0], inf)


@pytest.mark.parametrize(
    "figure", ["opening-actions", "opening-steps", "hidden-places", "opening-time", "opening-time-estimated"]
)
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
    assert {k: p.best for k, p in measure_of("hidden-places", record).parts.items()} == {"peel": 1}


# Worked sum: 1 tool change + 4 x (position 40 + loosen 160) + remove 40 + turn product 50 = 930 TMU = 33.48 s. Times of
# the motions after Vanegas et al. 2018, doi 10.1016/j.resconrec.2017.06.022 (from memory), the sum by hand; 160 TMU are
# 5.76 s.
WORKED = """enclosure: {upper: {}, lower: {}}
joints: {s1: {between: [upper, lower], means: machine screw, count: 4, seconds_each: 5.76 s, time_source: a handbook}}
opening:
  - {do: turn over}
  - {do: unscrew, what: s1, tool: hexalobular 6}
  - {do: lift, what: lower, frees: [lower]}
"""


def test_the_estimate_is_the_worked_sum(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("opening-time-estimated", record_of(WHOLE + WORKED))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((33.48, 33.48))
    parts = {name: part.low / 0.036 for name, part in measure.parts.items()}
    assert parts == pytest.approx({"tool change": 40, "turn": 50, "position": 160, "remove": 40, "undoing": 640})
    assert "s1: seconds_each" in measure.used
    assert "times of undoing, as the record has them: a handbook" in measure.assumed


def test_without_a_time_to_undo_one_the_estimate_is_a_lower_limit(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("opening-time-estimated", record_of(WHOLE + WORKED.replace("seconds_each: 5.76 s, ", "")))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((33.48 - 4 * 5.76, inf))
    assert measure.missing == ("s1: seconds_each",)


@pytest.mark.parametrize(
    ("action", "seconds"),
    [
        ("{do: unscrew, what: s1, count: 1}", 6),  # by hand: nothing to take up or to set on
        ("{do: unscrew, what: s1, count: 1, tool: key}", 6 + (40 + 40) * 0.036),
        ("{do: unscrew, what: s1, count: 1, hidden: true}", 6 + 100 * 0.036),
        ("{do: unplug cable, what: flex, tool: spudger}", 3 + (40 + 40) * 0.036),
        ("{do: unplug, what: jack}", 2),
        ("{do: pull, what: upper, frees: [upper]}", 40 * 0.036),
        ("{do: turn over}", 50 * 0.036),
        ("{do: wait, time: 5 min}", 300),
        ("{do: heat, what: s1, tool: hot air, time: 60 s}", 60),  # as long as it is said to take
        ("{do: pry, what: the rim, tool: wedge, time: 8 s}", 8),  # the record lists no joint that it undoes
    ],
)
def test_what_one_action_is_made_of(action: str, seconds: float, record_of: RecordOf, ends_of: EndsOf) -> None:
    text = (
        "boards: {a: {}, b: {}}\nenclosure: {upper: {}, lower: {}}\npower: {entry: {jack: {seconds_each: 2 s}}}\n"
        "interconnects: {flex: {between: [a, b], seconds_each: 3 s}}\n"
        "joints: {s1: {between: [upper, lower], count: 4, seconds_each: 6 s}}\n"
    )
    assert ends_of("opening-time-estimated", record_of(f"{WHOLE}{text}opening:\n  - {action}\n")) == pytest.approx(
        (seconds, seconds)
    )


@pytest.mark.parametrize("figure", ["opening-time", "opening-time-estimated"])
def test_times_in_minutes_are_times_in_seconds(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    in_seconds = WHOLE + BUILD + "  - {do: wait, time: 90 s}\n"
    in_minutes = in_seconds
    for seconds, minutes in (("6 s", "0.1 min"), ("10..12 s", "0.1666666667..0.2 min"), ("90 s", "1.5 min")):
        assert seconds in in_minutes
        in_minutes = in_minutes.replace(seconds, minutes)
    ends = ends_of(figure, record_of(in_seconds))
    assert ends is not None
    assert ends_of(figure, record_of(in_minutes)) == pytest.approx(ends)


spans = st.tuples(st.integers(1, 90), st.integers(0, 20), st.integers(0, 20))


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    each=spans,
    timed=spans,
    hidden=st.sampled_from(["each", "both"]),
    do=st.sampled_from(["unscrew", "pry", "wait", "lift"]),
    tool=st.sampled_from(["", "driver"]),
)
def test_knowing_times_better_only_narrows_both_sums(
    each: tuple[int, int, int],
    timed: tuple[int, int, int],
    hidden: str,
    do: str,
    tool: str,
    record_of: RecordOf,
    ends_of: EndsOf,
) -> None:
    def text(joint: str, action: str) -> str:
        return (
            f"{WHOLE}enclosure: {{a: {{}}, b: {{}}}}\njoints: {{s1: {{between: [a, b], count: 3{joint}}}}}\n"
            f"opening:\n  - {{do: {do}, what: s1{tool and ', tool: ' + tool}}}\n  - {{do: other{action}}}\n"
        )

    def stated(span: tuple[int, int, int], name: str, *, loose: bool) -> str:
        middle, less, more = span
        return f", {name}: {max(0, middle - less)}..{middle + more} s" if loose else f", {name}: {middle} s"

    exact = text(stated(each, "seconds_each", loose=False), stated(timed, "time", loose=False))
    wide = text(stated(each, "seconds_each", loose=True), stated(timed, "time", loose=True))
    silent = text("", "" if hidden == "both" else stated(timed, "time", loose=True))
    for figure in ("opening-time", "opening-time-estimated"):
        ends = [ends_of(figure, record_of(record)) or (0, inf) for record in (silent, wide, exact)]
        for outer, inner in pairwise(ends):
            assert outer[0] <= inner[0] + 1e-9
            assert inner[1] <= outer[1] + 1e-9
