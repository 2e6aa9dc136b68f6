"""How warm a face gets by the heat it gives off to still air, with the bounds of everything that sways it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.figures.facts.heat_layers import M2_PER_MM2, M_PER_MM
from archdiff.physics.surfaces import DOWN, UP, VERTICAL, Surface, convection, radiation, rayleigh_of, rise_for
from archdiff.quantities import Bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from archdiff.figures.counting import Ledger


@dataclass(frozen=True, slots=True)
class Face:
    """What gives off heat: how much in W, by which area in mm², to air of how many °C, with what emissivity.

    `lengths` holds, for each way in which it may stand, the length in mm that natural convection is taken over.
    """

    name: str
    heat: Bounds
    area: Bounds
    ambient: Bounds
    emissivity: Bounds
    lengths: Mapping[str, Bounds]


def lengths_of(area: Bounds, longest: float) -> dict[str, Bounds]:
    """Height of a vertical face, and area / edge length of one that lies flat, in mm, from what is known of it.

    `longest` is the longest side that the face can have. A flat face of given area has the least edge as a circle
    and the most as a strip of the longest side.
    """
    strip = area.low / longest if longest > 0 else 0.0
    height = Bounds(None, min(strip, longest), longest)
    flat_high = min(math.sqrt(area.high / math.pi) / 2, longest / 4)
    flat_low = 0.0 if math.isinf(longest) or strip == 0 else area.low / (2 * (longest + strip))
    flat = Bounds(None, min(flat_low, flat_high), flat_high)
    return {VERTICAL: height, UP: flat, DOWN: flat}


def rise_of(face: Face) -> Bounds:
    """How far in K the face is above the air, as a mean over the area that gives off its heat."""
    low = min(_rise(face.heat.low, face.area.high, surface) for surface in _cool(face))
    high = max(_rise(face.heat.high, face.area.low, surface) for surface in _warm(face))
    likely = _likely(face)
    if likely is None or face.heat.best is None or face.area.best is None:
        return Bounds(None, low, high)
    return Bounds(min(max(_rise(face.heat.best, face.area.best, likely), low), high), low, high)


def rise_in_words(face: Face, rise: Bounds) -> str:
    """The sum at its most and least, so that a reader can redo it: watts / (coefficients x area) = kelvin."""
    ends = [
        ("at most", face.heat.high, face.area.low, rise.high, _warm(face)),
        ("at least", face.heat.low, face.area.high, rise.low, _cool(face)),
    ]
    likely = _likely(face)
    if likely is not None and rise.best is not None and face.heat.best is not None and face.area.best is not None:
        ends.append(("likeliest", face.heat.best, face.area.best, rise.best, [likely]))
    told = [
        f"{word} {_end(watts, area, kelvins, surfaces)}"
        for word, watts, area, kelvins, surfaces in ends
        if math.isfinite(area) and 0 < kelvins < math.inf
    ]
    return f"{face.name}: {', '.join(told) or 'not known'}"


def assume_still_air(ledger: Ledger) -> None:
    """Note by which correlations surfaces are taken to give off heat."""
    rows = read_table("surfaces").rows
    ledger.assume(f"natural convection of a vertical face: {rows[VERTICAL].cited}; air as it is half-way to the face")
    ledger.assume(f"natural convection of a face that lies flat: {rows[UP].cited}")
    ledger.assume("radiation to surroundings as warm as the air; no draught, no sun, nothing laid against it")


def greatest(terms: Iterable[Bounds | None], *, all_known: bool) -> Bounds | None:
    """The greatest of them; at least that, with the likeliest value kept, where there may be more. None for none."""
    found = [Bounds.unknown() if term is None else term for term in terms]
    if not found:
        return None
    low = max(term.low for term in found)
    bests = [term.best for term in found if term.best is not None]
    high = max(term.high for term in found) if all_known else math.inf
    return Bounds(max(bests) if len(bests) == len(found) else None, low, high)


def _cool(face: Face) -> list[Surface]:
    """Surfaces of which one is the coolest that the face may be."""
    return _surfaces(face, face.emissivity.high, {way: length.low for way, length in face.lengths.items()})


def _warm(face: Face) -> list[Surface]:
    """Surfaces of which one is the warmest that the face may be."""
    return _surfaces(face, face.emissivity.low, {way: length.high for way, length in face.lengths.items()})


def _surfaces(face: Face, emissivity: float, lengths: Mapping[str, float]) -> list[Surface]:
    airs = sorted({face.ambient.low, face.ambient.high})
    return [Surface(way, length * M_PER_MM, emissivity, air) for way, length in lengths.items() for air in airs]


def _likely(face: Face) -> Surface | None:
    """The likeliest surface, as high as wide; None where it is not known how it stands or what it is like."""
    area, emissivity, ambient = face.area.best, face.emissivity.best, face.ambient.best
    if len(face.lengths) > 1 or area is None or emissivity is None or ambient is None:
        return None
    way, length = next(iter(face.lengths.items()))
    square = math.sqrt(area) if way == VERTICAL else math.sqrt(area) / 4
    return Surface(way, min(max(square, length.low), length.high) * M_PER_MM, emissivity, ambient)


@lru_cache(maxsize=4096)  # several figures ask for the same faces
def _rise(watts: float, area: float, surface: Surface) -> float:
    if watts <= 0 or math.isinf(area):
        return 0.0
    return math.inf if area <= 0 or math.isinf(watts) else rise_for(surface, watts / (area * M2_PER_MM2))


def _end(watts: float, area: float, rise: float, surfaces: Sequence[Surface]) -> str:
    surface = min(surfaces, key=lambda one: abs(_rise(watts, area, one) - rise))
    by_air, by_rays = convection(surface, rise), radiation(surface, rise)
    over = f", over {surface.length / M_PER_MM:.3g} mm" if math.isfinite(surface.length) else ""
    return (
        f"{watts:.4g} W / (({by_air:.3g} + {by_rays:.3g}) W/(m²·K) x {area:.4g} mm²) = {rise:.4g} K "
        f"({surface.way}{over}{_out_of_range(surface, rise)})"
    )


def _out_of_range(surface: Surface, rise: float) -> str:
    """'; Rayleigh number 1.5e3, the formula is given from 1e4' where it is taken beyond its source's range."""
    number = rayleigh_of(surface, rise)
    low, high = read_table("surfaces").rows[surface.way].span("rayleigh")
    if low <= number <= high or not math.isfinite(number):
        return ""
    return f"; Rayleigh number {number:.2g}, the formula is given from {low:.0e} to {high:.0e}"
