"""What a warm surface gives off: natural convection to still air, and radiation to surroundings as warm as that air.

Rises are in K, fluxes in W/m², lengths in m, ambient temperatures in °C. Constants, coefficients and properties of
air stand in `tables/surfaces.yaml` and `tables/air.yaml`. Properties are those at the mean of surface and air.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable

VERTICAL, UP, DOWN = "vertical", "hot face up", "hot face down"
WAYS = (VERTICAL, UP, DOWN)
HIGHEST_RISE = 1e9  # what would have to be warmer than this is told as infinitely warm
_CLOSE = 1e-10


@dataclass(frozen=True, slots=True)
class Film:
    """Air between surface and room: conductivity in W/(m K), kinematic viscosity in m²/s, Prandtl, expansion in 1/K."""

    conductivity: float
    viscosity: float
    prandtl: float
    expansion: float


@dataclass(frozen=True, slots=True)
class Surface:
    """How a surface stands: `way` is one of WAYS, `length` its height or, lying flat, its area over its edge."""

    way: str
    length: float
    emissivity: float
    ambient: float


def kelvin(celsius: float) -> float:
    """Absolute temperature in K of a temperature in °C."""
    return celsius + read_table("surfaces").rows["celsius zero"].number("kelvin_at_zero")


def air_at(celsius: float) -> Film:
    """Properties of air at a temperature in °C, straight between the rows of the table; an ideal gas expands by 1/T."""
    rows = _air()
    place = bisect_right([row[0] for row in rows], celsius)
    low, high = rows[max(place - 1, 0)], rows[min(place, len(rows) - 1)]
    share = 0.0 if high[0] == low[0] else (celsius - low[0]) / (high[0] - low[0])
    conductivity, viscosity, prandtl = (a + share * (b - a) for a, b in zip(low[1:], high[1:], strict=True))
    return Film(conductivity, viscosity, prandtl, 1 / kelvin(celsius))


def rayleigh(rise: float, length: float, film: Film) -> float:
    """The Rayleigh number g beta dT L³ Pr / nu²."""
    gravity = read_table("surfaces").rows["free fall"].number("gravity")
    return gravity * film.expansion * rise * length**3 * film.prandtl / film.viscosity**2


def rayleigh_of(surface: Surface, rise: float) -> float:
    """The Rayleigh number of a surface `rise` K above the air, by which a formula's range is stated."""
    return rayleigh(rise, surface.length, air_at(surface.ambient + rise / 2))


def nusselt(way: str, ra: float, prandtl: float) -> float:
    """The Nusselt number of a plate: Churchill & Chu 1975 for a vertical one, McAdams 1954 for one that lies flat."""
    row = read_table("surfaces").rows[way]
    if way == VERTICAL:
        of_prandtl = math.pow(1 + math.pow(row.number("reference") / prandtl, 9 / 16), 8 / 27)
        return math.pow(row.number("offset") + row.number("factor") * math.pow(ra, 1 / 6) / of_prandtl, 2)
    laminar = row.number("factor") * math.pow(ra, 1 / 4)
    # The greater of the two, so that what is given off never falls where one takes over from the other.
    return max(laminar, row.number("turbulent") * math.pow(ra, 1 / 3)) if way == UP else laminar


def convection(surface: Surface, rise: float, film: Callable[[float], Film] = air_at) -> float:
    """Coefficient of natural convection in W/(m² K) of a surface `rise` K above the air."""
    if surface.length <= 0:
        return math.inf
    if math.isinf(surface.length):
        return 0.0
    air = film(surface.ambient + rise / 2)
    return air.conductivity / surface.length * nusselt(surface.way, rayleigh(rise, surface.length, air), air.prandtl)


def radiation(surface: Surface, rise: float) -> float:
    """Coefficient of radiation in W/(m² K): emissivity x sigma (Ts⁴ - Ta⁴) / (Ts - Ta)."""
    sigma = read_table("surfaces").rows["radiation"].number("stefan_boltzmann")
    cold = kelvin(surface.ambient)
    hot = cold + rise
    return surface.emissivity * sigma * (hot**2 + cold**2) * (hot + cold)


def rise_for(surface: Surface, flux: float, film: Callable[[float], Film] = air_at) -> float:
    """The rise in K at which a surface gives off `flux` W/m², convection and radiation together.

    Both coefficients depend on the rise itself, so it is sought by halving until loss and flux agree. Infinite
    where the surface gives off nothing, 0 where there is nothing to give off.
    """
    if flux <= 0 or surface.length <= 0:
        return 0.0

    def lost(rise: float) -> float:
        return rise * (convection(surface, rise, film) + radiation(surface, rise))

    low, high = 0.0, 1.0
    while lost(high) < flux:
        low, high = high, high * 2
        if high > HIGHEST_RISE:
            return math.inf
    while high - low > _CLOSE * high:
        middle = (low + high) / 2
        low, high = (middle, high) if lost(middle) < flux else (low, middle)
    return (low + high) / 2


@cache
def _air() -> tuple[tuple[float, float, float, float], ...]:
    names = ("temperature", "conductivity", "viscosity", "prandtl")
    rows = [tuple(row.number(name) for name in names) for row in read_table("air").rows.values()]
    if any(later[0] <= earlier[0] for earlier, later in pairwise(rows)):
        raise ValueError("air: the rows do not stand in the order of their temperature")
    return tuple((t, k, nu, pr) for t, k, nu, pr in rows)
