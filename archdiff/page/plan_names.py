"""Where the names on a board plan stand: on what they name where there is room, else close beside it, else nowhere.

A name covers nothing but what it names (or what that lies on), and runs into no other name, outline or edge. Beside a
thing it stands nearer to it than to any other, or a short line leads to it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.page.diagrams.geometry import Rect
from archdiff.page.plan_places import (
    FOOT,
    HALF_LINE,
    NEAR,
    Drawn,
    Line,
    Point,
    at_corners,
    beside,
    corners,
    crosses,
    edges,
    extent,
    fits,
    inside,
    leader,
    meet,
    off_by,
    within,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

_CLEAR, _APART = 5.0, 5.0  # from what it does not name, and from name to name
_LEADS = (8.0, 14.0, 20.0, 27.0)  # how far off a name may stand with a line to it
_TRIES = 24  # directions in which that is tried
_OVER_GHOST = 3.0  # steps of preference that running over a ghosted line costs


@dataclass(frozen=True, slots=True)
class Ground:
    """The board, what else must stay free of names, and the ghosted outline, which they may cross if need be."""

    board: Rect
    is_round: bool
    taken: Sequence[Rect] = ()
    rings: Sequence[Rect] = ()
    ghost: Rect | None = None

    def holds(self, box: Rect) -> bool:
        """Whether the box lies on the board, clear of its edge."""
        edge = self.board.grown(-HALF_LINE)
        if self.is_round:
            return all(math.hypot(x - edge.cx, y - edge.cy) <= edge.width / 2 for x, y in corners(box))
        return inside(box, edge)


@dataclass(frozen=True, slots=True)
class Name:
    """A name with its place: middle and foot of the line of text, and the line that leads to what it names."""

    box: Rect
    leader: Line | None = None

    @property
    def at(self) -> Point:
        """Middle of the text along x, and the line it stands on."""
        return self.box.cx, self.box.y1 - FOOT


def place_names(things: Sequence[Drawn], ground: Ground) -> dict[int, Name]:
    """The place of each name by the thing's position in the list; what finds no room is left out."""
    return _Placing(things, ground).placed()


class _Placing:
    def __init__(self, things: Sequence[Drawn], ground: Ground) -> None:
        self.things, self.ground = things, ground
        self.names: dict[int, Name] = {}

    def placed(self) -> dict[int, Name]:
        for at in range(len(self.things)):
            self._take(at, self._on(at))
        # Beside: what has the fewest places first.
        waiting = sorted(self._left(), key=lambda at: (sum(1 for _ in self._beside(at)), at))
        for at in waiting:
            self._take(at, self._beside(at))
        for at in self._left():
            self._take(at, self._led(at))
        return self.names

    def _left(self) -> list[int]:
        return [at for at in range(len(self.things)) if at not in self.names]

    def _take(self, at: int, places: Iterator[Name]) -> None:
        ranked = [(rank + _OVER_GHOST * self._over_ghost(name.box), rank, name) for rank, name in enumerate(places)]
        if ranked:
            self.names[at] = min(ranked, key=lambda each: each[:2])[2]

    def _over_ghost(self, box: Rect) -> bool:
        ghost = self.ground.ghost
        return ghost is not None and any(box.meets(line) for line in edges(ghost))

    def _on(self, at: int) -> Iterator[Name]:
        """On the thing itself; what is painted later would cover it."""
        thing = self.things[at]
        if thing.hollow:
            yield from self._in_corners(at)
            return
        covers = [rect for later in self.things[at + 1 :] for rect in later.solid]
        for box in within(thing, extent(thing.name)):
            if fits(box, thing) and self._free(box, [*covers, *self._lines_but(at)], 0.0) and self.ground.holds(box):
                yield Name(box)

    def _in_corners(self, at: int) -> Iterator[Name]:
        wide, high = extent(self.things[at].name)
        for box in at_corners(self.things[at].box.grown(-_CLEAR), wide, high):
            if inside(box, self.things[at].box) and self._clear(box, at):
                yield Name(box)

    def _beside(self, at: int) -> Iterator[Name]:
        box = self.things[at].box
        wide, high = extent(self.things[at].name)
        for place in beside(box, wide, high):
            if self._clear(place, at):
                yield Name(place)

    def _led(self, at: int) -> Iterator[Name]:
        box = self.things[at].box
        wide, high = extent(self.things[at].name)
        for off in _LEADS:
            for turn in range(_TRIES):
                place = off_by(box, off, 2 * math.pi * turn / _TRIES, wide, high)
                line = leader(self.things[at], place)
                if self._clear(place, at) and self._passes(line, at):
                    yield Name(place, line)

    def _clear(self, place: Rect, at: int) -> bool:
        """Whether a name beside the thing at `at` is clear of everything, its own thing included."""
        others = [rect for n, thing in enumerate(self.things) if n != at for rect in thing.solid]
        own = self.things[at].solid
        fixed = [*others, *self.ground.taken]
        return (
            self.ground.holds(place)
            and self._free(place, own, NEAR - 0.1)
            and self._free(place, fixed, _CLEAR)
            and self._free(place, [*self._lines_but(at), *self.things[at].strips], 1.0)
        )

    def _free(self, box: Rect, taken: Iterable[Rect], clear: float) -> bool:
        wide = box.grown(clear)
        apart = Rect(box.x0 - _APART, box.y0 - 1.5, box.x1 + _APART, box.y1 + 1.5)
        return (
            not any(wide.meets(rect) for rect in taken)
            and not any(box.grown(1.0).meets(ring) for ring in self.ground.rings)
            and not any(apart.meets(name.box) for name in self.names.values())
            and not any(crosses(name.leader, box.grown(1.5)) for name in self.names.values() if name.leader)
        )

    def _lines_but(self, at: int) -> list[Rect]:
        return [rect for n, thing in enumerate(self.things) if n != at for rect in thing.strips]

    def _passes(self, line: Line, at: int) -> bool:
        """Whether a leader keeps clear of all but its own thing and name."""
        others = [rect for n, thing in enumerate(self.things) if n != at for rect in thing.solid]
        taken = [*others, *self._lines_but(at), *self.ground.taken, *(name.box for name in self.names.values())]
        led = [name.leader for name in self.names.values() if name.leader]
        return not any(crosses(line, rect.grown(1.5)) for rect in taken) and not any(meet(line, one) for one in led)
