"""Where everything stands along x: the strips of edge items, the side gutters, the boards of every row."""

from dataclasses import dataclass

from archdiff.page.diagrams.geometry import PITCH, down, up
from archdiff.page.diagrams.rows import Arrangement, RowPlanner
from archdiff.page.diagrams.scene import Edge, EdgeItem, Scene
from archdiff.page.diagrams.spread import spread
from archdiff.page.diagrams.tiles import natural_width, word_width

MARGIN = 4.0
REACH = 8.0
"""How far a tie's line runs straight out of its tile or board before it may turn."""
_STRIP_LOW, _STRIP_HIGH, _STRIP_WORD = 88.0, 104.0, 120.0
_LYING_LOW, _LYING_HIGH = 88.0, 136.0
_LIP = 12.0


@dataclass(frozen=True, slots=True)
class Span:
    """A board's place in the rows and its extent along x."""

    row: int
    place: int
    first: bool
    last: bool
    x0: float
    x1: float

    @property
    def cx(self) -> float:
        """Middle along x."""
        return (self.x0 + self.x1) / 2


@dataclass(frozen=True, slots=True)
class Frame:
    """All x positions of the pair of drawings.

    `spans` by block key; `x0..x1` is the room of the boards; `outline` are the enclosure's left and right edge;
    `strips` the x extents of the left and right edge items; `lying` the middle and width of every item that stands on
    the top or bottom edge; `edges` the edge on which every item came to stand.
    """

    spans: dict[str, Span]
    x0: float
    x1: float
    outline: tuple[float, float]
    strips: tuple[tuple[float, float], tuple[float, float]]
    tracks: tuple[tuple[float, ...], tuple[float, ...]]
    lying: dict[str, tuple[float, float]]
    edges: dict[str, Edge]
    width: float


def strip_width(items: list[EdgeItem]) -> float:
    """Width of the tiles of one strip; wider than it likes to be only for a long word; 0 when there are no tiles."""
    faces = [face for item in items for face in item.slot.faces if not face.hidden]
    if not items:
        return 0.0
    easy = min(_STRIP_HIGH, max([_STRIP_LOW, *(natural_width(face) for face in faces)]))
    word = min(_STRIP_WORD, max([0.0, *(word_width(face) for face in faces if not face.ghost)]))
    return up(max(easy, word))


def settle_edges(scene: Scene, room: float) -> dict[str, Edge]:
    """The edge of every item: the one asked for, or, when top or bottom is full, the side with fewer items."""
    edges = {item.slot.key: item.edge for item in in_order(scene)}
    for edge in (Edge.TOP, Edge.BOTTOM):
        used = 0.0
        for item in (item for item in in_order(scene) if item.edge is edge):
            used += lying_width(item) + PITCH * 2
            if used > room:
                sides = list(edges.values())
                fuller = sides.count(Edge.LEFT) > sides.count(Edge.RIGHT)
                edges[item.slot.key] = Edge.RIGHT if fuller else Edge.LEFT
    return edges


def in_order(scene: Scene) -> list[EdgeItem]:
    """The edge items by function."""
    return sorted(scene.edge, key=lambda item: (item.slot.rank, item.slot.key))


def lying_width(item: EdgeItem) -> float:
    """Width of a tile on the top or bottom edge, in px."""
    return up(min(_LYING_HIGH, max([_LYING_LOW, *(natural_width(face) for face in item.slot.faces)])))


def frame(
    scene: Scene, rows: Arrangement, planner: RowPlanner, edges: dict[str, Edge], tracks: tuple[int, int]
) -> Frame:
    """Lay out the x axis; `tracks` are the numbers of tracks in the left and right side gutter."""
    left, right = (strip_width([i for i in scene.edge if edges[i.slot.key] is e]) for e in (Edge.LEFT, Edge.RIGHT))
    inner_left = up(MARGIN + max(left, _LIP))
    x0 = inner_left + 4 * PITCH + PITCH * (tracks[0] - 1)
    room = max([planner.room, *(planner.plan(row).span[1] for row in rows)])
    x1 = up(x0 + room)
    inner_right = x1 + 4 * PITCH + PITCH * (tracks[1] - 1)
    spans = _spans(scene, rows, planner, x0, (room - planner.room) / 2)
    left_tracks = tuple(inner_left + 2 * PITCH + PITCH * i for i in range(tracks[0]))
    right_tracks = tuple(x1 + 2 * PITCH + PITCH * i for i in range(tracks[1]))
    outline = (inner_left - max(left / 2, 4.0), inner_right + max(right / 2, 4.0))
    return Frame(
        spans, x0, x1, outline,
        ((inner_left - left, inner_left), (inner_right, inner_right + right)),
        (left_tracks, right_tracks),
        _lying(scene, edges, spans, (inner_left + PITCH, inner_right - PITCH)),
        edges,
        up(inner_right + max(right, _LIP) + MARGIN),
    )  # fmt: skip


def _spans(scene: Scene, rows: Arrangement, planner: RowPlanner, x0: float, shift: float) -> dict[str, Span]:
    spans = {}
    for number, row in enumerate(rows):
        plan = planner.plan(row)
        moved = x0 + (down(shift) if not plan.overflow else 0.0)
        for place, (index, left, shape) in enumerate(zip(row, plan.lefts, plan.shapes, strict=True)):
            spans[scene.blocks[index].key] = Span(
                number, place, place == 0, place == len(row) - 1, moved + left, moved + left + shape.width
            )
    return spans


def _lying(
    scene: Scene, edges: dict[str, Edge], spans: dict[str, Span], inner: tuple[float, float]
) -> dict[str, tuple[float, float]]:
    """Middle and width of every item on the top and bottom edge, near the board it is tied to."""
    wanted: dict[str, float] = {}
    for link in scene.links:
        for end, other in (link.ends, link.ends[::-1]):
            if other in spans:
                wanted.setdefault(end, spans[other].cx)
    places: dict[str, tuple[float, float]] = {}
    middle = sum(inner) / 2
    for edge in (Edge.TOP, Edge.BOTTOM):
        items = [item for item in in_order(scene) if edges[item.slot.key] is edge]
        items.sort(key=lambda item: wanted.get(item.slot.key, middle))
        sizes = [lying_width(item) for item in items]
        middles = spread([wanted.get(item.slot.key, middle) for item in items], sizes, *inner)
        for item, at, size in zip(items, middles, sizes, strict=True):
            places[item.slot.key] = (at, size)
    return places
