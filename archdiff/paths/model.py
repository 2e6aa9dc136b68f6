"""What comparing paths yields: pairs of paths, their columns of stages, and what is said of each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from archdiff.alignment import Agreement
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from archdiff.paths.ends import End
    from archdiff.paths.stages import Stage
    from archdiff.quantities import Bounds
    from archdiff.record import Element
    from archdiff.record.silence import Silent


class Finding(StrEnum):
    """What is said of one column."""

    ALIKE = "alike"
    DIFFERENT = "done differently"
    NUMBERS = "other numbers"
    ELSEWHERE = "at another place of the path"
    ONLY_LEFT = "only in left"
    ONLY_RIGHT = "only in right"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Question:
    """One thing asked of both sides (means, words, material, facing), the answers as text, '' for none."""

    name: str
    left: str
    right: str
    agreement: Agreement


@dataclass(frozen=True, slots=True)
class Amount:
    """One quantity of a stage as stated on each side, None for none; `ratio` is right over left."""

    name: str
    left: Any
    right: Any
    agreement: Agreement
    ratio: Bounds | None = None

    @property
    def differs(self) -> bool:
        """Whether the bounds of the two do not overlap."""
        return self.agreement is Agreement.DIFFERENT

    @property
    def larger(self) -> str:
        """The side whose quantity is surely the larger: 'left', 'right', or '' for neither."""
        left, right = as_bounds(self.left), as_bounds(self.right)
        if not self.differs or left is None or right is None:
            return ""
        return "left" if left.low > right.high else "right"

    @property
    def times(self) -> Bounds | None:
        """How many times the smaller the larger one is, so that it is above 1; None where that is not known."""
        return self.ratio.inverse() if self.ratio is not None and self.larger == "left" else self.ratio


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """A left stage and a right stage that lie side by side, or one of them alone (then `silent` says why)."""

    left: Stage | None
    right: Stage | None
    finding: Finding
    questions: tuple[Question, ...] = ()
    amounts: tuple[Amount, ...] = ()
    points: int = 0
    silent: Silent | None = None
    elsewhere: Stage | None = None  # the stage of the other path that does this at another place
    sure: str = "seen"  # the weakest of the facts it rests on

    @property
    def is_complete(self) -> bool:
        """Whether both sides have a stage."""
        return self.left is not None and self.right is not None

    def asked(self, agreement: Agreement) -> tuple[str, ...]:
        """The names of the questions that came out so."""
        return tuple(question.name for question in self.questions if question.agreement is agreement)


@dataclass(frozen=True, slots=True, eq=False)
class PathPair:
    """A left path and a right path of one kind that go together, or one alone (then `silent` says why).

    >>> all(pair.paths for pair in result.comparison.paths)
    True
    """

    kind: str
    left: Element | None
    right: Element | None
    columns: tuple[Column, ...]
    start: End
    end: End
    facing: Question
    points: int = 0  # what is gained by pairing them
    silent: Silent | None = None
    tied: bool = False  # tied by the analyst's notes
    sure: str = "seen"

    @property
    def is_complete(self) -> bool:
        """Whether both sides have a path."""
        return self.left is not None and self.right is not None

    @property
    def paths(self) -> tuple[Element, ...]:
        """The one or two paths."""
        return tuple(path for path in (self.left, self.right) if path is not None)
