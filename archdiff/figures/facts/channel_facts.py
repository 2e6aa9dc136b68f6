"""What several families ask of the channels on a path: how far they reach, how wide they are, whether all are known."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple, Protocol

from archdiff.figures.counting import THINGS
from archdiff.figures.facts.path_facts import paths_of
from archdiff.quantities import Bounds
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.record import Element


def from_zero(bounds: Bounds) -> Bounds:
    """The same, without what lies below 0: a reading with its tolerance may reach there, a length cannot."""
    best = None if bounds.best is None else max(0.0, bounds.best)
    return Bounds(best, max(0.0, bounds.low), max(0.0, bounds.high))


def own(stage: Stage, name: str) -> Bounds | None:
    """A length, area or volume that the stage states itself; None where it does not.

    The element that it names does not stand in: the area of a piece is that of its outside, its thickness that of
    its wall.
    """
    found = as_bounds(stage.facts.get(name))
    return None if found is None else from_zero(found)


def beside(stage: Stage) -> int:
    """How many alike lie side by side; one where nothing else is stated."""
    return int(stage.facts.get("parallel", 1))


def along(ledger: Ledger, stage: Stage) -> Bounds | None:
    """How far the stage reaches along its path in mm: its length, else its thickness; None where neither is stated."""
    for name in ("length", "thickness"):
        found = own(stage, name)
        if found is not None:
            ledger.use(stage.address, name)
            return found
    ledger.lack(stage.address, "length")
    ledger.lack(stage.address, "thickness")
    return None


def open_area(ledger: Ledger, stage: Stage) -> Bounds | None:
    """Open area in mm² of all of a stage's channels together; None where neither diameter nor area is stated.

    Of a thing that stands in the channel the area is what it leaves free: it has no diameter to ask for.
    """
    diameter, area = own(stage, "diameter"), own(stage, "area")
    if diameter is not None:
        ledger.use(stage.address, "diameter")
        return disc(diameter) * beside(stage)
    if not ledger.note(stage.address, "area", known=area is not None) and not _stands_in_it(stage):
        ledger.lack(stage.address, "diameter")
    return area


def _stands_in_it(stage: Stage) -> bool:
    return stage.thing is not None and stage.thing.section in THINGS


def disc(diameter: Bounds) -> Bounds:
    """Area of a disc."""
    return diameter.mapped(lambda d: math.pi / 4 * d * d)


class Paths(NamedTuple):
    """The recorded paths of a kind, and whether they are surely all, with all their stages."""

    found: list[Element]
    whole: bool


def all_paths(ledger: Ledger, kind: str, *ends: str) -> Paths:
    """The paths of a kind. Where paths were looked at in part, another may be lacking, and so may a stage of each.

    `ends` are the facts, `from` or `to`, by which the caller tells whose paths they are.
    """
    whole = ledger.whole("paths")
    for path in ledger.record.section("paths"):
        of_kind = "kind" not in path.facts or path.facts["kind"] == kind
        lacking = [fact for fact in ("kind", *ends) if fact not in path.facts] if of_kind else []
        for fact in lacking:
            ledger.lack(path.id, fact)
        whole = whole and not lacking
    return Paths(list(paths_of(ledger.record, kind)), whole)


class OfAll(Protocol):
    """Takes the least, the greatest or the sum of what was found, open where there may be more."""

    def __call__(self, found: Sequence[Bounds], /, *, whole: bool) -> Bounds | None:
        """The one number, None where nothing can be said."""


def over(part: Bounds | None, whole: Bounds | None) -> Bounds | None:
    """A quotient of two that cannot be below 0; None where nothing can be said, or the divisor is 0."""
    if part is None or whole is None or whole.high <= 0:
        return None
    return part / whole
