"""How evenly something is shared out, with bounds where the shares are known only within limits.

The three measures depend on the shares alone. Over all values within given limits, the least even shares are
found at corners of the box of limits and the most even ones where all values are brought as near to one level
as the limits let them: of all vectors with one sum, that one is majorised by every other (Marshall, Olkin &
Arnold, *Inequalities: Theory of Majorization and Its Applications*, 2011, ch. 3), and all three measures are
Schur-convex or Schur-concave. Along the level they turn only at a limit or where their slope is 0.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

_MOST_CORNERS = 10  # values in doubt; twice as much work for each further one


def effective_number(values: Sequence[float]) -> float:
    """Inverse of the Herfindahl index, the sum of squared shares: 1 for all in one, n for n equal ones."""
    return sum(values) ** 2 / sum(value * value for value in values)


def gini(values: Sequence[float]) -> float:
    """Gini coefficient: 0 for equal ones, (n - 1) / n for all in one."""
    count = len(values)
    ranked = sum((2 * rank - count - 1) * value for rank, value in enumerate(sorted(values), start=1))
    return ranked / (count * sum(values))


def entropy_bits(values: Sequence[float]) -> float:
    """Shannon entropy of the shares in bits: 0 for all in one, log2 n for n equal ones."""
    whole = sum(values)
    return sum(value / whole * (math.log2(whole) - math.log2(value)) for value in values if value > 0)


@dataclass(frozen=True, slots=True)
class Spread:
    """A measure of shares, and the level at which it turns, given the values that are held fast."""

    of: Callable[[Sequence[float]], float]
    turns_at: Callable[[Sequence[float]], float | None]


def _square_mean(fixed: Sequence[float]) -> float | None:
    return sum(value * value for value in fixed) / sum(fixed) if sum(fixed) > 0 else None


def _log_mean(fixed: Sequence[float]) -> float | None:
    if sum(fixed) <= 0:
        return None
    return math.exp(sum(value * math.log(value) for value in fixed if value > 0) / sum(fixed))


EFFECTIVE_NUMBER = Spread(effective_number, _square_mean)
GINI = Spread(gini, lambda _: None)  # linear over linear between two limits: it turns at limits only
ENTROPY = Spread(entropy_bits, _log_mean)


def spread_within(limits: Sequence[Bounds], measure: Spread) -> Bounds | None:
    """The measure over all values within the limits; None where all may only be 0."""
    if not any(limit.high > 0 for limit in limits):
        return None
    if all(limit.is_exact for limit in limits):
        return Bounds.exact(measure.of([limit.low for limit in limits]))
    vectors = (*_uneven(limits), *_even(limits, measure))
    found = [measure.of(vector) for vector in vectors if sum(vector) > 0]
    low, high = min(found), max(found)
    return Bounds(low if low == high else _best(limits, measure, low, high), low, high)


def _best(limits: Sequence[Bounds], measure: Spread, low: float, high: float) -> float | None:
    bests = [limit.best for limit in limits if limit.best is not None]
    if len(bests) < len(limits) or sum(bests) <= 0:
        return None
    return min(max(measure.of(bests), low), high)


def _uneven(limits: Sequence[Bounds]) -> Iterator[Sequence[float]]:
    unbounded = any(limit.high == math.inf for limit in limits)
    doubtful = sum(not limit.is_exact for limit in limits)
    if unbounded or doubtful > _MOST_CORNERS:
        yield [1.0, *(0.0 for _ in limits[1:])]  # one so large that the others do not matter
    if not unbounded and doubtful <= _MOST_CORNERS:
        yield from product(*({limit.low, limit.high} for limit in limits))


def _even(limits: Sequence[Bounds], measure: Spread) -> Iterator[Sequence[float]]:
    marks = sorted({mark for limit in limits for mark in (limit.low, limit.high) if mark < math.inf})
    for level in marks:
        yield _levelled(limits, level)
    for low, high in zip(marks, [*marks[1:], math.inf], strict=True):
        free = [limit.low <= low and limit.high >= high for limit in limits]
        fixed = [v for v, loose in zip(_levelled(limits, low), free, strict=True) if not loose]
        turn = measure.turns_at(fixed)
        if any(free) and turn is not None and low <= turn <= high:
            yield _levelled(limits, turn)
    if any(limit.high == math.inf for limit in limits):
        yield [1.0 if limit.high == math.inf else 0.0 for limit in limits]


def _levelled(limits: Sequence[Bounds], level: float) -> list[float]:
    return [min(max(level, limit.low), limit.high) for limit in limits]
