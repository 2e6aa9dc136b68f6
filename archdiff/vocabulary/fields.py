"""From an entry as written (in `terms.yaml` or under a record's `terms`) to a term, strictly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from archdiff.vocabulary.terms import FunctionTerm, MeansTerm, Subsystem

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

_FUNCTION_FIELDS = ("meaning", "synonyms", "subsystem", "found_in", "may_be_embedded", "unknown")
_MEANS_FIELDS = ("meaning", "synonyms", "subsystem", "letter", "drawn_as", "traits")


@dataclass(frozen=True, slots=True)
class Choices:
    """What the fields of a term may hold: name to meaning, sections in their order."""

    subsystems: Mapping[str, Subsystem]
    sections: tuple[str, ...]
    letters: Mapping[str, str]
    drawings: Mapping[str, str]
    traits: Mapping[str, str]


def function_term(name: str, entry: Any, choices: Choices) -> FunctionTerm:
    """Read one entry as a function term; ValueError names the term and what is wrong with it."""
    fields = _Fields(f"function '{name}'", entry, _FUNCTION_FIELDS)
    unknown = fields.truth("unknown")
    return FunctionTerm(
        name,
        fields.text("meaning"),
        fields.texts("synonyms"),
        fields.choice("subsystem", choices.subsystems, "" if unknown else None),
        fields.choices("found_in", choices.sections) or choices.sections,
        fields.truth("may_be_embedded"),
        unknown,
    )


def means_term(name: str, entry: Any, choices: Choices) -> MeansTerm:
    """Read one entry as a means term; ValueError names the term and what is wrong with it."""
    fields = _Fields(f"means '{name}'", entry, _MEANS_FIELDS)
    return MeansTerm(
        name,
        fields.text("meaning"),
        fields.texts("synonyms"),
        fields.choice("subsystem", choices.subsystems, ""),
        fields.choice("letter", choices.letters, ""),
        fields.choice("drawn_as", choices.drawings, "other"),
        frozenset(fields.choices("traits", choices.traits)),
    )


def named_entries(terms: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """Take the entries under `functions` and `means`, either of which may be missing; else ValueError."""
    for name, table in terms.items():
        if name not in ("functions", "means"):
            raise ValueError(f"terms has no '{name}'; it holds functions and means")
        if not isinstance(table, dict) or not all(isinstance(key, str) for key in table):
            raise ValueError(f"{name} under terms must be a mapping from names to their fields")
    return {"functions": terms.get("functions", {}), "means": terms.get("means", {})}


class _Fields:
    """One entry's fields, each read by the kind it must have."""

    def __init__(self, whose: str, entry: Any, known: Collection[str]) -> None:
        if not isinstance(entry, dict):
            raise ValueError(f"{whose} must be a mapping with a meaning")  # noqa: TRY004 - bad data, not a bad call
        for name in entry:
            if name not in known:
                raise ValueError(f"{whose} has no field '{name}'; its fields are {', '.join(known)}")
        self.whose = whose
        self.entry = entry

    def text(self, field: str) -> str:
        value = self.entry.get(field)
        if not _is_word(value):
            raise ValueError(f"{self.whose} needs a {field}")
        return str(value)

    def texts(self, field: str) -> tuple[str, ...]:
        value = self.entry.get(field, ())
        if not isinstance(value, list | tuple) or not all(_is_word(item) for item in value):
            raise ValueError(f"{field} of {self.whose} must be a list of words")
        return tuple(value)

    def truth(self, field: str) -> bool:
        value = self.entry.get(field, False)
        if not isinstance(value, bool):
            raise ValueError(f"{field} of {self.whose} must be true or false")  # noqa: TRY004 - bad data, not a bad call
        return value

    def choice(self, field: str, known: Collection[str], default: str | None) -> str:
        if field not in self.entry and default is not None:
            return default
        return self.known(field, self.text(field), known)

    def choices(self, field: str, known: Collection[str]) -> tuple[str, ...]:
        return tuple(self.known(field, value, known) for value in self.texts(field))

    def known(self, field: str, value: str, known: Collection[str]) -> str:
        if value not in known:
            raise ValueError(f"{field} of {self.whose} is '{value}'; it may be {', '.join(known)}")
        return value


def _is_word(value: Any) -> bool:
    return isinstance(value, str) and bool(value.strip())
