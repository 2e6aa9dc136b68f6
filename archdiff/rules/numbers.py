"""Numbers: stated quantities that cannot be, each on its own or against a second one of the same thing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.quantities import DIMENSIONS, Quantity, Size
from archdiff.rules.facts import number, shown, stated
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Record
    from archdiff.rules.facts import Path

# Rounded figures of one thing may contradict each other by this share without anything being wrong.
_ROUNDING = 1.05
# Nominal voltage and charge of a cell are rounded more boldly than measured values.
_NOMINAL = 1.25


@rule("quantity-below-zero", order=300)
def quantity_below_zero(record: Record) -> Iterator[Finding]:
    """A quantity that cannot be negative is stated below zero."""
    for path, value in stated(record):
        if not isinstance(value, Quantity) or DIMENSIONS[value.dimension].signed or _is_place(path):
            continue
        # A reading with its tolerance may reach below zero, and its middle may lie there.
        if value.bounds.high < 0:
            message = f"'{value}' is below zero, which a {value.dimension} cannot be"
            yield Finding(path, message, "delete the sign, or correct the number")


@rule("size-of-nothing", order=301)
def size_of_nothing(record: Record) -> Iterator[Finding]:
    """A size has a side of zero or less."""
    for path, value in stated(record):
        if isinstance(value, Size):
            sides = (value.width, value.depth, *((value.height,) if value.height else ()))
            if any(side.high <= 0 for side in sides):
                hint = "state what was measured; leave the size out where it is not known"
                yield Finding(path, f"'{value}' has a side that is not above zero", hint)


@rule("ratio-above-one", order=302)
def ratio_above_one(record: Record) -> Iterator[Finding]:
    """An efficiency or an emissivity is above 100 %."""
    for path, value in stated(record):
        if isinstance(value, Quantity) and value.dimension == "ratio" and value.bounds.low > 1:
            hint = "write it as a share, '0.88', or in per cent, '88 %'"
            yield Finding(path, f"'{value}' is above 1, which '{path[-1]}' cannot be", hint)


@rule("power-above-volts-times-amps", order=303, severity=Severity.WARNING)
def power_above_volts_times_amps(record: Record) -> Iterator[Finding]:
    """A thing is said to take more power than its voltage times its current."""
    for element in record.elements.values():
        power, volts, amps = (number(element.facts, name) for name in ("power", "voltage", "current"))
        if power is None or volts is None or amps is None or volts.low < 0 or amps.low < 0:
            continue
        product = volts * amps
        if power.low > product.high * _ROUNDING:
            message = (
                f"{element.id} is said to take {shown(power, 'W')}, and its voltage times its current is "
                f"{shown(product, 'W')}"
            )
            yield Finding((*element.path, "power"), message, "check the three; all are meant for the same state of use")


@rule("energy-contradicts-charge", order=304, severity=Severity.WARNING)
def energy_contradicts_charge(record: Record) -> Iterator[Finding]:
    """The energy of a store is far from its charge times its voltage."""
    for element in record.section("power.storage"):
        energy, charge, volts = (number(element.facts, name) for name in ("energy", "charge", "voltage"))
        if energy is None or charge is None or volts is None or volts.low < 0 or charge.low < 0:
            continue
        product = charge * volts * 0.001
        if energy.low > product.high * _NOMINAL or energy.high * _NOMINAL < product.low:
            message = (
                f"{element.id} is said to hold {shown(energy, 'Wh')}, and its charge times its voltage is "
                f"{shown(product, 'Wh')}"
            )
            hint = "check the three: charge and voltage are those of the whole pack, not of one cell"
            yield Finding((*element.path, "energy"), message, hint)


def _is_place(path: Path) -> bool:
    """A place may lie to the left of, or below, the corner that it is counted from."""
    return path[-2] == "at" and isinstance(path[-1], int)
