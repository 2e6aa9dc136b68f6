"""What a rule is, and how one is declared."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from archdiff.problems import Severity
from archdiff.record import Record

Check = Callable[[Record], Iterator["Finding"]]
_NAME = re.compile(r"[a-z]+(-[a-z]+)+")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that makes no sense: where (a path into the record's data), what, and what to do about it.

    `key=True` points at the name of the entry instead of its value.
    """

    path: tuple[str | int, ...]
    message: str
    hint: str
    key: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """One sense check; `meaning` is one plain sentence that says what it finds."""

    name: str
    order: int
    severity: Severity
    meaning: str
    check: Check


def rule(name: str, *, order: int, severity: Severity = Severity.FAULT) -> Callable[[Check], Rule]:
    """Declare the decorated generator function a rule.

    `name` is a few plain words joined by hyphens, `order` the place in the list of rules: hundreds by topic. A
    fault is only what cannot be true; what is merely odd, or true of a rare product, is a warning. ValueError
    where the name or the docstring does not do.
    """

    def declare(check: Check) -> Rule:
        meaning = (check.__doc__ or "").strip().split("\n", 1)[0]
        if not _NAME.fullmatch(name) or not meaning:
            raise ValueError(f"rule '{name}' needs a name of plain words and a docstring")
        return Rule(name, order, severity, meaning, check)

    return declare
