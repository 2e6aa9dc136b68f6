"""Board plans: what lies where on a board, both products at one scale, top side and underside.

Positions are those of middles from the lower left corner of the board seen from its top. The underside is drawn as
one sees it with the board turned over about its upright axis. The outline of the other product's board is ghosted
over the middle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.diagrams.markup import number, tag, text, title
from archdiff.page.diagrams.textwidth import width as width_of
from archdiff.record import as_bounds
from archdiff.record.coverage import NONE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from archdiff.quantities import Size
    from archdiff.record import Element, Record

SIDES = ("top", "bottom")
_LARGEST = 460.0  # px of the longest edge of the largest board
_DENSEST = 7.0  # px a mm at most
_MARGIN = 10.0
_LABEL = 10.0
_SPECK = 1.6  # mm: what has a place but no size is drawn as a cross of this size
_THROUGH = frozenset({"through", "edge"})  # seen from both sides
_SHIELD, _ANTENNA = "shields", "antennas"


@dataclass(frozen=True, slots=True)
class Plan:
    """One side of one board: the picture, what is listed there without a place, and how many things are drawn."""

    face: str  # "top" or "bottom"
    svg: str
    drawn: int
    unplaced: tuple[str, ...]
    looked_at: str  # "whole", "part" or "none": how far parts on this side were looked at
    placed: str  # how many parts are placed on this side, as stated; '' where it is not


@dataclass(frozen=True, slots=True)
class _Body:
    """A thing on the board as drawn: middle and extents in mm, seen from the face that is drawn."""

    element: Element
    x: float
    y: float
    width: float
    height: float
    is_round: bool
    has_size: bool


def scale_of(boards: Iterable[Element]) -> float:
    """How many px a mm takes, the same for all boards; 0 where none has an outline."""
    edges = [edge for board in boards if (size := board.size("outline")) for edge in _extent(size)]
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
    drawing = _Drawing(board, _extent(outline), outline.is_round, ghost, scale, side, leads)
    carried = [e for e in record.carried.get(board.id, ()) if "between" not in e.facts and e.section != "enclosure"]
    return tuple(_plan(drawing, carried, face, record.coverage.of("parts", board.id, face)) for face in SIDES)


@dataclass(frozen=True, slots=True)
class _Drawing:
    board: Element
    extent: tuple[float, float]
    is_round: bool
    ghost: Element | None
    scale: float
    side: str
    leads: Callable[[Element], str]


def _plan(drawing: _Drawing, carried: list[Element], face: str, looked_at: str) -> Plan:
    here = [e for e in carried if _faces(e, face)]
    placed = [body for e in here if (body := _body(drawing, e, face)) is not None]
    # Large things first, so that what lies on or in them stays to be seen; shields last, as mere outlines.
    placed.sort(key=lambda body: (body.element.section == _SHIELD, -body.width * body.height, body.element.id))
    found = {body.element.id for body in placed}
    unplaced = tuple(e.id for e in here if e.id not in found)
    counted = (drawing.board.facts.get("placements") or {}).get(face)
    stated = "" if counted is None else str(counted)
    return Plan(face, _picture(drawing, placed, face, looked_at), len(placed), unplaced, looked_at, stated)


def _faces(element: Element, face: str) -> bool:
    stated = element.text("side")
    # What does not say on which side it lies is listed with the top, where one looks first, and only once.
    return stated == face or stated in _THROUGH or (not stated and face == "top")


def _body(drawing: _Drawing, element: Element, face: str) -> _Body | None:
    at = element.at
    if at is None or not element.text("side"):
        return None
    across, up = (part.likely for part in at)
    size = element.size()
    width, height = _extent(size) if size is not None else (_SPECK, _SPECK)
    turned = element.bounds("turned")
    if turned is not None and turned.best is not None and round(turned.best / 90) % 2 == 1:
        width, height = height, width
    x = across if face == "top" else drawing.extent[0] - across
    is_round = size is not None and size.is_round
    return _Body(element, x, drawing.extent[1] - up, width, height, is_round, size is not None)


def _extent(size: Size) -> tuple[float, float]:
    return size.width.likely, size.width.likely if size.is_round else size.depth.likely


def _picture(drawing: _Drawing, bodies: list[_Body], face: str, looked_at: str) -> str:
    wide, high = (edge * drawing.scale for edge in drawing.extent)
    parts = [*_ground(drawing), *_cut_outs(drawing, face)]
    if looked_at == NONE:
        veil = _outline(drawing.extent, drawing.scale, "plan-veil", is_round=drawing.is_round)
        parts.append(tag("g", title("not looked at"), veil))
    parts += [_thing(drawing, body) for body in bodies]
    parts += [_port(drawing, body) for body in bodies if "port" in body.element.facts]
    parts += [_name(drawing, body) for body in bodies]
    label = f"{drawing.board.label}, {'top side' if face == 'top' else 'underside'}: {len(bodies)} things with a place"
    # A larger ghost stands out on all sides, and must be seen whole.
    beyond = [
        _MARGIN + max(0.0, (its - own) / 2) * drawing.scale
        for own, its in zip(drawing.extent, _ghost(drawing), strict=True)
    ]
    width, height = wide + 2 * beyond[0], high + 2 * beyond[1]
    box = " ".join(number(value) for value in (-beyond[0], -beyond[1], width, height))
    return tag(
        "svg", *parts, class_=f"plan {drawing.side}", role="group", aria_label=label, viewBox=box,
        width=width, height=height,
    )  # fmt: skip


def _ghost(drawing: _Drawing) -> tuple[float, float]:
    other = drawing.ghost.size("outline") if drawing.ghost is not None else None
    return _extent(other) if other is not None else (0.0, 0.0)


def _ground(drawing: _Drawing) -> Iterator[str]:
    yield _outline(drawing.extent, drawing.scale, "plan-board", is_round=drawing.is_round)
    other = drawing.ghost.size("outline") if drawing.ghost is not None else None
    if other is not None:
        extent = _extent(other)
        shift = [(own - its) / 2 * drawing.scale for own, its in zip(drawing.extent, extent, strict=True)]
        ghost = _outline(extent, drawing.scale, "plan-ghost", is_round=other.is_round)
        where = f"translate({number(shift[0])} {number(shift[1])})"
        yield tag("g", title("outline of the other product's board"), ghost, transform=where)


def _outline(extent: tuple[float, float], scale: float, kind: str, *, is_round: bool) -> str:
    wide, high = (edge * scale for edge in extent)
    if is_round:
        return tag("circle", class_=kind, cx=wide / 2, cy=high / 2, r=wide / 2)
    return tag("rect", class_=kind, x=0, y=0, width=wide, height=high, rx=3)


def _cut_outs(drawing: _Drawing, face: str) -> Iterator[str]:
    for hole in drawing.board.facts.get("cut_outs", ()):
        size, at = hole.get("size"), hole.get("at")
        middle = [as_bounds(part) for part in at] if isinstance(at, tuple) else []
        if size is None or len(middle) != 2 or None in middle:  # noqa: PLR2004 - across and up
            continue
        across, up = (part.likely for part in middle if part is not None)
        wide, high = _extent(size)
        x = across if face == "top" else drawing.extent[0] - across
        left, top = (x - wide / 2) * drawing.scale, (drawing.extent[1] - up - high / 2) * drawing.scale
        box = {"x": left, "y": top, "width": wide * drawing.scale, "height": high * drawing.scale}
        yield tag("g", title("cut-out"), tag("rect", class_="plan-hole", **box))


def _thing(drawing: _Drawing, body: _Body) -> str:
    element, scale = body.element, drawing.scale
    x, y, wide, high = (value * scale for value in (body.x, body.y, body.width, body.height))
    if not body.has_size:
        d = f"M{number(x - wide)} {number(y)}h{number(2 * wide)}M{number(x)} {number(y - high)}v{number(2 * high)}"
        shape = tag("path", class_="plan-cross", d=d)
    elif body.is_round:
        shape = tag("circle", class_="plan-body", cx=x, cy=y, r=wide / 2)
    else:
        shape = tag("rect", class_="plan-body", x=x - wide / 2, y=y - high / 2, width=wide, height=high, rx=1)
    kind = {_SHIELD: " shield", _ANTENNA: " antenna"}.get(element.section, "")
    empty = "" if element.populated else " empty"
    said = _said(element)
    group = tag("g", title(said), shape, class_=f"plan-thing{kind}{empty}")
    return tag("a", group, href=drawing.leads(element), aria_label=said)


def _said(element: Element) -> str:
    size = element.text("size") or "size not recorded"
    empty = "" if element.populated else ", site left empty"
    many = f" × {element.count}, drawn once" if element.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
    return f"{element.id}: {element.label}{many}, {element.function or 'function not stated'}, {size}{empty}"


def _port(drawing: _Drawing, body: _Body) -> str:
    """Where sound, air or light passes: a small ring at the middle of the thing it serves."""
    return tag("circle", class_="plan-port", cx=body.x * drawing.scale, cy=body.y * drawing.scale, r=2.6)


def _name(drawing: _Drawing, body: _Body) -> str:
    """The id inside the body where it fits, else nothing: the tip and the table have it."""
    room = body.width * drawing.scale
    fits = width_of(body.element.id, _LABEL) <= room - 2 and body.height * drawing.scale >= _LABEL
    if not fits or body.element.section == _SHIELD:
        return ""
    y = body.y * drawing.scale + (0.36 * _LABEL if "port" not in body.element.facts else -4.5)
    return text(
        body.element.id, class_="plan-id", x=body.x * drawing.scale, y=y, font_size=_LABEL, text_anchor="middle"
    )
