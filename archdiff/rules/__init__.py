"""The shelf of sense checks: what a record of the right shape may still get wrong.

A rule is one generator function under `@rule(...)` in any module of this folder. A new rule needs nothing else:
the shelf finds it, sorts it by its declared place and lists it by the first line of its docstring.
"""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING

from archdiff.rules.rule import Finding, Rule

if TYPE_CHECKING:
    from archdiff.problems import Problem
    from archdiff.record import Record

__all__ = ["Finding", "Rule", "all_rules", "check_record"]


@cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule of the shelf, by its declared place and then by name. ValueError where two share a name."""
    found: dict[str, Rule] = {}
    for module in pkgutil.iter_modules(__path__):
        for value in vars(import_module(f"{__name__}.{module.name}")).values():
            if isinstance(value, Rule) and found.setdefault(value.name, value) is not value:
                raise ValueError(f"two rules are called '{value.name}'")
    return tuple(sorted(found.values(), key=lambda known: (known.order, known.name)))


def check_record(record: Record) -> list[Problem]:
    """Everything the rules find in a record, sorted by place in the file; faults and warnings alike."""
    return sorted(_problem(record, known, finding) for known in all_rules() for finding in known.check(record))


def _problem(record: Record, known: Rule, finding: Finding) -> Problem:
    return record.document.problem(
        finding.path, known.name, finding.message, finding.hint, key=finding.key, severity=known.severity
    )
