"""The outside of the whole product: its area, and how warm it gets where it gives off its heat evenly."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import listed
from archdiff.figures.facts.heat_faces import emissivity_of_piece, sides_of
from archdiff.figures.facts.heat_rise import Face
from archdiff.physics.surfaces import DOWN, UP, VERTICAL
from archdiff.quantities import Bounds
from archdiff.quantities.bounds import total
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.heat_flows import Heat
    from archdiff.record import Element


def outer_area(ledger: Ledger) -> tuple[Bounds, str]:
    """Outer area of the product in mm², and in words where it is from.

    At least the outer areas that its pieces state, at most that of the box around it: no body without fins and
    hollows has a larger surface than a box that holds it.
    """
    pieces = _pieces(ledger)
    stated = total(area for _, area in pieces)
    outer = [piece.id for piece in listed(ledger.record, "enclosure") if not piece.hosts]
    unstated = set(outer) - {piece.id for piece, _ in pieces}
    for name in sorted(unstated):
        ledger.lack(name, "area")
    high = _box(ledger)
    if stated.high > high:
        high = math.inf  # it has fins, or the envelope is another's
    words = " + ".join(f"{piece.id} {area.best or area.high:.6g}" for piece, area in pieces) or "0"
    best = stated.best if pieces and not unstated else None
    return Bounds(best, stated.low, high), f"{words} mm² at least, the box around it {high:.6g} mm² at most"


def outside_of(ledger: Ledger, heat: Heat, in_use: Bounds | None) -> Face:
    """The whole outside as one face in standard air that gives off evenly between what paths bring and all in use."""
    area, _ = outer_area(ledger)
    air = read_table("surfaces").rows["standard atmosphere"]
    ledger.assume(f"air of {air.number('ambient'):g} °C ({air.cited})")
    least = heat.surely_given_off()
    power = Bounds(None, least, math.inf if in_use is None else max(least, in_use.high))
    sides = sides_of(ledger.record.product.get("envelope"))
    ambient = Bounds.exact(air.number("ambient"))
    return Face("outside", power, area, ambient, _emissivity(ledger, area.high), _lengths(sides))


def _emissivity(ledger: Ledger, most: float) -> Bounds:
    """The mean over the outside: at least that of the areas stated, at most with all else of it black."""
    stated = [(area.low, emissivity_of_piece(ledger, piece)) for piece, area in _pieces(ledger)]
    known = sum(area for area, _ in stated)
    low = sum(area * emissivity.low for area, emissivity in stated) / known if known > 0 else 0.0
    bright = sum(area * (1 - emissivity.high) for area, emissivity in stated)
    return Bounds(None, low, max(low, 1.0 if math.isinf(most) or most <= 0 else 1 - bright / most))


def _lengths(sides: tuple[float, float, float] | None) -> dict[str, Bounds]:
    """Height, and area / edge length, in mm, of faces between the smallest and the largest of the box."""
    if sides is None:
        return dict.fromkeys((VERTICAL, UP, DOWN), Bounds(None, 0.0, math.inf))
    short, middle, long = sides
    flat = Bounds(None, short * middle / (2 * (short + middle)), middle * long / (2 * (middle + long)))
    return {VERTICAL: Bounds(None, short, long), UP: flat, DOWN: flat}


def _pieces(ledger: Ledger) -> list[tuple[Element, Bounds]]:
    """The pieces of the enclosure that state an outer area, with it in mm²."""
    found = []
    for piece in listed(ledger.record, "enclosure"):
        area = piece.bounds("area")
        if area is not None and area.high > 0:
            ledger.use(piece.id, "area")
            found.append((piece, area.mapped(lambda value: max(0.0, value)) * piece.count))
    return found


def _box(ledger: Ledger) -> float:
    sides = sides_of(ledger.record.product.get("envelope"))
    if not ledger.note("product", "envelope", known=sides is not None) or sides is None:
        return math.inf
    ledger.assume("an outside without fins and hollows: it has at most the area of the box around the product")
    a, b, c = sides
    return 2 * (a * b + b * c + c * a)
