"""Which edge of its board each link leaves by, decided from the rows alone."""

from dataclasses import dataclass, field

from archdiff.page.diagrams.bonds import JOIN
from archdiff.page.diagrams.frame import Frame, Span
from archdiff.page.diagrams.pills import Legend, connector_width
from archdiff.page.diagrams.scene import Edge, Link

OPPOSITE = {Edge.LEFT: Edge.RIGHT, Edge.RIGHT: Edge.LEFT, Edge.TOP: Edge.BOTTOM, Edge.BOTTOM: Edge.TOP}
UPRIGHT = frozenset({Edge.LEFT, Edge.RIGHT})
"""The edges along which a place is told by its y."""
TIE_HALF = 4.0


@dataclass(slots=True)
class Wire:
    """A link on its way to a route.

    `sides` and `at` tell for each end the edge it leaves by and the place along that edge in px (None: not yet found);
    `half` is half of what an end needs along its edge, in px. Wires of one `owner` may run together. `pill_end` is the
    end whose pill stands at its connector; a `direct` wire crosses straight to the neighbour in its row, its pill in
    the middle.
    """

    link: Link
    owner: str
    sides: list[Edge]
    at: list[float | None] = field(default_factory=lambda: [None, None])
    legend: Legend | None = None
    pill_end: int | None = None
    direct: bool = False
    half: float = field(init=False)

    def __post_init__(self) -> None:
        self.half = connector_width(self.link) / 2 + 3.0 if self.join else TIE_HALF

    @property
    def join(self) -> bool:
        """Whether it has connectors and a pill."""
        return self.link.kind == JOIN


def wire(link: Link, frame: Frame) -> Wire:
    """The wire of a link with the edges of both ends chosen."""
    a, b = (frame.spans.get(end) for end in link.ends)
    owner = f"link {link.key}"
    if a is not None and b is not None:
        sides = _between_boards(a, b)
        direct = sides[0] in UPRIGHT
        return Wire(link, owner, sides, direct=direct)
    items = [end for end in link.ends if end not in frame.spans]
    if link.kind != JOIN and len(items) == 1:
        owner = f"item {items[0]}"
    return Wire(link, owner, [_end_side(link, number, frame) for number in (0, 1)])


def _between_boards(a: Span, b: Span) -> list[Edge]:
    if a.row == b.row:
        if abs(a.place - b.place) == 1:
            return [Edge.RIGHT, Edge.LEFT] if a.place < b.place else [Edge.LEFT, Edge.RIGHT]
        return [Edge.BOTTOM, Edge.BOTTOM]
    return [Edge.BOTTOM, Edge.TOP] if a.row < b.row else [Edge.TOP, Edge.BOTTOM]


def _end_side(link: Link, number: int, frame: Frame) -> Edge:
    end, other = link.ends[number], link.ends[1 - number]
    span = frame.spans.get(end)
    if span is None:
        return OPPOSITE[frame.edges[end]]
    last_row = max(each.row for each in frame.spans.values())
    edge = frame.edges[other]
    if edge in UPRIGHT:
        return _beside(span, edge, last_row) if link.kind != JOIN else Edge.TOP
    outermost = span.row == (0 if edge is Edge.TOP else last_row)
    if outermost or link.kind == JOIN or not (span.first or span.last):
        return edge
    if span.first and span.last:
        return Edge.LEFT if frame.lying[other][0] < span.cx else Edge.RIGHT
    return Edge.LEFT if span.first else Edge.RIGHT


def _beside(span: Span, edge: Edge, last_row: int) -> Edge:
    """The board edge for a tie to an item on the left or right of the enclosure."""
    if (span.first and edge is Edge.LEFT) or (span.last and edge is Edge.RIGHT):
        return edge
    return Edge.TOP if span.row < last_row or not last_row else Edge.BOTTOM
