"""Sound in air: how fast it goes, what an array of microphones resolves, and where air in a hole resonates.

Lengths in mm, areas in mm², volumes in mm³, speeds in m/s, times in µs, frequencies in Hz. Every function bears
zero and infinite arguments, so that it can be taken at the ends of bounds.
"""

from __future__ import annotations

import math

MM_PER_M = 1e3
US_PER_S = 1e6


def speed_of_sound(celsius: float, *, at_zero: float, kelvin_at_zero: float) -> float:
    """Speed in m/s in dry air at a temperature in °C; 0 at and below absolute zero.

    Ideal gas: the speed goes with the square root of the absolute temperature.
    """
    return at_zero * math.sqrt(max(0.0, 1 + celsius / kelvin_at_zero))


def aliasing_frequency(speed: float, spacing: float) -> float:
    """Frequency above which two microphones can no longer tell from where a wave comes: c/(2d).

    The spacing is then half a wavelength: the sampling theorem in space.
    """
    return _over(speed * MM_PER_M, 2 * spacing)


def arrival_difference(speed: float, spacing: float, sine: float = 1.0) -> float:
    """By how many µs a plane wave meets one microphone before the other: d sin θ / c, θ from broadside."""
    return _over(spacing * sine / MM_PER_M * US_PER_S, speed)


def first_null(speed: float, distance: float) -> float:
    """Lowest frequency at which the echo of a hard plate meets its source half a wave late: c/(4d)."""
    return _over(speed * MM_PER_M, 4 * distance)


def neck_inertance(length: float, diameter: float, *, number: int = 1, per_radius: float = 0.0) -> float:
    """Acoustic mass of the air in round holes side by side, divided by its density, in 1/mm.

    (Length + end corrections) / area of all of them; `per_radius` is what both ends together add to the length,
    in radii of one hole.
    """
    return _over(length + _times(per_radius, diameter / 2), number * math.pi / 4 * diameter * diameter)


def slot_inertance(length: float, area: float, roundness: float, *, number: int = 1, per_radius: float = 0.0) -> float:
    """The same of holes of any shape, from the area of all of them together.

    `roundness` is 1 for circles and falls to 0 with ends that add nothing: of all shapes of one area the circle
    has the most air moving at its ends (Rayleigh, The Theory of Sound, art. 306; from memory).
    """
    radius = math.sqrt(area / number / math.pi)
    return _over(length + _times(roundness * per_radius, radius), area)


def helmholtz_frequency(speed: float, volume: float, inertance: float) -> float:
    """Resonance in Hz of a volume behind the air of a hole or of several in a row: (c/2π)·√(1/(V·M))."""
    return _over(speed * MM_PER_M / math.tau, math.sqrt(_times(volume, inertance)))


def _over(above: float, below: float) -> float:
    if math.isinf(below):
        return 0.0
    return math.inf if below == 0 else above / below


def _times(one: float, other: float) -> float:
    # An unbounded mass at no volume can be anything; the ends of the bounds are told by the other corners.
    return 0.0 if one == 0 or other == 0 else one * other
