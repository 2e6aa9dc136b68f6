"""Sums over heat paths and faces, each with the words it is told in."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY
from archdiff.figures.facts.heat_faces import faces_of
from archdiff.figures.facts.heat_flows import heat_of, heat_paths
from archdiff.figures.facts.heat_layers import assume_layers, few, layers_of, resistance_of
from archdiff.figures.facts.heat_rise import assume_still_air, greatest, rise_in_words, rise_of
from archdiff.figures.facts.heat_touch import CARE, touch_in_words
from archdiff.quantities import Bounds
from archdiff.quantities.bounds import total
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.heat_flows import Heat, Way
    from archdiff.figures.facts.heat_layers import Layer
    from archdiff.figures.facts.heat_rise import Face
    from archdiff.figures.figure import Measure

_MORE_PATHS = "at least: there may be heat paths, and stages of them, that nobody recorded"
_MORE_FACES = "at least: faces that nobody recorded may be warmer"


@dataclass(slots=True)
class _Told:
    """Values to take the greatest of, parts by name, the sums in words, and what has to be said of them."""

    values: list[Bounds | None] = field(default_factory=list)
    parts: dict[str, Bounds] = field(default_factory=dict)
    sums: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def add(self, name: str, value: Bounds | None, words: str) -> None:
        self.values.append(value)
        self.parts |= {} if value is None else {name: value}
        self.sums.append(words)

    def measure(self, ledger: Ledger, *, all_known: bool, of_none: str) -> Measure:
        """The greatest value, with all of them as parts."""
        return ledger.measure(
            greatest(self.values, all_known=all_known),
            "; ".join(self.sums) or of_none,
            self.parts,
            "; ".join(self.said),
        )


def resistances(ledger: Ledger, of_none: str) -> Measure:
    """Resistance in K/W of every heat path with that of its stages; the greatest."""
    paths, all_known = heat_paths(ledger)
    told = _Told(said=[] if all_known else [_MORE_PATHS])
    for path in paths:
        layers = layers_of(ledger, path)
        value = _or_more(resistance_of(layers), known=all_known)
        told.add(path.label, value, f"{path.label}: {' + '.join(layer.words for layer in layers)} = {few(value)} K/W")
        told.parts |= {
            f"{path.label}, stage {layer.stage.place}: {layer.stage.name}": layer.resistance
            for layer in layers
            if layer.resistance is not None
        }
        told.said += _gaps(path.label, layers)
    if paths:
        assume_layers(ledger)
    return told.measure(ledger, all_known=all_known, of_none=of_none)


def source_rises(ledger: Ledger, of_none: str) -> Measure:
    """Rise in K of every source over the air; the greatest."""
    heat, faces = _warm_faces(ledger, at_most=heat_paths(ledger)[1])
    told = _Told(said=[] if heat.all_known else [_MORE_PATHS])
    for way in heat.ways:
        layers = layers_of(ledger, way.path)
        drops = [(layer, _drop(heat, way, layer)) for layer in layers]
        face = _face_rise(way, faces)
        value = _or_more(total((face, *(drop for _, drop in drops))), known=bool(drops) and heat.all_known)
        words = "".join(f" + {layer.stage.name} {few(drop)}" for layer, drop in drops)
        told.add(way.path.label, value, f"{way.path.label}: face {few(face)}{words} = {few(value)} K")
        told.said += _gaps(way.path.label, layers)
    if heat.ways:
        assume_layers(ledger)
    return told.measure(ledger, all_known=heat.all_known, of_none=of_none)


def face_rises(ledger: Ledger, of_none: str) -> Measure:
    """Rise in K of every outer face over the air; the greatest."""
    heat, faces = _warm_faces(ledger)
    told = _Told(said=[] if _no_more(heat) else [_MORE_FACES])
    for path, face in faces.items():
        rise = rise_of(face) if face else None
        name = face.name if face else path
        told.add(name, rise, rise_in_words(face, rise) if face and rise else f"{path}: not known")
    return told.measure(ledger, all_known=_no_more(heat), of_none=of_none)


def face_temperatures(ledger: Ledger, of_none: str) -> Measure:
    """Temperature in °C of every outer face, beside those published for touch; the greatest."""
    heat, faces = _warm_faces(ledger)
    told = _Told(said=[] if _no_more(heat) else [_MORE_FACES])
    for way in heat.outward():
        face = faces[way.path.id]
        if face is None:
            told.add(way.path.id, None, f"{way.path.id}: not known")
            continue
        rise = rise_of(face)
        celsius = face.ambient + rise
        told.add(face.name, celsius, f"{face.name}: {few(face.ambient)} °C + {few(rise)} K")
        told.said.append(f"{face.name} {touch_in_words(ledger, way.stages[-1], celsius)}")
    told.said.append(CARE)
    return told.measure(ledger, all_known=_no_more(heat), of_none=of_none)


def _warm_faces(ledger: Ledger, *, at_most: bool = True) -> tuple[Heat, Mapping[str, Face | None]]:
    heat = heat_of(ledger, at_most=at_most)
    faces = faces_of(ledger, heat)
    if faces:
        assume_still_air(ledger)
    if faces and not heat.all_known:
        ledger.assume("the last stage recorded of a path to be its outer face")
        ledger.assume("heat that no path speaks of, up to all power in use, to leave by the same face at most")
    return heat, faces


def _or_more(value: Bounds, *, known: bool) -> Bounds:
    """The value where all is known that adds to it; else at least that, with its likeliest value kept."""
    return value if known else Bounds(value.best, value.low, math.inf)


def _no_more(heat: Heat) -> bool:
    """Whether the faces recorded are surely all that give off heat of their own."""
    return heat.all_known and all(way.stages and way.outside is not Truth.UNKNOWN for way in heat.ways)


def _face_rise(way: Way, faces: Mapping[str, Face | None]) -> Bounds:
    """How warm the face is that a path ends in; anything above the air where it ends inside, or may."""
    face = faces.get(way.path.id)
    return rise_of(face) if face is not None and way.outside is Truth.YES else ANY


def _drop(heat: Heat, way: Way, layer: Layer) -> Bounds:
    """The difference in K across a layer: its resistance times all power that goes through it."""
    return (ANY if layer.resistance is None else layer.resistance) * heat.of_stage(way, layer.stage)


def _gaps(name: str, layers: Iterable[Layer]) -> list[str]:
    open_ones = [layer.stage.name for layer in layers if layer.resistance is None]
    return [f"{name} at least: nothing is known of {', '.join(open_ones)}"] if open_ones else []
