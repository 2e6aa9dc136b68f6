"""The antennas two by two, and how far apart: from their places on one board, or on two boards of known place."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from archdiff.figures.facts.radio_facts import band_of, radiators
from archdiff.quantities import Bounds, Size, across
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element

    Place = tuple[Bounds, Bounds]

UNBOUNDED = Bounds(None, 0.0, math.inf)
SAME = Bounds.exact(0.0)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two antennas: whether both count, how far apart in mm, and the lower of their bands in Hz; None if not known."""

    name: str
    counts: Truth
    apart: Bounds | None
    hertz: Bounds | None


def pairs_of_antennas(ledger: Ledger) -> Iterator[Pair]:
    """Each pair of antennas; those of one entry lie at places that nobody stated."""
    antennas = radiators(ledger)
    for antenna, counts in antennas:
        if antenna.count > 1:
            ledger.lack(antenna.id, "place of each")
            yield Pair(f"among {antenna.id}", counts, None, None)
    for (one, counts), (other, also) in combinations(antennas, 2):
        bands = [band.hertz for antenna in (one, other) if (band := band_of(ledger, antenna)) is not None]
        both = Truth.YES if counts is also is Truth.YES else Truth.UNKNOWN
        lower = across(min, *bands) if len(bands) == 2 else None  # noqa: PLR2004 - both of the pair
        yield Pair(f"{one.id} and {other.id}", both, distance(ledger, one, other), lower)


def distance(ledger: Ledger, one: Element, other: Element) -> Bounds | None:
    """Distance of their middles in mm; None where a place is not known.

    On one board and one side it is that on the board. Across boards only the distance seen from the front is
    known: what they are apart in depth lies between nothing and the depth of the product.
    """
    board, others = _board(ledger, one), _board(ledger, other)
    if board is None or others is None:
        return None
    if board.id == others.id:
        here, there, depth = _at(ledger, one), _at(ledger, other), _through_board(ledger, board, one, other)
    else:
        here, there = _in_product(ledger, board, one), _in_product(ledger, others, other)
        depth = _depth(ledger)
    if here is None or there is None:
        return None
    return across(math.hypot, _gap(here[0], there[0]), _gap(here[1], there[1]), depth)


def _board(ledger: Ledger, antenna: Element) -> Element | None:
    """The one board that carries it; None, noted, where there is none."""
    hosts = [ledger.record.hosts[name] for name in ledger.hosts(antenna) if name in ledger.record.hosts]
    board = hosts[0] if len(hosts) == 1 and hosts[0].section == "boards" else None
    if hosts and board is None:
        ledger.lack(antenna.id, f"place in the product: {hosts[0].label} is no board")
    return board


def _at(ledger: Ledger, element: Element) -> Place | None:
    ledger.note(element.id, "at", known=element.at is not None)
    return element.at


def _in_product(ledger: Ledger, board: Element, antenna: Element) -> Place | None:
    """Place seen from the front: what is on a board that faces back is counted from the other side."""
    corner, at, facing = _at(ledger, board), _at(ledger, antenna), board.text("facing")
    if not ledger.note(board.id, "facing", known=bool(facing)) or corner is None or at is None:
        return None
    if facing == "front":
        return corner[0] + at[0], corner[1] + at[1]
    outline = board.size("outline")
    if facing != "back":
        ledger.lack(board.id, f"place seen from the front, as it faces {facing}")
        return None
    if not ledger.note(board.id, "outline", known=outline is not None) or outline is None:
        return None
    return corner[0] + outline.width - at[0], corner[1] + at[1]


def _through_board(ledger: Ledger, board: Element, one: Element, other: Element) -> Bounds:
    """What they are apart through the board: nothing on one side, else up to its thickness."""
    sides = [antenna.text("side") for antenna in (one, other)]
    stated = [ledger.note(e.id, "side", known=bool(side)) for e, side in zip((one, other), sides, strict=True)]
    if all(stated) and sides[0] == sides[1]:
        return SAME
    thickness = ledger.value(board, "thickness")
    return UNBOUNDED if thickness is None else Bounds(None, 0.0, max(0.0, thickness.high))


def _depth(ledger: Ledger) -> Bounds:
    """From nothing to the depth of the product, as long as both lie inside it."""
    envelope = ledger.record.product.get("envelope")
    known = isinstance(envelope, Size)
    ledger.note("product", "envelope", known=known)
    ledger.assume("both antennas to lie inside the product, no further apart in depth than it is deep")
    return Bounds(None, 0.0, envelope.depth.high) if isinstance(envelope, Size) else UNBOUNDED


def _gap(one: Bounds, other: Bounds) -> Bounds:
    """How far two coordinates are apart, whichever is the larger."""
    apart = one - other
    low = max(0.0, apart.low, -apart.high)
    best = None if apart.best is None else abs(apart.best)
    return Bounds(best, low, max(abs(apart.low), abs(apart.high)))
