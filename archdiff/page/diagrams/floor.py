"""Where everything stands along y, and with it every rectangle of the drawing but connectors and pills."""

from dataclasses import dataclass

from archdiff.page.diagrams.boards import Shape
from archdiff.page.diagrams.boards import in_order as slots_in_order
from archdiff.page.diagrams.frame import REACH, Frame, in_order
from archdiff.page.diagrams.geometry import PITCH, Rect, up
from archdiff.page.diagrams.rows import Arrangement, RowPlanner
from archdiff.page.diagrams.scene import Edge, EdgeItem, Scene
from archdiff.page.diagrams.spread import spread
from archdiff.page.diagrams.tiles import slot_height
from archdiff.page.diagrams.wires import Wire

HEADER = 30.0
"""Height of the line that names the product, in px."""
PLAIN_DEPTH, JOIN_DEPTH, PILL_DEPTH = 8.0, 16.0, 32.0
"""How far stubs run straight out of a board edge: past nothing, past connectors, past pills."""
_MARGIN = 6.0


@dataclass(frozen=True, slots=True)
class Floor:
    """Rectangles by key, the y of the tracks in every gutter from top to bottom, and the depth of every row edge."""

    boards: dict[str, Rect]
    shapes: dict[str, Shape]
    tiles: dict[str, Rect]
    items: dict[str, Rect]
    tracks: tuple[tuple[float, ...], ...]
    depths: dict[tuple[int, Edge], float]
    inner: tuple[float, float]
    outline: Rect
    height: float


def depths_of(wires: list[Wire], frame: Frame) -> dict[tuple[int, Edge], float]:
    """How deep the stub zone along the top and bottom edge of every row must be."""
    depths: dict[tuple[int, Edge], float] = {}
    for wire in wires:
        for number, end in enumerate(wire.link.ends):
            if end not in frame.spans or not wire.join:
                continue
            key = frame.spans[end].row, wire.sides[number]
            depths[key] = max(depths.get(key, 0.0), PILL_DEPTH if wire.pill_end == number else JOIN_DEPTH)
    return depths


def _item_size(item: EdgeItem, frame: Frame) -> tuple[float, float]:
    edge = frame.edges[item.slot.key]
    if edge in {Edge.TOP, Edge.BOTTOM}:
        size = frame.lying[item.slot.key][1]
    else:
        low, high = frame.strips[edge is Edge.RIGHT]
        size = high - low
    return size, slot_height(item.slot, size)


class FloorPlanner:
    """Works downwards through the drawing; `counts` is the number of tracks in each horizontal gutter."""

    def __init__(
        self, scene: Scene, rows: Arrangement, planner: RowPlanner, frame: Frame, counts: tuple[int, ...]
    ) -> None:
        self.scene, self.rows, self.planner, self.frame, self.counts = scene, rows, planner, frame, counts
        self.sizes = {item.slot.key: _item_size(item, frame) for item in scene.edge}

    def plan(self, wires: list[Wire]) -> Floor:
        """Every rectangle, for the wires as they leave the boards."""
        depths = depths_of(wires, self.frame)
        top_half = self._tallest(Edge.TOP) / 2
        outline_top = HEADER + max(top_half, 2.0)
        inner_top = up(outline_top + top_half + REACH)
        boards, shapes, tracks, y = self._rows(inner_top, depths)
        standing = self._standing(boards, (outline_top + 14, y))
        y = up(max([y, *(box.y1 + 6.0 for box in standing.values())]))
        bottom_half = self._tallest(Edge.BOTTOM) / 2
        outline_bottom = y + REACH + bottom_half if bottom_half else y + PITCH
        lying = self._lying(outline_top, outline_bottom)
        outline = Rect(self.frame.outline[0], outline_top, self.frame.outline[1], outline_bottom)
        tiles: dict[str, Rect] = {}
        for block in self.scene.blocks:
            tiles |= shapes[block.key].tiles(boards[block.key], slots_in_order(block))
        return Floor(
            boards, shapes, tiles, {**standing, **lying}, tracks, depths, (inner_top, y), outline,
            up(outline_bottom + max(bottom_half, 2.0) + _MARGIN),
        )  # fmt: skip

    def _tallest(self, edge: Edge) -> float:
        return max(
            [self.sizes[i.slot.key][1] for i in self.scene.edge if self.frame.edges[i.slot.key] is edge], default=0.0
        )

    def _rows(
        self, top: float, depths: dict[tuple[int, Edge], float]
    ) -> tuple[dict[str, Rect], dict[str, Shape], tuple[tuple[float, ...], ...], float]:
        boards: dict[str, Rect] = {}
        shapes: dict[str, Shape] = {}
        tracks = [self._tracks(top, 0)]
        y = self._past(top, 0)
        for number, row in enumerate(self.rows):
            plan = self.planner.plan(row)
            y += depths.get((number, Edge.TOP), PLAIN_DEPTH)
            for index, shape in zip(row, plan.shapes, strict=True):
                key = self.scene.blocks[index].key
                span = self.frame.spans[key]
                boards[key], shapes[key] = Rect(span.x0, y, span.x1, y + plan.height), shape
            y += plan.height + depths.get((number, Edge.BOTTOM), PLAIN_DEPTH)
            tracks.append(self._tracks(y, number + 1))
            y = self._past(y, number + 1)
        return boards, shapes, tuple(tracks), y

    def _tracks(self, y: float, gutter: int) -> tuple[float, ...]:
        return tuple(y + PITCH * (i + 1) for i in range(self.counts[gutter]))

    def _past(self, y: float, gutter: int) -> float:
        count = self.counts[gutter]
        return y + PITCH * (count + 1) if count else y

    def _standing(self, boards: dict[str, Rect], inner: tuple[float, float]) -> dict[str, Rect]:
        """The items on the left and right edge, each near the middle of the board it is tied to."""
        middle = (inner[0] + inner[1]) / 2
        wanted: dict[str, float] = {}
        for link in self.scene.links:
            for end, other in (link.ends, link.ends[::-1]):
                if other in boards:
                    wanted.setdefault(end, boards[other].cy)
        boxes = {}
        for edge in (Edge.LEFT, Edge.RIGHT):
            keys = [i.slot.key for i in in_order(self.scene) if self.frame.edges[i.slot.key] is edge]
            keys.sort(key=lambda key: wanted.get(key, middle))
            x0, x1 = self.frame.strips[edge is Edge.RIGHT]
            heights = [self.sizes[key][1] for key in keys]
            middles = spread([wanted.get(key, middle) for key in keys], heights, *inner)
            for key, at, height in zip(keys, middles, heights, strict=True):
                boxes[key] = Rect(x0, at - height / 2, x1, at + height / 2)
        return boxes

    def _lying(self, top: float, bottom: float) -> dict[str, Rect]:
        boxes = {}
        for key, (at, size) in self.frame.lying.items():
            edge = self.frame.edges[key]
            half = self._tallest(edge) / 2
            y = top if edge is Edge.TOP else bottom
            boxes[key] = Rect(at - size / 2, y - half, at + size / 2, y + half)
        return boxes
