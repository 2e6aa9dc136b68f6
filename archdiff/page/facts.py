"""Facts of a record as short text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.record import Element

# Told elsewhere in a row of their own, or of no use to a reader without the file.
_TOLD = frozenset({"name", "function", "means", "evidence", "sure", "on", "in", "count", "note"})


def fact_text(value: Any) -> str:
    """One stated value as text: 'yes', '12 mm', 'main, front', 'diameter 1 mm, length 1.6 mm'."""
    if value is True or value is False:
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{_spaced(key)} {fact_text(inner)}" for key, inner in value.items() if inner is not None)
    if isinstance(value, tuple | list):
        return ", ".join(fact_text(item) for item in value)
    return str(value)


def facts_of(element: Element, leave_out: Iterable[str] = ()) -> list[tuple[str, str]]:
    """(name, value) of every stated fact that is not told in the row anyway, in the order of the file."""
    left_out = _TOLD.union(leave_out)
    return [
        (_spaced(key), fact_text(value))
        for key, value in element.facts.items()
        if key not in left_out and value is not None
    ]


def _spaced(key: Any) -> str:
    return str(key).replace("_", " ")
