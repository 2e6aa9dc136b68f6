"""Predetermined times: what a hand takes for motions that are the same in every product.

The unit is the time measurement unit (TMU), a hundred-thousandth of an hour.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


def handling(counts: Mapping[str, int], times: Mapping[str, float]) -> float:
    """Time in TMU of all motions: how often each is made times what one takes in TMU.

    KeyError where a motion has no time.
    """
    return sum(count * times[motion] for motion, count in counts.items())


def seconds(time: float, unit: float) -> float:
    """A time in TMU as s; `unit` is one TMU in s."""
    return time * unit
