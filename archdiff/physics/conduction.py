"""Conduction of heat: slabs in series and side by side, and the layers of a board.

Formulas: Fourier's law for a flat slab, and the sums of conduction shape theory for slabs in series and in parallel
(Incropera & DeWitt, *Fundamentals of Heat and Mass Transfer*, ch. 3; from memory).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

Layer = tuple[float, float]  # thickness in any one unit of length, conductivity in W/(m K)


def slab(thickness: float, conductivity: float, area: float) -> float:
    """Resistance in K/W of a slab: thickness in m, conductivity in W/(m K), area across the heat in m².

    Infinite where nothing can pass, and 0 for a slab of no thickness.
    """
    if thickness == 0:
        return 0.0
    passing = 0.0 if conductivity == 0 or area == 0 else conductivity * area
    return math.inf if passing == 0 else thickness / passing


def side_by_side(resistances: Iterable[float]) -> float:
    """Resistance in K/W of several ways of resistances in K/W between the same two faces; infinite for none."""
    passing = 0.0
    for resistance in resistances:
        if resistance == 0:
            return 0.0
        passing += 1 / resistance
    return math.inf if passing == 0 else 1 / passing


def along_layers(layers: Iterable[Layer]) -> float:
    """Conductivity in W/(m K) of a stack for heat along its layers: the mean, weighted by thickness."""
    found = tuple(layers)
    return sum(t * k for t, k in found) / sum(t for t, _ in found)


def through_layers(layers: Iterable[Layer]) -> float:
    """Conductivity in W/(m K) of a stack for heat through its layers, one after the other."""
    found = tuple(layers)
    return sum(t for t, _ in found) / sum(t / k for t, k in found)
