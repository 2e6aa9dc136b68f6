"""Where two paths start and end: whether these go together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement
from archdiff.alignment.verdict import words

if TYPE_CHECKING:
    from archdiff.paths.points import Points
    from archdiff.record import Element, Record

SAME_END, OTHER_END, OTHER_WORDS = 6, -3, -1
_NAMES = ("from", "to")


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """One end of one path: the words as written ('' where not stated) and the element they name, if any."""

    text: str
    thing: Element | None

    @property
    def label(self) -> str:
        """What to call it."""
        return self.thing.label if self.thing is not None else self.text


@dataclass(frozen=True, slots=True, eq=False)
class End:
    """The same end of two paths; a spot is None where that side has no path."""

    left: Spot | None
    right: Spot | None
    agreement: Agreement

    @property
    def are_elements(self) -> bool:
        """Whether both name an element."""
        return all(spot is not None and spot.thing is not None for spot in (self.left, self.right))


def spots_of(record: Record, path: Element) -> tuple[Spot, Spot]:
    """Start and end of a path."""
    start, end = (Spot(path.text(name), record.elements.get(path.text(name))) for name in _NAMES)
    return start, end


def spots_agree(mine: Spot, theirs: Spot, points: Points) -> Agreement:
    """Whether two spots are one: elements as they are paired, words where they are the same, else open."""
    if mine.thing is not None and theirs.thing is not None:
        return points.things(mine.thing, theirs.thing)
    if mine.thing is None and theirs.thing is None and mine.text and words(mine.text) == words(theirs.text):
        return Agreement.SAME
    return Agreement.UNKNOWN


def spot_points(mine: Spot, theirs: Spot, points: Points) -> int:
    """What two spots add when two paths are to be paired; 0 where a side states none or nothing is known."""
    if not mine.text or not theirs.text:
        return 0
    agreement = spots_agree(mine, theirs, points)
    if agreement is Agreement.SAME:
        return SAME_END
    if mine.thing is None and theirs.thing is None:
        return OTHER_WORDS
    mixed = mine.thing is None or theirs.thing is None
    return OTHER_END if mixed or agreement is Agreement.DIFFERENT else 0


def opposite(mine: tuple[Spot, Spot], theirs: tuple[Spot, Spot]) -> bool:
    """Whether one leads out of the product and the other in: from an element to 'user', from 'room' to an element."""
    if not all(spot.text for spot in (*mine, *theirs)):
        return False
    ways = [tuple(spot.thing is not None for spot in spots) for spots in (mine, theirs)]
    return ways[0] != ways[1] and ways[0] == ways[1][::-1]
