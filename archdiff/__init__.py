"""archdiff: compare two electronic products as found on the bench.

The public names load what they need when they are first used, so that importing archdiff costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from archdiff.api import Result, check, compare
    from archdiff.comparison import Comparison
    from archdiff.notes import Notes
    from archdiff.problems import ArchdiffError, EnvironmentTroubleError, FaultyInputError, Problem
    from archdiff.record import Record

__version__ = "0.1.0"

_HOME = {
    "compare": "archdiff.api",
    "check": "archdiff.api",
    "Result": "archdiff.api",
    "Comparison": "archdiff.comparison",
    "Record": "archdiff.record",
    "Notes": "archdiff.notes",
    "Problem": "archdiff.problems",
    "ArchdiffError": "archdiff.problems",
    "FaultyInputError": "archdiff.problems",
    "EnvironmentTroubleError": "archdiff.problems",
}

__all__ = [
    "ArchdiffError",
    "Comparison",
    "EnvironmentTroubleError",
    "FaultyInputError",
    "Notes",
    "Problem",
    "Record",
    "Result",
    "check",
    "compare",
]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'archdiff' has no attribute {name!r}")
    return getattr(import_module(_HOME[name]), name)


def __dir__() -> list[str]:
    return sorted((*globals(), *_HOME))
