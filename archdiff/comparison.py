"""Everything that is known of a pair of products: what the page and the exports are written from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from archdiff.alignment import Alignment, Pair, Partition
    from archdiff.figures import FigureResult
    from archdiff.headlines import Headline
    from archdiff.knockons import Chain
    from archdiff.notes import Notes
    from archdiff.paths import PathPair
    from archdiff.problems import Problem
    from archdiff.record import Record
    from archdiff.unknowns import LookAt, Unknown


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Two records and all that follows from them."""

    left: Record
    right: Record
    notes: Notes
    alignment: Alignment
    partition: Partition
    figures: tuple[FigureResult, ...]
    chains: tuple[Chain, ...]
    unknowns: tuple[Unknown, ...]
    look_at: tuple[LookAt, ...]
    to_confirm: tuple[Pair, ...]
    headlines: tuple[Headline, ...]
    warnings: tuple[Problem, ...] = ()
    paths: tuple[PathPair, ...] = ()

    @property
    def title(self) -> str:
        """The analyst's title, else the two names."""
        return self.notes.title or f"{self.left.name} and {self.right.name}"

    @property
    def pairs(self) -> tuple[Pair, ...]:
        """All pairs, in the order of the vocabulary's subsystems."""
        return self.alignment.pairs

    def figure(self, name: str) -> FigureResult:
        """The result of the figure with that id; KeyError where there is none."""
        for result in self.figures:
            if result.figure.id == name:
                return result
        raise KeyError(name)
