"""The marks in the fields of a matrix: a shape and a place for each layer, a ground for what a side does not have."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from archdiff.page.diagrams.markup import number, tag
from archdiff.structure import Layer
from archdiff.structure.rows import Presence

if TYPE_CHECKING:
    from collections.abc import Iterable


def sign(layer: Layer) -> Markup:
    """A field with the mark of one layer, for the legend."""
    return svg("matrix-sign", 18, 18, tag("rect", class_="matrix-cell", x=0.5, y=0.5, width=17, height=17)
                + marks([layer], 1.0, 1.0, 16.0), aria_hidden="true")  # fmt: skip


def presence_sign(presence: Presence) -> Markup:
    """A stretch of a row of a side that does not have the thing, for the legend."""
    frame = tag("rect", class_="matrix-cell", x=0.5, y=0.5, width=37, height=17)
    return svg("matrix-sign", 38, 18, frame + band(presence, 1, 4.5, 36, 9), aria_hidden="true")


def svg(classes: str, width: float, height: float, body: str, **more: str | float) -> Markup:
    """A picture of that size in px."""
    box = f"0 0 {number(width)} {number(height)}"
    drawn = tag("svg", body, class_=classes, viewBox=box, width=width, height=height, **more)
    return Markup(drawn)  # noqa: S704 - every word in it is escaped


def band(presence: Presence, x: float, y: float, width: float, height: float) -> str:
    """A row or a column of what a side does not have: struck through, dotted, or hatched where it is not known."""
    if presence is Presence.UNKNOWN:
        return tag("rect", class_="matrix-unknown", x=x, y=y, width=width, height=height)
    classes = "matrix-none" if presence is Presence.NONE else "matrix-inside"
    ground = tag("rect", class_="matrix-ghost", x=x, y=y, width=width, height=height)
    if width > height:
        return ground + tag("line", class_=classes, x1=x, x2=x + width, y1=y + height / 2, y2=y + height / 2)
    return ground + tag("line", class_=classes, x1=x + width / 2, x2=x + width / 2, y1=y, y2=y + height)


def marks(layers: Iterable[Layer], x: float, y: float, size: float) -> str:
    """The marks of several layers in one field: a tinted ground, a disc, bars at two edges, a stroke, a corner."""
    found = frozenset(layers)
    return "".join(_SHAPES[layer](x, y, size) for layer in _SHAPES if layer in found)


def _ground(x: float, y: float, s: float) -> str:
    return tag("rect", class_="mark-sits", x=x + 0.5, y=y + 0.5, width=s - 1, height=s - 1)


def _disc(x: float, y: float, s: float) -> str:
    return tag("circle", class_="mark-joined", cx=x + s / 2, cy=y + s / 2, r=s * 0.25)


def _bar(x: float, y: float, s: float) -> str:
    return tag("rect", class_="mark-fed", x=x + s * 0.07, y=y + s * 0.07, width=s * 0.18, height=s * 0.86)


def _stroke(x: float, y: float, s: float) -> str:
    far = s * 0.94
    return tag(
        "line", class_="mark-path", x1=x + s * 0.06, y1=y + s * 0.06, x2=x + far, y2=y + far, stroke_width=s * 0.12
    )


def _foot(x: float, y: float, s: float) -> str:
    return tag("rect", class_="mark-fastened", x=x + s * 0.06, y=y + s * 0.79, width=s * 0.88, height=s * 0.16)


def _corner(x: float, y: float, s: float) -> str:
    a, b, top, low = x + s * 0.5, x + s * 0.96, y + s * 0.04, y + s * 0.5
    return tag("path", class_="mark-forced", d=f"M{number(a)} {number(top)}H{number(b)}V{number(low)}z")


# In the order of painting.
_SHAPES = {
    Layer.SITS: _ground,
    Layer.FASTENED: _foot,
    Layer.FED: _bar,
    Layer.PATH: _stroke,
    Layer.JOINED: _disc,
    Layer.FORCED: _corner,
}
