"""Depth: after how many steps boards, stores, keys and lamps are in hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger, largest, listed, told
from archdiff.figures.facts.reach import depths
from archdiff.figures.shelf import Family, figure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

FAMILY = Family("depth", "Depth of what is inside", 111)
_COMES_OFF = "the step in which it comes off"
_SOURCE = "step as defined in (EU) 2023/1669, annex IV 5; depth in steps as EN 45554:2020 counts it (from memory)"
_LOWER = "lower, where the product is to be opened for repair"


@figure(
    title="Steps to the deepest board",
    order=10,
    meaning="How many steps it took, in the order recorded, until the last of the boards had come off.",
    formula="greatest over boards of the steps up to the last action that says it comes off",
    source=_SOURCE,
    preferred=_LOWER,
)
def steps_to_boards(record: Record) -> Measure:
    """Steps by board; a board that no action takes off has a depth that is not known."""
    ledger = Ledger(record)
    whole = ledger.whole("opening", "boards")
    found = _found(record)
    return _deepest(ledger, {board.id: _own(ledger, board, found) for board in listed(record, "boards")}, whole=whole)


@figure(
    title="Steps to the deepest store, key or lamp",
    order=20,
    meaning="How many steps it took, in the order recorded, until the last battery, control and indicator was in hand.",
    formula="greatest over stores, controls and indicators of the steps until it, or else the board it is on, is off",
    source=_SOURCE,
    preferred=_LOWER,
)
def steps_to_stores_and_controls(record: Record) -> Measure:
    """Steps by store, control and indicator; one on a board that is off is in hand with it."""
    ledger = Ledger(record)
    sections = ("power.storage", "controls", "indicators")
    whole = ledger.whole("opening", *sections)
    found = _found(record)
    return _deepest(ledger, {e.id: _in_hand(ledger, e, found) for e in listed(record, *sections)}, whole=whole)


def _found(record: Record) -> Mapping[str, Bounds]:
    return depths(record, whole=record.coverage.is_whole("opening"))


def _own(ledger: Ledger, element: Element, found: Mapping[str, Bounds]) -> Bounds | None:
    if element.id not in found:
        ledger.lack(element.id, _COMES_OFF)
    return found.get(element.id)


def _in_hand(ledger: Ledger, element: Element, found: Mapping[str, Bounds]) -> Bounds | None:
    """Its own depth, else that of its one board, but only where no step can be missing that took it off before."""
    if element.id in found:
        return found[element.id]
    board = element.hosts[0] if len(element.hosts) == 1 else ""
    if board in found and found[board].is_exact and ledger.record.hosts[board].section == "boards":
        ledger.hosts(element)
        return found[board]
    if not element.hosts:
        ledger.hosts(element)
    ledger.lack(element.id, _COMES_OFF)
    return None


def _deepest(ledger: Ledger, each: Mapping[str, Bounds | None], *, whole: bool) -> Measure:
    bounds = largest(each.values(), whole=whole)
    if not each:
        ledger.lack("opening", "anything of this kind that could be reached")
        return ledger.measure(None, "no boards, stores, controls or indicators recorded")
    parts = {name: ANY if depth is None else depth for name, depth in each.items()}
    how = ", ".join(f"{name} {told(depth)}" for name, depth in each.items())
    return ledger.measure(bounds, f"greatest of: {how}", parts)
