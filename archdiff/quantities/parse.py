"""From text to quantities.

A quantity is `12 mm`, `12 ± 0.5 mm` (also `+-`, also `± 5 %`), `10..14 mm`, `about 12 mm`, `at least 3 mm`
(`>= 3 mm`) or `at most 3 mm` (`<= 3 mm`). `about` is taken as ± 10 %, a convention of ours.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from archdiff.quantities.bounds import Bounds
from archdiff.quantities.units import DIMENSIONS, Conversion, conversion

ABOUT = 0.10
LARGEST = 1e30  # no product has more of anything, in any unit
_NUMBER = r"[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?"
_FORMS = re.compile(
    rf"""\s*(?:
      (?P<least>at\ least|>=?|≥)\s*(?P<least_n>{_NUMBER})
    | (?P<most>at\ most|up\ to|<=?|≤)\s*(?P<most_n>{_NUMBER})
    | (?P<low>{_NUMBER})\s*(?P<low_unit>(?:[^\s\d.][^\s.…]*)?)\s*(?:\.\.\.?|…)\s*(?P<high>{_NUMBER})
    | (?P<about>about|approx\.?|ca\.?|~|≈)?\s*(?P<best>{_NUMBER})
      (?:\s*(?P<best_unit>(?:[^\s\d±+][^\s±+]*)?)\s*(?:±|\+/?-)\s*(?P<tolerance>{_NUMBER})\s*(?P<percent>%)?)?
    )\s*(?P<unit>.*?)\s*""",
    re.VERBOSE,
)


class QuantityError(ValueError):
    """The text is no quantity of the kind asked for; the message says why, `hint` what to write."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Quantity:
    """One stated quantity: bounds in the kept unit of its dimension, and the text as written."""

    bounds: Bounds
    dimension: str
    text: str
    currency: str = ""

    @property
    def best(self) -> float:
        """The most likely value; the middle of a range; the stated limit of 'at least' and 'at most'."""
        if self.bounds.best is not None:
            return self.bounds.best
        return self.bounds.high if math.isfinite(self.bounds.high) else self.bounds.low

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Size:
    """Width, depth and (where given) height in mm; for a round thing both width and depth are its diameter."""

    width: Bounds
    depth: Bounds
    height: Bounds | None
    is_round: bool
    text: str

    @property
    def area(self) -> Bounds:
        """Area in mm2: width times depth, or that of the circle."""
        if self.is_round:
            return self.width * self.width * (math.pi / 4)
        return self.width * self.depth

    def __str__(self) -> str:
        return self.text


@lru_cache(maxsize=65536)
def parse_quantity(text: str, dimension: str) -> Quantity:
    """Read a quantity of the given dimension; QuantityError where it cannot be one."""
    match = _FORMS.fullmatch(text)
    example = EXAMPLES.get(dimension, "12 " + DIMENSIONS[dimension].shown)
    if match is None:
        raise QuantityError(f"'{text}' is not a quantity", f"write for example '{example}'")
    _refuse_what_is_out_of_all_measure(match, example)
    points = dimension == "ratio" and _is_in_points(match, text)
    unit = match["unit"] or match["best_unit"] or match["low_unit"] or ("%" if points else "")
    convert = conversion(unit, dimension)
    if convert is None:
        what = f"'{unit}' is not a unit of {dimension}" if unit else f"'{text}' has no unit"
        raise QuantityError(what, f"write the {dimension} with its unit, for example '{example}'")
    for other in (match["low_unit"], match["best_unit"]):
        if other and other != unit:
            raise QuantityError(f"'{text}' mixes '{other}' and '{unit}'", "write both numbers in one unit")
    low, best, high = _limits(match, signed=DIMENSIONS[dimension].signed, points=points)
    if low > high:
        raise QuantityError(f"'{text}' runs from high to low", "write the lower value first")
    kept = [_kept(value, convert) for value in (low, high)]
    middle = None if best is None else min(max(_kept(best, convert), kept[0]), kept[1])
    return Quantity(Bounds(middle, *kept), dimension, text, convert.currency)


