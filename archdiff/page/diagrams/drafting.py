"""What a drawing of a scene starts from: the room for boards, the px between neighbours, the arrangement."""

from dataclasses import dataclass

from archdiff.page.diagrams.arrange import Judge, arrange
from archdiff.page.diagrams.bonds import JOIN, bonds_of
from archdiff.page.diagrams.frame import settle_edges, strip_width
from archdiff.page.diagrams.geometry import down, up
from archdiff.page.diagrams.pills import narrow_legend
from archdiff.page.diagrams.rows import Arrangement, RowPlanner
from archdiff.page.diagrams.scene import Edge, Scene
from archdiff.page.diagrams.tiles import easy_width

PANEL = 624.0
"""The width a drawing aims for, in px."""
_ROOM_LOW, _ROOM_HIGH = 328.0, 560.0
_SIDE_GUTTERS = 88.0
_LYING_ROOM = PANEL - 160.0
_EASY_LOW, _EASY_HIGH = 112.0, 128.0
_SMALLEST_BOARD, _PER_END = 120.0, 20.0
_OPEN_GUTTER, _BESIDE_PILL = 40.0, 48.0


@dataclass(frozen=True, slots=True)
class Draft:
    """The edge of every enclosure item, the planner of rows and the rows chosen."""

    edges: dict[str, Edge]
    planner: RowPlanner
    rows: Arrangement


def draft(scene: Scene, ease: float) -> Draft:
    """Arrange the boards, each wide enough for `ease` times the connectors that usually fit on it."""
    edges = settle_edges(scene, _LYING_ROOM)
    bonds = bonds_of(scene)
    pills = _pill_widths(scene)
    slots = tuple(slot for block in scene.blocks for slot in block.slots)

    def gutter(a: int, b: int) -> float:
        pill = pills.get((min(a, b), max(a, b)))
        return _OPEN_GUTTER if pill is None else up(pill + _BESIDE_PILL)

    def least(index: int) -> float:
        return _SMALLEST_BOARD + _PER_END * ease * bonds.joined[index]

    planner = RowPlanner(scene.blocks, _room(scene, edges), easy_width(slots, _EASY_LOW, _EASY_HIGH), gutter, least)
    return Draft(edges, planner, arrange(len(scene.blocks), Judge(planner, bonds)))


def _room(scene: Scene, edges: dict[str, Edge]) -> float:
    strips = [
        strip_width([item for item in scene.edge if edges[item.slot.key] is edge]) for edge in (Edge.LEFT, Edge.RIGHT)
    ]
    return down(max(_ROOM_LOW, min(_ROOM_HIGH, PANEL - sum(strips) - _SIDE_GUTTERS)))


def _pill_widths(scene: Scene) -> dict[tuple[int, int], float]:
    """Width of the widest pill between two boards, by their indices, should they stand side by side."""
    index = {block.key: place for place, block in enumerate(scene.blocks)}
    pills: dict[tuple[int, int], float] = {}
    for link in scene.links:
        a, b = (index.get(end) for end in link.ends)
        if a is not None and b is not None:
            pair = (min(a, b), max(a, b))
            pill = narrow_legend(link).width if link.kind == JOIN else 0.0
            pills[pair] = max(pills.get(pair, 0.0), pill)
    return pills
