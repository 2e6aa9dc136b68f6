"""How far apart things are whose middles are stated: on one board, or on boards with a stated place in the product."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY
from archdiff.quantities import Bounds, Size, across

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element

    Place = tuple[Bounds, Bounds]


def apart(ledger: Ledger, things: Sequence[Element]) -> dict[str, Bounds]:
    """Distance in mm of every two middles, by their ids; at least 0 where it cannot be told.

    Several alike in one entry have no places of their own.
    """
    found: dict[str, Bounds] = {}
    for thing in things:
        if thing.count > 1:
            ledger.lack(thing.id, "at of each")
            found[f"within {thing.id}"] = ANY
    for one, other in combinations(things, 2):
        found[f"{one.id} to {other.id}"] = ANY if one.count > 1 or other.count > 1 else between(ledger, one, other)
    return found


def between(ledger: Ledger, one: Element, other: Element) -> Bounds:
    """Distance in mm of two middles; at least 0 where a place is not stated.

    On one board it is measured along the board. Of two boards no record says how far one lies behind the other:
    there it is at most what the depth of the product allows.
    """
    places, hosts = [_at(ledger, thing) for thing in (one, other)], [ledger.hosts(thing) for thing in (one, other)]
    if hosts[0] == hosts[1] and len(hosts[0]) == 1:
        return _distance(places[0], places[1])
    in_product = [_in_product(ledger, place, host) for place, host in zip(places, hosts, strict=True)]
    flat = _distance(in_product[0], in_product[1])
    return across(math.hypot, flat, _depth(ledger))


def nearest(found: Sequence[Bounds], *, whole: bool) -> Bounds | None:
    """The least of some distances, with bounds; where there may be more of them, only at most that."""
    if not found:
        return None
    high = min(bounds.high for bounds in found)
    low = min(bounds.low for bounds in found) if whole else 0.0
    bests = [bounds.best for bounds in found if bounds.best is not None]
    best = min(bests) if whole and len(bests) == len(found) else None
    return Bounds(low if low == high else best, low, high)


def _at(ledger: Ledger, thing: Element) -> Place | None:
    place = thing.at
    ledger.note(thing.id, "at", known=place is not None)
    return place


def _distance(one: Place | None, other: Place | None) -> Bounds:
    if one is None or other is None:
        return ANY
    return across(math.hypot, *(_without_sign(a - b) for a, b in zip(one, other, strict=True)))


def _without_sign(difference: Bounds) -> Bounds:
    ends = (abs(difference.low), abs(difference.high))
    best = None if difference.best is None else abs(difference.best)
    return Bounds(best, 0.0 if difference.low <= 0 <= difference.high else min(ends), max(ends))


def _in_product(ledger: Ledger, place: Place | None, host: frozenset[str]) -> Place | None:
    """The place as seen from the front of the product, where its board stands upright in it."""
    board = ledger.record.hosts.get(next(iter(host), "")) if len(host) == 1 else None
    if place is None or board is None or board.section != "boards":
        return None
    corner, facing = _at(ledger, board), board.text("facing")
    ledger.note(board.id, "facing", known=bool(facing))
    across_board = place[0] if facing == "front" else _turned(ledger, board, place[0], facing)
    return None if corner is None or across_board is None else (corner[0] + across_board, corner[1] + place[1])


def _turned(ledger: Ledger, board: Element, across_board: Bounds, facing: str) -> Bounds | None:
    """From the other edge, where the top side of the board points away from who looks at the product."""
    if facing != "back":
        if facing:
            ledger.lack(board.id, "place in all three directions")
        return None
    outline = board.size("outline")
    ledger.note(board.id, "outline", known=outline is not None)
    return None if outline is None else outline.width - across_board


def _depth(ledger: Ledger) -> Bounds:
    envelope = ledger.record.product.get("envelope")
    known = isinstance(envelope, Size) and envelope.height is not None
    ledger.note("product", "envelope", known=known)
    return Bounds(None, 0.0, envelope.depth.high) if known and isinstance(envelope, Size) else ANY
