"""The outer faces that heat paths end in, from what a record says of the last solid stage and the piece it names."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.facts.heat_layers import area_across
from archdiff.figures.facts.heat_rise import Face, lengths_of
from archdiff.physics.materials import finish_named, material_named
from archdiff.physics.surfaces import DOWN, UP, VERTICAL, WAYS, kelvin
from archdiff.quantities import Bounds, Size

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.heat_flows import Heat, Way
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.record import Element

# How a face stands that points there in the product as used; in any other direction it may stand in any way.
_STANDS = {"up": (UP,), "down": (DOWN,)} | dict.fromkeys(("front", "back", "left", "right"), (VERTICAL,))


def faces_of(ledger: Ledger, heat: Heat) -> dict[str, Face | None]:
    """The outer face of every path that ends in the open air or may, by the path's id; None where too little is known.

    Each is the area that its path warms, up to the whole of the piece that its last stage names.
    """
    for way in heat.ways:
        ledger.note(way.path.id, "through", known=bool(way.stages))
    return {way.path.id: _face(ledger, heat, way) for way in heat.outward()}


def emissivity_of(ledger: Ledger, stage: Stage) -> Bounds:
    """As stated, else that of the finish or the bare material; anything from 0 to 1 where none of them is known."""
    thing = stage.thing
    if thing is not None and thing.section == "enclosure" and "emissivity" not in stage.facts:
        stated = ledger.value(thing, "emissivity")  # where it is lacking, the piece is what to look at
    else:
        stated = stage.bounds(ledger, "emissivity")

    def holder(fact: str) -> str:
        return stage.address if fact in stage.facts or thing is None else thing.id

    return _below_one(stated) if stated is not None else _by_look(ledger, stage.text, holder)


def emissivity_of_piece(ledger: Ledger, piece: Element) -> Bounds:
    """The same of a piece of the enclosure."""
    stated = ledger.value(piece, "emissivity")
    return _below_one(stated) if stated is not None else _by_look(ledger, piece.text, lambda _: piece.id)


def _by_look(ledger: Ledger, text: Callable[[str], str], holder: Callable[[str], str]) -> Bounds:
    for fact, named in (("finish", finish_named), ("material", material_named)):
        row = named(text(fact))
        if row is not None and "emissivity" in row.values:
            ledger.use(holder(fact), fact)
            low, high = row.span("emissivity")
            ledger.assume(f"{row.key} to have an emissivity of {low:g} to {high:g} ({row.cited})")
            return Bounds(None, low, high)
    return Bounds(None, 0.0, 1.0)


def _below_one(stated: Bounds) -> Bounds:
    return stated.mapped(lambda value: min(max(0.0, value), 1.0))


def sides_of(size: object) -> tuple[float, float, float] | None:
    """The three sides of a body in mm at their longest, the shortest first; None where one is not stated."""
    if not isinstance(size, Size) or size.height is None:
        return None
    first, second, third = sorted(side.high for side in (size.width, size.depth, size.height))
    return first, second, third


def _face(ledger: Ledger, heat: Heat, way: Way) -> Face | None:
    stage = way.stages[-1]
    ambient, area, emissivity = ledger.value(way.path, "ambient"), _area(ledger, stage), emissivity_of(ledger, stage)
    facing, longest = way.path.text("facing"), _longest(ledger, stage)
    ledger.note(way.path.id, "facing", known=bool(facing))
    if ambient is None or area is None or kelvin(ambient.low) <= 0:
        return None
    stands = _STANDS.get(facing, WAYS)
    lengths = {name: length for name, length in lengths_of(area, longest).items() if name in stands}
    return Face(f"{stage.name} ({way.path.label})", heat.of_face(way), area, ambient, emissivity, lengths)


def _area(ledger: Ledger, stage: Stage) -> Bounds | None:
    """From the area that the path warms to the whole outer area of the piece, which the heat may spread over."""
    warm = area_across(ledger, stage)
    piece = None if stage.thing is None else ledger.value(stage.thing, "area")
    if stage.thing is None:
        ledger.lack(stage.address, "whole outer area of the piece")
    if warm is None:
        return None
    return Bounds(warm.best, warm.low, math.inf if piece is None else max(piece.high, warm.high))


def _longest(ledger: Ledger, stage: Stage) -> float:
    """The longest side in mm that a face of what the stage names can have: what is in the product may lie aslant."""
    sides = None if stage.thing is None else sides_of(stage.thing.facts.get("size"))
    if stage.thing is not None:
        ledger.note(stage.thing.id, "size", known=sides is not None)
    if sides is not None:
        return sides[-1]
    box = sides_of(ledger.record.product.get("envelope"))
    ledger.note("product", "envelope", known=box is not None)
    return math.inf if box is None else math.hypot(*box)
