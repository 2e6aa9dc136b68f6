"""Radio: how long the antennas are against their waves, and how much room they have.

Coils and loops are left out: they couple by their magnetic field close by. Nothing here says whether a radio works
well: no published bar for spacing or clearance was found, so both are given in wavelengths and no more.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger, listed, told
from archdiff.figures.facts.antenna_places import pairs_of_antennas
from archdiff.figures.facts.laminates import most_permittivity
from archdiff.figures.facts.radio_facts import (
    HZ_PER_MHZ,
    LIGHT,
    band_of,
    left_out,
    light_speed,
    radiators,
    smallest,
    wave_of,
)
from archdiff.figures.shelf import Family, figure
from archdiff.physics.waves import in_waves, over_quarter_wave, quarter_wave
from archdiff.quantities import Bounds, across
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from archdiff.figures.facts.antenna_places import Pair
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

    Sum = tuple[Bounds | None, str]  # a value, None where nothing can be said, and how it was come by

FAMILY = Family("radio", "Radio", 80)
_NO_BAR = f"{LIGHT}; no published bar was found, so no class is given"
_ESTIMATE = "An estimate from lengths, not a measurement of the antenna."
_NOT_STATED = "not all stated"


@dataclass(frozen=True, slots=True)
class _Worked:
    """The value of one antenna, or of a pair of them, with its sum; `counts` as `radiators` says."""

    name: str
    counts: Truth
    value: Bounds | None
    words: str


@figure(
    title="Quarter wave in air",
    unit="mm",
    order=10,
    meaning="How long a quarter wave in air is at the band of each antenna, over the whole band; the shortest of them.",
    formula="speed of light / (4 x frequency); coils and loops do not count",
    source=LIGHT,
)
def quarter_wave_in_air(record: Record) -> Measure:
    """Quarter wave in mm at each antenna's band, and the shortest."""

    def work(ledger: Ledger, antenna: Element) -> Sum:
        band = band_of(ledger, antenna)
        if band is None:
            return None, _NOT_STATED
        return _quarter(band.hertz), f"{light_speed():.0f} m/s / (4 x {told(band.hertz * (1 / HZ_PER_MHZ))} MHz)"

    return _over_antennas(record, work, unit=" mm")


@figure(
    title="Conductor over quarter wave in air",
    order=20,
    meaning=f"How long an antenna's conductor is against a quarter wave in air, over the whole band. {_ESTIMATE}",
    formula="length of the conductor / (speed of light / (4 x frequency)); the smallest over all antennas",
    source=LIGHT,
)
def conductor_over_quarter_wave(record: Record) -> Measure:
    """Conductor length over the free-space quarter wave, a plain number, of each antenna, and the smallest."""

    def work(ledger: Ledger, antenna: Element) -> Sum:
        length, band = ledger.value(antenna, "length"), band_of(ledger, antenna)
        if length is None or band is None:
            return None, _NOT_STATED
        return _over_quarter(
            length, band.hertz, Bounds.exact(1.0)
        ), f"{told(length)} mm / {told(_quarter(band.hertz))} mm"

    return _over_antennas(record, work, said=_against_air)


@figure(
    title="Conductor over quarter wave on its board",
    order=30,
    meaning="How long a printed antenna is against a quarter wave along its board: at the least as in air, at the most "
    f"as over ground on the board's far face. {_ESTIMATE}",
    formula="length x sqrt(e) / quarter wave in air, e from 1 to that of a track w wide over ground at h in a board "
    "of permittivity r: (r + 1)/2 + (r - 1)/2 x ((1 + 12 h/w)^-1/2 + 0.04 (1 - w/h)^2 where w < h)",
    source="E. Hammerstad, Equations for microstrip circuit design, 1975; from memory, recomputed by hand",
)
def conductor_over_printed_quarter_wave(record: Record) -> Measure:
    """Conductor length over the quarter wave along the laminate, a plain number, of each printed antenna."""
    return _over_antennas(record, _on_board, trait="printed", kind="printed antenna")


@figure(
    title="Spacing of antennas in wavelengths",
    order=40,
    meaning="How far apart the two nearest antennas are, in wavelengths of the lower of their bands.",
    formula="distance of their middles x frequency / speed of light; the smallest over all pairs",
    source=_NO_BAR,
)
def antenna_spacing(record: Record) -> Measure:
    """Spacing in wavelengths of each pair of antennas, and the smallest."""
    ledger = Ledger(record)
    whole = ledger.whole("antennas")
    pairs = [_spaced(pair) for pair in pairs_of_antennas(ledger)]
    if not pairs:
        return _no_two(record)
    return _least(ledger, pairs, whole=whole, none="no two antennas recorded")


