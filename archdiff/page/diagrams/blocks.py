"""The pair of aligned block diagrams: from a scene to two SVG texts of equal size."""

import re
from dataclasses import dataclass

from archdiff.page.diagrams.grouping import group_slots
from archdiff.page.diagrams.paint import paint
from archdiff.page.diagrams.plan import plan
from archdiff.page.diagrams.scene import Scene

_PREFIX = re.compile(r"[A-Za-z][\w-]*", re.ASCII)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Both drawings as SVG elements, their common extent in px, and how many links found no way (0 but for freaks)."""

    left: str
    right: str
    width: float
    height: float
    unrouted: int


def draw(scene: Scene, *, prefix: str, grouped: bool = True) -> Drawing:
    """Draw both sides of a scene so that every matched thing stands at the same place in both.

    All ids begin with `prefix`, a letter followed by letters, digits, `_` or `-` (else ValueError), so that several
    drawings can share a page.  With `grouped`, a scene too large to read has what is alike collected in counted tiles.
    The look is left to `diagram.css`.
    """
    if not _PREFIX.fullmatch(prefix):
        raise ValueError(f"{prefix!r} can not begin an id: take a letter, then letters, digits, '_' or '-'")
    shown = group_slots(scene) if grouped else scene
    made = plan(shown)
    left, right = (paint(shown, made, side, prefix) for side in (0, 1))
    return Drawing(left, right, made.width, made.height, len(made.unrouted))
