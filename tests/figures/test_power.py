"""Power entries and sources: what is drawn, what is given, which class, and what silence leaves open."""

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

OF_ENTRIES = ("entry-voltage", "entry-power", "source-load", "source-power")
OF_BOX = ("supply-efficiency-limit", "supply-no-load-limit")
JACK = "means: coaxial dc socket, voltage: 12 V, current: 0.5 ± 0.1 A"
BOX = "supplied_with: {means: wall adapter, voltage: 12 V, current: 2 A, no_load: 0.08 W, efficiency: 86 %}"


def entries(*facts: str, coverage: str = "whole", rest: str = "") -> str:
    listed = ", ".join(f"e{place}: {{{one}}}" for place, one in enumerate(facts, start=1))
    return f"coverage: {{power: {coverage}}}\npower: {{entry: {{{listed}}}{rest}}}\n"


@pytest.mark.parametrize(
    ("figure", "ends"),
    [
        ("entry-voltage", (12, 12)),
        ("entry-power", (4.8, 7.2)),  # 12 V x 0.4..0.6 A, by hand
        ("source-load", (0.2, 0.3)),  # 0.4..0.6 A of 2 A, by hand
        ("source-power", (24, 24)),  # 12 V x 2 A, by hand
    ],
)
def test_one_entry_with_its_supply(
    figure: str, ends: tuple[float, float], record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(entries(f"{JACK}, {BOX}"))
    assert ends_of(figure, record) == pytest.approx(ends)
    missing = measure_of(figure, record).missing
    assert missing == (("e1: plug_outer", "e1: plug_inner") if figure == "entry-voltage" else ())


def test_a_stated_power_goes_before_volts_times_amps(record_of: RecordOf, ends_of: EndsOf) -> None:
    assert ends_of("entry-power", record_of(entries(f"{JACK}, power: 5 W"))) == (5, 5)
    assert ends_of("source-power", record_of(entries("supplied_with: {power: 20 W}"))) == (20, 20)


def test_entries_add_up_and_the_greatest_counts(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(entries(f"{JACK}, {BOX}", "means: mains inlet, voltage: 230 V, current: 0.1 A"))
    power = measure_of("entry-power", record).bounds
    assert power is not None
    assert (power.low, power.best, power.high) == pytest.approx((27.8, 29, 30.2))  # 23 W and 4.8..7.2 W, by hand
    volts = measure_of("entry-voltage", record)
    assert volts.bounds is not None
    assert volts.bounds.best == 230
    assert list(volts.parts) == ["e1", "e2"]


@pytest.mark.parametrize("figure", OF_ENTRIES)
def test_entries_looked_at_in_part_give_at_least(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(entries(f"{JACK}, {BOX}")))
    assert whole is not None
    assert ends_of(figure, record_of(entries(f"{JACK}, {BOX}", coverage="part"))) == (whole[0], inf)


@pytest.mark.parametrize("figure", [*OF_ENTRIES, *OF_BOX])
def test_nothing_looked_at_is_not_known_and_never_nothing(
    figure: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of("coverage: {power: none}\n"))
    assert measure.bounds is None
    assert "power: not looked at" in measure.missing


def test_a_product_without_an_entry_draws_nothing_there_and_has_no_voltage(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of("coverage: {power: whole}\n")
    assert ends_of("entry-power", record) == (0, 0)
    volts = measure_of("entry-voltage", record)
    assert (volts.bounds, volts.how, volts.missing) == (None, "no power entry recorded", ())
    assert volts.moot


@pytest.mark.parametrize("figure", ["entry-voltage", "source-load", "source-power", *OF_BOX])
@pytest.mark.parametrize(
    ("coverage", "lacking"),
    [
        ("whole", None),
        ("part", "power: looked at only in part"),
        ("none", "power: not looked at"),
        ("{main: whole}", "power elsewhere: not looked at"),
    ],
)
def test_an_entry_may_be_where_nobody_looked(
    figure: str, coverage: str, lacking: str | None, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(f"coverage: {{power: {coverage}}}\nboards: {{main: {{}}}}\n"))
    assert (measure.bounds, measure.moot) == (None, lacking is None)
    assert measure.missing == () if lacking is None else lacking in measure.missing


@pytest.mark.parametrize("fact", ["voltage: 12 V, ", ", current: 0.5 ± 0.1 A"])
def test_power_needs_voltage_and_current(fact: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("entry-power", record_of(entries(JACK.replace(fact, ""))))
    assert measure.bounds is None
    assert measure.missing == (f"e1: {fact.strip(', ').split(':')[0]}",)


# USB Type-C: 5.1 kohm tells the default, 0.5 A from every source (read second-hand).
TYPE_C = "means: USB Type-C, voltage: 5 V, current: 0.2 A, configuration: 5.1 kohm"
LEAD = "supplied_with: {means: USB lead}"


@pytest.mark.parametrize(
    ("facts", "load", "power"),
    [
        (f"{TYPE_C}, {LEAD}", (0.4, 0.4), (2.5, 15)),
        (TYPE_C, (0, 0.4), (2.5, inf)),  # any supply may have come in the box
        (f"{TYPE_C}, supplied_with: {{voltage: 5 V, current: 3 A}}", (0.2 / 3, 0.2 / 3), (15, 15)),
        (f"{TYPE_C.replace('5.1', '22')}, {LEAD}", None, None),  # 1.41 V at the contact is no default source
        (f"{TYPE_C.replace(', configuration: 5.1 kohm', '')}, {LEAD}", None, None),
        (
            f"{TYPE_C.replace('voltage: 5 V', 'voltage: 20 V')}, {LEAD}",
            (0.4, 0.4),
            None,
        ),  # negotiated: not told by this
        (f"means: micro USB, voltage: 5 V, current: 0.2 A, {LEAD}", (0.4, 0.4), None),  # USB 2.0: 0.5 A, from memory
        (f"means: magnetic plug, voltage: 5 V, current: 0.2 A, {LEAD}", None, None),
    ],
)
def test_what_a_source_that_did_not_come_with_it_is_sure_to_give(
    facts: str,
    load: tuple[float, float] | None,
    power: tuple[float, float] | None,
    record_of: RecordOf,
    ends_of: EndsOf,
) -> None:
    record = record_of(entries(facts))
    assert ends_of("source-load", record) == (None if load is None else pytest.approx(load))
    assert ends_of("source-power", record) == (None if power is None else pytest.approx(power))


def test_each_thing_that_would_tell_the_source_is_named(record_of: RecordOf, measure_of: MeasureOf) -> None:
    bare = record_of(entries(TYPE_C.replace(", configuration: 5.1 kohm", "")))
    missing = measure_of("source-load", bare).missing
    assert {"e1: configuration", "e1: supplied_with current", "e1: supplied_with means"} <= set(missing)


def test_a_drawn_current_above_the_promise_shows(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(entries(f"{TYPE_C.replace('0.2 A', '0.9 A')}, {LEAD}"))
    bounds = measure_of("source-load", record).bounds
    assert bounds is not None
    assert bounds.low == pytest.approx(1.8)  # 0.9 A of 0.5 A, by hand


# Classes of a Type-C source at 5 V: 0.5, 1.5 and 3 A (read second-hand).
@pytest.mark.parametrize(
    ("amps", "words"),
    [
        ("0.5 A", "e1: the least source is enough"),
        ("0.4..0.6 A", "e1: a source that offers 1.5 A is enough"),
        ("1.6 A", "e1: a source that offers 3 A is enough"),
        ("4 A", "e1: may need more than a source offers without negotiation"),
    ],
)
def test_which_source_is_enough(amps: str, words: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(entries(f"{TYPE_C.replace('0.2 A', amps)}, {LEAD}"))
    assert measure_of("source-load", record).said == words
    boxed = f"{TYPE_C.replace('0.2 A', amps)}, supplied_with: {{voltage: 5 V, current: 5 A}}"
    assert measure_of("source-load", record_of(entries(boxed))).said == words  # another source than the one in the box
    assert measure_of("source-load", record_of(entries(f"{JACK}, {BOX}"))).said == ""


def test_stated_values_stand_beside_the_limits_without_a_verdict(record_of: RecordOf, measure_of: MeasureOf) -> None:
    # 24 W at 12 V: 0.071 ln 24 - 0.0336 + 0.67 = 0.8620 by hand; (EU) 2019/1782, read.
    record = record_of(entries(f"{JACK}, {BOX}"))
    floor, idle = (measure_of(name, record) for name in OF_BOX)
    assert floor.bounds is not None
    assert floor.bounds.best == pytest.approx(0.8620, abs=5e-5)
    assert floor.said == "86 % stated: outside the limit, if the rule applies to it, which is not judged"
    assert idle.said == "0.08 W stated: within the limit, if the rule applies to it, which is not judged"
    near = measure_of("supply-efficiency-limit", record_of(entries(f"{JACK}, {BOX.replace('86 %', '85..88 %')}")))
    assert near.said.startswith("85..88 % stated: too near the limit to tell")


def test_a_limit_that_was_not_held_against_anything_says_what_is_lacking(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    record = record_of(entries(f"{JACK}, supplied_with: {{means: wall adapter, voltage: 12 V, current: 2 A}}"))
    assert [measure_of(name, record).missing for name in OF_BOX] == [
        ("e1: supplied_with efficiency",),
        ("e1: supplied_with no_load",),
    ]


@pytest.mark.parametrize("box", ["voltage: 24 V, current: 12 A", "means: wall adapter", "voltage: 12 V"])
def test_no_limit_above_250_w_or_without_a_rating(box: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(entries(f"{JACK}, supplied_with: {{{box}}}"))
    assert [ends_of(name, record) for name in OF_BOX] == [None, None]


def test_a_rating_that_leaves_the_kind_of_supply_open_gives_both_limits(record_of: RecordOf, ends_of: EndsOf) -> None:
    # 10 W at 5.5 to 6.5 V: between 0.0834 ln 10 - 0.014 + 0.609 and 0.071 ln 10 - 0.014 + 0.67, by hand.
    box = "supplied_with: {means: wall adapter, power: 10 W, voltage: 5.5..6.5 V, current: 1.6 A}"
    ends = ends_of("supply-efficiency-limit", record_of(entries(f"{JACK}, {box}")))
    assert ends == pytest.approx((0.7870, 0.8195), abs=5e-5)


def test_a_lead_in_the_box_is_no_supply(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("supply-no-load-limit", record_of(entries(f"{TYPE_C}, {LEAD}")))
    assert measure.bounds is None
    assert measure.how == "no supply recorded that came in the box"
    assert (measure.moot, measure.missing) == (True, ())


@pytest.mark.parametrize("figure", OF_BOX)
@pytest.mark.parametrize(
    ("facts", "coverage", "lacking"),
    [
        (f"{TYPE_C}, {LEAD}", "part", "power: looked at only in part"),
        (f"{TYPE_C}, {LEAD}", "{main: whole}", "power elsewhere: not looked at"),
        (TYPE_C, "whole", "e1: supplied_with means"),  # nobody said what came in the box
        (f"{TYPE_C}, supplied_with: {{current: 1 A}}", "whole", "e1: supplied_with means"),
    ],
)
def test_a_supply_may_have_come_where_nobody_says_so(
    figure: str, facts: str, coverage: str, lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    record = record_of(entries(facts, coverage=coverage) + "boards: {main: {}}\n")
    measure = measure_of(figure, record)
    assert (measure.bounds, measure.moot) == (None, False)
    assert lacking in measure.missing


def test_a_rating_on_the_edge_of_two_classes_names_both(record_of: RecordOf, measure_of: MeasureOf) -> None:
    said = measure_of("source-power", record_of(entries("supplied_with: {power: 14..16 W}"))).said
    assert said.startswith("by rating PS1, at most 15 W or PS2, at most 100 W (")
    assert not measure_of("source-power", record_of(entries(TYPE_C))).said  # no upper limit known, so no class


@pytest.mark.parametrize(("figure", "fact"), [("power-in-use", "in_use"), ("standby-power", "standby")])
def test_power_of_the_whole_product_is_as_stated(
    figure: str, fact: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    bounds = measure_of(figure, record_of(f"power: {{{fact}: 1.5 ± 0.1 W}}\n")).bounds
    assert bounds is not None
    assert (bounds.low, bounds.best, bounds.high) == pytest.approx((1.4, 1.5, 1.6))
    silent = measure_of(figure, record_of("coverage: {power: whole}\n"))
    assert (silent.bounds, silent.missing) == (None, (f"power: {fact}",))


def test_a_plug_that_fits_two_classes_or_none_is_not_forced_into_one(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    def said(size: str) -> str:
        return measure_of("entry-voltage", record_of(entries(f"means: coaxial dc socket, voltage: 5 V, {size}"))).said

    both = said("plug_outer: 5.5 mm, plug_inner: 2.1..2.5 mm")
    assert both.count("tied to no voltage") == 2
    assert said("plug_outer: 3.0 mm, plug_inner: 1.1 mm") == ""


def test_a_negative_voltage_is_as_high_as_a_positive_one(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(entries("voltage: -48 V, current: 0.5 A"))
    assert ends_of("entry-voltage", record) == (48, 48)
    assert ends_of("entry-power", record) == (24, 24)


def test_a_tolerance_that_reaches_below_zero_ends_at_zero(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(entries("voltage: 5 V, current: 0.1 ± 0.2 A"))
    assert ends_of("entry-power", record) == pytest.approx((0, 1.5))  # at most 0.3 A x 5 V, by hand
