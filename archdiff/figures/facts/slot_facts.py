"""What is known of the openings in metal shields, and of the frequencies they are held against."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, listed
from archdiff.figures.facts.radio_facts import has_trait, opposite, stated_band
from archdiff.quantities import Bounds
from archdiff.record import Truth
from archdiff.record.gaps import gaps_in

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.record import Element, Record

NONE = Bounds.exact(0.0)
SOME = Bounds(None, 1.0, math.inf)  # openings that nobody counted


@dataclass(frozen=True, slots=True)
class Slots:
    """The largest openings of one shield.

    `metal` is whether it conducts; `length` in mm, None where it is not stated and 0 where there are no openings.
    `count` is how many of them act as one: most likely all, and one alone where they are far apart.
    """

    metal: Truth
    length: Bounds | None
    count: Bounds

    @property
    def box(self) -> tuple[Bounds, Bounds]:
        """Length and count as bounds, whatever is not known."""
        return ANY if self.length is None else self.length, self.count


@dataclass(frozen=True, slots=True)
class Source:
    """A frequency in Hz, None where it is not stated, in the words it was stated in; `counts` is whether it counts."""

    counts: Truth
    hertz: Bounds | None
    words: str = ""


@dataclass(frozen=True, slots=True)
class Scene:
    """All shields and frequencies, by the ids of their elements, and whether all there are were looked at.

    `section` holds the elements with the frequencies, `fact` states them, `kind` says which elements these are; all are
    '' where no frequency is asked for.
    """

    shields: Mapping[str, Slots]
    all_shields: bool
    sources: Mapping[str, Source]
    all_sources: bool
    section: str = ""
    fact: str = ""
    kind: str = ""


def shields_alone(record: Record) -> Scene:
    """The shields and no frequency."""
    return Scene(_shields(record), not gaps_in(record, "shields"), {}, all_sources=True)


def shields_and_bands(record: Record) -> Scene:
    """The shields, and the bands of the antennas; those of coils and loops do not count."""
    found: dict[str, Source] = {}
    for antenna in listed(record, "antennas"):
        band = stated_band(antenna)
        counts = opposite(has_trait(record, antenna, "near-field"))
        found[antenna.id] = Source(counts, band.hertz if band else None, antenna.text("band"))
    return _scene(record, found, "antennas", "band", "antenna that is no coil or loop")


def shields_and_clocks(record: Record) -> Scene:
    """The shields, and the clocks of the parts that have one of their own by their means."""
    found = {
        part.id: Source(has_trait(record, part, "clocked"), part.bounds("clock"), part.text("clock"))
        for part in listed(record, "parts")
    }
    return _scene(record, found, "parts", "clock", "processor, radio or clock source")


def _scene(record: Record, sources: Mapping[str, Source], section: str, fact: str, kind: str) -> Scene:
    whole, all_looked_at = not gaps_in(record, "shields"), not gaps_in(record, section)
    return Scene(_shields(record), whole, sources, all_looked_at, section, fact, kind)


def _shields(record: Record) -> dict[str, Slots]:
    return {shield.id: _slots(record, shield) for shield in listed(record, "shields")}


def _metal(record: Record, shield: Element) -> Truth:
    """Whether it conducts; of one inside another element the means does not say so."""
    answer = has_trait(record, shield, "conductive")
    return Truth.UNKNOWN if answer is Truth.NO and record.has_trait(shield, "embedded") else answer


def _slots(record: Record, shield: Element) -> Slots:
    count, metal = shield.bounds("openings"), _metal(record, shield)
    if count is not None and count.high == 0:
        return Slots(metal, NONE, NONE)
    acting = SOME if count is None else Bounds(count.best, 1.0, count.high)
    return Slots(metal, shield.bounds("largest_opening"), acting)
