"""Which path of one product goes with which of the other, and their stages side by side.

Paths pair within a kind. What a pair is worth is what its stages gain by lying side by side, and what its ends,
function and direction add to it; of all ways to pair the paths of a kind the one with the greatest sum is taken. Ids,
names and the order of the files play no part, and with the sides exchanged the result is mirrored.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from itertools import product
from typing import TYPE_CHECKING, Any

from archdiff.alignment import Agreement
from archdiff.alignment.assignment import best_assignment
from archdiff.alignment.seats import content
from archdiff.alignment.verdict import weakest
from archdiff.paths.columns import facing_question
from archdiff.paths.ends import End, opposite, spot_points, spots_agree, spots_of
from archdiff.paths.laying import Laid, Strip, laid, tie_of
from archdiff.paths.model import Column, Finding, PathPair
from archdiff.paths.points import Points, facing_points
from archdiff.paths.silence import SECTION, missing_path
from archdiff.paths.stages import stages_of
from archdiff.record.schema import load_schema
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from archdiff.alignment import Alignment
    from archdiff.notes import Match, Notes
    from archdiff.paths.ends import Spot
    from archdiff.record import Element, Record
    from archdiff.record.silence import Silent

SAME_KIND = 1  # two paths of one kind go together where nothing speaks against it
SAME_FUNCTION, OTHER_FUNCTION = 4, -4
_SHIFT = 48
_TIED = 1 << 20  # above all points that a pair can reach


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One path with what it is weighed by."""

    strip: Strip
    spots: tuple[Spot, Spot]
    key: str

    @property
    def path(self) -> Element:
        """The path itself."""
        return self.strip.path


@dataclass(slots=True)
class Kind:
    """The paths of one kind on both sides."""

    name: str
    lefts: list[Way]
    rights: list[Way]
    points: Points
    notes: Notes
    done: dict[tuple[str, str], Laid] = field(default_factory=dict)

    def paired(self) -> dict[str, str]:
        """Ids of left paths to ids of right paths."""
        table: dict[str, dict[str, int]] = {}
        for left, right in product(self.lefts, self.rights):
            worth = self.worth(left, right)
            if worth > 0:
                tie = tie_of(left.key, right.key)
                table.setdefault(left.path.id, {})[right.path.id] = (worth << _SHIFT) + tie
        return best_assignment(table)

    def worth(self, left: Way, right: Way) -> int:
        """What is gained by pairing two paths; 0 where they cannot be, very much where the notes tie them."""
        ids = (left.path.id, right.path.id)
        if ids in _named(self.notes.never):
            return 0
        if ids in _named(self.notes.tie):
            return _TIED
        return 0 if opposite(left.spots, right.spots) else max(0, self.gain(left, right))

    def gain(self, left: Way, right: Way) -> int:
        """The points of two paths: their kind, stages, both ends, function and direction."""
        ends = (spot_points(a, b, self.points) for a, b in zip(left.spots, right.spots, strict=True))
        function = _function_points(left.path.function, right.path.function)
        facing = facing_points(left.path.text("facing"), right.path.text("facing"))
        return SAME_KIND + self.laid_out(left, right).gain + sum(ends) + function + facing

    def laid_out(self, left: Way, right: Way) -> Laid:
        """The two paths side by side."""
        ids = (left.path.id, right.path.id)
        if ids not in self.done:
            self.done[ids] = laid(left.strip, right.strip, self.points)
        return self.done[ids]


def compare_paths(left: Record, right: Record, alignment: Alignment, notes: Notes) -> tuple[PathPair, ...]:
    """All paths of both records, each once: paired within their kind, or alone with what may be said of it."""
    points = Points.after(alignment)
    found: list[PathPair] = []
    for name in _kinds():
        lefts, rights = _ways(left, name, notes.ignore_left), _ways(right, name, notes.ignore_right)
        found += _ordered(_pairs(Kind(name, lefts, rights, points, notes), (left, right)))
    return tuple(found)


@cache
def _kinds() -> tuple[str, ...]:
    """The kinds of path in the order of the schema."""
    return tuple(load_schema("record")["definitions"]["path"]["properties"]["kind"]["enum"])


