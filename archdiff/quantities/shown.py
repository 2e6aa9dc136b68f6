"""Numbers as a reader wants them: few digits, a fitting unit, and bounds rounded outwards so that they stay true."""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.quantities.bounds import Bounds

NOT_KNOWN = "not known"
_THIN = "\N{NARROW NO-BREAK SPACE}"
_SPACE = "\N{NO-BREAK SPACE}"
_DIGITS = 3
_MOST_DECIMALS = 9
_GROUPED_FROM = 10_000

# unit as kept: (from this size on, divide by, unit as shown), the largest first
_STEPS: dict[str, tuple[tuple[float, float, str], ...]] = {
    "mm": ((10_000, 1000, "m"),),
    "mm²": ((1_000_000, 1_000_000, "m²"), (1000, 100, "cm²")),
    "mm³": ((100_000_000, 1e9, "m³"), (1000, 1000, "cm³")),
    "g": ((10_000, 1000, "kg"),),
    "s": ((36_000, 3600, "h"), (600, 60, "min"), (0.1, 1, "s"), (0, 1e-3, "ms")),
    "W": ((1000, 1000, "kW"), (0.1, 1, "W"), (1e-4, 1e-3, "mW"), (0, 1e-6, "µW")),
    "A": ((0.1, 1, "A"), (1e-4, 1e-3, "mA"), (0, 1e-6, "µA")),
    "V": ((10_000, 1000, "kV"), (0.1, 1, "V"), (0, 1e-3, "mV")),
    "Hz": ((1e9, 1e9, "GHz"), (1e6, 1e6, "MHz"), (1000, 1000, "kHz")),
    "F": ((1e-3, 1e-3, "mF"), (1e-6, 1e-6, "µF"), (1e-9, 1e-9, "nF"), (0, 1e-12, "pF")),
    "H": ((1e-3, 1e-3, "mH"), (1e-6, 1e-6, "µH"), (0, 1e-9, "nH")),
    "Ω": ((1e6, 1e6, "MΩ"), (1000, 1000, "kΩ")),
    "byte": ((2**30, 2**30, "GiB"), (2**20, 2**20, "MiB"), (2**10, 2**10, "KiB")),
}
_SPELLINGS = {"mm2": "mm²", "mm3": "mm³", "ohm": "Ω", "count": "", "1": "", "dimensionless": "", "percent": "%"}
_NO_SPACE = {"°"}


def number(bounds: Bounds | None, unit: str = "") -> str:
    """`12.4 cm²`, `9.8…10.2 V`, `≥ 118`, `≤ 3 mm`, or `not known` where the bounds say nothing.

    A range's ends are rounded outwards, so that the text never claims more than is known.
    """
    if bounds is None or _says_nothing(bounds):
        return NOT_KNOWN
    ends = [end for end in (bounds.low, bounds.high) if math.isfinite(end)]
    factor, shown = _step(ends, unit)
    low, high = bounds.low / factor, bounds.high / factor
    if not math.isfinite(high):
        return f"≥{_SPACE}{_with_unit(plain(low, rounding=ROUND_FLOOR), shown)}"
    if not math.isfinite(low) or (low == 0 < high and bounds.best is None):
        return f"≤{_SPACE}{_with_unit(plain(high, rounding=ROUND_CEILING), shown)}"
    return _with_unit(_range(low, high), shown)


def best(bounds: Bounds | None, unit: str = "") -> str:
    """The most likely value alone, '' where none can be named or the number is exact anyway."""
    if bounds is None or bounds.best is None or bounds.is_exact:
        return ""
    factor, shown = _step([bounds.best], unit)
    return _with_unit(plain(bounds.best / factor), shown)


def times(ratio: Bounds | None) -> str:
    """A ratio as `2.1 ×` or `1.9…2.3 ×`, '' where it is not known."""  # noqa: RUF002 - the sign is meant
    if ratio is None or not ratio.is_known:
        return ""
    return f"{number(ratio)}{_SPACE}×"  # noqa: RUF001


def plain(value: float, *, rounding: str = ROUND_HALF_EVEN, decimals: int | None = None) -> str:
    """A number with three digits that count, whole numbers whole, large ones in groups (ISO 80000-1)."""
    places = _decimals(value) if decimals is None else decimals
    exact = Decimal(f"{value:.12g}")  # the float product next to 0.3 is 0.3
    if decimals is None and exact == exact.to_integral_value() and abs(exact) < 10**7:
        places = 0
    text = f"{exact.quantize(Decimal(1).scaleb(-places), rounding=rounding):f}"
    if decimals is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    text = text if text.strip("-0.") else text.lstrip("-")
    return _grouped(text).replace("-", "\N{MINUS SIGN}")


def _says_nothing(bounds: Bounds) -> bool:
    return bounds.high == math.inf and bounds.low <= 0 and bounds.best is None


def _decimals(value: float) -> int:
    if value == 0 or not math.isfinite(value):
        return 0
    return max(0, min(_MOST_DECIMALS, _DIGITS - 1 - math.floor(math.log10(abs(value)))))


def _range(low: float, high: float) -> str:
    if low == high:
        return plain(low)
    # As many decimals as the larger end wants, and enough that rounding outwards does not swallow the width.
    places = max(_decimals(max(abs(low), abs(high))), min(_MOST_DECIMALS, -math.floor(math.log10(high - low))))
    shown = [_outwards(low, high, places)]
    while shown[-1][0] == shown[-1][1] and places < _MOST_DECIMALS:
        places += 1
        shown.append(_outwards(low, high, places))
    while places and all(text.endswith("0") for text in shown[-1]):
        places -= 1
        shown.append(_outwards(low, high, places))
    return "…".join(shown[-1])


def _outwards(low: float, high: float, places: int) -> tuple[str, str]:
    return plain(low, rounding=ROUND_FLOOR, decimals=places), plain(high, rounding=ROUND_CEILING, decimals=places)


def _grouped(text: str) -> str:
    whole, point, rest = text.partition(".")
    if abs(int(whole)) < _GROUPED_FROM:
        return text
    return f"{int(whole):,}".replace(",", _THIN) + point + rest


def _step(values: Sequence[float], unit: str) -> tuple[float, str]:
    unit = _SPELLINGS.get(unit, unit)
    size = max((abs(value) for value in values), default=0.0)
    for least, factor, shown in _STEPS.get(unit, ()):
        if size >= least and size > 0:
            return factor, shown
    return 1.0, unit


def _with_unit(text: str, unit: str) -> str:
    return text if not unit else f"{text}{'' if unit in _NO_SPACE else _SPACE}{unit}"
