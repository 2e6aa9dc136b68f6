"""Waves: properties that any right formula has, and the outside's own constant."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from archdiff.figures.facts.radio_facts import light_speed
from archdiff.physics.waves import effective_permittivity, in_waves, over_quarter_wave, quarter_wave, wavelength

HERTZ = st.floats(1e3, 3e11)
MM = st.floats(0.01, 1000)
PERMITTIVITY = st.floats(1, 12)


def test_the_speed_of_light_is_that_of_scipy() -> None:
    # scipy.constants takes it from CODATA; exact by definition of the metre.
    assert light_speed() == constants.c


@given(HERTZ)
def test_wavelength_times_frequency_is_the_speed_of_light(hertz: float) -> None:
    assert wavelength(hertz, light_speed()) / 1000 * hertz == pytest.approx(constants.c, rel=1e-12)


@given(MM, HERTZ)
def test_a_length_in_waves_is_that_length_over_the_wavelength(mm: float, hertz: float) -> None:
    wave = wavelength(hertz, light_speed())
    assert in_waves(mm, hertz, light_speed()) == pytest.approx(mm / wave, rel=1e-12)
    assert over_quarter_wave(mm, hertz, light_speed()) == pytest.approx(mm / quarter_wave(wave), rel=1e-12)


@given(HERTZ, PERMITTIVITY)
def test_a_quarter_wave_is_one_quarter_wave_long(hertz: float, permittivity: float) -> None:
    long = quarter_wave(wavelength(hertz, light_speed()), permittivity)
    assert over_quarter_wave(long, hertz, light_speed(), permittivity) == pytest.approx(1, rel=1e-12)


def test_no_frequency_has_no_end_of_a_wave_and_no_length_is_no_wave() -> None:
    assert wavelength(0, light_speed()) == math.inf
    assert in_waves(0, math.inf, light_speed()) == in_waves(math.inf, 0, light_speed()) == 0
    assert over_quarter_wave(0, 1e9, light_speed(), math.inf) == 0


@given(PERMITTIVITY, MM, MM)
def test_effective_permittivity_lies_between_half_and_all_in_the_board(er: float, width: float, height: float) -> None:
    # Half of the field of a very narrow track runs in air, all of that of a very wide one in the board.
    assert (er + 1) / 2 <= effective_permittivity(er, width, height) <= er


@given(PERMITTIVITY, PERMITTIVITY, MM, MM, MM, MM)
def test_effective_permittivity_rises_with_width_and_board_and_falls_with_height(
    er: float, other: float, width: float, wide: float, height: float, high: float
) -> None:
    least = effective_permittivity(min(er, other), min(width, wide), max(height, high))
    most = effective_permittivity(max(er, other), max(width, wide), min(height, high))
    assert least <= most * (1 + 1e-12)


@given(PERMITTIVITY, MM)
def test_effective_permittivity_at_the_ends(er: float, mm: float) -> None:
    assert effective_permittivity(er, math.inf, mm) == effective_permittivity(er, mm, 0) == er
    assert effective_permittivity(er, mm, math.inf) == effective_permittivity(er, 0, mm)
    # The two branches meet where the track is as wide as it is high above ground.
    assert effective_permittivity(er, mm * (1 - 1e-9), mm) == pytest.approx(effective_permittivity(er, mm, mm))


def test_air_slows_nothing() -> None:
    assert effective_permittivity(1, 3, 2) == 1
