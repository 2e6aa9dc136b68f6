"""What a link's pill says on each side, and how wide connector, line and pill are drawn."""

import math
from dataclasses import dataclass

from archdiff.page.diagrams.geometry import up
from archdiff.page.diagrams.scene import Link, LinkFace, Mark
from archdiff.page.diagrams.textwidth import shorten, width, wrap

PILL_SIZE = 9.5
PILL_HEIGHT = 17.0
PILL_LINE = 11.0
_ENDS, _TIGHT_ENDS = 16.0, 8.0
"""Px of a pill beside its words; with a bare number a pill is no wider than its connector, so it always finds room."""
_GLYPH = 13.0
_FULL, _SHORT = 168.0, 84.0
_NARROW = 74.0


@dataclass(frozen=True, slots=True)
class Legend:
    """The lines of a pill for the left and the right side, and the extent in px that holds both."""

    lines: tuple[tuple[str, ...], tuple[str, ...]]
    width: float
    height: float


def line_width(ways: int | None) -> float:
    """Width of a join's line in px: grows with log2 of its ways; 1.5 where they are not known."""
    return 1.5 + (0.75 * math.log2(ways) if ways and ways > 1 else 0.0)


def connector_width(link: Link) -> float:
    """Width of both connectors of a join in px, from the side with more ways."""
    ways = max([face.ways or 1 for face in link.faces if face is not None], default=1)
    return min(30.0, 14.0 + 2 * round(1.25 * math.log2(ways)))


def legends(link: Link) -> tuple[Legend, ...]:
    """One-line legends from the fullest to the shortest: all words, cut words, the number of ways alone."""
    full, short = (_one_line(link, limit) for limit in (_FULL, _SHORT))
    number = _legend(link, tuple((_ways(face),) if face else () for face in link.faces), glyph=False)
    return tuple(dict.fromkeys((full, short, number)))


def narrow_legend(link: Link) -> Legend:
    """The legend for a pill that stands between two boards of one row: few words a line."""
    lines = [wrap(_said(face), PILL_SIZE, (_NARROW,) * 3)[0] if face else () for face in link.faces]
    return _legend(link, tuple(lines), glyph=True)


def _one_line(link: Link, limit: float) -> Legend:
    return _legend(
        link, tuple((shorten(_said(face), PILL_SIZE, limit),) if face else () for face in link.faces), glyph=True
    )


def _legend(link: Link, lines: tuple[tuple[str, ...], ...], *, glyph: bool) -> Legend:
    left, right = lines
    widest = max([width(line, PILL_SIZE) for line in (*left, *right)], default=0.0)
    marked = glyph and any(face is not None and pill_marked(face) for face in link.faces)
    high = PILL_HEIGHT + PILL_LINE * (max(len(left), len(right), 1) - 1)
    ends = _ENDS if glyph else _TIGHT_ENDS
    return Legend((left, right), up(max(widest, 4.0) + ends + _GLYPH * marked, 2.0), high)


def pill_marked(face: LinkFace) -> bool:
    """Whether the verdict glyph stands in the pill: only where there is something to tell."""
    return face.mark is not Mark.ALIKE


def _said(face: LinkFace) -> str:
    return face.label or _ways(face)


def _ways(face: LinkFace) -> str:
    return str(face.ways) if face.ways else "?"
