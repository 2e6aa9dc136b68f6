"""Heat: temperatures, conductivities and layers that cannot be, and more heat than there is power."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.physics.materials import known_conductivities, material_named
from archdiff.physics.surfaces import kelvin
from archdiff.problems import Severity
from archdiff.quantities import Quantity
from archdiff.quantities.bounds import total
from archdiff.rules.facts import number, shown, size_of, stated
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record
    from archdiff.rules.facts import Path

# Lengths from ruler and caliper may differ by this many mm without anything being wrong.
_SLACK = 0.5
# Published spans of conductivity leave out odd grades: what is within this factor of their ends is not spoken of.
_ODD_GRADE = 2.0
_ROUNDING = 1.05
# A slip of the decimal point is by one or two places.
_SLIPS = (10.0, 100.0)


@rule("below-absolute-zero", order=330)
def below_absolute_zero(record: Record) -> Iterator[Finding]:
    """A temperature lies below absolute zero."""
    for path, value in stated(record):
        if isinstance(value, Quantity) and value.dimension == "temperature" and kelvin(value.bounds.high) < 0:
            message = f"'{value}' is {shown(value.bounds, '°C')}, below absolute zero"
            yield Finding(path, message, "check the number and its unit, for example '23 degC'")


@rule("conductivity-of-no-material", order=331)
def conductivity_of_no_material(record: Record) -> Iterator[Finding]:
    """A conductivity is below that of the best insulator or above that of diamond."""
    least, most = known_conductivities()
    for path, value in stated(record):
        if not isinstance(value, Quantity) or value.dimension != "conductivity":
            continue
        if value.bounds.high < least or value.bounds.low > most:
            message = f"'{value}' is outside what any material has: {least:g} to {most:g} W/(m·K)"
            hint = "check the number and its unit, for example '3 W/m/K'; of a heat pipe state the 'resistance'"
            yield Finding(path, message, hint)


@rule("conductivity-unlike-material", order=332, severity=Severity.WARNING)
def conductivity_unlike_material(record: Record) -> Iterator[Finding]:
    """A conductivity is far from what is published for the material."""
    for path, facts, thing in _layers(record):
        value = number(facts, "conductivity")
        row = material_named(str(facts.get("material", thing.get("material", ""))))
        if value is None or row is None:
            continue
        low, high = row.span("conductivity")
        if value.low > high * _ODD_GRADE or value.high < low / _ODD_GRADE:
            message = f"{shown(value, 'W/(m·K)')} for {row.key}, of which {low:g} to {high:g} W/(m·K) are published"
            yield Finding((*path, "conductivity"), message, "check the number, its unit and the material")


@rule("layer-thicker-than-product", order=333, severity=Severity.WARNING)
def layer_thicker_than_product(record: Record) -> Iterator[Finding]:
    """A layer that heat goes through, or a wall, is thicker than the product is thin."""
    envelope = size_of(record.product, "envelope")
    if envelope is None or envelope.height is None:
        return
    thin = min(side.high for side in (envelope.width, envelope.depth, envelope.height))
    for path, facts, _ in _layers(record):
        thickness = number(facts, "thickness")
        if thickness is not None and thickness.low > thin + _SLACK:
            message = f"{shown(thickness, 'mm')} thick, and the product is only {thin:.4g} mm thick ({envelope})"
            yield Finding((*path, "thickness"), message, _slipped(thickness, thin))


@rule("thicker-than-its-body", order=334)
def thicker_than_its_body(record: Record) -> Iterator[Finding]:
    """A wall is thicker than the body it belongs to, or a layer of a heat path longer than the thing it is."""
    for path, facts, thing in _layers(record):
        thickness, size = number(facts, "thickness"), size_of(thing)
        if thickness is None or size is None or size.height is None:
            continue
        sides = [side.high for side in (size.width, size.depth, size.height)]
        room = min(sides) if facts is thing else max(sides)
        if thickness.low > room + _SLACK:
            message = f"{shown(thickness, 'mm')} thick, and its body is {size}"
            yield Finding((*path, "thickness"), message, _slipped(thickness, room))


@rule("area-of-nothing", order=335)
def area_of_nothing(record: Record) -> Iterator[Finding]:
    """A stage that heat goes through has an area of zero."""
    for path, facts, _ in _layers(record):
        area = number(facts, "area")
        if area is not None and area.high == 0:
            hint = "state what was measured; leave the area out where it is not known"
            yield Finding((*path, "area"), "no heat goes through an area of zero", hint)


@rule("more-heat-than-power", order=336, severity=Severity.WARNING)
def more_heat_than_power(record: Record) -> Iterator[Finding]:
    """Heat paths carry more than their source, or the product, takes."""
    paths = [path for path in record.section("paths") if path.facts.get("kind") == "heat"]
    powers = [(path, power) for path in paths if (power := number(path.facts, "power")) is not None]
    for source in dict.fromkeys(path.text("from") for path, _ in powers):
        taker = record.elements.get(source)
        taken = None if taker is None else number(taker.facts, "power")
        if taker is not None and taken is not None:
            own = [(path, power) for path, power in powers if path.text("from") == source]
            yield from _more(own[-1][0], total(power for _, power in own), taken * taker.count, source)
    in_use = number(record.power, "in_use")
    outward = [(path, power) for path, power in powers if path.text("to") not in record.elements]
    if in_use is not None and outward:
        yield from _more(outward[-1][0], total(power for _, power in outward), in_use, "the product in use")


def _more(path: Element, leaving: Bounds, taken: Bounds, taker: str) -> Iterator[Finding]:
    if leaving.low > taken.high * _ROUNDING:
        message = f"heat paths carry {shown(leaving, 'W')} away, and {taker} takes {shown(taken, 'W')}"
        hint = "check the powers; heat that goes two ways is shared between two paths"
        yield Finding((*path.path, "power"), message, hint)


def _layers(record: Record) -> Iterator[tuple[Path, Mapping[str, Any], Mapping[str, Any]]]:
    """(path into the data, facts, facts of the element that it is or names) of walls and stages of heat paths."""
    for element in record.elements.values():
        yield element.path, element.facts, element.facts
    for path in record.section("paths"):
        for place, stage in enumerate(path.facts.get("through", ()) if path.facts.get("kind") == "heat" else ()):
            thing = record.elements.get(str(stage.get("what", "")))
            yield (*path.path, "through", place), stage, {} if thing is None else thing.facts


def _slipped(thickness: Bounds, room: float) -> str:
    """A hint at what was probably meant: the same digits with the decimal point further left."""
    stated = thickness.low if thickness.best is None else thickness.best
    meant = next((f"did you mean '{stated / slip:g} mm'? " for slip in _SLIPS if stated / slip <= room), "")
    return f"{meant}check the number and its unit; what runs along a stage is its 'length'"
