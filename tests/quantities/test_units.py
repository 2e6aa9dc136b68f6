"""Units against outside sources: the pint library, scipy.constants, and the definitions of the SI."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from archdiff.quantities import DIMENSIONS, parse_quantity

REGISTRY: pint.UnitRegistry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)  # type: ignore[type-arg]

# Written by a bench engineer, the same for pint, the kind, and the unit it is kept in.
UNITS = [
    ("um", "micrometer", "length", "mm"),
    ("µm", "micrometer", "length", "mm"),
    ("cm", "centimeter", "length", "mm"),
    ("m", "meter", "length", "mm"),
    ("in", "inch", "length", "mm"),
    ("mil", "thou", "length", "mm"),
    ("cm2", "centimeter**2", "area", "mm**2"),
    ("cm²", "centimeter**2", "area", "mm**2"),
    ("mm^2", "millimeter**2", "area", "mm**2"),
    ("ml", "milliliter", "volume", "mm**3"),
    ("l", "liter", "volume", "mm**3"),
    ("kg", "kilogram", "mass", "g"),
    ("mg", "milligram", "mass", "g"),
    ("oz", "ounce", "mass", "g"),
    ("min", "minute", "time", "s"),
    ("ms", "millisecond", "time", "s"),
    ("h", "hour", "time", "s"),
    ("mV", "millivolt", "voltage", "V"),
    ("kV", "kilovolt", "voltage", "V"),
    ("mA", "milliampere", "current", "A"),
    ("uA", "microampere", "current", "A"),
    ("µA", "microampere", "current", "A"),
    ("mW", "milliwatt", "power", "W"),
    ("J", "joule", "energy", "W*h"),
    ("kWh", "kilowatt*hour", "energy", "W*h"),
    ("mWh", "milliwatt*hour", "energy", "W*h"),
    ("Ah", "ampere*hour", "charge", "mA*h"),
    ("mAh", "milliampere*hour", "charge", "mA*h"),
    ("C", "coulomb", "charge", "mA*h"),
    ("kHz", "kilohertz", "frequency", "Hz"),
    ("GHz", "gigahertz", "frequency", "Hz"),
    ("kohm", "kiloohm", "resistance", "ohm"),
    ("kΩ", "kiloohm", "resistance", "ohm"),
    ("Mohm", "megaohm", "resistance", "ohm"),
    ("uF", "microfarad", "capacitance", "F"),
    ("pF", "picofarad", "capacitance", "F"),
    ("uH", "microhenry", "inductance", "H"),
    ("W/m/K", "watt/meter/kelvin", "conductivity", "W/m/K"),
    ("W/(m·K)", "watt/meter/kelvin", "conductivity", "W/m/K"),
    ("K/W", "kelvin/watt", "thermal resistance", "K/W"),
    ("mN", "millinewton", "force", "N"),
    ("N*m", "newton*meter", "torque", "N*m"),
    ("Nm", "newton*meter", "torque", "N*m"),
    ("N*cm", "newton*centimeter", "torque", "N*m"),
    ("rad", "radian", "angle", "deg"),
    ("KiB", "kibibyte", "information", "byte"),
    ("MB", "megabyte", "information", "byte"),
    ("Mbit", "megabit", "information", "byte"),
    ("Mibit", "mebibit", "information", "byte"),
    ("m3/h", "meter**3/hour", "flow", "m**3/h"),
    ("l/min", "liter/minute", "flow", "m**3/h"),
    ("cm/s", "centimeter/second", "speed", "m/s"),
    ("km/h", "kilometer/hour", "speed", "m/s"),
    ("lx", "lux", "illuminance", "lx"),
    ("lm", "lumen", "luminous flux", "lm"),
]


@pytest.mark.parametrize(("written", "known_as", "dimension", "kept"), UNITS)
def test_units_are_converted_as_by_pint(written: str, known_as: str, dimension: str, kept: str) -> None:
    expected = REGISTRY.Quantity(7.0, known_as).to(kept).magnitude
    assert parse_quantity(f"7 {written}", dimension).bounds.best == pytest.approx(expected, rel=1e-11)


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [
        ("1 in", "length", constants.inch / constants.milli),
        ("1 mil", "length", constants.mil / constants.milli),
        ("1 ft", "length", constants.foot / constants.milli),
        ("1 oz", "mass", constants.oz / constants.gram),
        ("1 lb", "mass", constants.lb / constants.gram),
        ("1 min", "time", constants.minute),
        ("1 h", "time", constants.hour),
        ("1 Wh", "energy", 1.0),
        ("3600 J", "energy", 3600 / constants.hour),
        ("1 l", "volume", constants.liter / constants.milli**3),
        ("180 deg", "angle", constants.pi / constants.degree),
        ("1 km/h", "speed", constants.kmh),
        ("1 GHz", "frequency", constants.giga),
        ("1 KiB", "information", constants.kibi),
        ("1 MiB", "information", constants.mebi),
        ("8 Mbit", "information", constants.mega),
        ("0 degC", "temperature", 0.0),
        ("273.15 K", "temperature", constants.convert_temperature(273.15, "K", "C")),
        ("300 K", "temperature", constants.convert_temperature(300.0, "K", "C")),
        ("32 degF", "temperature", constants.convert_temperature(32.0, "F", "C")),
        ("212 degF", "temperature", constants.convert_temperature(212.0, "F", "C")),
        ("48 °C", "temperature", 48.0),
    ],
)
def test_units_are_converted_as_by_scipy(text: str, dimension: str, expected: float) -> None:
    """scipy.constants (CODATA 2018/2022 and the international definitions of the inch and the pound)."""
    assert parse_quantity(text, dimension).bounds.best == pytest.approx(expected, rel=1e-11, abs=1e-9)


# The same kind in two units, the second of which is the first times a power of ten (SI Brochure, 9th edition, table 7).
SCALED = [
    ("length", "mm", "cm", 1),
    ("length", "um", "mm", 3),
    ("mass", "mg", "g", 3),
    ("voltage", "mV", "V", 3),
    ("current", "uA", "mA", 3),
    ("power", "mW", "W", 3),
    ("frequency", "MHz", "GHz", 3),
    ("capacitance", "nF", "uF", 3),
    ("area", "mm2", "cm2", 2),
    ("volume", "mm3", "cm3", 3),
    ("information", "kB", "MB", 3),
    ("charge", "mAh", "Ah", 3),
]
FORMS = [
    "{a} {u}",
    "{a} ± {t} {u}",
    "{a}..{b} {u}",
    "about {a} {u}",
    "at least {a} {u}",
    "at most {a} {u}",
    "{a} {u} ± 5 %",
]


@given(
    st.sampled_from(SCALED), st.sampled_from(FORMS), st.integers(0, 10**6), st.integers(0, 10**4), st.integers(0, 999)
)
def test_one_quantity_in_two_units_has_the_same_bounds(
    scaled: tuple[str, str, str, int], form: str, value: int, more: int, tolerance: int
) -> None:
    dimension, small, large, power = scaled

    def written(unit: str, shift: int) -> str:
        numbers = {"a": value, "b": value + more, "t": tolerance}
        return form.format(u=unit, **{name: f"{number}e{-shift}" for name, number in numbers.items()})

    one = parse_quantity(written(small, 0), dimension).bounds
    other = parse_quantity(written(large, power), dimension).bounds
    assert (one.low, one.high) == pytest.approx((other.low, other.high), rel=1e-11)
    assert one.best == (None if other.best is None else pytest.approx(other.best, rel=1e-11))


def test_a_hundred_microfarads_are_the_same_float_however_they_are_written() -> None:
    assert parse_quantity("100 uF", "capacitance").bounds.best == 0.0001
    assert parse_quantity("0.1 mF", "capacitance").bounds.best == 0.0001
    assert parse_quantity("100000 nF", "capacitance").bounds.best == 0.0001


@pytest.mark.parametrize("name", sorted(set(DIMENSIONS) - {"money", "level", "ratio", "number"}))
def test_the_kept_unit_is_its_own_measure(name: str) -> None:
    assert parse_quantity(f"7 {DIMENSIONS[name].unit}", name).bounds.best == 7.0
    assert parse_quantity(f"7 {DIMENSIONS[name].shown}", name).bounds.best == 7.0


@pytest.mark.parametrize("name", sorted(set(DIMENSIONS) - {"money"}))
def test_a_unit_belongs_to_no_second_kind(name: str) -> None:
    """No unit of another kind is taken, but where both are the same by the SI (energy and torque, W*h and N*m)."""
    twins = {"energy", "torque"}
    from archdiff.quantities import QuantityError  # noqa: PLC0415, RUF100

    for other in sorted(set(DIMENSIONS) - {name, "money", "level", "ratio"}):
        if {name, other} == twins:
            continue
        with pytest.raises(QuantityError):
            parse_quantity(f"7 {DIMENSIONS[other].unit}", name)
