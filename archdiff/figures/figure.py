"""What a figure is, and what it yields."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.alignment import Alignment, Partition
    from archdiff.quantities import Bounds
    from archdiff.record import Record


_NO_RATIO = frozenset({"°C"})


@dataclass(frozen=True, slots=True)
class Measure:
    """One computed number: its bounds (None where nothing at all can be said), the facts used, those lacking.

    `used` and `missing` are fact addresses in words, 'main: outline'. `assumed` are whole statements with their
    source: what no record states and the figure takes from a table or a model. `parts` breaks the number down
    (by subsystem, means, board ...) where that is told.

    >>> result.comparison.figure("board-count").left.bounds.low
    2
    """

    bounds: Bounds | None
    used: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    parts: Mapping[str, Bounds] = field(default_factory=dict)
    how: str = ""  # the sum as done, with numbers: "62 mm x 48 mm + 40 mm x 20 mm"
    assumed: tuple[str, ...] = ()
    moot: bool = False  # it is known that there is nothing of the kind: the question does not arise
    said: str = ""  # what the number amounts to in its source's own classes: "PS1, at most 15 W"
    unit: str = ""  # only where it is this record's own and not the figure's: the currency of a price


@dataclass(frozen=True, slots=True)
class PairView:
    """Both products and what alignment says of them: what a figure of the pair is computed from."""

    left: Record
    right: Record
    alignment: Alignment
    partition: Partition


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: everything a reader ever sees about it, and how it is computed.

    Exactly one of `of_product` and `of_pair` is set. `order` is its place within its family.

    >>> result.comparison.figure("board-count").figure.family
    'boards'
    """

    id: str
    title: str
    unit: str  # as shown: "mm²", "parts/cm²", "" for a plain number
    family: str
    order: int
    meaning: str  # one plain sentence
    formula: str
    source: str
    glance: bool = False  # among the few that stand beside price and mass, for the reader in a hurry
    preferred: str = ""  # "lower" or "higher is usually wanted, by whom"; '' for neither
    of_product: Callable[[Record], Measure] | None = None
    of_pair: Callable[[PairView], Measure] | None = None


class Outcome(StrEnum):
    """What comparing the two sides of a figure shows.

    >>> print(archdiff.figures.Outcome.NO_DIFFERENCE)
    no difference shown
    """

    LEFT_HIGHER = "left higher"
    RIGHT_HIGHER = "right higher"
    NO_DIFFERENCE = "no difference shown"
    SAME = "same"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class FigureResult:
    """A figure with its measures; a figure of the pair has only `pair`.

    >>> boards = result.comparison.figure("board-count")
    >>> print(boards.outcome)
    left higher
    """

    figure: Figure
    left: Measure | None = None
    right: Measure | None = None
    pair: Measure | None = None

    @property
    def outcome(self) -> Outcome:
        """Higher or lower only where the bounds do not overlap; the same only where both are exact and equal."""
        a = self.left.bounds if self.left else None
        b = self.right.bounds if self.right else None
        if a is None or b is None or not self._one_unit:
            return Outcome.UNKNOWN
        if a.is_exact and b.is_exact and math.isclose(a.low, b.low, rel_tol=1e-9):
            return Outcome.SAME  # sums of the same numbers in another order differ in the last digits
        if a.low > b.high:
            return Outcome.LEFT_HIGHER
        if b.low > a.high:
            return Outcome.RIGHT_HIGHER
        return Outcome.NO_DIFFERENCE if a.is_known and b.is_known else Outcome.UNKNOWN

    @property
    def ratio(self) -> Bounds | None:
        """Right over left, with bounds; None where it is not known or the left side may be 0.

        Temperatures have none: their zero is a convention (interval scale; Stevens 1946, Science 103:677-680).
        """
        a = self.left.bounds if self.left else None
        b = self.right.bounds if self.right else None
        if a is None or b is None or a.low <= 0 or b.low < 0 or not self._one_unit or self.figure.unit in _NO_RATIO:
            return None
        ratio = b / a
        return None if ratio.low == 0 and ratio.high == math.inf else ratio

    @property
    def _one_unit(self) -> bool:
        return self.left is None or self.right is None or self.left.unit == self.right.unit