def _no_two(record: Record) -> Measure:
    """One antenna at most is recorded beside coils and loops: only what leaves these out bears on that."""
    ledger = Ledger(record)
    if ledger.whole("antennas"):
        ledger.moot()
    for antenna in listed(record, "antennas"):
        if record.has_trait(antenna, "near-field"):
            ledger.trait(antenna, "near-field")
    return ledger.measure(None, f"no two antennas recorded{left_out(record)}")


@figure(
    title="Room around the antenna in wavelengths",
    order=50,
    meaning="How far the nearest metal or ground is from an antenna, in wavelengths of its band.",
    formula="clearance x frequency / speed of light; the smallest over all antennas",
    source=_NO_BAR,
)
def antenna_clearance(record: Record) -> Measure:
    """Clearance in wavelengths of each antenna, and the smallest."""

    def work(ledger: Ledger, antenna: Element) -> Sum:
        room, band = ledger.value(antenna, "clearance"), band_of(ledger, antenna)
        if room is None or band is None:
            return None, _NOT_STATED
        return _in_waves(room, band.hertz), f"{told(room)} mm / {told(wave_of(band.hertz))} mm"

    return _over_antennas(record, work)


def _over_antennas(
    record: Record,
    work: Callable[[Ledger, Element], Sum],
    *,
    trait: str = "",
    kind: str = "antenna",
    unit: str = "",
    said: Callable[[Record, Bounds], str] | None = None,
) -> Measure:
    """The smallest of what is worked out for each antenna (each with a trait), with each one's own."""
    ledger = Ledger(record)
    whole = ledger.whole("antennas")
    asked = [(antenna, _with_trait(ledger, antenna, counts, trait)) for antenna, counts in radiators(ledger)]
    worked = [_Worked(e.id, counts, *work(ledger, e)) for e, counts in asked if counts is not Truth.NO]
    if not worked and whole:
        ledger.moot()
    return _least(ledger, worked, whole=whole, none=f"no {kind} recorded", unit=unit, said=said)


def _least(
    ledger: Ledger,
    worked: Sequence[_Worked],
    *,
    whole: bool,
    none: str,
    unit: str = "",
    said: Callable[[Record, Bounds], str] | None = None,
) -> Measure:
    least = smallest(((each.counts, each.value) for each in worked), whole=whole)
    how = "; ".join(f"{each.name}: {each.words} = {told(each.value)}{unit}" for each in worked) or none
    parts = {w.name: w.value for w in worked if w.counts is Truth.YES and w.value is not None and w.value != ANY}
    words = said(ledger.record, least) if said and least else ""
    return ledger.measure(least, how + left_out(ledger.record), parts, words)


def _with_trait(ledger: Ledger, antenna: Element, counts: Truth, trait: str) -> Truth:
    """Whether it counts and its means has the trait."""
    answer = ledger.kind(antenna, trait) if trait else Truth.YES
    return answer if answer is Truth.NO or counts is Truth.YES else counts


def _on_board(ledger: Ledger, antenna: Element) -> Sum:
    length, band = ledger.value(antenna, "length"), band_of(ledger, antenna)
    most, words = most_permittivity(ledger, antenna)
    if length is None or band is None:
        return None, _NOT_STATED
    ratio = _over_quarter(length, band.hertz, Bounds(None, 1.0, most))
    shortest, longest = quarter_wave(wave_of(band.hertz).low, most), _quarter(band.hertz).high
    return ratio, f"{told(length)} mm / ({shortest:.6g} mm with {words}, to {longest:.6g} mm as in air)"


def _spaced(pair: Pair) -> _Worked:
    if pair.apart is None or pair.hertz is None:
        return _Worked(pair.name, pair.counts, None, _NOT_STATED)
    words = f"{told(pair.apart)} mm / {told(wave_of(pair.hertz))} mm"
    return _Worked(pair.name, pair.counts, _in_waves(pair.apart, pair.hertz), words)


def _quarter(hertz: Bounds) -> Bounds:
    return wave_of(hertz).mapped(quarter_wave)


def _in_waves(length: Bounds, hertz: Bounds) -> Bounds:
    return across(lambda mm, f: in_waves(mm, f, light_speed()), length, hertz)


def _over_quarter(length: Bounds, hertz: Bounds, permittivity: Bounds) -> Bounds:
    return across(lambda mm, f, e: over_quarter_wave(mm, f, light_speed(), e), length, hertz, permittivity)


def _against_air(record: Record, least: Bounds) -> str:
    """A plain comparison with 1; it judges nothing."""
    antennas = [antenna for antenna in record.section("antennas") if not record.has_trait(antenna, "near-field")]
    which = "" if len(antennas) == 1 else "the shortest is "
    if least.low > 1:
        return f"{which}longer than a quarter wave in air"
    if least.high >= 1:
        return ""
    printed = all(record.has_trait(antenna, "printed") for antenna in antennas)
    return f"{which}shorter than a quarter wave in air" + (", as a printed antenna on laminate is" if printed else "")
