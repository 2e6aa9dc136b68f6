"""Our list of units against the pint library's own, which is kept by others: recomputed, unit by unit."""

import pint
import pytest

from archdiff.quantities.units import DIMENSIONS, conversion

LIBRARY = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
WRITTEN = {
    "length": "m cm mm um km inch ft",
    "area": "mm**2 cm**2 m**2 inch**2",
    "volume": "mm**3 cm**3 l ml m**3",
    "mass": "g kg mg oz lb",
    "time": "s ms us min h day",
    "voltage": "V mV kV uV",
    "current": "A mA uA nA",
    "power": "W mW uW kW",
    "energy": "W*h Wh mWh kWh J kJ",
    "charge": "A*h Ah mAh C",
    "frequency": "Hz kHz MHz GHz 1/min",
    "temperature": "degC K degF",
    "resistance": "ohm kohm Mohm mohm",
    "capacitance": "F mF uF nF pF",
    "inductance": "H mH uH nH",
    "conductivity": "W/m/K W/cm/K mW/m/K",
    "thermal resistance": "K/W",
    "force": "N mN kN",
    "torque": "N*m mN*m N*cm",
    "angle": "deg rad turn",
    "information": "byte kB MB GB KiB MiB GiB bit kbit Mbit Gbit Kibit Mibit",
    "flow": "m**3/h l/min l/s m**3/s",
    "speed": "m/s mm/s km/h",
    "illuminance": "lx",
    "luminous flux": "lm mlm",
}


@pytest.mark.parametrize(("dimension", "unit"), [(d, unit) for d, units in WRITTEN.items() for unit in units.split()])
def test_a_unit_means_what_the_library_means_by_it(dimension: str, unit: str) -> None:
    found = conversion(unit, dimension)
    assert found is not None
    for value in (0.0, 1.0, 37.5):
        expected = LIBRARY.Quantity(value, unit).to(DIMENSIONS[dimension].unit).magnitude
        assert value * found.factor + found.offset == pytest.approx(expected, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    "unit", ["m**9**9**9", "9**9**9", "mm" + "9" * 9, "m*" * 40 + "m", "m**-99999999", "2e9**9e9 m"]
)
def test_what_would_keep_the_library_computing_for_ever_is_no_unit(unit: str) -> None:
    assert conversion(unit, "length") is None


@pytest.mark.parametrize("unit", ["W/(m*K)", "W/(m·K)", "W / m / K", "W/m/K"])
def test_a_product_may_be_written_in_several_ways(unit: str) -> None:
    assert conversion(unit, "conductivity") == conversion("W/m/K", "conductivity")
