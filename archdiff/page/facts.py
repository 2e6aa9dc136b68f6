"""Facts of a record as short text."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from archdiff.quantities import Quantity, Size

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.record import Element

Phrase = str | Callable[[Any], str]  # "{} pitch", or what makes the words from the value

# Told elsewhere in a row of their own, or of no use to a reader without the file.
_TOLD = frozenset({"name", "function", "means", "evidence", "sure", "on", "in", "count", "note"})


# Keyboard spellings in quantities and how they are set in print.
_SETTING: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"(?<=[a-z])2\b"), "²"),
    (re.compile(r"(?<=[a-z])3\b"), "³"),
    (re.compile(r"\s+x\s+"), " × "),  # noqa: RUF001 - the sign is meant
    (re.compile(r"\.\.\.?"), "…"),
    (re.compile(r"\bu(?=[mAWFHsV]\b)"), "µ"),
    (re.compile(r"\bdegC\b"), "°C"),
    (re.compile(r"\bohm\b"), "Ω"),
    (re.compile(r"(?<=N)\*m\b"), "·m"),
)


def set_quantity(text: str) -> str:
    """A quantity's text as it is set in print: '30 mm²', '40…70 s', '74 × 52 mm'."""  # noqa: RUF002 - the sign is meant
    for spelled, printed in _SETTING:
        text = spelled.sub(printed, text)
    return text


def fact_text(value: Any) -> str:
    """One stated value as text: 'yes', '12 mm', 'main, front', 'diameter 1 mm, length 1.6 mm'."""
    if value is True or value is False:
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{_spaced(key)} {fact_text(inner)}" for key, inner in value.items() if inner is not None)
    if isinstance(value, tuple | list):
        return ", ".join(fact_text(item) for item in value)
    return set_quantity(str(value)) if isinstance(value, Quantity | Size) else str(value)


def told(facts: Mapping[str, Any], phrases: Mapping[str, Phrase]) -> list[str]:
    """The stated facts that have a phrase, in the order of the phrases: '0.5 mm pitch', '8 ways', 'detachable'."""
    said = []
    for key, phrase in phrases.items():
        if facts.get(key) is not None:
            said.append(phrase(facts[key]) if callable(phrase) else phrase.format(fact_text(facts[key])))
    return said


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
