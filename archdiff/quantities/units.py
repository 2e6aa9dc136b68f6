"""Units: which kind of quantity a unit belongs to, and how to bring it to the unit that archdiff keeps.

The pint library does the conversions, from our own list of units (`tables/units.txt`): it is asked once per unit
text and only when a record is read, since even so loading it takes a tenth of a second.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Any

import yaml

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pint import UnitRegistry

_LEVEL_UNITS = frozenset({"dB", "dBA", "dB(A)", "dBm", "dBi"})
_CURRENCY = re.compile(r"[A-Z]{3}")  # ISO 4217 alphabetic codes
# The library computes whatever it is given, 9**9**9 for instance: only words, products and small powers reach it.
_WORD = r"\(?[A-Za-z]{1,24}(?:\*\*-?[1-9])?\)?"
_UNIT = re.compile(rf"(?:1/)?{_WORD}(?:[*/]{_WORD}){{0,5}}")
_BLANKS = re.compile(r"\s*([*/])\s*")
_EXPONENT = re.compile(r"(?<=[A-Za-zµ])([23])")
_OWN_WORDS = {
    "²": "**2",
    "³": "**3",
    "·": "*",
    "×": "*",  # noqa: RUF001 - the multiplication sign is meant
    "^": "**",
    "Nm": "N*m",
    "Ohm": "ohm",
    "\N{MICRO SIGN}": "u",
    "\N{GREEK SMALL LETTER MU}": "u",
    "\N{OHM SIGN}": "ohm",
    "\N{GREEK CAPITAL LETTER OMEGA}": "ohm",
    "°": "deg",
}


@dataclass(frozen=True, slots=True)
class Dimension:
    """A kind of quantity: its name, the unit it is kept in, how that unit is shown, whether it may be negative."""

    name: str
    unit: str
    shown: str
    signed: bool


@dataclass(frozen=True, slots=True)
class Conversion:
    """kept = factor * written + offset; `currency` names the money's code where it is money."""

    factor: float
    offset: float = 0.0
    currency: str = ""


def _dimensions() -> Mapping[str, Dimension]:
    text = resources.files("archdiff.tables").joinpath("quantities.yaml").read_text("utf-8")
    rows: dict[str, dict[str, Any]] = yaml.safe_load(text)
    return {
        name: Dimension(name, row["unit"], row.get("shown", row["unit"]), bool(row.get("signed")))
        for name, row in rows.items()
    }


DIMENSIONS: Mapping[str, Dimension] = _dimensions()


def shown_unit(dimension: str) -> str:
    """The unit in which quantities of this kind are kept and shown."""
    return DIMENSIONS[dimension].shown


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    registry: UnitRegistry[Any] = UnitRegistry(None, autoconvert_offset_to_baseunit=True)
    text = resources.files("archdiff.tables").joinpath("units.txt").read_text("utf-8")
    registry.load_definitions(text.splitlines())
    return registry


def _plain(unit: str) -> str:
    for written, plain in _OWN_WORDS.items():
        unit = unit.replace(written, plain)
    # A thousandth of an inch, as board shops say; the library takes the word for a thousandth.
    return "thou" if unit in {"mil", "mils"} else _EXPONENT.sub(r"**\1", _BLANKS.sub(r"\1", unit))


@cache
def conversion(unit: str, dimension: str) -> Conversion | None:
    """How to bring `unit` to the unit kept for `dimension`; None where it is no unit of that kind."""
    if dimension == "money":
        return Conversion(1.0, currency=unit) if _CURRENCY.fullmatch(unit) else None
    if dimension == "level":
        return Conversion(1.0) if unit in _LEVEL_UNITS else None
    if dimension == "number":  # of things counted: no unit, and no share
        return Conversion(1.0) if unit == "" else None
    if dimension == "ratio":
        return {"": Conversion(1.0), "%": Conversion(0.01)}.get(unit)
    return _by_library(unit, DIMENSIONS[dimension])


def _by_library(unit: str, dimension: Dimension) -> Conversion | None:
    plain = _plain(unit)
    if not _UNIT.fullmatch(plain):
        return None
    registry = _registry()
    try:
        written, kept = registry.parse_units(plain), registry.parse_units(dimension.unit)
    except Exception:  # noqa: BLE001 - the library raises many kinds for text that is no unit
        return None
    # The library holds bits, angles and plain numbers to be the same kind; a bench engineer does not.
    if written.dimensionality != kept.dimensionality or _flavour(written) != _flavour(kept):
        return None
    zero = registry.Quantity(0.0, written).to(kept).magnitude
    one = registry.Quantity(1.0, written).to(kept).magnitude
    offset = zero if dimension.name == "temperature" else 0.0
    # Twelve digits are kept, so that a micro is 1e-6 and not the float product next to it.
    return Conversion(float(f"{one - zero:.12g}"), float(f"{offset:.12g}"))


def _flavour(unit: Any) -> str:
    if not unit.dimensionless:
        return ""
    names = [str(name) for name in unit._units]  # noqa: SLF001 - the library offers no other list of parts
    if any(name.endswith(("byte", "bit", "octet")) for name in names):
        return "information"
    return "angle" if any(name in {"degree", "radian", "turn", "arcminute"} for name in names) else "number"
