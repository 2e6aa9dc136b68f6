"""The design structure matrix: who depends on whom in one product, each kind of relation in a layer of its own.

Rows and columns are the same things in the same order; a mark in a row says that the thing of the row depends on
the thing of the column ("inputs in rows"). Marks of different layers are never added up with signs: they lie on
each other, so that none can cancel another.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

Mark = tuple[int, int]  # (row, column)


class Layer(StrEnum):
    """One kind of relation, in the words in which a row speaks of a column."""

    SITS = "sits on"
    JOINED = "joined to"
    FED = "fed by"
    PATH = "next on a path"
    FASTENED = "fastened to"
    FORCED = "forced by"

    @property
    def is_symmetric(self) -> bool:
        """Whether it holds in both directions alike; else the row depends on the column only."""
        return self in (Layer.JOINED, Layer.FASTENED)


# What the build itself shows; what a choice forced is the analyst's reading of it.
OF_THE_BUILD = (Layer.SITS, Layer.JOINED, Layer.FED, Layer.PATH, Layer.FASTENED)
# What is passed on in use, as against what holds the product together.
IN_USE = (Layer.JOINED, Layer.FED, Layer.PATH)


@dataclass(frozen=True, eq=False)
class Matrix:
    """The matrix of one record: its things, how many each entry stands for, and the marks with what they rest on.

    `marks` maps a layer to its marks, each with the id of what makes the relation (a link, a rail, a joint, a path, a
    choice), '' where one of the two things states it by itself.
    """

    ids: tuple[str, ...]
    counts: tuple[int, ...]
    marks: Mapping[Layer, Mapping[Mark, str]]

    @property
    def size(self) -> int:
        """How many things there are, counted entries included."""
        return sum(self.counts)

    @cached_property
    def number(self) -> Mapping[str, int]:
        """The place of each thing in the order of rows and columns."""
        return {name: place for place, name in enumerate(self.ids)}

    def depends_on(self, layers: Iterable[Layer] = OF_THE_BUILD) -> list[list[int]]:
        """For each row the columns that it depends on in any of the layers, in order."""
        found: list[set[int]] = [set() for _ in self.ids]
        for layer in layers:
            for row, column in self.marks.get(layer, ()):
                found[row].add(column)
        return [sorted(columns) for columns in found]

    def pairs(self, layers: Iterable[Layer] = OF_THE_BUILD) -> frozenset[Mark]:
        """The pairs of entries with a mark in any of the layers, in either direction; the lower place first."""
        marks = (mark for layer in layers for mark in self.marks.get(layer, ()))
        return frozenset((min(mark), max(mark)) for mark in marks)

    def linked(self, layers: Iterable[Layer] = OF_THE_BUILD) -> int:
        """How many pairs of things are linked: of entries that stand for several, each with each."""
        return sum(self.counts[a] * self.counts[b] for a, b in self.pairs(layers))
