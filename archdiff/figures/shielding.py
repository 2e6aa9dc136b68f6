"""Shielding: how many shields, how much lies under them, and what their largest openings leave of it.

The slot figures are estimates from the openings alone. What seams, cables and the inside of a shield do is not in
them, and they are no verdict on what a product sends out or withstands.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, count_listed, count_true, listed, means_of, number, share, told
from archdiff.figures.facts.radio_facts import (
    HZ_PER_MHZ,
    LIGHT,
    greatest,
    left_out,
    light_speed,
    smallest,
    stated_band,
    wave_of,
)
from archdiff.figures.facts.slot_facts import shields_alone, shields_and_bands, shields_and_clocks
from archdiff.figures.facts.slot_outcomes import SlotFigure, slot_measure
from archdiff.figures.shelf import Family, figure
from archdiff.physics.slots import frequency_of_shielding, slot_shielding
from archdiff.physics.waves import in_waves
from archdiff.quantities import across
from archdiff.record import Truth
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.facts.slot_facts import Slots
    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

FAMILY = Family("shielding", "Shielding", 95)
_ESTIMATE = "An estimate from the openings alone, no measurement and no verdict."
_OTT = "slot formula of H. W. Ott, Noise Reduction Techniques in Electronic Systems; read second-hand"
_SLOT_FORMULA = (
    "20 log10(wavelength / 2L) - 10 log10 n, L the longest side of the largest openings, n how many act as one: from 1 "
    "to all; 0 where that is below 0 or L is half a wave or more"
)
_MODEL = (
    "each opening to be a slot that lies across the current, and nothing else to leak; the openings of one shield to "
    "act as one at the most, and each alone at the least (Ott's slot formula, read second-hand)"
)


@figure(
    title="Shields",
    order=10,
    meaning="How many cans, foils, plates and barriers keep radio energy or light where it belongs.",
    formula="count of shields, by means",
    source="count; common practice, no source",
)
def shield_count(record: Record) -> Measure:
    """Shields by means."""
    return count_listed(record, "shields", label=means_of)


@figure(
    title="Parts under metal shields",
    order=20,
    meaning="Share of the parts listed that lie under a shield that conducts.",
    formula="parts covered by a conducting shield / parts listed",
    source="count; common practice, no source",
)
def share_under_shields(record: Record) -> Measure:
    """Share, 0 to 1, of listed parts that a conducting shield covers."""
    ledger = Ledger(record)
    whole = ledger.whole("shields", "parts")
    shields = [(shield, ledger.trait(shield, "conductive")) for shield in listed(record, "shields")]
    over = [(shield.id, metal, _covered(ledger, shield)) for shield, metal in shields if metal is not Truth.NO]

    def lies_under(part: Element) -> Truth:
        answers = {_lies_under(part, *shield) for shield in over}
        return next((answer for answer in (Truth.YES, Truth.UNKNOWN) if answer in answers), Truth.NO)

    parts = listed(record, "parts")
    count = count_true(parts, lies_under, whole=whole)
    how = f"{told(count)} of {number(parts)}" + ("" if whole else " listed")
    return ledger.measure(share(count, number(parts), whole=whole), how)


@figure(
    title="Largest opening in a metal shield",
    unit="mm",
    order=30,
    meaning="The longest side of the largest opening in any shield that conducts.",
    formula="maximum of the largest opening over all conducting shields; 0 for one that is said to have none",
    source="as stated; common practice, no source",
)
def largest_shield_opening(record: Record) -> Measure:
    """Length in mm of the largest opening, with each shield's own."""
    return slot_measure(record, shields_alone(record), _LARGEST)


@figure(
    title="Slots leave 20 dB up to",
    unit="Hz",
    order=40,
    meaning="Up to which frequency the largest openings leave 20 dB of a metal shield, what one slot a twentieth of a "
    f"wave long leaves; for the shield where that is lowest. {_ESTIMATE}",
    formula="speed of light / (2 L x sqrt(n) x 10^(20/20)), L the longest side of the largest openings, n how many "
    "act as one: from 1 to all",
    source=_OTT,
)
def slot_shielding_reach(record: Record) -> Measure:
    """Frequency in Hz at which the openings leave 20 dB, the lowest of all shields, with each one's own."""
    return slot_measure(record, shields_alone(record), _REACH, assumed=(_MODEL,))


@figure(
    title="Slot shielding at the radio bands",
    unit="dB",
    order=50,
    meaning="What the largest openings leave of a metal shield at the bands of the antennas; the least of all shields "
    f"and bands. {_ESTIMATE}",
    formula=_SLOT_FORMULA,
    source=_OTT,
)
def slot_shielding_at_radio_bands(record: Record) -> Measure:
    """Shielding in dB at each antenna's band, and the least of it."""
    scene, assumed = shields_and_bands(record), (_MODEL, *_names_of_bands(record))
    return slot_measure(record, scene, _AT_BANDS, assumed=assumed, besides=left_out(record))


