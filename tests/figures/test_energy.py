"""Stored energy, run time, and what capacitors keep."""

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

OF_STORES = ("stored-energy", "transport-share", "run-time")
OF_CAPACITORS = ("residual-energy", "bleed-time")


def stores(facts: str, coverage: str = "whole") -> str:
    return f"coverage: {{power: {coverage}}}\npower: {{storage: {{{facts}}}, in_use: 0.5 W}}\n"


def parts(facts: str, coverage: str = "whole") -> str:
    rails = "rails: {v12: {voltage: 12 V}, v400: {voltage: 380..420 V}}"
    return f"coverage: {{parts: {coverage}, power: whole}}\nparts: {{{facts}}}\npower: {{{rails}}}\n"


@pytest.mark.parametrize(
    ("facts", "watt_hours"),
    [
        ("voltage: 3.6 V, charge: 2500 mAh", 9.0),  # 3.6 x 2.5, by hand
        ("voltage: 3.6 V, charge: 2500 mAh, energy: 8.8 Wh", 8.8),  # as marked goes before
        ("means: supercapacitor, capacitance: 10 F, voltage: 2.7 V", 0.010125),  # 36.45 J / 3600, by hand
        ("voltage: 3 V, charge: 500 mAh, count: 2", 3.0),  # two of 1.5 Wh
    ],
)
def test_energy_of_a_store(facts: str, watt_hours: float, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("stored-energy", record_of(stores(f"s: {{{facts}}}")))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.bounds.best == pytest.approx(watt_hours)
    assert measure.missing == ()


def test_run_time_and_share_by_hand(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(stores("a: {energy: 9 Wh}, b: {energy: 1 Wh}"))
    assert ends_of("run-time", record) == pytest.approx((20, 20))  # 10 Wh / 0.5 W
    assert ends_of("transport-share", record) == pytest.approx((0.09, 0.09))  # the larger of both


def test_what_only_keeps_a_clock_does_not_run_the_product(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(stores("s: {function: back-up storage, energy: 0.1 Wh}"))
    measure = measure_of("run-time", record)
    assert measure.bounds is None
    assert measure.how == "no store recorded that runs the product"
    assert (measure.moot, measure.missing) == (True, ())


BACK_UP = "s: {function: back-up storage, energy: 0.1 Wh}"


@pytest.mark.parametrize(
    ("figure", "facts", "coverage", "lacking"),
    [
        ("run-time", BACK_UP, "part", "power: looked at only in part"),
        ("run-time", BACK_UP, "{main: whole}", "power elsewhere: not looked at"),
        ("run-time", f"{BACK_UP}, t: {{function: purpose not known}}", "whole", "t: function"),
        ("run-time", "", "part", "power: looked at only in part"),
        ("transport-share", "", "part", "power: looked at only in part"),
        ("transport-share", "", "none", "power: not looked at"),
        ("transport-share", "t: {}", "whole", "t: energy"),
    ],
)
def test_a_store_may_be_where_nobody_looked(
    figure: str, facts: str, coverage: str, lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(stores(facts, coverage) + "boards: {main: {}}\n"))
    assert (measure.bounds, measure.moot) == (None, False)
    assert lacking in measure.missing


def test_a_store_of_unknown_purpose_may_run_it_or_not(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(stores("s: {energy: 9 Wh}, t: {function: purpose not known, energy: 1 Wh}"))
    assert ends_of("run-time", record) == pytest.approx((18, 20))


def test_without_a_power_in_use_there_is_no_run_time(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("run-time", record_of(stores("s: {energy: 9 Wh}").replace(", in_use: 0.5 W", "")))
    assert measure.bounds is None
    assert "power: in_use" in measure.missing


@pytest.mark.parametrize("figure", OF_STORES)
def test_a_store_of_unknown_energy_leaves_it_open(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(stores("s: {energy: 9 Wh}, t: {voltage: 3.7 V}")))
    assert measure.bounds is not None
    assert measure.bounds.high == inf
    assert measure.missing == ("t: energy",)


@pytest.mark.parametrize("figure", OF_STORES)
def test_looked_at_in_part_gives_at_least(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(stores("s: {energy: 9 Wh}")))
    assert whole is not None
    assert ends_of(figure, record_of(stores("s: {energy: 9 Wh}", "part"))) == (whole[0], inf)


def test_no_store_at_all_holds_nothing_and_not_looked_at_is_not_known(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    assert ends_of("stored-energy", record_of("coverage: {power: whole}\n")) == (0, 0)
    measure = measure_of("stored-energy", record_of("coverage: {power: none}\n"))
    assert (measure.bounds, measure.moot, measure.missing) == (None, False, ("power: not looked at",))


@pytest.mark.parametrize(
    ("figure", "how"),
    [("transport-share", "no store of energy recorded"), ("run-time", "no store recorded that runs the product")],
)
def test_without_a_store_neither_share_nor_run_time_arises(
    figure: str, how: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of("coverage: {power: whole}\n"))
    assert (measure.bounds, measure.moot, measure.how, measure.missing) == (None, True, how, ())


CAN = "means: electrolytic capacitor, capacitance: 1000 uF"


@pytest.mark.parametrize(
    ("facts", "joules"),
    [
        (f"{CAN}, voltage: 25 V", (0.3125, 0.3125)),  # 0.0005 x 625, by hand
        (f"{CAN}, fed_by: v12", (0.072, 0.072)),  # 0.0005 x 144
        (f"{CAN}, fed_by: v400, count: 2", (144.4, 176.4)),  # 0.001 x 380^2 and 420^2
        (f"{CAN.replace('electrolytic', 'ceramic')}, voltage: 25 V", (0, 0)),  # left out, as said
        (f"{CAN.replace('means: electrolytic capacitor, ', '')}, voltage: 25 V", (0, 0.3125)),  # may be one
        (CAN, None),
        ("means: electrolytic capacitor, voltage: 25 V", None),
    ],
)
def test_energy_left_in_a_capacitor(
    facts: str, joules: tuple[float, float] | None, record_of: RecordOf, ends_of: EndsOf
) -> None:
    found = ends_of("residual-energy", record_of(parts(f"C1: {{{facts}}}")))
    assert found == (None if joules is None else pytest.approx(joules))


def test_a_large_capacitor_among_the_stores_counts_too(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = "coverage: {parts: whole, power: whole}\npower: {storage: {s: {means: supercapacitor, capacitance: 10 F, voltage: 2.7 V}}}\n"
    assert ends_of("residual-energy", record_of(text)) == pytest.approx((36.45, 36.45))  # 5 x 7.29, by hand


@pytest.mark.parametrize(
    ("facts", "seconds"),
    [
        (f"{CAN}, fed_by: v12", (0, 0)),
        (f"{CAN}, fed_by: v400, bleed: 100 kohm", (184.583, 194.591)),  # 100 ln(380/60) and 100 ln 7, by hand
        (f"{CAN}, fed_by: v400", None),
        (CAN, None),
        ("means: ceramic capacitor, fed_by: v400", (0, 0)),
        ("fed_by: v12", (0, 0)),  # whatever it is, it is not above 60 V
        ("fed_by: v400", None),
    ],
)
def test_time_to_fall_to_60_v(
    facts: str, seconds: tuple[float, float] | None, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("bleed-time", record_of(parts(f"C1: {{{facts}}}")))
    if seconds is None:
        assert measure.bounds is None
        assert measure.missing
    else:
        assert measure.bounds is not None
        assert (measure.bounds.low, measure.bounds.high) == pytest.approx(seconds, abs=5e-3)
        assert ("measure before touching" in measure.said) == (seconds == (0, 0))


@pytest.mark.parametrize(("fact", "name"), [(", bleed: 100 kohm", "bleed"), (", capacitance: 1000 uF", "capacitance")])
def test_what_would_tell_the_time_is_named(fact: str, name: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(parts(f"C1: {{{CAN}, fed_by: v400, bleed: 100 kohm}}".replace(fact, "")))
    assert measure_of("bleed-time", record).missing == (f"C1: {name}",)


@pytest.mark.parametrize("figure", OF_CAPACITORS)
def test_parts_not_looked_at_may_hold_anything(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    for coverage in ("part", "none"):
        measure = measure_of(figure, record_of(parts("C1: {means: resistor}", coverage)))
        assert measure.bounds is None
        assert any(fact.startswith("parts: ") for fact in measure.missing)
