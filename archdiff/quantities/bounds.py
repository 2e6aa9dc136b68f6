"""Interval arithmetic: a best value between a lowest and a highest possible one.

The rules are the ordinary ones of interval arithmetic (Moore, Kearfott & Cloud, *Introduction to Interval
Analysis*, 2009, ch. 2): every operation returns the smallest interval that holds all possible results.
Inputs are taken as independent, so a value subtracted from itself does not give exactly 0.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable


@dataclass(frozen=True, slots=True)
class Bounds:
    """A number known to lie in [low, high]; `best` is the most likely one, None where none can be named.

    `low` may be -inf and `high` +inf. Raises ValueError where low > high or best lies outside. The unit is that of
    whatever the number belongs to.

    >>> Bounds(2.0, 1.0, 3.0) + Bounds.exact(10.0)
    Bounds(best=12.0, low=11.0, high=13.0)
    """

    best: float | None
    low: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"lowest value {self.low} above highest value {self.high}")
        if self.best is not None and not self.low <= self.best <= self.high:
            raise ValueError(f"best value {self.best} outside {self.low}..{self.high}")

    @classmethod
    def exact(cls, value: float) -> Bounds:
        """`value`, known exactly."""
        return cls(value, value, value)

    @classmethod
    def at_least(cls, value: float) -> Bounds:
        """A number that is `value` or more; no best value."""
        return cls(None, value, math.inf)

    @classmethod
    def unknown(cls, low: float = -math.inf, high: float = math.inf) -> Bounds:
        """A number of which only `low` and `high`, or nothing at all, are known."""
        return cls(None, low, high)

    @property
    def is_exact(self) -> bool:
        """Whether it is known without any doubt."""
        return self.low == self.high

    @property
    def is_known(self) -> bool:
        """Whether both limits are finite."""
        return math.isfinite(self.low) and math.isfinite(self.high)

    @property
    def likely(self) -> float:
        """One value to draw it at: the best, else the middle, else the end that is known; 0 where nothing is."""
        if self.best is not None:
            return self.best
        ends = [end for end in (self.low, self.high) if math.isfinite(end)]
        return sum(ends) / len(ends) if ends else 0.0

    def _with(self, other: Bounds | float, operate: Callable[[float, float], float]) -> Bounds:
        other = other if isinstance(other, Bounds) else Bounds.exact(other)
        corners = [operate(a, b) for a in (self.low, self.high) for b in (other.low, other.high)]
        low, high = min(corners), max(corners)
        if self.best is None or other.best is None:
            return Bounds(low if low == high else None, low, high)
        return Bounds(min(max(operate(self.best, other.best), low), high), low, high)

    def __add__(self, other: Bounds | float) -> Bounds:
        return self._with(other, lambda a, b: a + b)

    __radd__ = __add__

    def __sub__(self, other: Bounds | float) -> Bounds:
        other = other if isinstance(other, Bounds) else Bounds.exact(other)
        return self + other * -1.0

    def __mul__(self, other: Bounds | float) -> Bounds:
        return self._with(other, _times)

    __rmul__ = __mul__

    def __truediv__(self, other: Bounds | float) -> Bounds:
        other = other if isinstance(other, Bounds) else Bounds.exact(other)
        return self * other.inverse()

    def inverse(self) -> Bounds:
        """One over it: all real numbers where it may be 0 from both sides; ZeroDivisionError where it is 0."""
        if self.low == self.high == 0:
            raise ZeroDivisionError("division by a quantity that is 0")
        if self.low < 0 < self.high:
            return Bounds.unknown()
        low = _over(self.high) if self.high != 0 else -math.inf
        high = _over(self.low) if self.low != 0 else math.inf
        best = 1 / self.best if self.best else None
        return Bounds(best, low, high)

    def mapped(self, rising: Callable[[float], float]) -> Bounds:
        """The image under `rising`, a function that never falls."""
        best = None if self.best is None else rising(self.best)
        return Bounds(best, rising(self.low), rising(self.high))

    def overlaps(self, other: Bounds) -> bool:
        """Whether this and `other` may be the same number."""
        return self.low <= other.high and other.low <= self.high


def across(function: Callable[..., float], *inputs: Bounds) -> Bounds:
    """The smallest interval that holds a function of the inputs, where it is monotone in each of them.

    Rising or falling does not matter: the ends lie at corners of the box. Do not use it for a function with a
    hump inside. The function must bear infinite arguments where an input may be unbounded.
    """
    corners = [function(*corner) for corner in product(*((x.low, x.high) for x in inputs))]
    low, high = min(corners), max(corners)
    bests = [x.best for x in inputs]
    if any(value is None for value in bests):
        return Bounds(low if low == high else None, low, high)
    return Bounds(min(max(function(*bests), low), high), low, high)


def total(terms: Iterable[Bounds]) -> Bounds:
    """The sum; exactly 0 for no terms."""
    result = Bounds.exact(0.0)
    for term in terms:
        result = result + term
    return result


def _times(a: float, b: float) -> float:
    # 0 times an unbounded quantity is 0 here: no parts of any weight weigh nothing.
    return 0.0 if a == 0 or b == 0 else a * b


def _over(value: float) -> float:
    return 0.0 if math.isinf(value) else 1 / value
