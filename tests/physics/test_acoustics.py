"""Sound in air against tables, worked examples and a wave equation solved by a general library."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from archdiff.physics import acoustics
from archdiff.tables import read_table

ROWS = read_table("sound").rows
AT_ZERO = ROWS["speed of sound"].number("at_zero")
KELVIN = ROWS["celsius zero"].number("kelvin_at_zero")
sizes = st.floats(0.1, 100)


def speed(celsius: float) -> float:
    return acoustics.speed_of_sound(celsius, at_zero=AT_ZERO, kelvin_at_zero=KELVIN)


@pytest.mark.parametrize(
    ("celsius", "expected"),
    [(0, 331.300), (20, 343.215), (25, 346.129), (35, 351.886)],  # formula from memory, computed by hand
)
def test_speed_of_sound(celsius: float, expected: float) -> None:
    assert speed(celsius) == pytest.approx(expected, abs=5e-4)


def test_nothing_sounds_at_absolute_zero() -> None:
    assert speed(-KELVIN) == speed(-1000) == 0
    assert math.isinf(acoustics.arrival_difference(0, 1))


def test_the_speed_rises_by_six_tenths_for_each_degree_in_a_room() -> None:
    # Rule of acoustics texts, 331.3 + 0.606 T (read second-hand): the first two terms of the series.
    assert speed(20) == pytest.approx(331.3 + 0.606 * 20, rel=0.001)


@pytest.mark.parametrize(
    ("meters_a_second", "spacing", "expected"),
    [
        (343, 14.29, 12_001),  # published as "12 kHz" for this spacing (read); computed by hand
        (speed(20), 65, 2640),  # computed by hand
    ],
)
def test_spatial_aliasing(meters_a_second: float, spacing: float, expected: float) -> None:
    assert acoustics.aliasing_frequency(meters_a_second, spacing) == pytest.approx(expected, abs=0.5)


def test_arrival_difference() -> None:
    # 65 mm, 30 degrees from broadside, 20 °C: 94.69 µs, computed by hand.
    assert acoustics.arrival_difference(speed(20), 65, math.sin(math.radians(30))) == pytest.approx(94.69, abs=0.005)


def test_first_null_before_a_plate() -> None:
    # 50 mm at 20 °C: 1716 Hz (formula read, computed by hand).
    assert acoustics.first_null(speed(20), 50) == pytest.approx(1716, abs=0.5)


def test_helmholtz_resonator_of_half_a_litre() -> None:
    # 500 cm³, neck of 50 mm and radius 15 mm, two ends of 0.6 of the radius, 343 m/s: published as about 249 Hz
    # (read), 248.91 Hz computed by hand.
    air = acoustics.neck_inertance(50, 30, per_radius=2 * 0.6)
    assert acoustics.helmholtz_frequency(343, 500e3, air) == pytest.approx(248.91, abs=0.005)


def test_port_of_a_microphone() -> None:
    # 1.0 mm wide, 3.0 mm long, 2.0 mm³ behind it, 20 °C, both ends flanged: 17 446 Hz, computed by hand.
    end = ROWS["flanged end"].number("per_radius")
    air = acoustics.neck_inertance(3.0, 1.0, per_radius=2 * end)
    assert acoustics.helmholtz_frequency(speed(20), 2.0, air) == pytest.approx(17_446, abs=1)


def test_the_flanged_end_is_that_of_rayleigh() -> None:
    # 8/(3 pi), from memory; tables give it as 0.85.
    assert ROWS["flanged end"].number("per_radius") == pytest.approx(8 / (3 * math.pi), rel=0.002)


@pytest.mark.parametrize(("volume", "length"), [(500e3, 50.0), (50e3, 20.0), (2e6, 30.0)])
def test_one_mass_on_one_spring_is_the_first_root_of_the_wave_equation(volume: float, length: float) -> None:
    # A pipe open at one end and with a cavity at the other resonates where tan(kL) = A / (k V). Root found with
    # scipy; the lumped result is too high by a sixth of (kL)² and no more.
    area = math.pi / 4 * 30.0**2
    wave = brentq(lambda k: math.tan(k * length) - area / (k * volume), 1e-9, math.pi / 2 / length - 1e-9)
    exact = wave * 343e3 / math.tau
    lumped = acoustics.helmholtz_frequency(343, volume, acoustics.neck_inertance(length, 30.0))
    assert exact < lumped < exact * (1 + (wave * length) ** 2 / 6 * 1.1)


@given(sizes, sizes, st.floats(0.05, 0.95))
def test_a_hole_cut_in_two_holds_the_same_air(length: float, diameter: float, cut: float) -> None:
    one, two = (acoustics.neck_inertance(length * part, diameter) for part in (cut, 1 - cut))
    assert one + two == pytest.approx(acoustics.neck_inertance(length, diameter))


@given(sizes, sizes, st.integers(1, 50))
def test_holes_side_by_side_share_the_flow(length: float, diameter: float, number: int) -> None:
    one = acoustics.neck_inertance(length, diameter, per_radius=1.7)
    assert acoustics.neck_inertance(length, diameter, number=number, per_radius=1.7) == pytest.approx(one / number)


@given(sizes, sizes, st.integers(1, 9), st.floats(0, 1))
def test_a_circle_has_the_most_air_at_its_ends(length: float, diameter: float, number: int, roundness: float) -> None:
    area = number * math.pi / 4 * diameter**2
    circle = acoustics.neck_inertance(length, diameter, number=number, per_radius=1.7)
    same, other, none = (
        acoustics.slot_inertance(length, area, shape, number=number, per_radius=1.7) for shape in (1, roundness, 0)
    )
    assert same == pytest.approx(circle)
    assert none * (1 - 1e-12) <= other <= same * (1 + 1e-12)


@pytest.mark.parametrize("spacing", [0.0, math.inf])
def test_ends_of_bounds_are_borne(spacing: float) -> None:
    for function in (acoustics.aliasing_frequency, acoustics.arrival_difference, acoustics.first_null):
        assert function(343, spacing) in (0.0, math.inf)
    for air in (0.0, math.inf):
        assert acoustics.helmholtz_frequency(343, spacing, air) in (0.0, math.inf)
        assert acoustics.neck_inertance(air, spacing, per_radius=0) in (0.0, math.inf)
        assert acoustics.slot_inertance(air, spacing, 0, per_radius=1.7) in (0.0, math.inf)
