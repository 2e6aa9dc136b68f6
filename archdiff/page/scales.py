"""Two values with their bounds on one common scale: a lane a side, a bar from low to high, a mark at the best."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

if TYPE_CHECKING:
    from archdiff.quantities import Bounds

_LANES = {"left": 11, "right": 27}
_BASE = 38
_START, _END = 2.0, 94.0  # per cent of the width that hold finite values; beyond them run the open bars


def scale(left: Bounds | None, right: Bounds | None) -> Markup:
    """The picture as SVG, '' where neither side has a finite limit. The table beside it says the same in text."""
    span = _span([bounds for bounds in (left, right) if bounds is not None])
    if span is None:
        return Markup("")
    ticks = "".join(_tick(_percent(value, span)) for value in round_steps(*span))
    lanes = _lane("left", left, span) + _lane("right", right, span)
    return Markup(  # noqa: S704 - made of numbers
        f'<svg class="scale-picture" height="44" width="100%" aria-hidden="true">'
        f'<line class="base" x1="{_START}%" x2="{_END}%" y1="{_BASE}" y2="{_BASE}"/>{ticks}{lanes}</svg>'
    )


def _span(found: list[Bounds]) -> tuple[float, float] | None:
    ends = [end for bounds in found for end in (bounds.low, bounds.high) if math.isfinite(end)]
    if not ends:
        return None
    low, high = min(0.0, *ends), max(0.0, *ends)
    return (low, high) if high > low else (low, low + 1.0)


def _percent(value: float, span: tuple[float, float]) -> float:
    low, high = span
    return round(_START + (_END - _START) * (min(max(value, low), high) - low) / (high - low), 2)


def _tick(x: float) -> str:
    return f'<line class="tick" x1="{x}%" x2="{x}%" y1="{_BASE}" y2="{_BASE + 4}"/>'


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
        return f'<line class="nothing" x1="{_START}%" x2="100%" y1="{y}" y2="{y}"/>'
    low, high = _percent(bounds.low, span), _percent(bounds.high, span)
    base = _percent(0.0, span)
    drawn = f'<line class="reach {side}" x1="{base}%" x2="{low}%" y1="{y}" y2="{y}"/>'
    if not math.isfinite(bounds.high):
        drawn += f'<line class="onwards {side}" x1="{low}%" x2="100%" y1="{y}" y2="{y}"/>{_post(side, low, y)}'
        return drawn
    if low != high:
        drawn += f'<line class="between {side}" x1="{low}%" x2="{high}%" y1="{y}" y2="{y}"/>'
        drawn += _post(side, low, y) + _post(side, high, y)
    if bounds.best is not None:
        drawn += _dot(side, _percent(bounds.best, span), y)
    return drawn


def _post(side: str, x: float, y: int) -> str:
    return f'<line class="post {side}" x1="{x}%" x2="{x}%" y1="{y - 4}" y2="{y + 4}"/>'


def _dot(side: str, x: float, y: int) -> str:
    if side == "left":
        return f'<circle class="dot left" cx="{x}%" cy="{y}" r="4"/>'
    square = '<rect class="dot right" x="-4" y="-4" width="8" height="8"/>'
    return f'<svg x="{x}%" y="{y}" overflow="visible">{square}</svg>'
