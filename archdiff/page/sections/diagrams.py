"""The two block diagrams: what does the same job stands at the same place on both."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.marks import TITLES
from archdiff.page.diagrams.scene_from_comparison import scene_of

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TITLE = "Block diagrams, matched things at matching places"
SHORT = "Diagrams"
ORDER = 30
_TALL = 1.2  # from this ratio of height to width on, the two stand side by side on paper as well
_ENDLESS = 4.0  # from this one on, no sheet of paper can hold a drawing


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Both drawings; None where neither record places anything."""
    scene = scene_of(comparison)
    if not scene.blocks and not scene.edge:
        return None
    drawing = draw(scene, prefix="blocks")
    return {
        "drawings": [("left", Markup(drawing.left)), ("right", Markup(drawing.right))],  # noqa: S704 - escaped there
        "symbols": Markup(drawing.symbols),  # noqa: S704 - made of constants
        "width": round(drawing.width),
        "tall": drawing.height > _TALL * drawing.width,
        "endless": drawing.height > _ENDLESS * drawing.width,
        "marks": [(mark, TITLES[mark]) for mark in drawing.marks],
        "strokes": [(Markup(sample), words) for sample, words in drawing.legend],  # noqa: S704 - made of constants
        "unrouted": drawing.unrouted,
    }
