"""The ends of every wire as points, with the connectors and pills that stand there."""

from collections import defaultdict
from dataclasses import dataclass

from archdiff.page.diagrams.field import Point
from archdiff.page.diagrams.floor import PLAIN_DEPTH, Floor
from archdiff.page.diagrams.frame import REACH, Frame
from archdiff.page.diagrams.geometry import PITCH, Rect, around
from archdiff.page.diagrams.moorings import CORNER
from archdiff.page.diagrams.pills import PILL_HEIGHT, connector_width
from archdiff.page.diagrams.route import Tip
from archdiff.page.diagrams.scene import Edge
from archdiff.page.diagrams.spread import Berths, candidates
from archdiff.page.diagrams.wires import UPRIGHT, Wire

CONNECTOR = 11.0
"""Thickness of a connector across the board edge it straddles, in px."""
_OUT = {Edge.LEFT: (-1, 0), Edge.RIGHT: (1, 0), Edge.TOP: (0, -1), Edge.BOTTOM: (0, 1)}
_PILL_FROM = 8.0
_ASIDE = (0.0, -PITCH, PITCH)


@dataclass(frozen=True, slots=True)
class Terminal:
    """One end of a wire: the point on its board or item, the side it leaves by and how far it runs straight, in px."""

    x: float
    y: float
    side: Edge
    reach: float

    @property
    def point(self) -> Point:
        """Where the wire touches its board or item."""
        return self.x, self.y

    @property
    def tip(self) -> Tip:
        """Where the wire may first turn."""
        dx, dy = _OUT[self.side]
        return Tip(self.x + dx * self.reach, self.y + dy * self.reach, 0 if dx else 1)

    def connector(self, wire: Wire) -> Rect:
        """The connector that straddles the edge here."""
        size = connector_width(wire.link)
        along = (CONNECTOR, size) if self.side in UPRIGHT else (size, CONNECTOR)
        return around(self.x, self.y, *along)

    def pill(self, wire: Wire) -> Rect:
        """The pill that stands in this end's stub."""
        size = wire.legend.width if wire.legend else 0.0
        dy = _OUT[self.side][1]
        return around(self.x, self.y + dy * (_PILL_FROM + PILL_HEIGHT / 2), size, PILL_HEIGHT)


class Terminals:
    """Finds the terminals of all wires, given every rectangle."""

    def __init__(self, frame: Frame, floor: Floor) -> None:
        self.frame, self.floor = frame, floor
        self._berths: defaultdict[tuple[str, Edge], Berths] = defaultdict(Berths)
        self._ports: dict[str, list[str]] = {}

    def of(self, wires: list[Wire]) -> dict[str, tuple[Terminal, Terminal]]:
        """Terminals by link key; wires for which an end found no room are left out."""
        for wire in wires:
            if wire.direct:
                self._moor_direct(wire)
        found = {}
        for wire in sorted(wires, key=lambda each: each.link.key):
            ends = [self._terminal(wire, number) for number in (0, 1)]
            if ends[0] is not None and ends[1] is not None:
                found[wire.link.key] = (ends[0], ends[1])
        return found

    def _moor_direct(self, wire: Wire) -> None:
        boxes = [self.floor.boards[end] for end in wire.link.ends]
        need = max(wire.half, (wire.legend.height / 2 if wire.legend else 0.0) + 4.0)
        keys = list(zip(wire.link.ends, wire.sides, strict=True))
        box = boxes[0]
        for at in candidates(box.cy, box.y0 + CORNER + need, box.y1 - CORNER - need):
            if all(self._berths[key].free(at, need) for key in keys):
                for key in keys:
                    self._berths[key].take(at, need)
                wire.at = [at, at]
                return

    def _terminal(self, wire: Wire, number: int) -> Terminal | None:
        end, side = wire.link.ends[number], wire.sides[number]
        box = self.floor.boards.get(end)
        if box is None:
            return self._item_terminal(wire, number)
        if side in UPRIGHT and not wire.direct:
            wire.at[number] = self._side_place(wire, number, box)
        at = wire.at[number]
        if at is None:
            return None
        if side in UPRIGHT:
            return Terminal(box.x0 if side is Edge.LEFT else box.x1, at, side, 2 * REACH if wire.direct else REACH)
        depth = self.floor.depths.get((self.frame.spans[end].row, side), PLAIN_DEPTH)
        return Terminal(at, box.y0 if side is Edge.TOP else box.y1, side, depth)

    def _side_place(self, wire: Wire, number: int, box: Rect) -> float | None:
        key = wire.link.ends[number], wire.sides[number]
        wanted = self._middle(wire.link.ends[1 - number])
        for at in candidates(wanted, box.y0 + CORNER, box.y1 - CORNER):
            if self._berths[key].free(at, wire.half):
                self._berths[key].take(at, wire.half)
                return at
        return None

    def _middle(self, key: str) -> float:
        return (self.floor.items.get(key) or self.floor.boards[key]).cy

    def _item_terminal(self, wire: Wire, number: int) -> Terminal:
        """Ties of an item share its middle; other wires leave beside it, as far as there is room."""
        end, side = wire.link.ends[number], wire.sides[number]
        box = self.floor.items[end]
        owners = self._ports.setdefault(end, [])
        if wire.owner not in owners:
            owners.append(wire.owner)
        aside = _ASIDE[min(owners.index(wire.owner), len(_ASIDE) - 1)]
        if side in UPRIGHT:
            return Terminal(box.x1 if side is Edge.RIGHT else box.x0, box.cy + aside, side, REACH)
        low, high = self.floor.inner
        reach = low - box.y1 if side is Edge.BOTTOM else box.y0 - high
        return Terminal(box.cx + aside, box.y1 if side is Edge.BOTTOM else box.y0, side, reach)
