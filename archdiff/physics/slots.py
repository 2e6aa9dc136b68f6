"""What a slot in a metal wall leaves of the wall's shielding.

The slot is taken for the only leak: S = 20 log10(wave / 2L), 0 from half a wave on, and less 10 log10 n for n alike
and close together. H. W. Ott, *Noise Reduction Techniques in Electronic Systems* (quoted in public pages; read
second-hand). An estimate for the worst direction: measured slots differ with their shape and the field's direction.
"""

from __future__ import annotations

import math

MM_PER_M = 1000.0


def slot_shielding(wave: float, length: float, count: float = 1.0) -> float:
    """Shielding in dB that `count` slots of a length leave at a wavelength in the same unit.

    Infinite without a slot. Never below 0: a wall with holes is not taken to be worse than none.
    """
    if length <= 0 or count <= 0:
        return math.inf
    if math.isinf(length) or math.isinf(count) or wave <= 2 * length:
        return 0.0
    return max(0.0, 20 * math.log10(wave / (2 * length)) - 10 * math.log10(count))


def frequency_of_shielding(shielding: float, length: float, count: float, speed: float) -> float:
    """Frequency in Hz at which that many slots of a length in mm leave so many dB; `speed` in m/s.

    Infinite without a slot. For 0 dB and one slot it is the frequency at which the slot is half a wave long.
    """
    if length <= 0 or count <= 0:
        return math.inf
    if math.isinf(length) or math.isinf(count):
        return 0.0
    wave = 2 * length * math.sqrt(count) * 10 ** (shielding / 20)
    return MM_PER_M * speed / wave
