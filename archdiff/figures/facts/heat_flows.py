"""Which heat goes where: the power of every heat path recorded, and what a layer or an outer face carries in all."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.facts.heat_layers import solid_stages
from archdiff.figures.facts.path_facts import paths_of
from archdiff.quantities import Bounds
from archdiff.quantities.bounds import total
from archdiff.record import Truth, as_bounds

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.record import Element

NOTHING = Bounds.exact(0.0)


@dataclass(frozen=True, slots=True)
class Way:
    """One heat path: its solid stages, the power in W that takes it, and whether it ends in the open air."""

    path: Element
    stages: tuple[Stage, ...]
    power: Bounds
    outside: Truth

    @property
    def face(self) -> str:
        """Key of the outer face: what its last solid stage names; '' where no stage is stated."""
        return _key(self.stages[-1]) if self.stages else ""


@dataclass(frozen=True, slots=True)
class Heat:
    """All heat paths recorded; `all_known` where these are all that there are."""

    ways: tuple[Way, ...]
    all_known: bool
    in_use: float  # the most power that may become heat anywhere, in W

    def of_stage(self, way: Way, stage: Stage) -> Bounds:
        """Power in W through one stage: at least that of its own path, at most that of all that may share it."""
        others = [w for w in self.ways if w is not way and _may_share(w, _key(stage))]
        together = total((way.power, *(other.power for other in others)))
        high = together.high if self.all_known else max(together.high, self.in_use)
        # The same words need not mean the same thing.
        best = together.best if stage.thing is not None or not others else None
        return Bounds(best, way.power.low, high)

    def outward(self) -> tuple[Way, ...]:
        """The paths that end in the open air, or may."""
        return tuple(way for way in self.ways if way.stages and way.outside is not Truth.NO)

    def of_face(self, way: Way) -> Bounds:
        """Power in W that leaves by the outer face of a path: at least its own, at most all that may end there."""
        others = [other for other in self.ways if other is not way and other.outside is not Truth.NO]
        here = [other for other in others if other.face in (way.face, "")]
        low = way.power.low if way.outside is Truth.YES else 0.0
        high = way.power.high + sum(other.power.high for other in here)
        if not self.all_known:
            high = max(high, self.in_use - sum(other.power.low for other in others if _surely_apart(way, other)))
        # What ends in the same piece is taken to warm the same area of it; the same words need not mean one piece.
        best = total((way.power, *(other.power for other in here))).best
        certain = all(other.outside is Truth.YES and other.face for other in (way, *here))
        return Bounds(best if certain and (not here or way.stages[-1].thing is not None) else None, low, high)

    def surely_given_off(self) -> float:
        """The least power in W that the outside gives off by the paths recorded."""
        return sum(way.power.low for way in self.ways if way.outside is Truth.YES)


def heat_of(ledger: Ledger, *, at_most: bool) -> Heat:
    """The heat paths of a record, each with its power; `at_most` where a greatest value is asked for as well.

    What the whole product takes is such a bound where paths, or their powers, may be lacking.
    """
    paths, all_known = heat_paths(ledger)
    asked = at_most and (not all_known or any("power" not in path.facts for path in paths))
    in_use = power_in_use(ledger) if asked else None
    most = math.inf if in_use is None else in_use.high
    return Heat(tuple(_way(ledger, path, most) for path in paths), all_known, most)


def heat_paths(ledger: Ledger) -> tuple[tuple[Element, ...], bool]:
    """The heat paths recorded, and whether there are surely no more."""
    record = ledger.record
    whole = ledger.whole("paths")
    unnamed = [path for path in record.section("paths") if "kind" not in path.facts]
    for path in unnamed:
        ledger.lack(path.id, "kind")
    found = paths_of(record, "heat")
    if not found:
        ledger.lack("paths", "heat path")
    return found, whole and not unnamed


def power_in_use(ledger: Ledger) -> Bounds | None:
    """Power in W that the product takes in use; None, noted, where it is not stated."""
    stated = as_bounds(ledger.record.power.get("in_use"))
    ledger.note("power", "in_use", known=stated is not None)
    return None if stated is None else stated.mapped(lambda value: max(0.0, value))


def _way(ledger: Ledger, path: Element, in_use: float) -> Way:
    return Way(path, solid_stages(ledger.record, path), _power(ledger, path, in_use), _outside(ledger, path))


def _power(ledger: Ledger, path: Element, in_use: float) -> Bounds:
    """As stated; else at most what its source, or the whole product, takes."""
    stated = ledger.value(path, "power")
    if stated is not None:
        return stated.mapped(lambda value: max(0.0, value))
    source = ledger.record.elements.get(path.text("from"))
    power = None if source is None else source.bounds("power")
    if source is not None and power is not None:
        ledger.use(source.id, "power")
    most = math.inf if source is None or power is None else max(0.0, power.high * source.count)
    return Bounds(None, 0.0, min(in_use, most))


def _outside(ledger: Ledger, path: Element) -> Truth:
    """Whether it ends in the open air: in anything that is no part of the product."""
    end = path.text("to")
    if not ledger.note(path.id, "to", known=bool(end)):
        return Truth.UNKNOWN
    return Truth.NO if end in ledger.record.elements else Truth.YES


def _surely_apart(way: Way, other: Way) -> bool:
    """Whether the other path surely gives off its heat by another face: both name a thing, and not the same."""
    named = bool(way.stages and other.stages) and None not in (way.stages[-1].thing, other.stages[-1].thing)
    return named and way.face != other.face and other.outside is Truth.YES


def _may_share(way: Way, key: str) -> bool:
    return not way.stages or any(_key(stage) == key for stage in way.stages)


def _key(stage: Stage) -> str:
    """What a stage is, alike for stages of several paths that name the same element or say the same words."""
    return str(stage.facts.get("what", ""))
