"""Slots: properties that any right formula has."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.figures.facts.radio_facts import light_speed
from archdiff.physics.slots import frequency_of_shielding, slot_shielding
from archdiff.physics.waves import wavelength

MM = st.floats(0.01, 1000)
MANY = st.integers(1, 500)


@given(MM, MM)
def test_from_half_a_wave_on_a_slot_leaves_nothing(wave: float, length: float) -> None:
    assert (slot_shielding(wave, length) == 0) == (length >= wave / 2)


@given(MM, MM, MANY)
def test_it_is_never_below_nothing_and_more_slots_never_help(wave: float, length: float, count: int) -> None:
    assert 0 <= slot_shielding(wave, length, count) <= slot_shielding(wave, length)
    assert slot_shielding(wave, length, count + 1) <= slot_shielding(wave, length, count)


@given(MM, st.floats(1e-4, 0.1))
def test_a_decade_of_length_is_20_db_and_ten_slots_are_10_db(wave: float, share: float) -> None:
    one = slot_shielding(wave, share * wave / 10)
    assert one - slot_shielding(wave, share * wave) == pytest.approx(20, abs=1e-9)
    assert one - slot_shielding(wave, share * wave / 10, 10) == pytest.approx(10, abs=1e-9)


@given(st.floats(0.1, 120), MM, MANY)
def test_at_the_frequency_of_so_many_db_there_are_so_many(shielding: float, length: float, count: int) -> None:
    hertz = frequency_of_shielding(shielding, length, count, light_speed())
    assert slot_shielding(wavelength(hertz, light_speed()), length, count) == pytest.approx(shielding, abs=1e-9)


def test_without_a_slot_nothing_leaks_and_without_an_end_nothing_is_left() -> None:
    assert slot_shielding(120, 0) == slot_shielding(120, 5, 0) == slot_shielding(math.inf, 5) == math.inf
    assert slot_shielding(120, math.inf) == slot_shielding(math.inf, 5, math.inf) == 0
    assert frequency_of_shielding(20, 0, 1, light_speed()) == math.inf
    assert frequency_of_shielding(20, math.inf, 1, light_speed()) == 0
    assert frequency_of_shielding(20, 5, math.inf, light_speed()) == 0
