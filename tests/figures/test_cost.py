from __future__ import annotations

from itertools import pairwise
from math import inf, pi
from typing import TYPE_CHECKING

import pint
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

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


SECTIONS = (
    "boards", "parts", "controls", "indicators", "sensors", "actuators", "antennas", "shields", "power", "interconnects",
    "enclosure",
)  # fmt: skip
WHOLE = f"coverage: {{{', '.join(f'{name}: whole' for name in SECTIONS)}}}\n"
HEAD = "archdiff: 1\nproduct: {name: Tarvo, kind: test object, price: 50 EUR, mass: 100 g}\n"
# Everything that can have a price or a mass has one, and all that is placed on the board is listed.
BUILD = """boards: {main: {placements: {top: 2, bottom: 0}, price: 2 EUR, mass: 20 g}}
parts:
  U1: {on: main, side: top, function: host processing, means: microcontroller, price: 3..4 EUR, mass: 1 g}
  C1: {on: main, side: top, function: supply decoupling, means: ceramic capacitor, price: 0.5 EUR}
sensors: {pm: {in: shell, function: particle sensing, price: 6 EUR, mass: 30 g}}
interconnects: {lead: {between: [pm, main], means: wire harness, price: 1 EUR, mass: 2..3 g}}
enclosure: {shell: {function: housing, price: 1.5 EUR, mass: 40 g}}
"""


def ends(figure: str, text: str, record_of: RecordOf, measure_of: MeasureOf) -> tuple[float, float] | None:
    bounds = measure_of(figure, record_of(text)).bounds
    return None if bounds is None else (bounds.low, bounds.high)


