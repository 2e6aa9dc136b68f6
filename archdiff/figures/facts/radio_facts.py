"""What the families ask of antennas and bands: which antennas count, where a band lies, how long its wave is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, listed
from archdiff.physics.waves import wavelength
from archdiff.quantities import Bounds, across
from archdiff.record import Truth
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record
    from archdiff.tables import Row

    Term = tuple[Truth, Bounds | None]

HZ_PER_MHZ = 1e6
LIGHT = "speed of light in vacuum, SI Brochure, exact by definition; in air it is less by 0.03 %"


@dataclass(frozen=True, slots=True)
class Band:
    """Where an antenna's band lies, in Hz, the words it was stated in, and what is assumed of these words."""

    hertz: Bounds
    name: str
    assumed: str = ""


def radiators(ledger: Ledger) -> list[tuple[Element, Truth]]:
    """The antennas that are no coils or loops, and those of which that is not known.

    Coils and loops couple by their magnetic field close by, and neither a quarter wave nor a spacing in
    wavelengths says anything of them.
    """
    asked = [(antenna, opposite(ledger.trait(antenna, "near-field"))) for antenna in listed(ledger.record, "antennas")]
    return [(antenna, answer) for antenna, answer in asked if answer is not Truth.NO]


def left_out(record: Record) -> str:
    """'; loop left out: a coil or loop' for the antennas that do not count, '' where there are none."""
    coils = [antenna.id for antenna in listed(record, "antennas") if record.has_trait(antenna, "near-field")]
    return f"; {', '.join(coils)} left out: a coil or loop" if coils else ""


def has_trait(record: Record, element: Element, trait: str) -> Truth:
    """Whether its means has a trait; not known where the means is not, or is in no vocabulary."""
    term = record.means_term(element.means)
    return Truth.UNKNOWN if term is None else Truth.YES if trait in term.traits else Truth.NO


def band_of(ledger: Ledger, antenna: Element) -> Band | None:
    """The band of an antenna, noted; None where none is stated."""
    band = stated_band(antenna)
    ledger.note(antenna.id, "band", known=band is not None)
    if band is not None and band.assumed:
        ledger.assume(band.assumed)
    return band


def stated_band(antenna: Element) -> Band | None:
    """The band of an antenna; None where none is stated.

    A frequency that names a band stands for the whole of it; a range and any other frequency stand as stated.
    """
    stated = antenna.bounds("band")
    if stated is None or stated.high <= 0:
        return None
    row = _named(stated)
    if row is None:
        return Band(Bounds(stated.low if stated.is_exact else None, stated.low, stated.high), antenna.text("band"))
    low, high = row.span("band")
    assumed = f"{row.key} to name the band from {low:g} to {high:g} MHz ({row.cited})"
    return Band(Bounds(None, low * HZ_PER_MHZ, high * HZ_PER_MHZ), antenna.text("band"), assumed)


def _named(stated: Bounds) -> Row | None:
    """The band that an exact frequency is the usual name of."""
    if not stated.is_exact:
        return None
    rows = read_table("radio_bands").rows.values()
    return next((row for row in rows if math.isclose(row.number("called") * HZ_PER_MHZ, stated.low)), None)


def wave_of(hertz: Bounds | None) -> Bounds:
    """Wavelength in air in mm, of a frequency or of all in a band; anything above 0 where that is not known."""
    return across(lambda f: wavelength(f, light_speed()), ANY if hertz is None else hertz)


def light_speed() -> float:
    """Speed of light in m/s, that in vacuum: in air it is less by 0.03 %."""
    return read_table("radio_constants").rows["speed of light"].number("speed")


def smallest(terms: Iterable[Term], *, whole: bool) -> Bounds | None:
    """The least of what cannot be below 0; None where none is known to count.

    A term of which it is not known whether it counts may lower the result and never raises it.
    """
    found = [(answer, ANY if value is None else value) for answer, value in terms]
    sure = [value for answer, value in found if answer is Truth.YES]
    if not sure:
        return None
    low, high = min(value.low for _, value in found), min(value.high for value in sure)
    return _with_best(found, low, high, min) if whole else Bounds(None, min(low, 0.0), high)


def greatest(terms: Iterable[Term], *, whole: bool) -> Bounds | None:
    """The largest of them; None where none is known to count. One that may count never lowers it."""
    found = [(answer, ANY if value is None else value) for answer, value in terms]
    sure = [value for answer, value in found if answer is Truth.YES]
    if not sure:
        return None
    low = max(value.low for value in sure)
    high = max(value.high for _, value in found)
    return _with_best(found, low, high, max) if whole else Bounds.at_least(low)


def _with_best(
    found: Sequence[tuple[Truth, Bounds]], low: float, high: float, pick: Callable[[list[float]], float]
) -> Bounds:
    bests = [value.best for answer, value in found if answer is Truth.YES and value.best is not None]
    clear = len(bests) == len(found)
    return Bounds(pick(bests) if clear else low if low == high else None, low, high)


def opposite(answer: Truth) -> Truth:
    """Yes for no, and not known for not known."""
    return {Truth.YES: Truth.NO, Truth.NO: Truth.YES}.get(answer, Truth.UNKNOWN)
