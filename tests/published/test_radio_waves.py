"""Radio against published values: wavelengths, channels, tracks on laminate, slots in shields."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from archdiff.figures.facts.radio_facts import light_speed
from archdiff.physics.slots import frequency_of_shielding, slot_shielding
from archdiff.physics.waves import effective_permittivity, quarter_wave, wavelength
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Iterable


# Worked by hand from 299 792 458 m/s, the exact speed of light (SI Brochure).
@pytest.mark.parametrize(
    ("gigahertz", "quarter", "half", "twentieth"),
    [
        (2.400, 31.228, 62.457, 6.246),
        (2.4835, 30.178, 60.357, 6.036),
        (5.150, 14.553, 29.106, 2.911),
        (5.850, 12.812, 25.623, 2.562),
        (7.125, 10.519, 21.038, 2.104),
    ],
)
def test_wavelengths(gigahertz: float, quarter: float, half: float, twentieth: float) -> None:
    wave = wavelength(gigahertz * 1e9, light_speed())
    assert (quarter_wave(wave), wave / 2, wave / 20) == pytest.approx((quarter, half, twentieth), abs=5e-4)


def channel(start: int, number: int) -> int:
    """Centre in MHz of an IEEE 802.11 channel: start + 5 x number."""
    return start + 5 * number


def edges(start: int, numbers: Iterable[int], half_width: float) -> tuple[float, float]:
    centres = [channel(start, number) for number in numbers]
    return min(centres) - half_width, max(centres) + half_width


# IEEE 802.11, centre = start + 5 n MHz with start 2407, 5000 or 5950 (read second-hand, worked by hand).
@pytest.mark.parametrize(
    ("start", "number", "megahertz"), [(2407, 6, 2437), (5000, 40, 5200), (5950, 37, 6135), (5950, 233, 7115)]
)
def test_channels_of_ieee_802_11_lie_in_the_bands_of_the_table(start: int, number: int, megahertz: int) -> None:
    assert channel(start, number) == megahertz
    name = {2407: "2.4 GHz", 5000: "5 GHz", 5950: "6 GHz"}[start]
    low, high = read_table("radio_bands").rows[name].span("band")
    assert low < megahertz < high


# Channels with their width: 22 MHz for 1 to 13 of 2.4 GHz, 20 MHz elsewhere (from memory). They fill their bands.
@pytest.mark.parametrize(
    ("name", "start", "numbers", "half_width", "spare"),
    [
        ("2.4 GHz", 2407, range(1, 14), 11, 1),
        ("5 GHz", 5000, range(36, 178), 10, 20),
        ("6 GHz", 5950, range(1, 234), 10, 20),
    ],
)
def test_bands_of_the_table_hold_all_channels_and_little_more(
    name: str, start: int, numbers: range, half_width: float, spare: float
) -> None:
    low, high = read_table("radio_bands").rows[name].span("band")
    lowest, highest = edges(start, numbers, half_width)
    assert low <= lowest <= low + spare
    assert high - spare <= highest <= high


def test_channel_14_lies_beyond_the_band() -> None:
    # 2484 MHz, in one country only (IEEE 802.11; read second-hand): the exception to 2407 + 5 n.
    assert read_table("radio_bands").rows["2.4 GHz"].span("band")[1] < 2484


def test_a_narrow_track_on_laminate() -> None:
    # Hammerstad 1975 (formula from memory, worked by hand): board of 4.4, track 1 mm wide, 1.6 mm over ground.
    effective = effective_permittivity(4.4, 1, 1.6)
    assert effective == pytest.approx(3.0878, abs=5e-5)
    wave = wavelength(2.45e9, light_speed())
    assert quarter_wave(wave) == pytest.approx(30.591, abs=5e-4)
    assert quarter_wave(wave, effective) == pytest.approx(17.41, abs=5e-3)


def test_a_patch_on_thin_laminate() -> None:
    # C. A. Balanis, Antenna Theory, example 14.1 (from memory, worked by hand), with 3e8 m/s as there: board of 2.2,
    # 1.588 mm thick, 10 GHz. Printed there: W 1.186 cm, permittivity 1.972, end correction 0.081 cm, L 0.906 cm.
    wave = wavelength(10e9, 3e8)
    width = wave / 2 * math.sqrt(2 / (2.2 + 1))
    assert width == pytest.approx(11.86, abs=5e-3)
    effective = effective_permittivity(2.2, width, 1.588)
    assert effective == pytest.approx(1.972, abs=5e-4)
    assert 2 * quarter_wave(wave, effective) - 2 * 0.81 == pytest.approx(9.06, abs=0.01)


# Hammerstad & Jensen 1980, a later and closer formula, static values recomputed with a general library (scikit-rf
# 2.2.0, MLine with model hammerstadjensen, no thickness and no dispersion). The older one is within 1 % of it.
@pytest.mark.parametrize(
    ("permittivity", "width", "height", "expected"),
    [(4.4, 1, 1.6, 3.0817), (2.2, 11.86, 1.588, 1.9838), (4.4, 3, 1.6, 3.3255), (4.4, 0.3, 1.6, 2.9525)],
)
def test_a_closer_formula_agrees(permittivity: float, width: float, height: float, expected: float) -> None:
    assert effective_permittivity(permittivity, width, height) == pytest.approx(expected, rel=0.01)


# H. W. Ott, Noise Reduction Techniques in Electronic Systems (read second-hand; the second decimals worked by hand).
@pytest.mark.parametrize(
    ("wave", "length", "count", "decibels", "places"),
    [
        (2000, 2.5, 1, 52, 0.5),  # printed as 52 dB
        (2000, 2.5, 1, 52.04, 5e-3),
        (2000, 2.5, 20, 39, 0.5),  # printed as 39 dB
        (2000, 2.5, 20, 39.03, 5e-3),
        (100, 5, 1, 20, 1e-9),  # a twentieth of a wave leaves 20 dB
        (100, 50, 1, 0, 0),  # half a wave leaves nothing
        (299792458 / 2.45e6, 5, 1, 21.75, 5e-3),  # 5 mm at 2.45 GHz, worked by hand
    ],
)
def test_slots(wave: float, length: float, count: int, decibels: float, places: float) -> None:
    assert slot_shielding(wave, length, count) == pytest.approx(decibels, abs=places)


def test_a_twentieth_of_a_wave_is_where_20_db_are_left() -> None:
    # Ott, as above: L = wavelength / 20, so 6.246 mm at 2.4 GHz (see the wavelengths).
    row = read_table("radio_constants").rows["slot of a twentieth of a wave"]
    assert slot_shielding(100, row.number("share") * 100) == pytest.approx(row.number("shielding"))
    assert frequency_of_shielding(row.number("shielding"), 6.2457, 1, light_speed()) == pytest.approx(2.4e9, rel=1e-4)
