"""Two values with their bounds on one common scale: a lane a side, a bar from low to high, a mark at the best."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

if TYPE_CHECKING:
    from archdiff.quantities import Bounds

_LANES = {"left": 11, "right": 27}
_WIDTH = 300
_START, _END = 6.0, 282.0  # the part of the width that holds finite values; beyond it run the open bars


def scale(left: Bounds | None, right: Bounds | None) -> Markup:
    """The picture as SVG, '' where neither side has a finite limit. The table beside it says the same in text."""
    span = _span([bounds for bounds in (left, right) if bounds is not None])
    if span is None:
        return Markup("")
    lanes = _lane("left", left, span) + _lane("right", right, span)
    return Markup(f'<svg viewBox="0 0 {_WIDTH} 38" aria-hidden="true">{lanes}</svg>')  # noqa: S704 - made of numbers


def _span(found: list[Bounds]) -> tuple[float, float] | None:
    known = [end for bounds in found for end in (bounds.low, bounds.best, bounds.high) if end is not None]
    ends = [end for end in known if math.isfinite(end)]
    if not ends:
        return None
    low, high = min(0.0, *ends), max(0.0, *ends)
    return (low, high) if high > low else (low, low + 1.0)


def _place(value: float, span: tuple[float, float]) -> str:
    low, high = span
    return f"{_START + (_END - _START) * (min(max(value, low), high) - low) / (high - low):.4g}"


def round_steps(low: float, high: float) -> list[float]:
    """Round values, at most six, that lie within."""
    rough = (high - low) / 5
    power = 10 ** math.floor(math.log10(rough))
    step = next(power * by for by in (1, 2, 5, 10) if power * by >= rough)
    first = math.ceil(low / step)
    return [step * i for i in range(first, math.floor(high / step + 1e-9) + 1)]


def _lane(side: str, bounds: Bounds | None, span: tuple[float, float]) -> str:
    y = _LANES[side]
    if bounds is None or (bounds.best is None and not math.isfinite(bounds.high) and bounds.low <= 0):
        return f'<path class="nothing" d="M{_START:g} {y}H{_WIDTH}"/>'
    low, high = _place(bounds.low, span), _place(bounds.high, span)
    reach = f"M{_place(0.0, span)} {y}H{low}{_post(low, y)}"
    drawn = ""
    if not math.isfinite(bounds.high):
        drawn = f'<path class="onwards {side}" d="M{low} {y}H{_WIDTH}"/>'
    elif low != high:
        reach += _post(high, y)
        drawn = f'<path class="between {side}" d="M{low} {y}H{high}"/>'
    drawn = f'<path class="{side}" d="{reach}"/>{drawn}'
    return drawn if bounds.best is None else drawn + _dot(side, _place(bounds.best, span), y)


def _post(x: str, y: int) -> str:
    return f"M{x} {y - 4}v8"


def _dot(side: str, x: str, y: int) -> str:
    if side == "left":
        return f'<circle class="left" cx="{x}" cy="{y}" r="4"/>'
    return f'<rect class="right" x="{float(x) - 4:.4g}" y="{y - 4}" width="8" height="8"/>'
