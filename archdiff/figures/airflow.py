"""Air: where it comes in and goes out, what it passes, what drives it, and how fast it goes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, added, count_true, largest, listed, sum_in_words, told
from archdiff.figures.facts.air_facts import (
    Found,
    all_openings,
    drives_air,
    flow_of,
    narrowest,
    of_air_paths,
    open_areas,
    passages,
    share_before,
)
from archdiff.figures.facts.channel_facts import from_zero, over
from archdiff.figures.facts.spacing import nearest
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds, Size
from archdiff.record import Truth, as_bounds

if TYPE_CHECKING:
    from archdiff.figures.facts.air_facts import AirPath
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("air", "Air", 90)

# Functions of the vocabulary.
_INLET = "air inlet"
_OUTLET = "air outlet"
_NO_SENSOR = "a stage that is a sensor; none is recorded"
_NO_MOVER = "a stage that drives the air; none is recorded"
_PASSIVE = "no actuator drives the air: passive, if no other part does"
_MM2_PER_M2 = 1e6
_CM3_PER_M3 = 1e6
_MM3_PER_CM3 = 1e3
_S_PER_H = 3600.0
_MIN_PER_H = 60.0


@figure(
    title="Air inlet area",
    unit="mm²",
    order=10,
    meaning="Open area of the holes in the outer pieces that let air in, meshes over them not counted.",
    formula="sum of the areas of openings with the function air inlet",
    source="sum; common practice, no source",
)
def air_inlet_area(record: Record) -> Measure:
    """Area in mm²."""
    return _openings(record, _INLET)


@figure(
    title="Air outlet area",
    unit="mm²",
    order=20,
    meaning="Open area of the holes in the outer pieces that let air out, meshes over them not counted.",
    formula="sum of the areas of openings with the function air outlet",
    source="sum; common practice, no source",
)
def air_outlet_area(record: Record) -> Measure:
    """Area in mm²."""
    return _openings(record, _OUTLET)


def _openings(record: Record, function: str) -> Measure:
    ledger = Ledger(record)
    area, how = all_openings(ledger, function)
    return ledger.measure(area, how)


@figure(
    title="Air outlet over inlet",
    order=30,
    meaning="How much larger the outlets are than the inlets: below 1 the way out is the narrower one.",
    formula="air outlet area / air inlet area",
    source="ratio; common practice, no source",
)
def outlet_over_inlet(record: Record) -> Measure:
    """Ratio of the two areas."""
    ledger = Ledger(record)
    (outlet, _), (inlet, _) = (all_openings(ledger, function) for function in (_OUTLET, _INLET))
    if inlet.high <= 0:
        ledger.lack("enclosure", "an air inlet; none is recorded")
    return ledger.measure(over(outlet, inlet), f"{told(outlet)} mm² / {told(inlet)} mm²")


@figure(
    title="Air inlet area per watt",
    unit="mm²/W",
    order=40,
    meaning="Open area that lets air in, for the power that the product takes in use.",
    formula="air inlet area / power in use",
    source="ratio; common practice, no source",
)
def inlet_area_per_watt(record: Record) -> Measure:
    """Area in mm² per watt."""
    ledger = Ledger(record)
    inlet, _ = all_openings(ledger, _INLET)
    power = as_bounds(record.power.get("in_use"))
    ledger.note("power", "in_use", known=power is not None)
    return ledger.measure(over(inlet, power), f"{told(inlet)} mm² / {told(power)} W")


@figure(
    title="Air movers",
    order=50,
    meaning="How many of the actuators are fans or blowers; with none the air moves by warmth or draught alone.",
    formula="count of actuators whose means drives air",
    source="count; common practice, no source",
    preferred="lower: silence and life",
)
def air_movers(record: Record) -> Measure:
    """Actuators whose means has the trait 'drives-air'."""
    ledger = Ledger(record)
    whole = ledger.whole("actuators")
    actuators = listed(record, "actuators")
    answers = {entry.id: ledger.trait(entry, "drives-air") for entry in actuators}
    count = count_true(actuators, lambda entry: answers[entry.id], whole=whole)
    said = "driven" if count.low > 0 else _PASSIVE if count.high == 0 else ""
    found = [entry for entry in actuators if answers[entry.id] is Truth.YES]
    return ledger.measure(count, sum_in_words(found), said=said)


@figure(
    title="Narrowest place of the air path",
    unit="mm²",
    order=60,
    meaning="Smallest open area that the air passes on its way through the product; of several ways the least.",
    formula="least of the areas of the stages of the air path",
    source="minimum; common practice, no source",
)
def narrowest_air_passage(record: Record) -> Measure:
    """Area in mm²; at most that where a stage may be lacking or states none."""

    def area(ledger: Ledger, way: AirPath) -> Found:
        areas = open_areas(ledger, way.path)
        words = ", ".join(f"{name} {told(area)}" for name, area in areas.items())
        known = {name: area for name, area in areas.items() if area is not None}
        return Found(narrowest(areas, whole=way.whole), f"least of {words} mm²", known)

    return of_air_paths(record, area, nearest)


@figure(
    title="Air speed at the narrowest place",
    unit="m/s",
    order=70,
    meaning="Mean speed of the air where its path is narrowest; of several paths the most; estimated.",
    formula="flow / smallest open area",
    source="continuity of an incompressible flow; hydraulics texts, recomputed",
)
def air_speed(record: Record) -> Measure:
    """Speed in m/s from the flow of the path in m³/h, and at each stage."""

    def speed(ledger: Ledger, way: AirPath) -> Found:
        flow, areas = flow_of(ledger, way.path), open_areas(ledger, way.path)
        least = narrowest(areas, whole=way.whole)
        at_each = {name: _speed(flow, area) for name, area in areas.items()}
        parts = {name: found for name, found in at_each.items() if found is not None}
        return Found(_speed(flow, least), f"{told(flow)} m³/h / {told(least)} mm²", parts)

    return of_air_paths(record, speed, largest)


def _speed(flow: Bounds | None, area: Bounds | None) -> Bounds | None:
    """Speed in m/s of a flow in m³/h through an area in mm²."""
    found = over(flow, area)
    return None if found is None else found * (_MM2_PER_M2 / _S_PER_H)


@figure(
    title="Envelopes of air a minute",
    unit="1/min",
    order=80,
    meaning="How many of the product's envelopes of air pass in a minute; the room inside, being less, changes sooner.",
    formula="sum of the flows of the air paths / volume of the envelope",
    source="air change rate as ventilation uses it; common practice, no source",
)
def envelope_changes(record: Record) -> Measure:
    """Changes a minute from the flow in m³/h and the envelope in mm."""

    def changes(ledger: Ledger, way: AirPath) -> Found:
        flow, envelope = flow_of(ledger, way.path), record.product.get("envelope")
        volume = None
        if isinstance(envelope, Size) and envelope.height is not None:
            volume = envelope.area * envelope.height * (1 / _MM3_PER_CM3)
        ledger.note("product", "envelope", known=volume is not None)
        found = over(flow, volume)
        words = f"{told(flow)} m³/h / {told(volume)} cm³"
        return Found(None if found is None else found * (_CM3_PER_M3 / _MIN_PER_H), words)

    return of_air_paths(record, changes, added)


@figure(
    title="Stages before the first sensor",
    order=90,
    meaning="How many stages the air passes before it meets a sensor.",
    formula="stages of the air path before the first one that is a sensor",
    source="count; common practice, no source",
    preferred="lower: the sensor meets the room sooner",
)
def stages_before_sensor(record: Record) -> Measure:
    """Count of stages, of several paths the least; not known where a stage may be lacking."""

    def before(ledger: Ledger, way: AirPath) -> Found:
        stages = passages(ledger, way.path)
        places = [stage.place for stage in stages if stage.is_sensor]
        if not places:
            ledger.lack(way.path.id, _NO_SENSOR)
            return Found(None, "no sensor on it recorded")
        words = " > ".join(stage.name for stage in stages[: places[0]])
        return Found(Bounds.exact(places[0] - 1) if way.whole else None, words)

    return of_air_paths(record, before, nearest)


@figure(
    title="Sensors ahead of the air mover",
    order=100,
    meaning="Share of the sensors on the air path that the air meets before it meets what drives it and warms it.",
    formula="sensors before the first mover on the air path / sensors on it",
    source="count; common practice, no source",
)
def sensors_ahead_of_mover(record: Record) -> Measure:
    """Share, 0 to 1, of several paths the least; not known where a stage may be lacking."""

    def ahead(ledger: Ledger, way: AirPath) -> Found:
        stages = passages(ledger, way.path)
        answers = [(stage, drives_air(ledger, stage)) for stage in stages]
        sensors = [stage for stage in stages if stage.is_sensor]
        movers = [stage for stage, answer in answers if answer is Truth.YES]
        if not movers or not sensors:
            ledger.lack(way.path.id, _NO_MOVER if sensors else _NO_SENSOR)
            return Found(None, f"no {'mover' if sensors else 'sensor'} on it recorded")
        found = share_before(sensors, movers, answers)
        return found if way.whole else replace(found, bounds=None)

    return of_air_paths(record, ahead, nearest)


@figure(
    title="Power ahead of the last sensor",
    unit="W",
    order=110,
    meaning="Power of what the air passes before the last sensor on its path: what may warm the air that it measures.",
    formula="sum of the power of the things on the air path before its last sensor",
    source="sum; common practice, no source",
    preferred="lower: the air is measured as it comes in",
)
def power_ahead_of_sensor(record: Record) -> Measure:
    """Power in W, of several paths the most; open above where a stage may be lacking or a thing states no power."""

    def ahead(ledger: Ledger, way: AirPath) -> Found:
        stages = passages(ledger, way.path)
        last = max((stage.place for stage in stages if stage.is_sensor), default=0)
        if not last:
            ledger.lack(way.path.id, _NO_SENSOR)
            return Found(None, "no sensor on it recorded")
        things = [stage.thing for stage in stages if stage.takes_power and stage.place < last and stage.thing]
        powers = [ledger.value(thing, "power") for thing in things]
        total = added((None if power is None else from_zero(power) for power in powers), whole=way.whole)
        words = " + ".join(f"{thing.id} {told(power)}" for thing, power in zip(things, powers, strict=True))
        return Found(total, f"{words or 'nothing that takes power'} W before {stages[last - 1].name}")

    return of_air_paths(record, ahead, largest)
