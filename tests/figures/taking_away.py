"""Records with facts taken away, and figures computed on them: of one product, or of a pair whose pairing is held.

A fact is named as figures name it: 'main: outline', 'boards: coverage', 'opening 3: time', 'heat stage 2: area', and
for a figure of the pair 'left main: outline'.
"""

from __future__ import annotations

from copy import deepcopy
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from archdiff.alignment import align, partition_of
from archdiff.figures import Measure, PairView, all_figures
from archdiff.notes import Match, Notes
from archdiff.record import Document, Record
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from archdiff.alignment import Alignment

Facts = frozenset[str]
NONE: Facts = frozenset()


class World:
    """What figures are computed from, whole and with facts taken away."""

    def __init__(self, figures: Mapping[str, Callable[[Any], Measure]], view: Callable[[Facts], Any]) -> None:
        self.figures, self._view = figures, cache(view)
        self.measure = cache(self._measure)

    def _measure(self, name: str, gone: Facts = NONE) -> Measure:
        return self.figures[name](self._view(gone))


def of_product(record: Record) -> World:
    """The figures of one product."""
    figures = {figure.id: figure.of_product for figure in all_figures() if figure.of_product is not None}
    return World(figures, partial(without, record))


def of_pair(left: Record, right: Record, notes: Notes | None = None) -> World:
    """The figures of a pair. Who is paired with whom stays as it is: that is another matter than what is counted."""
    pairing = held(align(left, right, notes or Notes()), notes or Notes())
    figures = {figure.id: figure.of_pair for figure in all_figures() if figure.of_pair is not None}

    def view(gone: Facts) -> PairView:
        poorer = [without(r, own(gone, side)) for side, r in (("left", left), ("right", right))]
        alignment = align(*poorer, pairing)
        return PairView(*poorer, alignment, partition_of(alignment, *poorer))

    return World(figures, view)


def held(alignment: Alignment, notes: Notes) -> Notes:
    """Notes that tie every pair of an alignment, and keep apart what has no partner in it."""
    complete = [pair.ids for pair in alignment.pairs if all(pair.ids)]  # empty sites included
    paired = {name for ids in complete for side in ids for name in side}
    alone = [
        tuple(dict.fromkeys(name for pair in alignment.pairs for name in pair.ids[side] if name not in paired))
        for side in (0, 1)
    ]
    apart = (Match(alone[0], alone[1]),) if all(alone) else ()
    ties = tuple(Match(*ids) for ids in complete)
    return Notes(
        tie=ties,
        never=(*apart, *notes.never),
        same_board=notes.same_board,
        ignore_left=notes.ignore_left,
        ignore_right=notes.ignore_right,
    )


def own(facts: Iterable[str], side: str) -> Facts:
    """The facts of one side, as its own record names them."""
    return frozenset(fact.removeprefix(f"{side} ") for fact in facts if fact.startswith(f"{side} "))


def without(record: Record, gone: Facts) -> Record:
    """The record without some facts."""
    data = deepcopy(record.document.data)
    for fact in gone:
        take_away(record, data, *fact.split(": ", 1))
    return build_record(Document(record.file, data))[0]


def take_away(record: Record, data: Any, subject: str, name: str) -> None:
    """Take one fact out of a record's data."""
    if name == "coverage":
        data["coverage"][subject] = "part"
        return
    words = subject.split()
    if words[0] == "opening":
        holder = data["opening"][int(words[1]) - 1]
    elif " stage " in subject:
        holder = data["paths"][words[0]]["through"][int(words[2]) - 1]
    elif subject in ("product", "power"):
        holder = data[subject]
    else:
        holder = entry(data, record.elements[subject].path)
    *outer, last = name.split()
    del entry(holder, tuple(outer))[last]


def entry(data: Any, path: Iterable[str | int]) -> Any:
    for step in path:
        data = data[step]
    return data


def looked_at_all_over(record: Record) -> Record:
    """The same record as if every section had been wholly looked at."""
    data = deepcopy(record.document.data)
    data["coverage"] = dict.fromkeys((*data["coverage"], *record.document.data), "whole")
    return build_record(Document(record.file, data))[0]
