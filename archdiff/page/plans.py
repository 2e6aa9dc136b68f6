"""Board plans: what lies where on a board, both products at one scale, top side and underside.

Positions are those of middles from the lower left corner of the board seen from its top. The underside is drawn as
one sees it with the board turned over about its upright axis. The outline of the other product's board is ghosted
over the middle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.plan_paint import SHIELD, Body, Drawing, extent_of, names_of, picture, seen

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from archdiff.record import Element, Record

SIDES = ("top", "bottom")
_LARGEST = 560.0  # px of the longest edge of the largest board
_DENSEST = 7.0  # px a mm at most
_SPECK = 1.6  # mm: what has a place but no size is drawn as a cross of this size
_THROUGH = frozenset({"through", "edge"})  # seen from both sides


@dataclass(frozen=True, slots=True)
class Plan:
    """One side of one board: the picture, what is listed there without a place, and how many things are drawn.

    `unnamed` are the things whose names found no room in the picture.
    """

    face: str  # "top" or "bottom"
    svg: str
    width: float  # of the picture in px
    drawn: int
    unnamed: tuple[str, ...]
    unplaced: tuple[str, ...]
    looked_at: str  # "whole", "part" or "none": how far parts on this side were looked at
    placed: str  # how many parts are placed on this side, as stated; '' where it is not


def scale_of(boards: Iterable[Element]) -> float:
    """How many px a mm takes, the same for all boards; 0 where none has an outline."""
    edges = [edge for board in boards if (size := board.size("outline")) for edge in extent_of(size)]
    return min(_LARGEST / max(edges), _DENSEST) if edges else 0.0


def plans_of(
    record: Record,
    board: Element,
    ghost: Element | None,
    scale: float,
    side: str,
    leads: Callable[[Element], str],
) -> tuple[Plan, ...]:
    """Both faces of a board, as far as something is recorded there; none where it has no outline.

    `ghost` is the board of the other product that corresponds; `leads` gives the address of an element.
    """
    outline = board.size("outline")
    if outline is None or not scale:
        return ()
    drawing = Drawing(board, extent_of(outline), outline.is_round, ghost, scale, side, leads)
    carried = [e for e in record.carried.get(board.id, ()) if "between" not in e.facts and e.section != "enclosure"]
    return tuple(_plan(drawing, carried, face, record.coverage.of("parts", board.id, face)) for face in SIDES)


def _plan(drawing: Drawing, carried: list[Element], face: str, looked_at: str) -> Plan:
    here = [e for e in carried if _faces(e, face)]
    placed = [body for e in here if (body := _body(drawing, e, face)) is not None]
    # Large things first, so that what lies on or in them stays to be seen; shields last, as mere outlines.
    placed.sort(key=lambda body: (body.element.section == SHIELD, -body.width * body.height, body.element.id))
    found = {body.element.id for body in placed}
    unplaced = tuple(e.id for e in here if e.id not in found)
    counted = (drawing.board.facts.get("placements") or {}).get(face)
    stated = "" if counted is None else str(counted)
    names = names_of(drawing, placed, face)
    unnamed = tuple(body.element.id for at, body in enumerate(placed) if at not in names)
    drawn = picture(drawing, placed, names, face, looked_at)
    return Plan(face, drawn, seen(drawing, placed).width, len(placed), unnamed, unplaced, looked_at, stated)


def _faces(element: Element, face: str) -> bool:
    stated = element.text("side")
    # What does not say on which side it lies is listed with the top, where one looks first, and only once.
    return stated == face or stated in _THROUGH or (not stated and face == "top")


def _body(drawing: Drawing, element: Element, face: str) -> Body | None:
    at = element.at
    if at is None or not element.text("side"):
        return None
    across, up = (part.likely for part in at)
    size = element.size()
    width, height = extent_of(size) if size is not None else (_SPECK, _SPECK)
    turned = element.bounds("turned")
    if turned is not None and turned.best is not None and round(turned.best / 90) % 2 == 1:
        width, height = height, width
    x = across if face == "top" else drawing.extent[0] - across
    is_round = size is not None and size.is_round
    return Body(element, x, drawing.extent[1] - up, width, height, is_round, size is not None)
