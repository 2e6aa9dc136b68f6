"""Ports, channels and lamps: no hole is larger than what it is in, and no lamp gives more light than physics allows."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.quantities.bounds import total
from archdiff.rules.facts import number, shown, size_of, space_diagonal
from archdiff.rules.rule import Finding, rule
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

# Lengths from ruler and caliper may differ by this many mm without anything being wrong; areas and volumes by a share.
_SLACK = 0.5
_ROUNDING = 1.05


@rule("port-wider-than-product", order=350)
def port_wider_than_product(record: Record) -> Iterator[Finding]:
    """A sound or air port is wider than the longest line inside the product's envelope."""
    room = space_diagonal(record)
    for element in record.elements.values():
        diameter, area = number(element.facts, "port", "diameter"), number(element.facts, "port", "area")
        if room is None:
            return
        widest = math.pi / 4 * room**2  # of all flat shapes of one greatest width the circle has the most area
        if diameter is not None and diameter.low > room + _SLACK:
            message = (
                f"the port of {element.id} is {shown(diameter, 'mm')} wide, and no line inside the product is longer "
                f"than {room:.4g} mm"
            )
            yield Finding((*element.path, "port", "diameter"), message, "check the diameter and its unit")
        if area is not None and area.low > widest * _ROUNDING:
            message = (
                f"the port of {element.id} is {shown(area, 'mm²')} large, and no cut through the product more than "
                f"{widest:.4g} mm²"
            )
            yield Finding((*element.path, "port", "area"), message, "check the area and its unit")


@rule("cavity-larger-than-product", order=351)
def cavity_larger_than_product(record: Record) -> Iterator[Finding]:
    """The cavity behind a port is larger than the whole product."""
    room = _volume(record)
    for element in record.elements.values():
        cavity = number(element.facts, "port", "cavity")
        if room is not None and cavity is not None and cavity.low > room * _ROUNDING:
            message = (
                f"the cavity behind the port of {element.id} is said to hold {shown(cavity, 'mm³')}, and the product's "
                f"envelope {room:.4g} mm³"
            )
            yield Finding((*element.path, "port", "cavity"), message, "check the volume and its unit: mm3, cm3 or ml")


@rule("channel-larger-than-product", order=352, severity=Severity.WARNING)
def channel_larger_than_product(record: Record) -> Iterator[Finding]:
    """A stage of a path is wider, or holds more, than the whole product."""
    line, room = space_diagonal(record), _volume(record)
    for path, index, name, found in _stage_facts(record):
        limit, unit = (room, "mm³") if name == "volume" else (line, "mm")
        if limit is None or found.low <= limit * _ROUNDING:
            continue
        message = (
            f"stage {index + 1} of {path.id} is said to be {shown(found, unit)}, and the product's envelope gives "
            f"{limit:.4g} {unit} at the most"
        )
        hint = "check the number and its unit; what lies outside the product needs no size"
        yield Finding((*path.path, "through", index, name), message, hint)


@rule("port-contradicts-path", order=355, severity=Severity.WARNING)
def port_contradicts_path(record: Record) -> Iterator[Finding]:
    """The port of a sensor and the sound path to it state different lengths or cavities."""
    for path in record.section("paths"):
        ending = record.elements.get(path.text("to"))
        if ending is None or path.facts.get("kind") != "sound":
            continue
        for name, along in _along_path(path).items():
            stated = number(ending.facts, "port", name)
            if stated is None or _may_be_one(stated, along):
                continue
            unit = "mm" if name == "length" else "mm³"
            message = (
                f"the port of {ending.id} states a {name} of {shown(stated, unit)}, and the stages of {path.id} add up "
                f"to {shown(along, unit)}"
            )
            hint = "correct one of the two: figures take the path; leave out of the port what the path states better"
            yield Finding((*ending.path, "port", name), message, hint)


@rule("openings-larger-than-piece", order=353, severity=Severity.WARNING)
def openings_larger_than_piece(record: Record) -> Iterator[Finding]:
    """The openings of a piece have more area together than its outside."""
    for piece in record.section("enclosure"):
        openings = piece.facts.get("openings", ())
        areas = [area for opening in openings if (area := number(opening, "area")) is not None]
        outside = _outside(piece)
        if outside is not None and total(areas).low > outside.high * _ROUNDING:
            message = (
                f"the openings of {piece.id} are together {shown(total(areas), 'mm²')} large, and its outside "
                f"{shown(outside, 'mm²')}"
            )
            hint = "check the areas and their units: mm2 or cm2; each is that of all its holes together"
            yield Finding((*piece.path, "openings"), message, hint, key=True)


@rule("more-light-than-power-gives", order=354)
def more_light_than_power_gives(record: Record) -> Iterator[Finding]:
    """A lamp is said to give more light than its power could at the peak of the eye's response."""
    peak = read_table("light").rows["most for a watt"].number("efficacy")
    for element in record.elements.values():
        flux, power = number(element.facts, "flux"), number(element.facts, "power")
        if flux is None or power is None or power.high < 0 or flux.low <= power.high * peak * _ROUNDING:
            continue
        message = (
            f"{element.id} is said to give {shown(flux, 'lm')} from {shown(power, 'W')}, and no light has more than "
            f"{peak:.4g} lm for a watt"
        )
        hint = "check the two and their units; both are those of all lamps of the entry together"
        yield Finding((*element.path, "flux"), message, hint)


def _along_path(path: Element) -> dict[str, Bounds]:
    """Length of all its holes in mm and the volume in mm³ behind them, each where its stages state it in full."""
    stages = path.facts.get("through", ())
    volumes = [volume for stage in stages if (volume := number(stage, "volume")) is not None]
    reaches = [_first(number(stage, "length"), number(stage, "thickness")) for stage in stages if "volume" not in stage]
    found = {"cavity": volumes[0]} if len(volumes) == 1 else {}
    known = [reach for reach in reaches if reach is not None]
    return found | ({"length": total(known)} if known and len(known) == len(reaches) else {})


def _first(one: Bounds | None, other: Bounds | None) -> Bounds | None:
    return other if one is None else one


def _may_be_one(one: Bounds, other: Bounds) -> bool:
    """Whether the two may be the same, rounded or read off by different tools."""
    low, high = sorted((one, other), key=lambda bounds: bounds.low)
    return high.low <= low.high * _ROUNDING + _SLACK


def _volume(record: Record) -> float | None:
    """Greatest volume of the product's envelope in mm³; None where it is not stated with all three sizes."""
    envelope = size_of(record.product, "envelope")
    if envelope is None or envelope.height is None:
        return None
    return (envelope.area * envelope.height).high


def _stage_facts(record: Record) -> Iterator[tuple[Element, int, str, Bounds]]:
    """(path, place from 0, name, value) of what a stage states of its width and its volume."""
    for path in record.section("paths"):
        for index, stage in enumerate(path.facts.get("through", ())):
            for name in ("width", "diameter", "volume"):
                found = number(stage, name)
                if found is not None:
                    yield path, index, name, found


def _outside(piece: Element) -> Bounds | None:
    """Area of its outside in mm²: as stated, else of the box that it fits in; None where neither is stated."""
    stated, size = number(piece.facts, "area"), size_of(piece.facts)
    if stated is not None or size is None or size.height is None:
        return stated
    return (size.width * size.depth + size.width * size.height + size.depth * size.height) * 2.0
