"""What a heat path is made of: the resistance of each of its layers, from source to outer face."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, added
from archdiff.figures.facts.board_facts import area_of
from archdiff.figures.facts.path_facts import stages_of
from archdiff.physics.conduction import side_by_side, slab
from archdiff.physics.materials import material_named
from archdiff.quantities import Bounds
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.record import Element, Record
    from archdiff.tables import Row

M_PER_MM = 1e-3
M2_PER_MM2 = 1e-6
_WIDE = ("boards", "enclosure")  # these state areas of their own
_TELLING = ("thickness", "length", "area", "conductivity", "material", "size")


@dataclass(frozen=True, slots=True)
class Layer:
    """One stage with its resistance in K/W, None where that is not known, and the sum that gave it, in words."""

    stage: Stage
    resistance: Bounds | None
    words: str


def layers_of(ledger: Ledger, path: Element) -> tuple[Layer, ...]:
    """The solid layers of a heat path in order.

    A layer's resistance is thickness / (conductivity x area). Where heat enters by a smaller area than it leaves
    by, it lies between that of heat spread over the whole area at once and that of heat going straight on.
    """
    ledger.note(path.id, "through", known=bool(path.facts.get("through")))
    found: list[Layer] = []
    enters: Bounds | None = None  # None: over all of the next layer
    for stage in solid_stages(ledger.record, path):
        layer, enters = _layer(ledger, stage, enters)
        found.append(layer)
    return tuple(found)


def resistance_of(layers: tuple[Layer, ...]) -> Bounds:
    """The layers one after the other, in K/W; one that is not known leaves it open above."""
    return added((layer.resistance for layer in layers), whole=bool(layers))


def assume_layers(ledger: Ledger) -> None:
    """Note what the sum of layers leaves out."""
    ledger.assume(
        "stage by stage: at least, heat even over the stage's whole area; at most, heat going straight on from the "
        "area by which it enters; contact between stages, and the way sideways in a thin sheet, not counted"
    )


def solid_stages(record: Record, path: Element) -> tuple[Stage, ...]:
    """The stages without what air comes last: convection and radiation speak of that."""
    stages = list(stages_of(record, path))
    while stages and _is_gas(material_named(stages[-1].text("material"))):
        stages.pop()
    return tuple(stages)


def area_across(ledger: Ledger, stage: Stage) -> Bounds | None:
    """The area in mm² across the heat's way: as stated, else that of the element that the stage names.

    A part is crossed over its whole face. Of anything else only the most that the heat can take is known from its
    size: a board's area, the outer area of a piece of the enclosure, the face of a shield.
    """
    thing = stage.thing
    if "area" in stage.facts or thing is None:
        return _not_negative(stage.bounds(ledger, "area"))
    size = thing.size()
    if thing.section == "parts" and size is not None:
        ledger.use(thing.id, "size")
        ledger.assume(f"heat to cross the whole face of {thing.id} ({size})")
        return size.area
    ledger.lack(stage.address, "area")
    if thing.section in _WIDE:
        whole = area_of(ledger, thing) if thing.section == "boards" else ledger.value(thing, "area")
        return None if whole is None else Bounds(None, 0.0, max(0.0, whole.high))
    ledger.note(thing.id, "size", known=size is not None)
    return None if size is None else Bounds(None, 0.0, size.area.high)


def few(bounds: Bounds | None) -> str:
    """Bounds with four digits that count: '10.2', '21.5 to 49.9', 'at least 8.58', 'not known'."""
    if bounds is None or (bounds.low <= 0 and bounds.high == math.inf):
        return "not known"
    if bounds.is_exact or f"{bounds.low:.4g}" == f"{bounds.high:.4g}":
        return f"{bounds.low:.4g}"
    if bounds.high == math.inf:
        return f"at least {bounds.low:.4g}"
    return f"{bounds.low:.4g} to {bounds.high:.4g}"


def _layer(ledger: Ledger, stage: Stage, enters: Bounds | None) -> tuple[Layer, Bounds | None]:
    """One layer, and the area by which heat enters the next; None for all of it."""
    count = int(stage.facts.get("parallel", 1))
    beside = f" / {count} side by side" if count > 1 else ""
    stated = _not_negative(as_bounds(stage.facts.get("resistance")))
    if stated is not None:
        ledger.use(stage.address, "resistance")
        each = stated.mapped(lambda value: side_by_side([value] * count))
        return _told(stage, each, f"{few(stated)} K/W as stated{beside}"), None
    if not _tells_anything(stage):
        ledger.lack(stage.address, "resistance")
        return Layer(stage, None, f"{stage.name} not known"), ANY
    thickness, area = _along(ledger, stage), area_across(ledger, stage)
    conductivity, gas = _conductivity(ledger, stage)
    inlet = area if enters is None or area is None or enters.low >= area.low * count else enters * (1 / count)
    by = "" if inlet is area else f", entered by {few(inlet)}{'' if enters is ANY else ' mm²'}"
    words = f"{few(thickness)} mm / ({few(conductivity)} W/(m·K) x {few(area)} mm²{by}){beside}"
    if thickness is None or area is None or conductivity is None or inlet is None:
        return _told(stage, None, words), ANY if area is None else area * count
    if conductivity.high <= 0 or area.high <= 0:
        return _told(stage, None, words), ANY
    each = _slab(thickness, conductivity, area, inlet).mapped(lambda value: side_by_side([value] * count))
    if gas:
        ledger.assume(f"{stage.name}: still air at most; radiation and stirring across the gap pass more heat")
        each = Bounds(each.best, 0.0, each.high)
    return _told(stage, each, words), area * count


def _told(stage: Stage, resistance: Bounds | None, words: str) -> Layer:
    return Layer(stage, resistance, f"{stage.name} {words} = {few(resistance)}")


def _slab(thickness: Bounds, conductivity: Bounds, area: Bounds, enters: Bounds) -> Bounds:
    """Resistance in K/W: at least that of heat over the whole area, at most that of heat going straight on."""
    least = _in_metres(thickness.low, conductivity.high, area.high)
    most = _in_metres(thickness.high, conductivity.low, min(area.low, enters.low))
    if thickness.best is None or conductivity.best is None or area.best is None:
        return Bounds(least if least == most else None, least, most)
    best = _in_metres(thickness.best, conductivity.best, area.best)
    return Bounds(min(max(best, least), most), least, most)


def _in_metres(thickness: float, conductivity: float, area: float) -> float:
    return slab(thickness * M_PER_MM, conductivity, area * M2_PER_MM2)


def _along(ledger: Ledger, stage: Stage) -> Bounds | None:
    """How far heat goes through the stage in mm: its thickness, its own length, or the height of what it names."""
    if "length" in stage.facts and "thickness" not in stage.facts:
        return _not_negative(stage.bounds(ledger, "length"))
    thing = stage.thing
    size = None if thing is None or thing.section in _WIDE else thing.size()
    stated = "thickness" in stage.facts or thing is None or "thickness" in thing.facts
    if stated or thing is None or size is None or size.height is None:
        return _not_negative(stage.bounds(ledger, "thickness"))
    ledger.use(thing.id, "size")
    if thing.section == "parts":
        ledger.assume(f"heat to cross {thing.id} ({size}) along its height")
        return size.height
    ledger.lack(stage.address, "thickness")  # a can or a plate may stand away from what carries it
    return Bounds(None, 0.0, size.height.high)


def _conductivity(ledger: Ledger, stage: Stage) -> tuple[Bounds | None, bool]:
    """In W/(m K): as stated, else what its material may have; and whether it was taken from the table for a gas."""
    stated = _not_negative(stage.bounds(ledger, "conductivity"))
    if stated is not None:
        return stated, False
    written = stage.text("material")
    row = material_named(written)
    if row is None:
        if written:
            ledger.lack(stage.address, f"conductivity of {written}")
        return None, False
    ledger.use(stage.address if "material" in stage.facts or stage.thing is None else stage.thing.id, "material")
    low, high = row.span("conductivity")
    ledger.assume(f"{row.key} to conduct {low:g} to {high:g} W/(m·K) ({row.cited})")
    return Bounds(None, low, high), _is_gas(row)


def _tells_anything(stage: Stage) -> bool:
    of_thing = stage.thing.facts if stage.thing is not None else {}
    return any(name in stage.facts or name in of_thing for name in _TELLING)


def _is_gas(row: Row | None) -> bool:
    return row is not None and row.values.get("state") == "gas"


def _not_negative(bounds: Bounds | None) -> Bounds | None:
    """A length, area or the like as stated, its lower end not below 0."""
    return None if bounds is None else bounds.mapped(lambda value: max(0.0, value))
