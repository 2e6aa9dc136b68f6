"""What is wrong, where, and what to do about it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


class Severity(IntEnum):
    """How bad a problem is: a fault stops the work, a warning does not."""

    FAULT = 0
    WARNING = 1


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing wrong with one file; sorts by place. Lines and columns count from 1."""

    file: str
    line: int
    column: int
    rule: str
    message: str
    hint: str = ""
    severity: Severity = Severity.FAULT

    def __str__(self) -> str:
        word = "" if self.severity is Severity.FAULT else " (warning)"
        text = f"{self.file}:{self.line}:{self.column}: {self.rule}{word}: {self.message}"
        return f"{text}\n    hint: {self.hint}" if self.hint else text


class ArchdiffError(Exception):
    """The base of every error that archdiff raises on purpose."""


class FaultyInputError(ArchdiffError):
    """One or more input files have faults; `problems` holds all of them, warnings included."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class EnvironmentTroubleError(ArchdiffError):
    """The work cannot be done here: a file cannot be read or written, or the call makes no sense."""


def faults(problems: Iterable[Problem]) -> list[Problem]:
    """Only those problems that stop the work."""
    return [problem for problem in problems if problem.severity is Severity.FAULT]