@pytest.mark.parametrize(
    ("figure", "low", "high"),
    [
        # by hand: 2 + 3..4 + 0.5 + 6 + 1 + 1.5
        ("stated-prices", 14, 15),
        ("price-share", 14 / 50, 15 / 50),
        # what the board carries: 2 + 3..4 + 0.5
        ("board-price", 5.5, 6.5),
        # 20 with the parts on it + 30 + 2..3 + 40; the gram of U1 is in the 20
        ("stated-masses", 92, 93),
        ("mass-share", 0.92, 0.93),
    ],
)
def test_sums_of_what_is_stated(
    figure: str, low: float, high: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(HEAD + WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((low, high))
    assert measure.missing == ()


def test_sums_are_told_by_subsystem_board_and_section(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(HEAD + WHOLE + BUILD)
    prices = {name: part.high for name, part in measure_of("stated-prices", record).parts.items()}
    assert prices == {"sensing": 6, "compute": 4, "structure": 2.5, "bare boards": 2, "power": 0.5}
    assert {name: part.low for name, part in measure_of("board-price", record).parts.items()} == {"main": 5.5}
    masses = {name: part.low for name, part in measure_of("stated-masses", record).parts.items()}
    assert masses == {"enclosure": 40, "sensors": 30, "boards": 20, "interconnects": 2}


@pytest.mark.parametrize("figure", ["stated-prices", "board-price"])
def test_sums_of_prices_carry_their_currency(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    assert measure_of(figure, record_of(HEAD + WHOLE + BUILD)).unit == "EUR"
    assert measure_of(figure, record_of((HEAD + WHOLE + BUILD).replace("EUR", "CHF"))).unit == "CHF"


def test_two_currencies_are_not_added_up(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(HEAD + WHOLE + BUILD.replace("price: 6 EUR", "price: 6 USD"))
    measure = measure_of("stated-prices", record)
    assert measure.bounds is None
    assert {name: part.low for name, part in measure.parts.items()} == {"EUR": 8, "USD": 6}
    assert measure.missing
    assert measure_of("price-share", record).bounds is None


@pytest.mark.parametrize(
    ("figure", "fact", "least", "missing"),
    [
        ("stated-prices", ", price: 0.5 EUR", 13.5, "C1: price"),
        ("stated-prices", "placements: {top: 2, bottom: 0}, ", 14, "main: placements top"),
        ("price-share", ", price: 0.5 EUR", 13.5 / 50, "product: prices of all its parts"),
        ("stated-masses", ", mass: 30 g", 62, "pm: mass"),
        ("mass-share", ", mass: 30 g", 0.62, "product: masses of all its parts"),
        ("board-price", "on: main, side: top, function: supply decoupling, ", 5, "C1: on"),
        # of what has no place, and of a lead from it, it is not known whether the board was weighed with it
        ("stated-masses", "in: shell, ", 60, "pm: on"),
        ("stated-masses", "in: shell, ", 60, "lead: places of its ends"),
    ],
)
def test_a_lacking_fact_gives_a_lower_limit_and_is_named(
    figure: str, fact: str, least: float, missing: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    assert fact in BUILD
    measure = measure_of(figure, record_of(HEAD + WHOLE + BUILD.replace(fact, "")))
    assert measure.bounds is not None
    assert measure.bounds.low == pytest.approx(least)
    assert measure.bounds.high in (inf, 93)
    assert missing in measure.missing


def test_parts_placed_and_not_listed_may_cost_anything(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(HEAD + WHOLE + BUILD.replace("top: 2", "top: 40"))
    measure = measure_of("stated-prices", record)
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (14, inf)
    assert measure.missing == ("main: prices of the parts placed there and not listed",)


def test_an_entry_of_several_states_the_price_of_all_and_a_board_that_of_one(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    text = BUILD.replace("boards: {main: {", "boards: {main: {count: 2, ").replace(
        "supply decoupling, ", "supply decoupling, count: 2, "
    )
    assert measure_of("stated-prices", record_of(HEAD + WHOLE + text)).bounds is not None
    assert ends("stated-prices", HEAD + WHOLE + text, record_of, measure_of) == pytest.approx((16, 17))


@pytest.mark.parametrize("figure", ["stated-prices", "board-price", "price-share", "stated-masses", "mass-share"])
def test_nothing_priced_or_weighed_is_not_nothing(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(HEAD + "boards: {main: {}}\n"))
    assert measure.bounds is None
    assert measure.missing
    assert measure_of(figure, record_of(HEAD + WHOLE)).bounds is None
    assert measure_of(figure, record_of(HEAD + WHOLE)).missing


@pytest.mark.parametrize("figure", ["mass", "stated-masses", "mass-share", "envelope-volume"])
def test_other_units_give_the_same(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    metric = HEAD.replace("mass", "envelope: 100 x 50 x 20 mm, mass") + WHOLE + BUILD
    other = metric.replace("100 x 50 x 20 mm", "10 x 5 x 2 cm")
    for grams, kilograms in (
        ("100 g", "0.1 kg"),
        ("20 g", "0.02 kg"),
        ("30 g", "30000 mg"),
        ("2..3 g", "0.002..0.003 kg"),
        ("40 g", "0.04 kg"),
    ):
        assert grams in other
        other = other.replace(grams, kilograms)
    assert ends(figure, other, record_of, measure_of) == pytest.approx(ends(figure, metric, record_of, measure_of))


widths = st.lists(st.integers(0, 9), min_size=5, max_size=5)


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(less=widths, more=widths, hidden=st.sets(st.integers(0, 4)))
def test_knowing_prices_and_masses_better_only_narrows_the_sums(
    less: list[int], more: list[int], hidden: set[int], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    def text(stated: list[str]) -> str:
        names = ("main", "U1", "pm", "lead", "shell")
        facts = dict(zip(names, stated, strict=True))
        return (
            f"{HEAD}{WHOLE}boards: {{main: {{placements: {{top: 1, bottom: 0}}{facts['main']}}}}}\n"
            f"parts: {{U1: {{on: main, side: top, means: microcontroller{facts['U1']}}}}}\n"
            f"sensors: {{pm: {{in: shell{facts['pm']}}}}}\nenclosure: {{shell: {{means: moulded shell{facts['shell']}}}}}\n"
            f"interconnects: {{lead: {{between: [pm, main]{facts['lead']}}}}}\n"
        )

    exact = [f", price: {10 + i} EUR, mass: {20 + i} g" for i in range(5)]
    wide = [
        f", price: {10 + i - less[i]}..{10 + i + more[i]} EUR, mass: {20 + i - less[i]}..{20 + i + more[i]} g"
        for i in range(5)
    ]
    silent = ["" if i in hidden else facts for i, facts in enumerate(wide)]
    for figure in ("stated-prices", "board-price", "price-share", "stated-masses", "mass-share"):
        found = [ends(figure, text(facts), record_of, measure_of) or (0, inf) for facts in (silent, wide, exact)]
        for outer, inner in pairwise(found):
            assert outer[0] <= inner[0] + 1e-9
            assert inner[1] <= outer[1] + 1e-9


def test_heft_is_mass_over_the_box_around_it(record_of: RecordOf, measure_of: MeasureOf) -> None:
    # Recomputed with pint: 250 g in 100 x 50 x 20 mm.
    unit = pint.UnitRegistry()
    wanted = (250 * unit.g / (100 * unit.mm * 50 * unit.mm * 20 * unit.mm)).to("g/cm**3").magnitude
    bounds = measure_of("heft", record_of(product("mass: 250 g, envelope: 100 x 50 x 20 mm"))).bounds
    assert bounds is not None
    assert (bounds.low, bounds.high) == pytest.approx((wanted, wanted))
    open_one = measure_of("heft", record_of(product("mass: 250 g")))
    assert (open_one.bounds, open_one.missing) == (None, ("product: envelope",))
