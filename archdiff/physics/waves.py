"""Radio waves: wavelength in air, and how much shorter a wave is along a track on a board.

Formulas: wavelength = speed / frequency. Effective permittivity of a track over a ground plane: E. Hammerstad,
"Equations for microstrip circuit design", European Microwave Conference 1975; from memory, recomputed by hand.
"""

from __future__ import annotations

import math

MM_PER_M = 1000.0


def wavelength(frequency: float, speed: float) -> float:
    """Wavelength in mm from Hz and m/s; infinite at 0 Hz and below."""
    return MM_PER_M * speed / frequency if frequency > 0 else math.inf


def quarter_wave(wave: float, permittivity: float = 1.0) -> float:
    """A quarter of a wavelength, in the unit of that in empty space, where the field is in a permittivity."""
    return wave / (4 * math.sqrt(permittivity))


def effective_permittivity(permittivity: float, width: float, height: float) -> float:
    """Relative permittivity that a wave on a flat track meets, from that of the board (Hammerstad 1975).

    `width` is that of the track, `height` its distance from the ground plane beneath, in one unit; above the track
    there is air. The result lies between (permittivity + 1) / 2 and `permittivity`; it rises with the permittivity
    and the width and falls with the height. A track that is infinitely wide has all its field in the board.
    """
    if math.isinf(width) or height <= 0:
        return permittivity
    ratio = max(width, 0.0) / height
    in_board = math.sqrt(ratio / (ratio + 12)) + (0.04 * (1 - ratio) ** 2 if ratio < 1 else 0.0)
    return (permittivity + 1) / 2 + (permittivity - 1) / 2 * in_board


def in_waves(length: float, frequency: float, speed: float) -> float:
    """A length in mm as a number of wavelengths in air, from Hz and m/s; 0 for no length or no frequency."""
    return 0.0 if length == 0 or frequency <= 0 else length * frequency / (MM_PER_M * speed)


def over_quarter_wave(length: float, frequency: float, speed: float, permittivity: float = 1.0) -> float:
    """A length in mm over the quarter wave in a permittivity, a plain number; 0 for no length or no frequency."""
    waves = in_waves(length, frequency, speed)
    return 0.0 if waves == 0 else 4 * waves * math.sqrt(permittivity)