def _ways(record: Record, kind: str, ignored: Iterable[str]) -> list[Way]:
    left_out = set(ignored)
    paths = [path for path in record.section(SECTION) if path.text("kind") == kind and path.id not in left_out]
    return [_way(record, path) for path in paths]


def _way(record: Record, path: Element) -> Way:
    stages, spots = stages_of(record, path), spots_of(record, path)
    ends = [content(spot.thing) if spot.thing is not None else spot.text.casefold() for spot in spots]
    parts = [path.function, path.text("facing"), path.text("power"), path.text("flow"), *ends]
    return Way(Strip(record, path, stages), spots, "\n".join([*parts, *(stage.key for stage in stages)]))


def _pairs(kind: Kind, records: tuple[Record, Record]) -> Iterator[tuple[Any, PathPair]]:
    """Every pair of a kind with what it is ordered by."""
    mates = kind.paired()
    lefts, rights = ({way.path.id: way for way in ways} for ways in (kind.lefts, kind.rights))
    for a, b in mates.items():
        pair = _complete(kind, lefts[a], rights[b])
        yield (0, -pair.points, sorted((lefts[a].key, rights[b].key))), pair
    alone = ([w for n, w in lefts.items() if n not in mates], [w for n, w in rights.items() if n not in mates.values()])
    for ways, others, on_left in ((*alone, True), (*alone[::-1], False)):
        listed, ignored = (kind.rights, kind.notes.ignore_right) if on_left else (kind.lefts, kind.notes.ignore_left)
        record = records[1 if on_left else 0]
        for way in ways:
            maybe = [other.path for other in others if _may_be(kind, way, other, on_left=on_left)]
            silent = missing_path(record, kind.name, len(listed), maybe, ignored)
            yield (1, 0, [way.key]), _alone(kind.name, way, silent, on_left=on_left)


def _ordered(pairs: Iterable[tuple[Any, PathPair]]) -> list[PathPair]:
    """Pairs before what stands alone, the surest first; the same with the sides exchanged."""
    return [pair for _, pair in sorted(pairs, key=lambda entry: entry[0])]


def _complete(kind: Kind, left: Way, right: Way) -> PathPair:
    start, end = (End(a, b, spots_agree(a, b, kind.points)) for a, b in zip(left.spots, right.spots, strict=True))
    return PathPair(
        kind.name,
        left.path,
        right.path,
        kind.laid_out(left, right).columns(),
        start,
        end,
        facing_question(left.path.text("facing"), right.path.text("facing")),
        kind.gain(left, right),
        tied=(left.path.id, right.path.id) in _named(kind.notes.tie),
        sure=weakest(left.path.sure, right.path.sure),
    )


def _alone(kind: str, way: Way, silent: Silent, *, on_left: bool) -> PathPair:
    known = silent.silence is Silence.NOT_THERE
    only = Finding.ONLY_LEFT if on_left else Finding.ONLY_RIGHT
    columns = tuple(
        Column(stage if on_left else None, None if on_left else stage, only if known else Finding.UNKNOWN,
               silent=silent, sure=weakest(stage.sure, silent.sure))
        for stage in way.strip.stages
    )  # fmt: skip
    facing = way.path.text("facing")
    start, end = (End(spot if on_left else None, None if on_left else spot, Agreement.UNKNOWN) for spot in way.spots)
    return PathPair(
        kind,
        way.path if on_left else None,
        None if on_left else way.path,
        columns,
        start,
        end,
        facing_question(facing if on_left else "", "" if on_left else facing),
        silent=silent,
        sure=weakest(way.path.sure, silent.sure),
    )


def _may_be(kind: Kind, way: Way, other: Way, *, on_left: bool) -> bool:
    """Whether two paths that stay alone may still be one: they run the same way and the notes do not forbid it."""
    left, right = (way, other) if on_left else (other, way)
    return (left.path.id, right.path.id) not in _named(kind.notes.never) and not opposite(left.spots, right.spots)


def _named(matches: Iterable[Match]) -> set[tuple[str, str]]:
    return {pair for match in matches for pair in product(match.left, match.right)}


def _function_points(left: str, right: str) -> int:
    if not left or not right:
        return 0
    return SAME_FUNCTION if left == right else OTHER_FUNCTION
