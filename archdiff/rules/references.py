"""References: every id that an entry names is one that the record has, and of the kind that is wanted there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.record.plan import section
from archdiff.rules.facts import Path, leaves, near
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from archdiff.record import Record

# The other word for what carries something: the one that fits a board and the one that fits a piece.
_CARRIED = {"on": "in", "in": "on"}


@rule("no-such-id", order=100)
def no_such_id(record: Record) -> Iterator[Finding]:
    """An entry names an id that nothing in the record has."""
    for path, wanted, name in _references(record):
        if name in record.elements or name in record.evidence:
            continue
        kinds = _in_words(wanted)
        known = _known(record, wanted)
        hint = near(name, known, f"name {kinds}, or add the missing entry '{name}'")
        yield Finding(path, f"nothing in this record has the id '{name}'", hint)


@rule("id-of-the-wrong-kind", order=101)
def id_of_the_wrong_kind(record: Record) -> Iterator[Finding]:
    """An entry names something that exists but cannot stand there."""
    for path, wanted, name in _references(record):
        if _is_one_of(record, wanted, name) or (name not in record.elements and name not in record.evidence):
            continue
        is_under = record.elements[name].section if name in record.elements else "evidence"
        message = f"'{name}' is one of {_word(is_under)}, and {_in_words(wanted)} is wanted here"
        yield Finding(path, message, _better_place(record, path, name, is_under, wanted))


def _references(record: Record) -> Iterator[tuple[Path, tuple[str, ...], str]]:
    for path, plan, value in leaves(record):
        if plan.refers_to:
            yield path, plan.refers_to, str(value)


def _is_one_of(record: Record, wanted: tuple[str, ...], name: str) -> bool:
    if wanted == ("evidence",):
        return name in record.evidence
    element = record.elements.get(name)
    return element is not None and (wanted == ("*",) or element.section in wanted)


def _known(record: Record, wanted: tuple[str, ...]) -> Collection[str]:
    if wanted == ("*",):
        return record.elements
    if wanted == ("evidence",):
        return record.evidence
    return {element.id for name in wanted for element in record.section(name)}


def _better_place(record: Record, path: Path, name: str, is_under: str, wanted: tuple[str, ...]) -> str:
    stated = str(path[-1])
    other = _CARRIED.get(stated, "")
    owner = record.elements.get(str(path[-2])) if len(path) > 1 else None
    if owner is not None and other:
        target = section(owner.section).plan.properties.get(other)
        if target is not None and is_under in target.refers_to:
            return f"write '{other}: {name}' instead of '{stated}: {name}'"
    return near(name, _known(record, wanted), f"name {_in_words(wanted)}")


def _in_words(wanted: tuple[str, ...]) -> str:
    return "an element" if wanted == ("*",) else "one of " + " or ".join(_word(name) for name in wanted)


def _word(name: str) -> str:
    return f"'{name.replace('.', ' → ')}'"
