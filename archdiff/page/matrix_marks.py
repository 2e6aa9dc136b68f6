"""The marks in the fields of a matrix: a shape and a place for each layer, a ground for what a side does not have.

Every mark is one path; its class, on the path or on a group of its kind, says whether it is filled or a stroke.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from archdiff.page.diagrams.markup import number, tag
from archdiff.structure import Layer
from archdiff.structure.rows import Presence

if TYPE_CHECKING:
    from collections.abc import Iterable

PAINTED = (Layer.SITS, Layer.FASTENED, Layer.FED, Layer.PATH, Layer.JOINED, Layer.FORCED)
"""The layers in the order of painting."""
_WIDTHS = {Layer.FASTENED: 0.16, Layer.FED: 0.18, Layer.PATH: 0.12, Layer.JOINED: 0.5}
"""Widths of the strokes as shares of the field."""


def sign(layer: Layer) -> Markup:
    """A field with the mark of one layer, for the legend."""
    return svg("matrix-sign", 18, 18, _cell(17) + marks([layer], 1.0, 1.0, 16.0), aria_hidden="true")


def presence_sign(presence: Presence) -> Markup:
    """A stretch of a row of a side that does not have the thing, for the legend."""
    ground = tag("path", class_=ground_class(presence), d="M1 9H37", stroke_width=9)
    line = "" if presence is Presence.UNKNOWN else tag("path", class_=line_class(presence), d="M1 9H37")
    return svg("matrix-sign", 38, 18, _cell(37) + ground + line, aria_hidden="true")


def _cell(wide: float) -> str:
    return tag("path", class_="matrix-cell", d=f"M.5.5h{number(wide)}v17h-{number(wide)}z")


def svg(classes: str, width: float, height: float, body: str, **more: str | float) -> Markup:
    """A picture of that size in px."""
    box = f"0 0 {number(width)} {number(height)}"
    drawn = tag("svg", body, class_=classes, viewBox=box, width=width, height=height, **more)
    return Markup(drawn)  # noqa: S704 - every word in it is escaped


def ground_class(presence: Presence) -> str:
    """What lies under the row and the column of a thing that a side does not have, or may not have."""
    return "matrix-unknown" if presence is Presence.UNKNOWN else "matrix-ghost"


def line_class(presence: Presence) -> str:
    """How a row and a column are struck through: plainly, or dotted where something else may do the job."""
    return "matrix-none" if presence is Presence.NONE else "matrix-inside"


def mark_class(layer: Layer) -> str:
    """The class of a layer's marks."""
    return f"mark-{layer.name.lower()}"


def mark_width(layer: Layer, size: float) -> float | None:
    """The width of the stroke that the layer's marks are drawn with in fields of that size; None where filled."""
    return round(_WIDTHS[layer] * size, 2) if layer in _WIDTHS else None


def marks(layers: Iterable[Layer], x: float, y: float, size: float) -> str:
    """The marks of several layers in one field: a tinted ground, a disc, bars at two edges, a stroke, a corner."""
    found = frozenset(layers)
    return "".join(
        tag("path", class_=mark_class(layer), d=outline(layer, x, y, size), stroke_width=mark_width(layer, size))
        for layer in PAINTED
        if layer in found
    )


def outline(layer: Layer, x: float, y: float, s: float) -> str:
    """The path of a layer's mark in the field at `x`, `y` of the size `s`."""
    at, n = _at, short
    match layer:
        case Layer.SITS:
            return f"{at(x + 0.5, y + 0.5)}h{n(s - 1)}v{n(s - 1)}H{n(x + 0.5)}z"
        case Layer.FASTENED:
            return f"{at(x + s * 0.06, y + s * 0.87)}h{n(s * 0.88)}"
        case Layer.FED:
            return f"{at(x + s * 0.16, y + s * 0.07)}v{n(s * 0.86)}"
        case Layer.PATH:
            return f"{at(x + s * 0.06, y + s * 0.06)}l{n(s * 0.88)} {n(s * 0.88)}"
        case Layer.JOINED:
            return f"{at(x + s / 2, y + s / 2)}h.01"  # with round ends a disc
        case _:
            return f"{at(x + s * 0.5, y + s * 0.04)}h{n(s * 0.46)}v{n(s * 0.46)}z"


def _at(x: float, y: float) -> str:
    return f"M{short(x)} {short(y)}"


def short(value: float) -> str:
    """A coordinate on a tenth of a px, without a needless zero."""
    return number(round(value, 1)).replace("0.", ".", 1) if 0 < value < 1 else number(round(value, 1))
