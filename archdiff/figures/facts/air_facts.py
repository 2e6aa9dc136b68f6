"""What the figures of air ask of a record: openings in its outer pieces, and the stages of its air paths."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from archdiff.figures.counting import ANY, THINGS, Ledger, added, number, told
from archdiff.figures.facts.channel_facts import all_paths, from_zero, open_area
from archdiff.figures.facts.path_facts import stages_of
from archdiff.figures.facts.spacing import nearest
from archdiff.quantities import Bounds, Size
from archdiff.record import Truth, as_bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.figures.facts.channel_facts import OfAll
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record


@dataclass(frozen=True, slots=True)
class Passage:
    """One stage of an air path, by its place from 1, its name and the element that it names."""

    place: int
    name: str
    means: str  # as the stage itself states it
    thing: Element | None

    @property
    def is_sensor(self) -> bool:
        """Whether the air meets a sensor there."""
        return self.thing is not None and self.thing.section == "sensors"

    @property
    def takes_power(self) -> bool:
        """Whether the thing is of a kind for which a record can state power."""
        return self.thing is not None and self.thing.section in THINGS


@dataclass(frozen=True, slots=True)
class AirPath:
    """An air path, and whether its stages are surely all recorded."""

    path: Element
    whole: bool


@dataclass(frozen=True, slots=True)
class Found:
    """A figure of one air path, how it was worked out, and what it is at each stage."""

    bounds: Bounds | None
    words: str
    parts: dict[str, Bounds] = field(default_factory=dict)


def of_air_paths(record: Record, of_path: Callable[[Ledger, AirPath], Found], of_all: OfAll) -> Measure:
    """A figure of all air paths: the least, the greatest or the sum, as `of_all` has it.

    It is broken down by stage where there is one path, and by path where there are more.
    """
    ledger = Ledger(record)
    paths = all_paths(ledger, "air")
    if not paths.found:
        ledger.lack("paths", "an air path; none is recorded")
    each = [(path, of_path(ledger, AirPath(path, paths.whole))) for path in paths.found]
    how = "; ".join(f"{path.id}: {found.words}" for path, found in each) or "no air path recorded"
    by_path = {path.id: found.bounds for path, found in each if found.bounds is not None}
    parts = each[0][1].parts if len(each) == 1 else by_path
    bounds = [ANY if found.bounds is None else found.bounds for _, found in each]
    return ledger.measure(of_all(bounds, whole=paths.whole) if each else None, how, parts)


def passages(ledger: Ledger, path: Element) -> list[Passage]:
    """The stages of an air path, in the order in which the air passes them."""
    stages = list(stages_of(ledger.record, path))
    ledger.note(path.id, "through", known=bool(stages))
    return [Passage(s.place, s.name, str(s.facts.get("means", "")), s.thing) for s in stages]


def drives_air(ledger: Ledger, passage: Passage) -> Truth:
    """Whether a stage sets the air in motion. Words that name no element are a passage, unless they say by what."""
    if passage.thing is not None:
        return ledger.trait(passage.thing, "drives-air")
    term = ledger.record.means_term(passage.means)
    return Truth.YES if term is not None and "drives-air" in term.traits else Truth.NO


def flow_of(ledger: Ledger, path: Element) -> Bounds | None:
    """Flow in m³/h of an air path, noted; None where it is not stated."""
    flow = ledger.value(path, "flow")
    return None if flow is None else from_zero(flow)


def open_areas(ledger: Ledger, path: Element) -> dict[str, Bounds | None]:
    """Open area in mm² of each stage of an air path, by its place and its name; None where it is not stated."""
    stages = list(stages_of(ledger.record, path))
    ledger.note(path.id, "through", known=bool(stages))
    return {f"{stage.place} {stage.name}": open_area(ledger, stage) for stage in stages}


def narrowest(areas: Mapping[str, Bounds | None], *, whole: bool) -> Bounds | None:
    """The smallest of them, at most that where a stage may be lacking; None where there are none."""
    return nearest([ANY if area is None else area for area in areas.values()], whole=whole)


def all_openings(ledger: Ledger, function: str) -> tuple[Bounds, str]:
    """Area in mm² of all openings with a function in the outer pieces, those held in no other piece.

    A piece without `openings` was not asked for them: it may have some. So may an opening of no stated function
    be one of these.
    """
    whole = ledger.whole("enclosure")
    terms: list[Bounds | None] = []
    words: list[str] = []
    for piece in ledger.record.section("enclosure"):
        if piece.hosts:
            continue
        if not ledger.note(piece.id, "openings", known="openings" in piece.facts):
            terms.append(None)
            continue
        found = [_opening(ledger, piece, opening, function) for opening in piece.facts["openings"]]
        terms += found
        words += [f"{piece.id} {told(area)}" for area in found if area is None or area.high > 0]
    return added(terms, whole=whole), f"{' + '.join(words) or 'none listed'} mm²"


def _opening(ledger: Ledger, piece: Element, opening: Mapping[str, Any], function: str) -> Bounds | None:
    """Area of one entry: 0 where it does something else, at most all of it where nobody says what it does."""
    term = ledger.record.function_term(opening.get("function", ""))
    if term is not None and not term.unknown and term.name != function:
        return Bounds.exact(0.0)
    area = _area(opening)
    if area is None:
        ledger.lack(piece.id, f"area of an opening ({opening.get('function', 'function not stated')})")
    if term is not None and term.name == function:
        return area
    ledger.lack(piece.id, "function of an opening")
    return None if area is None else Bounds(None, 0.0, area.high)


def _area(opening: Mapping[str, Any]) -> Bounds | None:
    """Open area of all of them together: as stated, else that of one times their number."""
    stated, size = as_bounds(opening.get("area")), opening.get("size")
    if stated is not None:
        return from_zero(stated)
    return from_zero(size.area) * int(opening.get("count", 1)) if isinstance(size, Size) else None


def share_before(sensors: list[Passage], movers: list[Passage], answers: list[tuple[Passage, Truth]]) -> Found:
    """A thing whose means is not known may be a mover too, and then the first one."""
    first = movers[0].place
    earliest = min([first, *(stage.place for stage, answer in answers if answer is Truth.UNKNOWN)])
    low, high = (_before(sensors, place) for place in (earliest, first))
    many = _before(sensors, math.inf)
    words = f"{told(Bounds(None, low, high))} of {many} before {movers[0].name}"
    return Found(Bounds(low / many if low == high else None, low / many, high / many), words)


def _before(sensors: list[Passage], place: float) -> int:
    """How many sensors stand before a place."""
    return number(sensor.thing for sensor in sensors if sensor.thing is not None and sensor.place < place)
