"""Radio: antennas, bands and the openings of shields are of sizes that can be. Only what is certain is said."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.rules.facts import number, shown, size_of, space_diagonal
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Size
    from archdiff.record import Element, Record

# Hz. No radio of a product lies outside: limits of ours, wider than what is in use.
_LOWEST, _HIGHEST = 1e3, 300e9
# Lengths from ruler and caliper may differ by this many mm without anything being wrong.
_SLACK = 0.5


@rule("band-no-radio-band", order=340)
def band_no_radio_band(record: Record) -> Iterator[Finding]:
    """The band of an antenna lies outside 1 kHz to 300 GHz."""
    for antenna in record.section("antennas"):
        band = number(antenna.facts, "band")
        if band is not None and (band.high < _LOWEST or band.low > _HIGHEST):
            message = f"{antenna.id} is said to be for {antenna.text('band')}, and radio lies between 1 kHz and 300 GHz"
            hint = "check the number and its unit: most radios of products lie between 125 kHz and 71 GHz"
            yield Finding((*antenna.path, "band"), message, hint)


@rule("antenna-longer-than-product", order=341, severity=Severity.WARNING)
def antenna_longer_than_product(record: Record) -> Iterator[Finding]:
    """The conductor of an antenna is longer than the longest line inside the product's envelope."""
    diagonal = space_diagonal(record)
    for antenna in record.section("antennas"):
        length = number(antenna.facts, "length")
        # The winding of a coil is longer than the coil, and what pulls out is longer in use.
        wound = record.has_trait(antenna, "near-field") or record.has_trait(antenna, "moves")
        if diagonal is not None and length is not None and not wound and length.low > diagonal + _SLACK:
            message = (
                f"the conductor of {antenna.id} is said to be {shown(length, 'mm')} long, and no line inside the "
                f"product's envelope is longer than {diagonal:.4g} mm"
            )
            hint = "check the length and its unit; leave it only where the conductor is folded or stands outside"
            yield Finding((*antenna.path, "length"), message, hint)


@rule("opening-larger-than-shield", order=342, severity=Severity.WARNING)
def opening_larger_than_shield(record: Record) -> Iterator[Finding]:
    """The largest opening of a shield is longer than the shield."""
    for shield in record.section("shields"):
        opening, size = number(shield.facts, "largest_opening"), size_of(shield.facts)
        if opening is None or size is None:
            continue
        longest = _diagonal(shield, size)
        if opening.low > longest + _SLACK:
            message = (
                f"the largest opening of {shield.id} is said to be {shown(opening, 'mm')} long, and no line in the "
                f"shield ({size}) is longer than {longest:.4g} mm"
            )
            hint = "check both and their units; 'largest_opening' is the longest side of one opening, not of all"
            yield Finding((*shield.path, "largest_opening"), message, hint)


@rule("no-openings-but-a-largest", order=343)
def no_openings_but_a_largest(record: Record) -> Iterator[Finding]:
    """A shield is said to have no openings and yet a largest one."""
    for shield in record.section("shields"):
        opening, count = number(shield.facts, "largest_opening"), number(shield.facts, "openings")
        if opening is not None and count is not None and count.high == 0 and opening.low > 0:
            message = f"{shield.id} is said to have 0 openings, and the largest is {shown(opening, 'mm')} long"
            hint = "count the openings of that size, or delete 'largest_opening' where there is none"
            yield Finding((*shield.path, "openings"), message, hint)


def _diagonal(shield: Element, size: Size) -> float:
    """The longest straight line in a shield in mm; a height that is not stated is taken for small."""
    height = size.height or number(shield.facts, "height")
    up = height.high if height else 0.0
    return math.hypot(size.width.high, 0.0 if size.is_round else size.depth.high, up)
