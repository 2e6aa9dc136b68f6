"""Utilisation: how much of the boards lies under the bodies of the parts.

Bodies that lie flat on a side count, as stated or as their package tells; what stands over other parts, lies in a
cut-out or sits in something else does not. Only where every placed part of a side is listed is the sum more than a
lower limit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, THINGS, Ledger, added, largest, listed, told
from archdiff.figures.facts.board_facts import SIDES, area_of
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth, as_bounds, section
from archdiff.record.packages import body_by_package

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("utilisation", "Area utilisation", 17)
_LIES_ELSEWHERE = frozenset({"in cut-out", "on its side", "socketed", "wired", "plugged"})
_OWN = "own definition; package bodies as in the assumptions"


@dataclass(slots=True)
class _Side:
    """One side of one board: the area of the bodies known there, how many parts these are, and what is open."""

    board: Element
    name: str
    area: Bounds | None
    bodies: Bounds = field(default_factory=lambda: Bounds.exact(0.0))
    listed: int = 0
    counted: list[Element] = field(default_factory=list)  # listed there, with no body that is known and lies flat

    @property
    def share(self) -> Bounds | None:
        """Bodies over area; None where nothing at all is known."""
        if self.area is None or self.area.high <= 0:
            return None
        share = self.bodies / self.area
        return None if (share.low, share.high) == (ANY.low, ANY.high) else share


@figure(
    title="Area utilisation",
    order=10,
    meaning="How much of the boards, both sides taken together, lies under the bodies of parts that are listed.",
    formula="sum of the bodies that lie flat on the boards / (2 x board area)",
    source=_OWN,
    preferred="lower: room for changes, for test and for mending",
)
def area_utilisation(record: Record) -> Measure:
    """Share of both sides of all boards under bodies, with each side's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    sides = _sides(ledger)
    bodies = added((side.bodies * side.board.count for side in sides), whole=whole)
    area = added((_area(side) for side in sides), whole=whole)
    how = f"{told(bodies)} mm² of bodies on {told(area)} mm² of both sides; {_in_words(sides)}"
    share = bodies / area if whole and area.high > 0 else None
    return ledger.measure(share, how if sides else "no boards", _shares(sides))


@figure(
    title="Fullest board side",
    order=20,
    meaning="How much of the fullest side of any board lies under the bodies of parts that are listed.",
    formula="maximum over boards and sides of the bodies that lie flat there / board area",
    source=_OWN,
    preferred="lower: room for changes, for test and for mending",
)
def fullest_side(record: Record) -> Measure:
    """The greatest share of one side of one board under bodies, with each side's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    sides = _sides(ledger)
    how = f"largest of {_in_words(sides)}" if sides else "no boards"
    return ledger.measure(largest((side.share for side in sides), whole=whole), how, _shares(sides))


def _sides(ledger: Ledger) -> list[_Side]:
    sides = [_side(ledger, board, name) for board in ledger.record.boards for name in SIDES]
    if any(side.bodies.high == math.inf for side in sides):
        for element in listed(ledger.record, *THINGS):
            if not element.hosts and _placed(ledger.record, element) is not Truth.NO:
                ledger.hosts(element)
    return sides


def _placed(record: Record, element: Element) -> Truth:
    """Whether it counts as a part placed on a board."""
    term = record.means_term(element.means)
    if term is None:
        return Truth.UNKNOWN
    return Truth.YES if "placement" in term.traits else Truth.NO


def _side(ledger: Ledger, board: Element, name: str) -> _Side:
    """One side with everything that surely lies flat on it, and open above while more may lie there."""
    side = _Side(board, name, area_of(ledger, board))
    here = [e for e in ledger.record.carried.get(board.id, ()) if _may_lie(e, name)]
    for element in here:
        if _placed(ledger.record, element) is Truth.YES and element.text("side"):
            _take(ledger, side, element)
    if not _all_listed(ledger, side):
        side.bodies = side.bodies + ANY
        _note_doubtful(ledger, here)
    elif any(_lies_flat(element) for element in side.counted):
        side.bodies = side.bodies + ANY
    else:  # that they are among the parts counted closes the sum
        for element in side.counted:
            ledger.hosts(element)
            ledger.use(element.id, "means")
    return side


def _may_lie(element: Element, side: str) -> bool:
    """Whether it is listed and may lie on this side."""
    return element.section in THINGS and element.populated and element.text("side") in ("", side)


def _take(ledger: Ledger, side: _Side, element: Element) -> None:
    """Add a placed part to its side, and its body where it lies flat there and not over other parts."""
    side.listed += element.count
    body = _body(ledger, element) if _lies_flat(element) else None
    if body is None:
        side.counted.append(element)
    else:
        ledger.hosts(element)
        ledger.use(element.id, "means")
        side.bodies = side.bodies + body * element.count


def _lies_flat(element: Element) -> bool:
    covers = "covers" in section(element.section).plan.properties
    return not covers and "sits_in" not in element.facts and element.facts.get("mounting") not in _LIES_ELSEWHERE


def _note_doubtful(ledger: Ledger, here: Iterable[Element]) -> None:
    """Note what keeps listed things from being counted, on a side where more may lie than is known."""
    for element in here:
        placed = _placed(ledger.record, element)
        if placed is Truth.UNKNOWN:
            ledger.lack(element.id, "means")
        elif placed is Truth.YES and not element.text("side"):
            ledger.lack(element.id, "side")


def _body(ledger: Ledger, element: Element) -> Bounds | None:
    """Area of one body in mm²: as stated, else as its package tells; None where neither does."""
    size = element.size()
    if size is not None:
        ledger.use(element.id, "size")
        return size.area
    ledger.lack(element.id, "size")
    body = body_by_package(element)
    if body is None:
        return None
    for fact in body.facts:
        ledger.use(element.id, fact)
    ledger.assume(f"{body.cited}; a nominal size is taken as give or take a tenth (ours)")
    return body.area


def _all_listed(ledger: Ledger, side: _Side) -> bool:
    """Whether every part that was counted on a side is listed; noted only where it is, for only then it matters."""
    placed = as_bounds((side.board.facts.get("placements") or {}).get(side.name))
    if placed is None:
        ledger.lack(side.board.id, f"placements {side.name}")
        return False
    if placed.high > side.listed:
        ledger.lack(side.board.id, f"size of every part placed on its {side.name}")
        return False
    ledger.use(side.board.id, f"placements {side.name}")
    return True


def _area(side: _Side) -> Bounds | None:
    return None if side.area is None else side.area * side.board.count


def _shares(sides: Iterable[_Side]) -> dict[str, Bounds]:
    return {f"{s.board.id} {s.name}": share for s in sides if (share := s.share) is not None}


def _in_words(sides: Iterable[_Side]) -> str:
    """'main top: 18 listed, at least 480.1 mm² on 3848 mm²; main bottom: no placed part listed'."""
    return "; ".join(
        f"{s.board.id} {s.name}: "
        + (f"{s.listed} listed, {told(s.bodies)} mm² on {told(s.area)} mm²" if s.listed else "no placed part listed")
        for s in sides
    )
