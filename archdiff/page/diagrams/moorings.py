"""Where along the board edges connectors, pills and ties stand, so that none meets another."""

from collections import defaultdict
from itertools import product

from archdiff.page.diagrams.frame import Frame, Span
from archdiff.page.diagrams.geometry import clamp
from archdiff.page.diagrams.pills import Legend, legends, narrow_legend
from archdiff.page.diagrams.scene import Edge, Scene
from archdiff.page.diagrams.spread import Berths, candidates
from archdiff.page.diagrams.wires import OPPOSITE, UPRIGHT, Wire, wire

CORNER = 8.0
"""Kept free at the ends of every board edge."""
_PILL_AIR = 3.0


class Moorer:
    """Finds the places along the top and bottom edges of the boards; `heights` are the rows' heights in px."""

    def __init__(self, scene: Scene, frame: Frame, heights: list[float]) -> None:
        self.frame = frame
        self.berths: defaultdict[tuple[int, Edge], Berths] = defaultdict(Berths)
        self.wires = [wire(link, frame) for link in scene.links]
        self._room = {
            (key, side): heights[span.row] - 2 * CORNER for key, span in frame.spans.items() for side in UPRIGHT
        }

    def moor(self) -> list[Wire]:
        """All wires with their places along top and bottom edges; facing joins first, then joins, then ties."""
        self._spare_sides()
        facing = [each for each in self.wires if self._facing(each)]
        shares = self._shares(facing)
        for number, each in enumerate(sorted(facing, key=lambda w: (shares[w.link.key], w.link.key))):
            if not self._moor_facing(each, shares[each.link.key], number):
                self._moor_apart(each)
        rest = [each for each in self.wires if not self._facing(each)]
        for each in sorted(rest, key=lambda w: (not w.join, w.link.key)):
            self._moor_apart(each)
        return self.wires

    def _spare_sides(self) -> None:
        """Send ends that overfill the left or right edge of their board to its top or bottom."""
        for each in sorted(self.wires, key=lambda w: (not w.direct, w.link.key)):
            if each.direct and each.join:
                each.legend = narrow_legend(each.link)
            need = max(2 * each.half, each.legend.height + 8.0 if each.legend else 0.0)
            keys = [
                (end, side) for end, side in zip(each.link.ends, each.sides, strict=True) if (end, side) in self._room
            ]
            if any(self._room[key] < need + 8.0 * each.direct for key in keys):
                self._send_away(each)
                continue
            for key in keys:
                self._room[key] -= need + 8.0 * each.direct

    def _send_away(self, each: Wire) -> None:
        each.direct, each.legend = False, None
        for number, end in enumerate(each.link.ends):
            if end in self.frame.spans and each.sides[number] in UPRIGHT:
                each.sides[number] = Edge.BOTTOM

    def _spans(self, each: Wire) -> list[Span | None]:
        return [self.frame.spans.get(end) for end in each.link.ends]

    def _facing(self, each: Wire) -> bool:
        """Whether a straight upright line can join both boards."""
        a, b = self._spans(each)
        if a is None or b is None or abs(a.row - b.row) != 1 or not each.join:
            return False
        return min(a.x1, b.x1) - max(a.x0, b.x0) >= 2 * (CORNER + each.half)

    def _shares(self, facing: list[Wire]) -> dict[str, float]:
        """The wanted x of every facing join: those of one pair of boards share their overlap evenly."""
        groups: defaultdict[tuple[str, ...], list[Wire]] = defaultdict(list)
        for each in facing:
            groups[tuple(sorted(each.link.ends))].append(each)
        wanted = {}
        for group in groups.values():
            a, b = (self.frame.spans[end] for end in group[0].link.ends)
            low, high = max(a.x0, b.x0), min(a.x1, b.x1)
            for number, each in enumerate(group):
                wanted[each.link.key] = low + (high - low) * (number + 0.5) / len(group)
        return wanted

    def _moor_facing(self, each: Wire, wanted: float, number: int) -> bool:
        a, b = (self.frame.spans[end] for end in each.link.ends)
        low, high = max(a.x0, b.x0), min(a.x1, b.x1)
        upper = 0 if a.row < b.row else 1
        ends = (upper, 1 - upper) if number % 2 == 0 else (1 - upper, upper)
        for legend in legends(each.link):
            for pill_end in ends:
                for at in candidates(wanted, low + CORNER + each.half, high - CORNER - each.half):
                    if all(self._fits(each, end, at, legend if end == pill_end else None) for end in (0, 1)):
                        self._take(each, 0, at, legend if pill_end == 0 else None)
                        self._take(each, 1, at, legend if pill_end == 1 else None)
                        return True
        return False

    def _moor_apart(self, each: Wire) -> None:
        """Find a place for every end by itself; the pill goes to the end where a fuller legend fits."""
        ends = [n for n, end in enumerate(each.link.ends) if end in self.frame.spans and each.sides[n] not in UPRIGHT]
        if each.join and not each.direct:
            self._moor_with_pill(each, ends)
        for end in ends:
            if each.at[end] is None and not self._moor_end(each, end, None):
                each.sides[end] = OPPOSITE[each.sides[end]]
                self._moor_end(each, end, None)

    def _moor_with_pill(self, each: Wire, ends: list[int]) -> None:
        """Moor one end with a pill: in words on the edge chosen, else in words on the far edge, else as a number."""
        chosen = list(each.sides)
        *worded, number = legends(each.link)
        tries = [(far, legend) for far in (False, True) for legend in worded] + [(False, number), (True, number)]
        for (far, legend), end in product(tries, ends):
            each.sides[end] = OPPOSITE[chosen[end]] if far else chosen[end]
            if self._moor_end(each, end, legend):
                return
            each.sides[end] = chosen[end]

    def _moor_end(self, each: Wire, end: int, legend: Legend | None) -> bool:
        span = self.frame.spans[each.link.ends[end]]
        for at in candidates(self._wanted(each, end), span.x0 + CORNER + each.half, span.x1 - CORNER - each.half):
            if self._fits(each, end, at, legend):
                self._take(each, end, at, legend)
                return True
        return False

    def _wanted(self, each: Wire, end: int) -> float:
        """The x an end would like best: over against the other end, or towards the nearer side gutter."""
        span, other = self.frame.spans[each.link.ends[end]], self._spans(each)[1 - end]
        if other is None:
            key = each.link.ends[1 - end]
            lying = self.frame.lying.get(key)
            if lying is not None:
                return clamp(lying[0], span.x0, span.x1)
            return span.x0 if self.frame.edges[key] is Edge.LEFT else span.x1
        if abs(span.row - other.row) <= 1:
            return clamp(other.cx, span.x0, span.x1)
        middle = (self.frame.x0 + self.frame.x1) / 2
        return span.x0 if span.cx + other.cx < 2 * middle else span.x1

    def _fits(self, each: Wire, end: int, at: float, legend: Legend | None) -> bool:
        half = each.half if legend is None else max(each.half, legend.width / 2 + _PILL_AIR)
        span = self.frame.spans[each.link.ends[end]]
        inside = legend is None or (
            min(span.x0, at - each.half) - 24 <= at - half and at + half <= max(span.x1, at + each.half) + 24
        )
        return inside and self.berths[span.row, each.sides[end]].free(at, half)

    def _take(self, each: Wire, end: int, at: float, legend: Legend | None) -> None:
        half = each.half if legend is None else max(each.half, legend.width / 2 + _PILL_AIR)
        span = self.frame.spans[each.link.ends[end]]
        self.berths[span.row, each.sides[end]].take(at, half)
        each.at[end] = at
        if legend is not None:
            each.legend, each.pill_end = legend, end
