"""Quantities as people write them. Expected values are worked out by hand from the written numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.quantities import DIMENSIONS, Bounds, QuantityError, parse_quantity, parse_size, shown_unit

INF = math.inf


@pytest.mark.parametrize(
    ("text", "best", "low", "high"),
    [
        ("12 mm", 12, 12, 12),
        ("12mm", 12, 12, 12),
        ("1.2 cm", 12, 12, 12),
        (" 12  mm ", 12, 12, 12),
        ("+12 mm", 12, 12, 12),
        ("1.2e1 mm", 12, 12, 12),
        (".5 mm", 0.5, 0.5, 0.5),
        ("12 ± 0.5 mm", 12, 11.5, 12.5),
        ("12 +- 0.5 mm", 12, 11.5, 12.5),
        ("12 +/- 0.5 mm", 12, 11.5, 12.5),
        ("12±0.5mm", 12, 11.5, 12.5),
        ("12 mm ± 0.5 mm", 12, 11.5, 12.5),
        ("20 mm ± 5 %", 20, 19, 21),
        ("20 ± 5 % mm", 20, 19, 21),
        ("10..14 mm", 12, 10, 14),
        ("10 .. 14 mm", 12, 10, 14),
        ("10...14 mm", 12, 10, 14),
        ("10…14 mm", 12, 10, 14),
        ("10 mm..14 mm", 12, 10, 14),
        ("1.5..2.5 mm", 2, 1.5, 2.5),
        ("-3..-1 mm", -2, -3, -1),
        ("about 12 mm", 12, 10.8, 13.2),
        ("approx. 12 mm", 12, 10.8, 13.2),
        ("ca. 12 mm", 12, 10.8, 13.2),
        ("~12 mm", 12, 10.8, 13.2),
        ("≈ 12 mm", 12, 10.8, 13.2),
        ("at least 3 mm", None, 3, INF),
        (">= 3 mm", None, 3, INF),
        ("≥3 mm", None, 3, INF),
        ("> 3 mm", None, 3, INF),
        ("at most 3 mm", None, 0, 3),
        ("up to 3 mm", None, 0, 3),
        ("<= 3 mm", None, 0, 3),
        ("≤ 3 mm", None, 0, 3),
    ],
)
def test_every_form_of_a_quantity(text: str, best: float | None, low: float, high: float) -> None:
    bounds = parse_quantity(text, "length").bounds
    assert bounds.low == pytest.approx(low, rel=1e-12)
    assert bounds.high == pytest.approx(high, rel=1e-12)
    assert bounds.best == (None if best is None else pytest.approx(best, rel=1e-12))


@pytest.mark.parametrize(
    ("text", "dimension", "low", "high"),
    [
        ("40 mm2 ± 5 %", "area", 38, 42),
        ("40 mm2 ± 2 mm2", "area", 38, 42),
        ("38 mm2..42 mm2", "area", 38, 42),
        ("38..42 mm2", "area", 38, 42),
        ("38 mm²…42 mm²", "area", 38, 42),
        ("1.2 m3/h ± 0.2 m3/h", "flow", 1.0, 1.4),
        ("3 W/m/K..6 W/m/K", "conductivity", 3, 6),
        ("32 dB(A) ± 2 dB(A)", "level", 30, 34),
        ("88 ± 2 %", "ratio", 0.86, 0.90),
        ("88 % ± 2 %", "ratio", 0.86, 0.90),
        ("0.88 ± 0.02", "ratio", 0.86, 0.90),
        ("80 %..90 %", "ratio", 0.80, 0.90),
        ("120..129 EUR", "money", 120, 129),
        ("20 ± 1 degC", "temperature", 19, 21),
    ],
)
def test_units_with_powers_and_brackets_stand_in_every_form(text: str, dimension: str, low: float, high: float) -> None:
    found = parse_quantity(text, dimension).bounds
    assert (found.low, found.high) == pytest.approx((low, high), rel=1e-12)


def test_at_most_of_what_may_be_negative_has_no_lower_end() -> None:
    assert parse_quantity("at most -5 degC", "temperature").bounds == Bounds(None, -INF, -5)
    assert parse_quantity("at most 5 V", "voltage").bounds.low == -INF


def test_the_best_value_of_a_limit_is_the_limit() -> None:
    assert parse_quantity("at least 3 mm", "length").best == 3
    assert parse_quantity("at most 3 mm", "length").best == 3
    assert parse_quantity("10..14 mm", "length").best == 12


def test_it_reads_as_it_was_written() -> None:
    assert str(parse_quantity("about 12 mm", "length")) == "about 12 mm"
    assert str(parse_size("62 x 48 mm")) == "62 x 48 mm"


@pytest.mark.parametrize(
    ("text", "dimension", "words"),
    [
        ("12", "length", "no unit"),
        ("12 kg", "length", "'kg'"),
        ("12 mm", "mass", "'mm'"),
        ("mm", "length", "not a quantity"),
        ("", "length", "not a quantity"),
        ("a few mm", "length", "not a quantity"),
        ("12 parsnips", "length", "parsnips"),
        ("14..10 mm", "length", "high to low"),
        ("10 cm..14 mm", "length", "mixes"),
        ("12 cm ± 1 mm", "length", "mixes"),
        ("12,5 mm", "length", ""),
        ("12 mm 13 mm", "length", ""),
        ("nan mm", "length", ""),
        ("inf mm", "length", ""),
        ("5 EUR", "voltage", "EUR"),
        ("5 eur", "money", "eur"),
        ("5 €", "money", "€"),
        ("3 V", "current", "'V'"),
        ("4 bit", "angle", "'bit'"),
        ("4 deg", "information", "'deg'"),
        ("1 __import__('os')", "length", ""),
        ("1 mm; 2", "length", ""),
        ("5 dB", "power", "dB"),
        ("0.88 ± 2 %", "ratio", "two ways"),
        ("about 1e999 mm", "length", "out of all measure"),
        ("1e308 m", "length", "out of all measure"),
        ("1 ± 1e999 mm", "length", "out of all measure"),
    ],
)
def test_what_is_no_quantity_of_that_kind_is_refused_with_an_example(text: str, dimension: str, words: str) -> None:
    with pytest.raises(QuantityError) as refusal:
        parse_quantity(text, dimension)
    assert words in str(refusal.value)
    assert refusal.value.hint


@given(st.text(max_size=24), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_is_a_quantity_or_is_refused(text: str, dimension: str) -> None:
    try:
        found = parse_quantity(text, dimension)
    except QuantityError:
        return
    assert found.bounds.low <= found.bounds.high


near_quantities = st.text("0123456789.-+±~<>≥%x eE mkVWAΩµ°²³/*^()", max_size=20)


@given(near_quantities, st.sampled_from(sorted(DIMENSIONS)))
def test_near_quantities_are_read_or_refused(text: str, dimension: str) -> None:
    try:
        found = parse_quantity(text, dimension)
    except QuantityError:
        return
    assert found.bounds.low <= found.bounds.high


@given(st.text(max_size=24) | near_quantities)
def test_any_text_is_a_size_or_is_refused(text: str) -> None:
    try:
        found = parse_size(text)
    except QuantityError:
        return
    assert found.width.low <= found.width.high


def test_money_keeps_its_currency() -> None:
    assert parse_quantity("129 EUR", "money").currency == "EUR"
    assert parse_quantity("about 40 USD", "money").currency == "USD"
    assert parse_quantity("12 mm", "length").currency == ""


@pytest.mark.parametrize(("text", "value"), [("88 %", 0.88), ("0.88", 0.88), ("80..90 %", 0.85), ("1", 1.0)])
def test_ratios(text: str, value: float) -> None:
    assert parse_quantity(text, "ratio").bounds.best == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("unit", ["dB", "dBA", "dB(A)", "dBm", "dBi"])
def test_levels_stay_in_the_unit_they_are_in(unit: str) -> None:
    assert parse_quantity(f"-3 {unit}", "level").bounds == Bounds.exact(-3.0)


def test_every_dimension_has_a_unit_to_show() -> None:
    assert {shown_unit(name) for name in DIMENSIONS} >= {"mm", "mm²", "V", "W", "°C", "Ω", ""}


@pytest.mark.parametrize(
    ("text", "width", "depth", "height", "area"),
    [
        ("62 x 48 mm", 62, 48, None, 62 * 48),
        ("62x48mm", 62, 48, None, 62 * 48),
        ("62 × 48 mm", 62, 48, None, 62 * 48),  # noqa: RUF001 - the multiplication sign is meant
        ("6.2 x 4.8 cm", 62, 48, None, 62 * 48),
        ("6.2 cm x 48 mm", 62, 48, None, 62 * 48),
        ("7 x 7 x 0.9 mm", 7, 7, 0.9, 49),
        ("round 12 mm", 12, 12, None, math.pi * 36),
        ("round 12 x 3 mm", 12, 12, 3, math.pi * 36),
        ("diameter 12 mm", 12, 12, None, math.pi * 36),
        ("⌀12 mm", 12, 12, None, math.pi * 36),
    ],
)
def test_every_form_of_a_size(text: str, width: float, depth: float, height: float | None, area: float) -> None:
    size = parse_size(text)
    assert size.width.best == pytest.approx(width, rel=1e-12)
    assert size.depth.best == pytest.approx(depth, rel=1e-12)
    assert (None if size.height is None else size.height.best) == height
    assert size.area.best == pytest.approx(area, rel=1e-12)
    assert size.is_round == (width == depth and "7" not in text)


def test_a_size_may_have_bounds() -> None:
    size = parse_size("about 10 x 20 mm")
    assert (size.width.low, size.width.high) == pytest.approx((9, 11))
    assert (size.area.low, size.area.high) == pytest.approx((9 * 18, 11 * 22))
    size = parse_size("10 ± 1 x 20 ± 2 mm")
    assert (size.width.low, size.depth.high) == pytest.approx((9, 22))
    size = parse_size("9..11 x 20 mm")
    assert (size.width.low, size.width.high, size.depth.low) == pytest.approx((9, 11, 20))


@pytest.mark.parametrize(
    "text", ["62 mm", "62 x 48", "a x b mm", "1 x 2 x 3 x 4 mm", "round 1 x 2 x 3 mm", "62 x mm", "62 x 48 kg", "x", ""]
)
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(QuantityError) as refusal:
        parse_size(text)
    assert refusal.value.hint
