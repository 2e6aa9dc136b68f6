"""Tiles: drawn ones and ghosts, on boards and on the enclosure outline."""

import math

from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.markup import named, number, tag, text
from archdiff.page.diagrams.scene import Face, Mark, Slot
from archdiff.page.diagrams.symbols import use_icon, use_mark
from archdiff.page.diagrams.tiles import (
    BADGE_X,
    DETAIL_STEP,
    DETAIL_X,
    PAD_RIGHT,
    TITLE_STEP,
    badge_width,
    glyph_shown,
    words,
)
from archdiff.page.diagrams.wording import tile_tip

ROUND_BOARD, ROUND_EDGE = 3.0, 10.0
"""Corner radius in px of a tile on a board and of one on the enclosure outline."""
_HATCHED = frozenset({Mark.ONLY, Mark.SEPARATE_ONLY})
_STRIP = 5.0
_GLYPH, _GLYPH_TOP = 12.0, 5.0
_FIRST, _GHOST_FIRST = 15.0, 13.5
_ICON_X = 8.5


def paint_tile(slot: Slot, face: Face, box: Rect, *, on_edge: bool, hatch: str) -> str:
    """The tile of `slot` as one side shows it; nothing where the face is hidden.  `hatch` is the pattern's id."""
    if face.hidden:
        return ""
    parts = [tile_box(face, box, ROUND_EDGE if on_edge else ROUND_BOARD, hatch)]
    parts += [_head(face, box), *_lines(face, box)]
    if glyph_shown(face):
        parts.append(use_mark(face.mark, box.x1 - PAD_RIGHT - _GLYPH + 1, box.y0 + _GLYPH_TOP))
    classes = tile_classes(face, on_edge=on_edge)
    return named(tile_tip(face), face.href, *parts, class_=classes, data_key=slot.key, data_seat=slot.seat or None)


def tile_classes(face: Face, *, on_edge: bool) -> str:
    """The classes that tell verdict and state of a face to the stylesheet."""
    names = ["tile", f"mark-{face.mark.value}"]
    names += ["on-edge"] * on_edge + ["ghost", face.state.value] * face.ghost
    return " ".join(names)


def tile_box(face: Face, box: Rect, radius: float, hatch: str) -> str:
    """A tile without its words: the outline, the sheet behind a counted one, the hatched end of a one-sided one."""
    parts = []
    if face.count > 1 and not face.ghost:
        parts.append(_pile(box, radius))
    parts.append(_rect(box, radius))
    if face.mark in _HATCHED and not face.ghost:
        parts.append(_strip(box, radius, hatch))
    return "".join(parts)


def _rect(box: Rect, radius: float) -> str:
    return tag("rect", class_="tile-box", x=box.x0, y=box.y0, width=box.width, height=box.height, rx=radius)


def _pile(box: Rect, radius: float) -> str:
    """The edge of a second sheet behind a tile that stands for several."""
    n = number
    return tag(
        "path", class_="tile-pile",
        d=f"M{n(box.x0 + radius)} {n(box.y1 + 2.5)}H{n(box.x1 + 2.5 - radius)}q{n(radius)} 0 {n(radius)} {n(-radius)}"
        f"V{n(box.y0 + radius)}",
    )  # fmt: skip


def _strip(box: Rect, radius: float, hatch: str) -> str:
    """The hatched left end of a tile."""
    n, end, r = number, box.x0 + _STRIP, max(radius, _STRIP)
    off = r - math.sqrt(r * r - (r - _STRIP) ** 2)
    d = (
        f"M{n(end)} {n(box.y0 + off)}A{n(r)} {n(r)} 0 0 0 {n(box.x0)} {n(box.y0 + r)}V{n(box.y1 - r)}"
        f"A{n(r)} {n(r)} 0 0 0 {n(end)} {n(box.y1 - off)}z"
    )
    return tag("path", class_="tile-strip", d=d, fill=f"url(#{hatch})")


def _head(face: Face, box: Rect) -> str:
    """Icon and badge; on a ghost the badge takes the icon's place."""
    if face.badge and face.ghost:
        return badge_box(face.badge, box.x0 + BADGE_X + badge_width(face.badge) / 2, box.y0 + 11.0)
    parts = []
    if words(face, box.width).icon:
        parts.append(use_icon(face.shape, box.x0 + _ICON_X, box.y0 + 5.0))
    if face.badge:
        right = box.x1 - PAD_RIGHT - (_GLYPH + 3.0) * glyph_shown(face)
        parts.append(badge_box(face.badge, right - badge_width(face.badge) / 2, box.y0 + 11.0))
    return "".join(parts)


def badge_box(badge: str, cx: float, cy: float) -> str:
    """The boxed number that leads from a thing to the place where it is not."""
    size = badge_width(badge)
    box = tag("rect", class_="badge-box", x=cx - size / 2, y=cy - 6.5, width=size, height=13, rx=2.5)
    return box + text(badge, class_="badge", x=cx, y=cy + 3.0)


def _lines(face: Face, box: Rect) -> list[str]:
    said = words(face, box.width)
    x, y = box.x0 + said.title_x, box.y0 + (_GHOST_FIRST if face.ghost else _FIRST)
    name, step = ("tile-phrase", DETAIL_STEP) if face.ghost else ("tile-title", TITLE_STEP)
    lines = []
    for index, line in enumerate(said.title):
        lines.append(text(line, class_=name, x=x, y=y + step * index))
    y += step * (len(said.title) - 1) + DETAIL_STEP + (0.0 if face.ghost else 0.5)
    x = x if face.ghost else box.x0 + DETAIL_X
    for index, line in enumerate(said.detail):
        lines.append(text(line, class_="tile-detail", x=x, y=y + DETAIL_STEP * index))
    return lines
