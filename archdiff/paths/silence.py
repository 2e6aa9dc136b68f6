"""What may be said where one path has a stage and the other shows none beside it.

'Only in' needs that the other record's paths were looked at whole, that its path is more than inferred and states
its stages, that nothing beside the gap is only inferred or guessed, that no question about the path is open, and that
no stage of the other path is left over that may be the one looked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement
from archdiff.alignment.verdict import weakest
from archdiff.paths.stages import is_board, is_doubtful
from archdiff.record.coverage import NONE, WHOLE
from archdiff.record.silence import Silence, Silent

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from archdiff.paths.points import Points
    from archdiff.paths.stages import Stage
    from archdiff.record import Element, Record

SECTION = "paths"
SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN


def not_covered(record: Record) -> str:
    """Why nothing can be said of paths and stages that this record does not list; '' where it lists them all."""
    coverage = record.coverage.of(SECTION)
    if coverage == WHOLE:
        return ""
    return f"{SECTION} {'not looked at' if coverage == NONE else 'looked at only in part'}"


def missing_path(record: Record, kind: str, listed: int, maybe: Sequence[Element], ignored: Iterable[str]) -> Silent:
    """What may be said of a path of the other product that has no partner in this record."""
    left_out = [path for path in record.section(SECTION) if path.id in ignored and path.text("kind") == kind]
    if why := not_covered(record):
        return Silent(Silence.NOT_LOOKED_AT, why)
    if left_out:
        return Silent(Silence.NOT_LOOKED_AT, f"the notes leave out {left_out[0].label}")
    if maybe:
        return Silent(Silence.NOT_LOOKED_AT, f"{maybe[0].label} may be the same path")
    if listed:
        why = f"{SECTION} looked at whole; none of what there is of {kind} ({listed} in all) goes with it"
        return Silent(Silence.NOT_THERE, why, further=listed)
    return Silent(Silence.NOT_THERE, f"{SECTION} looked at whole and none of {kind} found")


@dataclass(frozen=True, slots=True, eq=False)
class Partner:
    """The path that shows no such stage: its record, its stages, and by their places what lies beside them."""

    record: Record
    path: Element
    stages: Sequence[Stage]
    beside: Mapping[int, tuple[Stage, int]]  # by place: the stage of the other path, and the points of the two
    points: Points  # from the path that has the stage to this one

    def elsewhere(self, stage: Stage) -> Stage | None:
        """A stage that is left alone here and does the same job: it stands at another place of the path."""
        alone = (other for other in self.stages if other.place not in self.beside)
        return next((other for other in alone if self.points.job(stage, other) is SAME), None)

    def silent(self, stage: Stage, near: Iterable[Stage]) -> Silent:
        """What may be said of a stage of the other path; `near` are the stages on both sides of the gap."""
        if why := self._open(stage, near):
            return Silent(Silence.NOT_LOOKED_AT, why + self._nowhere(stage))
        further = sum(self.points.job(stage, other) is SAME for other in self.stages)
        rest = f"what does this there ({further} in all) lies beside others" if further else "none of them does this"
        why = f"all stages of {self.path.label} are listed; {rest}"
        return Silent(Silence.NOT_THERE, why, weakest(self.path.sure), further=further)

    def _nowhere(self, stage: Stage) -> str:
        """What is known of the rest of the product; no proof, as words of a stage may name what is listed nowhere."""
        found = self.points.mine_alone.get(stage.thing.id) if stage.thing is not None else None
        return f"; nor is {stage.label} found elsewhere in the product ({found.why})" if found is not None else ""

    def _open(self, stage: Stage, near: Iterable[Stage]) -> str:
        """Why the question stays open; '' where it does not."""
        if why := not_covered(self.record) or self._asked() or self._unsure(near):
            return why
        if stage.thing is not None and not (stage.functions or is_board(stage.thing)):
            return f"what {stage.label} is there for is not known"
        maybe = next((other for other in self.stages if self._may_be(stage, other)), None)
        return f"stage {maybe.place} ({maybe.label}) may be it" if maybe is not None else ""

    def _asked(self) -> str:
        """An open question about the path."""
        asked = (q for q in self.record.questions if q.get("about") == self.path.id)
        return next((f"an open question: {q['ask']}" for q in asked), "")

    def _unsure(self, near: Iterable[Stage]) -> str:
        if not self.stages:
            return f"the stages of {self.path.label} are not stated"
        if is_doubtful(self.path):
            return f"{self.path.label} is only {self.path.sure}"
        doubtful = next((other for other in near if other.doubtful), None)
        return f"{doubtful.label} beside it is only {doubtful.facts['sure']}" if doubtful is not None else ""

    def _may_be(self, stage: Stage, other: Stage) -> bool:
        """Whether a stage here may do the same job and is not accounted for by what lies beside it."""
        mate, gain = self.beside.get(other.place, (None, 0))
        if mate is not None and self.points.job(mate, other) is SAME:
            return False
        job = self.points.job(stage, other)
        if stage.thing is None and other.thing is None:
            # Words with nothing in common may still mean one thing, unless the other's is found already.
            return job is not DIFFERENT or mate is None or gain <= 0
        return job is not DIFFERENT
