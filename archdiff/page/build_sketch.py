"""A sketch of each build for the first screen: its boards to one scale, and the ways that join them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from archdiff.page.diagrams.textwidth import shorten
from archdiff.page.diagrams.textwidth import width as width_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.record import Element, Record

_WIDTH = 380.0  # of a sketch in px
_GAP = 34.0  # between boards, so that a link and its ways can be read there
_LINE = 13.0
_SIZE = 11.0
_TALLEST = 120.0  # of the tallest board in px
_NAME = 150.0  # no name takes more room
_UNKNOWN = 30.0  # edge in mm that stands for a board whose outline is not recorded


@dataclass(frozen=True, slots=True)
class _Shape:
    """A board as it is drawn; lengths in mm until it has a place, then in px."""

    board: Element
    width: float
    height: float
    is_round: bool
    is_known: bool

    @property
    def name(self) -> str:
        """What to call it, with how many alike there are: they are drawn once."""
        many = f" × {self.board.count}" if self.board.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
        return f"{self.board.label}{many}"

    @property
    def area(self) -> float:
        return self.width * self.height


@dataclass(frozen=True, slots=True)
class _Placed:
    shape: _Shape
    x: float
    y: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        return self.x + self.width / 2, self.y + self.height / 2


def sketches(left: Record, right: Record) -> tuple[Markup, Markup]:
    """Both builds at one scale, as SVG; '' for a product without boards."""
    shapes = [_shapes(record) for record in (left, right)]
    scale = min((_scale(side) for side in shapes if side), default=1.0)
    made = [
        _drawn(record, side, scale, name)
        for record, side, name in zip((left, right), shapes, ("left", "right"), strict=True)
    ]
    return made[0], made[1]


def _shapes(record: Record) -> list[_Shape]:
    shapes = [_shape(board) for board in record.boards]
    return sorted(shapes, key=lambda shape: -shape.area)


def _shape(board: Element) -> _Shape:
    outline = board.size("outline")
    if outline is None:
        return _Shape(board, _UNKNOWN, _UNKNOWN, is_round=False, is_known=False)
    width = max(outline.width.likely, 1.0)
    depth = width if outline.is_round else max(outline.depth.likely, 1.0)
    return _Shape(board, width, depth, is_round=outline.is_round, is_known=True)


def _scale(shapes: Sequence[_Shape]) -> float:
    """Px a mm, so that the two largest boards fit side by side and none is too tall."""
    widest = sum(shape.width for shape in shapes[:2])
    room = _WIDTH - _GAP * min(len(shapes) - 1, 1)
    return min(room / widest, _TALLEST / max(shape.height for shape in shapes))


def _drawn(record: Record, shapes: list[_Shape], scale: float, side: str) -> Markup:
    if not shapes:
        return Markup("")
    placed, height = _in_rows(shapes, scale)
    parts = [*_links(record, placed), *(_board(one, side) for one in placed)]
    label = f"{record.name}: {', '.join(_said(one) for one in placed)}"
    return Markup(  # noqa: S704 - record text is escaped
        f'<svg class="build {side}" role="img" aria-label="{escape(label)}" '
        f'viewBox="0 0 {_WIDTH:g} {height:g}" width="{_WIDTH:g}" height="{height:g}">{"".join(parts)}</svg>'
    )


def _in_rows(shapes: list[_Shape], scale: float) -> tuple[list[_Placed], float]:
    """From left to right, the largest first, in rows of the sketch's width; each board stands on its row's line."""
    rows: list[list[_Shape]] = [[]]
    x = 0.0
    for shape in shapes:
        width = max(shape.width * scale, _name_width(shape))
        if rows[-1] and x + width > _WIDTH + 1:
            rows.append([])
            x = 0.0
        rows[-1].append(shape)
        x += width + _GAP
    placed: list[_Placed] = []
    y = 2.0
    for row in rows:
        tall = max(shape.height * scale for shape in row)
        x = 2.0
        for shape in row:
            wide, high = shape.width * scale, shape.height * scale
            placed.append(_Placed(shape, x, y + tall - high, wide, high))
            x += max(wide, _name_width(shape)) + _GAP
        y += tall + 2 * _LINE + 14
    return placed, math.ceil(y)


def _name_width(shape: _Shape) -> float:
    return min(width_of(shape.name, _SIZE, bold=True), _NAME)


def _links(record: Record, placed: list[_Placed]) -> Iterator[str]:
    """A line a pair of boards, as wide as its ways; drawn first, so that it passes below the boards."""
    by_id = {one.shape.board.id: one for one in reversed(placed)}
    ways: dict[frozenset[str], list[int | None]] = {}
    for link in record.section("interconnects"):
        ends = frozenset(link.hosts).intersection(by_id)
        if len(ends) == 2:  # noqa: PLR2004 - from board to board
            stated = link.facts.get("ways")
            ways.setdefault(ends, []).append(stated if isinstance(stated, int) else None)
    for ends, counts in sorted(ways.items(), key=lambda item: sorted(item[0])):
        one, other = (by_id[name] for name in sorted(ends, key=lambda name: by_id[name].x))
        yield _link(one, other, counts)


def _link(one: _Placed, other: _Placed, counts: list[int | None]) -> str:
    known = [count for count in counts if count is not None]
    wide = 1 + math.log2(1 + sum(known))
    words = f"{sum(known)}" if len(known) == len(counts) else "?"
    (x1, y1), (x2, y2), (x, y) = _way(one, other, wide)
    return (
        f'<path class="build-link" d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" stroke-width="{wide:.1f}"/>'
        f'<text class="build-ways" x="{x:.1f}" y="{y:.1f}">{words}</text>'
    )


def _way(one: _Placed, other: _Placed, wide: float) -> tuple[tuple[float, float], ...]:
    """Both ends of a link and where its number stands: across, down beside the names, or from middle to middle."""
    upper, lower = sorted((one, other), key=lambda placed: placed.y)
    top, foot = max(one.y, other.y), min(one.y + one.height, other.y + other.height)
    if one.x + one.width <= other.x and top < foot:
        y = (top + foot) / 2
        return (one.x + one.width, y), (other.x, y), ((one.x + one.width + other.x) / 2, y - wide / 2 - 3)
    left, right = max(one.x, other.x), min(one.x + one.width, other.x + other.width)
    if left < right:
        x = right - min(12.0, (right - left) / 2)
        start, end = upper.y + upper.height, lower.y
        return (x, start), (x, end), (x + wide / 2 + 9, (start + end) / 2 + 4)
    (x1, y1), (x2, y2) = one.middle, other.middle
    return (x1, y1), (x2, y2), ((x1 + x2) / 2, (y1 + y2) / 2 - wide / 2 - 3)


def _board(one: _Placed, side: str) -> str:
    shape = one.shape
    kind = f"build-board {side}{'' if shape.is_known else ' not-known'}"
    if shape.is_round:
        cx, cy = one.middle
        drawn = f'<circle class="{kind}" cx="{cx:.1f}" cy="{cy:.1f}" r="{one.width / 2:.1f}"/>'
    else:
        drawn = (
            f'<rect class="{kind}" x="{one.x:.1f}" y="{one.y:.1f}" width="{one.width:.1f}" height="{one.height:.1f}"/>'
        )
    foot = one.y + one.height + _LINE + 1
    name = shorten(shape.name, _SIZE, _NAME, bold=True)
    size = shape.board.text("outline") or "outline not recorded"
    return (
        f'{drawn}<text class="build-name" x="{one.x:.1f}" y="{foot:.1f}">{escape(name)}</text>'
        f'<text class="build-size" x="{one.x:.1f}" y="{foot + _LINE:.1f}">{escape(shorten(size, _SIZE, _NAME))}</text>'
    )


def _said(one: _Placed) -> str:
    return f"{one.shape.name} {one.shape.board.text('outline') or 'of a size not recorded'}"
