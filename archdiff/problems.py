"""Problems of input files, and the errors that archdiff raises."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


class Severity(IntEnum):
    """A fault stops the work, a warning does not."""

    FAULT = 0
    WARNING = 1


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing wrong with one file. Problems sort by file and place.

    >>> print(archdiff.Problem("fan.yaml", 4, 3, "no-such-id", "no part is called U9", "did you mean U1?"))
    fan.yaml:4:3: no-such-id: no part is called U9
        hint: did you mean U1?
    """

    file: str  # as the caller named it
    line: int  # counted from 1
    column: int  # counted from 1
    rule: str  # short name of the rule that is broken
    message: str
    hint: str = ""  # what to do about it, where something can be advised
    severity: Severity = Severity.FAULT

    def __str__(self) -> str:
        word = "" if self.severity is Severity.FAULT else " (warning)"
        text = f"{self.file}:{self.line}:{self.column}: {self.rule}{word}: {self.message}"
        return f"{text}\n    hint: {self.hint}" if self.hint else text


class ArchdiffError(Exception):
    """Base class of the errors that archdiff raises on purpose.

    >>> issubclass(archdiff.FaultyInputError, archdiff.ArchdiffError)
    True
    """


class FaultyInputError(ArchdiffError):
    """Input files have faults; `problems` holds all of them, warnings included, sorted by place.

    >>> archdiff.compare("notes.yaml", "plinsk-wink.yaml")
    Traceback (most recent call last):
    ...
    archdiff.problems.FaultyInputError: notes.yaml:...
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class EnvironmentTroubleError(ArchdiffError):
    """A usage or system error: a file cannot be read or written, or the arguments make no sense.

    >>> archdiff.check("nowhere.yaml")
    Traceback (most recent call last):
    ...
    archdiff.problems.EnvironmentTroubleError: nowhere.yaml: ...
    """


def faults(problems: Iterable[Problem]) -> list[Problem]:
    """The problems that stop the work.

    >>> from archdiff.problems import Severity
    >>> faults([archdiff.Problem("fan.yaml", 9, 1, "no-cover", "the lid is missing", severity=Severity.WARNING)])
    []
    """
    return [problem for problem in problems if problem.severity is Severity.FAULT]
