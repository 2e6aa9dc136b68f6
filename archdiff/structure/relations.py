"""From a record to its matrix: which things there are, and what the record says of any two of them.

Every relation is taken as the record states it and never concluded from something that it leaves out, so a record
that says more never loses a mark.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise, permutations
from typing import TYPE_CHECKING

from archdiff.structure.matrix import Layer, Matrix

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from archdiff.record import Element, Record
    from archdiff.structure.matrix import Mark

THINGS = (
    *("boards", "parts", "controls", "indicators", "sensors", "actuators", "antennas", "shields"),
    *("power.entry", "power.storage", "enclosure"),
)
# The sections whose entries make relations, beside the things themselves.
MAKERS = ("interconnects", "joints", "paths")
LINKS = "links"  # under `coverage`: how far it was traced what each thing sits on, is joined to and is fed by
_LINK = "interconnects"
Stated = tuple[str, str, str]  # row, column, what makes the relation


@lru_cache(maxsize=4)
def matrix_of(record: Record) -> Matrix:
    """The matrix of a record. Sites that were left empty do nothing and have no row."""
    things = [e for name in THINGS for e in record.section(name) if e.populated]
    number = {e.id: place for place, e in enumerate(things)}
    stated = {
        Layer.SITS: _sits(things),
        Layer.JOINED: _both_ways(_joined(record, things)),
        Layer.FED: _fed(record, things),
        Layer.PATH: _on_paths(record, number),
        Layer.FASTENED: _both_ways(_between(record.section("joints"))),
        Layer.FORCED: _forced(record),
    }
    marks = {layer: _marks(found, number) for layer, found in stated.items()}
    return Matrix(tuple(number), tuple(e.count for e in things), marks)


def all_traced(record: Record) -> bool:
    """Whether an empty field of the matrix says that there is no relation, and not only that none is recorded."""
    return record.coverage.all_whole((*THINGS, *MAKERS, LINKS))


def _marks(stated: Iterable[Stated], number: dict[str, int]) -> dict[Mark, str]:
    """The marks between things, sorted; of two that say the same the first one's maker is kept."""
    found: dict[Mark, str] = {}
    for row, column, maker in stated:
        if row != column and row in number and column in number:
            found.setdefault((number[row], number[column]), maker)
    return dict(sorted(found.items()))


def _both_ways(stated: Iterable[Stated]) -> Iterator[Stated]:
    for row, column, maker in stated:
        yield row, column, maker
        yield column, row, maker


def _sits(things: Iterable[Element]) -> Iterator[Stated]:
    """What a thing sits on or in, is laid through, or lies over."""
    for thing in things:
        for fact in ("on", "in", "sits_in"):
            if fact in thing.facts:
                yield thing.id, thing.text(fact), ""
        for fact in ("laid_through", "covers"):
            value = thing.facts.get(fact, ())
            for name in (value,) if isinstance(value, str) else value:
                yield thing.id, str(name), ""


def _joined(record: Record, things: Iterable[Element]) -> Iterator[Stated]:
    """What exchanges signals or current over a link or a track; what is joined to a link is joined to its ends."""
    links = record.section(_LINK)
    ends = {link.id: link.texts("between") for link in links}
    yield from _between(links)
    for thing in things:
        names = (*thing.texts("joined_to"), *((thing.text("serves"),) if "serves" in thing.facts else ()))
        for name in names:
            yield from ((thing.id, end, name) for end in ends[name]) if name in ends else ((thing.id, name, ""),)


def _between(makers: Iterable[Element]) -> Iterator[Stated]:
    for maker in makers:
        yield from ((a, b, maker.id) for a, b in permutations(maker.texts("between"), 2))


def _fed(record: Record, things: Iterable[Element]) -> Iterator[Stated]:
    """A load depends on what makes its rail, and on the inlet or store that the rail comes straight from."""
    rails = {rail.id: rail for rail in record.section("power.rails")}

    def suppliers(name: str) -> tuple[str, ...]:
        rail = rails.get(name)
        if rail is None:
            return (name,)
        source = rail.text("from")
        return tuple(n for n in (rail.text("made_by"), source if source not in rails else "") if n)

    for thing in things:
        source = thing.text("fed_by")
        yield from ((thing.id, name, source) for name in (suppliers(source) if source else ()))
    for rail in rails.values():
        for load in rail.texts("feeds"):
            yield from ((load, name, rail.id) for name in suppliers(rail.id))
        if rail.text("made_by") and rail.text("from"):
            yield from ((rail.text("made_by"), name, rail.text("from")) for name in suppliers(rail.text("from")))


def _on_paths(record: Record, number: dict[str, int]) -> Iterator[Stated]:
    """What comes later on a path depends on the next thing before it; what is no thing of its own is passed over."""
    for path in record.section("paths"):
        stages = [str(stage.get("what", "")) for stage in path.facts.get("through", ())]
        named = [name for name in (path.text("from"), *stages, path.text("to")) if name in number]
        yield from ((later, sooner, path.id) for sooner, later in pairwise(named))


def _forced(record: Record) -> Iterator[Stated]:
    for name, decision in record.decisions.items():
        for cause in decision.get("about", ()):
            yield from ((str(effect), str(cause), name) for effect in decision.get("forces", ()))