@figure(
    title="Slot shielding at the highest clock",
    unit="dB",
    order=60,
    meaning="What the largest openings leave of a metal shield at the highest clock of processors, radios and clock "
    f"sources; the least of all shields. Harmonics lie higher, where less is left. {_ESTIMATE}",
    formula=_SLOT_FORMULA,
    source=_OTT,
)
def slot_shielding_at_highest_clock(record: Record) -> Measure:
    """Shielding in dB of each shield at the highest clock, and the least of it."""
    return slot_measure(record, shields_and_clocks(record), _AT_CLOCK, assumed=(_MODEL,))


@figure(
    title="Largest shield opening in wavelengths",
    order=70,
    meaning="How long the largest opening of a metal shield is, in wavelengths of the highest band of the antennas.",
    formula="longest side of the largest opening x frequency / speed of light; the largest over all shields",
    source=LIGHT,
)
def shield_opening_in_wavelengths(record: Record) -> Measure:
    """Largest opening in wavelengths at each antenna's band, and at the highest."""
    scene, assumed = shields_and_bands(record), _names_of_bands(record)
    return slot_measure(record, scene, _IN_WAVES, assumed=assumed, besides=left_out(record))


def _names_of_bands(record: Record) -> tuple[str, ...]:
    """What is taken for granted of the words that bands are stated in."""
    bands = (
        stated_band(antenna) for antenna in listed(record, "antennas") if not record.has_trait(antenna, "near-field")
    )
    return tuple(dict.fromkeys(band.assumed for band in bands if band is not None and band.assumed))


def _length(slots: Slots, _hertz: Bounds) -> Bounds:
    return slots.box[0]


def _length_in_words(slots: Slots, _hertz: Bounds) -> str:
    return f"{told(slots.length)} mm"


def _reach(slots: Slots, _hertz: Bounds) -> Bounds:
    mark = read_table("radio_constants").rows["slot of a twentieth of a wave"].number("shielding")
    return across(lambda mm, n: frequency_of_shielding(mark, mm, n, light_speed()), *slots.box)


def _reach_in_words(slots: Slots, hertz: Bounds) -> str:
    mm, n = told(slots.length), told(slots.count)
    reach = told(_reach(slots, hertz) * (1 / HZ_PER_MHZ))
    return f"{light_speed():.0f} m/s / (2 x {mm} mm x sqrt({n}) x 10) = {reach} MHz"


def _shielding(slots: Slots, hertz: Bounds) -> Bounds:
    return across(slot_shielding, wave_of(hertz), *slots.box)


def _shielding_in_words(slots: Slots, hertz: Bounds) -> str:
    value = _shielding(slots, hertz)
    floor = ", counted as 0 where below" if value.low == 0 else ""
    ratio = f"{told(wave_of(hertz))} mm / (2 x {told(slots.length)} mm)"
    return f"20 log10({ratio}) - 10 log10({told(slots.count)}) = {told(value)} dB{floor}"


def _opening_in_waves(slots: Slots, hertz: Bounds) -> Bounds:
    return across(lambda mm, f: in_waves(mm, f, light_speed()), slots.box[0], hertz)


def _opening_in_words(slots: Slots, hertz: Bounds) -> str:
    return f"{told(slots.length)} mm / {told(wave_of(hertz))} mm = {told(_opening_in_waves(slots, hertz))}"


_LARGEST = SlotFigure(_length, _length_in_words, greatest, counted=False)
_REACH = SlotFigure(_reach, _reach_in_words, smallest)
_AT_BANDS = SlotFigure(_shielding, _shielding_in_words, smallest)
_AT_CLOCK = SlotFigure(_shielding, _shielding_in_words, smallest, fastest=True)
_IN_WAVES = SlotFigure(_opening_in_waves, _opening_in_words, greatest, counted=False)


def _lies_under(part: Element, shield: str, metal: Truth, covers: frozenset[str]) -> Truth:
    """Whether a part lies under a shield that may be metal: not known where nobody said what it covers."""
    if part.id in covers or part.text("hidden_under") == shield:
        return metal
    return Truth.NO if covers else Truth.UNKNOWN


def _covered(ledger: Ledger, shield: Element) -> frozenset[str]:
    """Ids of what it is said to cover; empty where that is not stated."""
    ids = frozenset(shield.texts("covers"))
    ledger.note(shield.id, "covers", known=bool(ids))
    return ids
