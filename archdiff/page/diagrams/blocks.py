"""The pair of aligned block diagrams: from a scene to two SVG texts of equal size."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from archdiff.page.diagrams.bonds import JOIN
from archdiff.page.diagrams.grouping import group_slots
from archdiff.page.diagrams.legend import legend
from archdiff.page.diagrams.paint import hatch_id, paint
from archdiff.page.diagrams.plan import plan
from archdiff.page.diagrams.scene import Mark, Scene
from archdiff.page.diagrams.symbols import symbols
from archdiff.page.diagrams.tiles import glyph_shown

_PREFIX = re.compile(r"[A-Za-z][\w-]*", re.ASCII)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Both drawings as SVG elements, their common extent in px, and how many links found no way (0 but for freaks).

    `marks` are the verdicts that stand in them, `legend` samples of all else that needs a word, as SVG elements.
    `symbols` is what drawings and samples use by name: it has to stand in the same page.
    """

    left: str
    right: str
    width: float
    height: float
    unrouted: int
    marks: tuple[Mark, ...] = ()
    legend: tuple[tuple[str, str], ...] = ()
    symbols: str = ""


def draw(scene: Scene, *, prefix: str, grouped: bool = True) -> Drawing:
    """Draw both sides of a scene so that every matched thing stands at the same place in both.

    All ids but those of the symbols begin with `prefix`, a letter followed by letters, digits, `_` or `-` (else
    ValueError), so that several drawings can share a page.  With `grouped`, a scene too large to read has what is alike
    collected in counted tiles.  The look is left to `diagram.css`.
    """
    if not _PREFIX.fullmatch(prefix):
        raise ValueError(f"{prefix!r} can not begin an id: take a letter, then letters, digits, '_' or '-'")
    shown = group_slots(scene) if grouped else scene
    made = plan(shown)
    left, right = (paint(shown, made, side, prefix) for side in (0, 1))
    hatches = hatch_id(prefix, 0), hatch_id(prefix, 1)
    samples = legend(shown, hatches)
    used = symbols([left, right, *(sample for sample, _ in samples)])
    return Drawing(left, right, made.width, made.height, len(made.unrouted), tuple(_marks(shown)), samples, used)


def _marks(scene: Scene) -> Iterator[Mark]:
    """The verdicts whose glyph stands on a tile, a board or a pill."""
    faces = [face for slot in scene.slots() for face in slot.faces if not face.hidden and glyph_shown(face)]
    boards = [board for block in scene.blocks for board in block.faces if not board.ghost]
    links = [face for link in scene.links for face in link.faces if face is not None and link.kind == JOIN]
    used = {f.mark for f in faces} | {board.mark for board in boards} | {face.mark for face in links}
    return (mark for mark in Mark if mark in used)
