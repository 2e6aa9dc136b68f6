"""Circuit formulas against general solvers, and against values worked by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from archdiff.physics.circuits import (
    MM_PER_MIL,
    battery_energy,
    capacitor_energy,
    conductor_resistance,
    discharge_time,
    divided_voltage,
    efficiency_floor,
    heated_current,
    in_watt_hours,
)

OUTER = (0.048, 0.44, 0.725)
POSITIVE = st.floats(1e-3, 1e3)


@given(volts=POSITIVE, upper=POSITIVE, lower=POSITIVE)
def test_a_divided_voltage_is_that_of_nodal_analysis(volts: float, upper: float, lower: float) -> None:
    # numpy (L): the node between both, and the source as a node held at its voltage.
    matrix = np.array([[1.0, 0.0], [-1 / upper, 1 / upper + 1 / lower]])
    node = np.linalg.solve(matrix, np.array([volts, 0.0]))[1]
    assert divided_voltage(volts, upper, lower) == pytest.approx(node, rel=1e-9)


def test_discharge_follows_the_differential_equation() -> None:
    # scipy (L): dV/dt = -V/(R C), 47 uF behind 220 kohm from 400 V; the event is the fall to 60 V.
    ohms, farads = 220e3, 47e-6

    def reaches(_time: float, volts: np.ndarray) -> float:
        return float(volts[0] - 60.0)

    reaches.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(lambda _t, v: -v / (ohms * farads), (0, 100), [400.0], events=reaches, rtol=1e-10, atol=1e-10)
    assert discharge_time(ohms, farads, 400.0, 60.0) == pytest.approx(found.t_events[0][0], rel=1e-6)


def test_energy_of_a_capacitor_is_the_work_of_charging_it() -> None:
    # scipy (L): integral of q/C over the charge brought in.
    farads, volts = 3.3e-3, 12.0
    work, _ = quad(lambda charge: charge / farads, 0, farads * volts)
    assert capacitor_energy(farads, volts) == pytest.approx(work)


def test_a_battery_of_an_ampere_hour_at_a_volt_holds_3600_joules() -> None:
    # By the definition of the watt-hour.
    assert battery_energy(1.0, 1000.0) == 1.0
    assert in_watt_hours(3600.0) == 1.0


def test_the_heated_current_is_undone_by_the_width_for_it() -> None:
    # scipy (L): the width at which the curve gives 2.5 A, 20 K, 70 um, put in again.
    width = brentq(lambda w: heated_current(w, 0.07, 20.0, OUTER) - 2.5, 1e-3, 100)
    factor, b, c = OUTER
    section = (2.5 / (factor * 20.0**b)) ** (1 / c) * MM_PER_MIL**2
    assert width * 0.07 == pytest.approx(section)


def test_resistance_of_two_lengths_and_two_widths() -> None:
    # Worked by hand (C): twice as long twice as much, twice as wide half as much.
    one = conductor_resistance(1.724e-8, 50, 0.2, 0.035)
    assert conductor_resistance(1.724e-8, 100, 0.2, 0.035) == pytest.approx(2 * one)
    assert conductor_resistance(1.724e-8, 50, 0.4, 0.035) == pytest.approx(one / 2)
    # 1 m of 1 mm2 has 0.01724 ohm: IEC 60028, read second-hand.
    assert conductor_resistance(1.724e-8, 1000, 1, 1) == pytest.approx(0.01724)


def test_what_is_below_already_needs_no_time_and_never_falls_to_nothing() -> None:
    assert discharge_time(1e6, 1e-3, 60.0, 60.0) == 0
    assert discharge_time(1e6, 1e-3, 5.0, 60.0) == 0
    assert discharge_time(math.inf, 1e-3, 400.0, 60.0) == math.inf
    assert discharge_time(math.inf, 0.0, 400.0, 60.0) == 0


def test_nothing_of_something_without_limit_is_nothing() -> None:
    assert capacitor_energy(0.0, math.inf) == 0
    assert battery_energy(0.0, math.inf) == 0


@given(st.floats(1.001, 49))
def test_the_least_efficiency_rises_with_the_power(watts: float) -> None:
    # What lets bounds be carried through by their ends; (EU) 2019/1782, read.
    assert efficiency_floor(watts * 1.001, 0.071, -0.0014, 0.67) > efficiency_floor(watts, 0.071, -0.0014, 0.67)
    assert efficiency_floor(watts * 1.001, 0.0834, -0.0014, 0.609) > efficiency_floor(watts, 0.0834, -0.0014, 0.609)
