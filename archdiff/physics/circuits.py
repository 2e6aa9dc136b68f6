"""Direct-current circuits: divided voltages, conductors and their warmth, stored and remaining energy."""

from __future__ import annotations

import math

MM_PER_MIL = 0.0254  # by definition: a thousandth of an inch
_MM_PER_M = 1000.0
_MAH_PER_AH = 1000.0
_J_PER_WH = 3600.0


def divided_voltage(volts: float, upper: float, lower: float) -> float:
    """Voltage in V across the lower of two resistances in series; both in the same unit, not both 0."""
    return volts * lower / (upper + lower)


def conductor_resistance(resistivity: float, length: float, width: float, thickness: float) -> float:
    """Resistance in ohm of a flat conductor; resistivity in ohm metre, all three lengths in mm, section above 0."""
    return resistivity * _MM_PER_M * length / (width * thickness)


def heated_current(width: float, thickness: float, rise: float, constants: tuple[float, float, float]) -> float:
    """Current in A that warms a track by `rise` K: k rise^b area^c with the section in square mils.

    Width and thickness in mm; `constants` are k, b and c of the curve fitted to the charts of IPC-2221.
    """
    factor, rise_exponent, area_exponent = constants
    section = (width / MM_PER_MIL) * (thickness / MM_PER_MIL)
    return float(factor * rise**rise_exponent * section**area_exponent)


def capacitor_energy(capacitance: float, volts: float) -> float:
    """Energy in J of a capacitor: half of capacitance in F times the square of the voltage in V."""
    return 0.5 * _product(capacitance, volts, volts)


def discharge_time(resistance: float, capacitance: float, volts: float, until: float) -> float:
    """Time in s until a capacitor in F has fallen from `volts` to `until` through a resistance in ohm.

    0 where it is not above `until` to begin with. `until` must be above 0: it is never quite empty.
    """
    if volts <= until:
        return 0.0
    return _product(resistance, capacitance, math.log(volts / until))


def battery_energy(volts: float, charge: float) -> float:
    """Energy in Wh of a store with a charge in mAh at a voltage in V."""
    return _product(volts, charge) / _MAH_PER_AH


def in_watt_hours(joules: float) -> float:
    """An energy in J as Wh."""
    return joules / _J_PER_WH


def efficiency_floor(watts: float, logarithm: float, slope: float, constant: float) -> float:
    """Least average efficiency of a supply of so many W: logarithm x ln P + slope x P + constant.

    The form of the external-supply rules (EU) 2019/1782, annex II 1; `watts` above 0.
    """
    return logarithm * math.log(watts) + slope * watts + constant


def _product(*factors: float) -> float:
    """The product; 0 where a factor is 0, though another has no upper limit."""
    return 0.0 if 0.0 in factors else math.prod(factors)
