"""The picture of one side of a board: its outline, what lies on it to scale, and the names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.diagrams.geometry import Rect, around
from archdiff.page.diagrams.markup import number, tag, text, title
from archdiff.page.plan_names import Ground, place_names
from archdiff.page.plan_places import Drawn
from archdiff.record import as_bounds
from archdiff.record.coverage import NONE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from archdiff.page.plan_names import Name
    from archdiff.quantities import Size
    from archdiff.record import Element

SHIELD = "shields"
"""The section of things that are drawn as mere outlines."""
_ANTENNA = "antennas"
_MARGIN = 10.0
_PORT = 2.6


@dataclass(frozen=True, slots=True)
class Body:
    """A thing on the board as drawn: middle and extents in mm, seen from the face that is drawn."""

    element: Element
    x: float
    y: float
    width: float
    height: float
    is_round: bool
    has_size: bool


@dataclass(frozen=True, slots=True)
class Drawing:
    """What the pictures of both sides of a board have in common; `leads` gives the address of an element."""

    board: Element
    extent: tuple[float, float]
    is_round: bool
    ghost: Element | None
    scale: float
    side: str
    leads: Callable[[Element], str]


def extent_of(size: Size) -> tuple[float, float]:
    """Width and depth in mm."""
    return size.width.likely, size.width.likely if size.is_round else size.depth.likely


def names_of(drawing: Drawing, bodies: list[Body], face: str) -> dict[int, Name]:
    """Where the names stand that find room, by the place of their bodies in the list."""
    wide, high = (edge * drawing.scale for edge in drawing.extent)
    ghost = None
    if drawing.ghost is not None and drawing.ghost.size("outline") is not None:
        ghost = around(wide / 2, high / 2, *(edge * drawing.scale for edge in _ghost(drawing)))
    ground = Ground(
        Rect(0, 0, wide, high),
        drawing.is_round,
        taken=list(_holes(drawing, face)),
        rings=[_ring(drawing, body) for body in bodies if "port" in body.element.facts],
        ghost=ghost,
    )
    return place_names([_drawn(drawing, body) for body in bodies], ground)


def _drawn(drawing: Drawing, body: Body) -> Drawn:
    x, y, wide, high = (value * drawing.scale for value in (body.x, body.y, body.width, body.height))
    grow = 1 if body.has_size else 2  # a cross reaches as far to each side as it is said to be wide
    box = around(x, y, wide * grow, high * grow)
    return Drawn(body.element.id, box, body.is_round, hollow=body.element.section == SHIELD)


def _ring(drawing: Drawing, body: Body) -> Rect:
    return around(body.x * drawing.scale, body.y * drawing.scale, 2 * _PORT, 2 * _PORT)


def picture(drawing: Drawing, bodies: list[Body], names: dict[int, Name], face: str, looked_at: str) -> str:
    """The picture as an SVG element, as wide as `--wide` says."""
    holes = (_box("plan-hole", hole) for hole in _holes(drawing, face))
    parts = [*_ground(drawing), *(tag("g", title("cut-out"), hole) for hole in holes)]
    if looked_at == NONE:
        veil = _outline(drawing.extent, drawing.scale, "plan-veil", is_round=drawing.is_round)
        parts.append(tag("g", title("not looked at"), veil))
    parts += [_thing(drawing, body, names.get(at)) for at, body in enumerate(bodies)]
    parts += [_port(drawing, body) for body in bodies if "port" in body.element.facts]
    label = f"{drawing.board.label}, {'top side' if face == 'top' else 'underside'}: {len(bodies)} things with a place"
    frame = seen(drawing, bodies)
    box = " ".join(_short(value) for value in (frame.x0, frame.y0, frame.width, frame.height))
    return tag(
        "svg", *parts, class_=f"plan {drawing.side}", role="group", aria_label=label, viewBox=box,
        width=_short(frame.width), height=_short(frame.height), style=f"--wide: {_short(frame.width)}px",
    )  # fmt: skip


def seen(drawing: Drawing, bodies: list[Body]) -> Rect:
    """All that must be in the picture: the board, a larger ghost, and what stands out over the edge."""
    wide, high = (edge * drawing.scale for edge in drawing.extent)
    ghost = around(wide / 2, high / 2, *(edge * drawing.scale for edge in _ghost(drawing)))
    plain = _round([Rect(0, 0, wide, high), ghost]).grown(_MARGIN)
    return _round([plain, *(_drawn(drawing, body).box.grown(1) for body in bodies)])


def _round(boxes: list[Rect]) -> Rect:
    """The smallest box that holds them all."""
    x0, y0, x1, y1 = zip(*((box.x0, box.y0, box.x1, box.y1) for box in boxes), strict=True)
    return Rect(min(x0), min(y0), max(x1), max(y1))


def _ghost(drawing: Drawing) -> tuple[float, float]:
    other = drawing.ghost.size("outline") if drawing.ghost is not None else None
    return extent_of(other) if other is not None else (0.0, 0.0)


def _ground(drawing: Drawing) -> Iterator[str]:
    yield _outline(drawing.extent, drawing.scale, "plan-board", is_round=drawing.is_round)
    other = drawing.ghost.size("outline") if drawing.ghost is not None else None
    if other is not None:
        extent = extent_of(other)
        shift = [(own - its) / 2 * drawing.scale for own, its in zip(drawing.extent, extent, strict=True)]
        ghost = _outline(extent, drawing.scale, "plan-ghost", is_round=other.is_round)
        where = f"translate({number(shift[0])} {number(shift[1])})"
        yield tag("g", title("outline of the other product's board"), ghost, transform=where)


def _outline(extent: tuple[float, float], scale: float, kind: str, *, is_round: bool) -> str:
    wide, high = (edge * scale for edge in extent)
    if is_round:
        return tag("circle", class_=kind, cx=wide / 2, cy=high / 2, r=wide / 2)
    return tag("rect", class_=kind, x=0, y=0, width=wide, height=high, rx=3)


def _holes(drawing: Drawing, face: str) -> Iterator[Rect]:
    """The cut-outs that have a size and a place, in px."""
    for hole in drawing.board.facts.get("cut_outs", ()):
        size, at = hole.get("size"), hole.get("at")
        middle = [as_bounds(part) for part in at] if isinstance(at, tuple) else []
        if size is None or len(middle) != 2 or None in middle:  # noqa: PLR2004 - across and up
            continue
        across, up = (part.likely for part in middle if part is not None)
        x = across if face == "top" else drawing.extent[0] - across
        yield around(*(value * drawing.scale for value in (x, drawing.extent[1] - up, *extent_of(size))))


def _box(kind: str, box: Rect, **more: str) -> str:
    edges = {"x": box.x0, "y": box.y0, "width": box.width, "height": box.height}
    return tag("rect", class_=kind, **{name: _short(value) for name, value in edges.items()}, **more)


def _short(value: float) -> str:
    """A coordinate on a tenth of a px."""
    return number(round(value, 1))


def _thing(drawing: Drawing, body: Body, name: Name | None) -> str:
    """The body with its name, as a link that is called as its tip says."""
    kind = {SHIELD: " shield", _ANTENNA: " antenna"}.get(body.element.section, "")
    empty = "" if body.element.populated else " empty"
    parts = [title(_said(body.element)), _shape(_drawn(drawing, body), body), *_called(body, name)]
    return tag("a", *parts, class_=f"plan-thing{kind}{empty}", href=drawing.leads(body.element))


def _shape(drawn: Drawn, body: Body) -> str:
    box = drawn.box
    if not body.has_size:
        across = f"M{_short(box.x0)} {_short(box.cy)}h{_short(box.width)}"
        return tag("path", class_="plan-cross", d=f"{across}M{_short(box.cx)} {_short(box.y0)}v{_short(box.height)}")
    if body.is_round:
        return tag("circle", class_="plan-body", cx=_short(box.cx), cy=_short(box.cy), r=_short(box.width / 2))
    return _box("plan-body", box, rx="1")


def _called(body: Body, name: Name | None) -> Iterator[str]:
    if name is None:
        return
    if name.leader is not None:
        (x0, y0), (x1, y1) = name.leader
        yield tag("path", class_="plan-leader", d=f"M{_short(x0)} {_short(y0)}L{_short(x1)} {_short(y1)}")
    yield text(body.element.id, class_="plan-id", x=_short(name.at[0]), y=_short(name.at[1])).rstrip()


def _said(element: Element) -> str:
    size = element.text("size") or "size not recorded"
    empty = "" if element.populated else ", site left empty"
    many = f" × {element.count}, drawn once" if element.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
    return f"{element.id}: {element.label}{many}, {element.function or 'function not stated'}, {size}{empty}"


def _port(drawing: Drawing, body: Body) -> str:
    """Where sound, air or light passes: a small ring at the middle of the thing it serves."""
    ring = _ring(drawing, body)
    return tag("circle", class_="plan-port", cx=_short(ring.cx), cy=_short(ring.cy), r=_PORT)