def _kept(value: float, convert: Conversion) -> float:
    # Twelve digits: 100 uF is then 0.0001 F, and not the float next to it.
    return float(f"{value * convert.factor + convert.offset:.12g}")


def _refuse_what_is_out_of_all_measure(match: re.Match[str], example: str) -> None:
    for name in ("least_n", "most_n", "low", "high", "best", "tolerance"):
        if match[name] and abs(float(match[name])) > LARGEST:
            raise QuantityError(f"'{match[name]}' is out of all measure", f"write for example '{example}'")


def _is_in_points(match: re.Match[str], text: str) -> bool:
    """Whether a ratio's tolerance is in percentage points: '88 ± 2 %' is 86 to 90 %.

    QuantityError for '0.88 ± 2 %', of which nobody can tell what it means.
    """
    if not match["percent"] or match["unit"]:
        return False
    if not match["best_unit"] and abs(float(match["best"])) <= 1:
        raise QuantityError(f"'{text}' can be read in two ways", "write '88 ± 2 %' or '0.88 ± 0.02'")
    return True


def _limits(match: re.Match[str], *, signed: bool, points: bool) -> tuple[float, float | None, float]:
    if match["least"]:
        return float(match["least_n"]), None, math.inf
    if match["most"]:
        return (-math.inf if signed else min(0.0, float(match["most_n"]))), None, float(match["most_n"])
    if match["low"]:
        low, high = float(match["low"]), float(match["high"])
        return low, (low + high) / 2, high
    best = float(match["best"])
    spread = abs(best) * ABOUT if match["about"] else 0.0
    if match["tolerance"]:
        tolerance = abs(float(match["tolerance"]))
        spread = abs(best) * tolerance / 100 if match["percent"] and not points else tolerance
    return best - spread, best, best + spread


_PARTS = re.compile(r"\s*(?P<about>about\s+)?(?P<round>(?:round|diameter|Ø|⌀)\s*)?(?P<rest>.+)")
_BY = re.compile(r"\s*[x×*]\s*")  # noqa: RUF001 - the multiplication sign is meant


@lru_cache(maxsize=16384)
def parse_size(text: str) -> Size:
    """Read a size such as '62 x 48 mm', '7 x 7 x 0.9 mm' or 'round 12 x 3 mm'; QuantityError where it is none."""
    match = _PARTS.fullmatch(text)
    if match is None:
        raise QuantityError(f"'{text}' is not a size", "write for example '62 x 48 mm' or 'round 12 mm'")
    parts = _BY.split(match["rest"])
    wanted = (1, 2) if match["round"] else (2, 3)
    if len(parts) not in wanted:
        raise QuantityError(
            f"'{text}' has {len(parts)} number(s) where a size has {wanted[0]} or {wanted[1]}",
            "write width x depth, width x depth x height, 'round diameter' or 'round diameter x height'",
        )
    unit = re.sub(r"^.*?([A-Za-zµ]+)\s*$", r"\1", parts[-1]) if re.search(r"[A-Za-z]\s*$", parts[-1]) else ""
    lengths = [_length(part, unit, about=bool(match["about"])) for part in parts]
    if match["round"]:
        return Size(lengths[0], lengths[0], lengths[1] if len(lengths) > 1 else None, True, text)  # noqa: FBT003
    return Size(lengths[0], lengths[1], lengths[2] if len(lengths) > 2 else None, False, text)  # noqa: FBT003, PLR2004


def _length(part: str, unit: str, *, about: bool) -> Bounds:
    whole = part if re.search(r"[A-Za-z]\s*$", part) else f"{part} {unit}"
    return parse_quantity(("about " if about else "") + whole.strip(), "length").bounds


EXAMPLES = {
    "length": "12 mm",
    "area": "49 mm2",
    "information": "4 MiB",
    "money": "129 EUR",
    "ratio": "82 %",
    "number": "at least 104",
    "frequency": "2.4 GHz",
    "temperature": "48 degC",
    "conductivity": "3 W/m/K",
}
