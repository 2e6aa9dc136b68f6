"""The comparison: what the page and the exports are written from."""

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
    """Two records and all that follows from them.

    >>> result.comparison.figure("board-count").figure.title
    'Boards'
    """

    left: Record
    right: Record
    notes: Notes  # empty where there were none
    alignment: Alignment
    partition: Partition
    figures: tuple[FigureResult, ...]  # in the order of their families
    chains: tuple[Chain, ...]  # those with most links first
    unknowns: tuple[Unknown, ...]
    look_at: tuple[LookAt, ...]  # what to examine next, the most telling first
    to_confirm: tuple[Pair, ...]  # pairings that need the analyst's confirmation
    headlines: tuple[Headline, ...]  # the differences that matter most, the weightiest first
    warnings: tuple[Problem, ...] = ()  # what the checks found that is no fault
    paths: tuple[PathPair, ...] = ()  # paths of heat, sound, light and air, stage beside stage

    @property
    def title(self) -> str:
        """The analyst's title, otherwise the two names."""
        return self.notes.title or f"{self.left.name} and {self.right.name}"

    @property
    def pairs(self) -> tuple[Pair, ...]:
        """All pairs, in the order of the vocabulary's subsystems.

        >>> all(pair.left or pair.right for pair in result.comparison.pairs)
        True
        """
        return self.alignment.pairs

    def figure(self, name: str) -> FigureResult:
        """One computed value.

        Args:
            name: the figure's id, as `archdiff figures --list` shows it.

        Returns:
            The figure with its value for each side, or for the pair.

        Raises:
            KeyError: no figure has that id.

        >>> result.comparison.figure("board-count").left.bounds.is_exact
        True
        """
        for result in self.figures:
            if result.figure.id == name:
                return result
        raise KeyError(name)
