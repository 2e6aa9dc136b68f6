from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]


def product(facts: str) -> str:
    return f"archdiff: 1\nproduct: {{name: Tarvo, kind: test object, {facts}}}\n"


@pytest.mark.parametrize(
    ("figure", "facts", "low", "high"),
    [
        ("price", "price: 129 EUR", 129, 129),
        ("price", "price: 120..130 EUR", 120, 130),
        ("mass", "mass: 0.236 kg", 236, 236),
        ("mass", "mass: 236 ± 1 g", 235, 237),
        ("envelope-volume", "envelope: 100 x 50 x 20 mm", 100, 100),
        ("envelope-volume", "envelope: round 100 x 40 mm", pi * 100, pi * 100),
    ],
)
def test_as_stated(
    figure: str, facts: str, low: float, high: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(product(facts)))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((low, high))
    assert measure.used == (f"product: {facts.split(':', maxsplit=1)[0]}",)
    assert measure.missing == ()


@pytest.mark.parametrize(("figure", "fact"), [("price", "price"), ("mass", "mass"), ("envelope-volume", "envelope")])
def test_not_stated_is_not_known_and_named(figure: str, fact: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(product("year: 2025")))
    assert (measure.bounds, measure.missing) == (None, (f"product: {fact}",))


def test_an_envelope_of_two_sizes_has_no_volume(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("envelope-volume", record_of(product("envelope: 100 x 50 mm")))
    assert (measure.bounds, measure.missing) == (None, ("product: envelope",))


def test_price_carries_its_currency(record_of: RecordOf, measure_of: MeasureOf) -> None:
    assert measure_of("price", record_of(product("price: 129 CHF"))).unit == "CHF"
    assert measure_of("mass", record_of(product("mass: 1 kg"))).unit == ""
