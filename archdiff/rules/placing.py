"""Placing: each thing is carried by one other thing, and never by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.rules.facts import ids
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Element, Record

_CARRIERS = ("on", "in", "sits_in")
# Words that mean something of their own where an id may stand: under coverage, and at the ends of a path.
_KEYWORDS = {"elsewhere": "all other hosts, under coverage", "air": "the air around", "user": "the user"}


@rule("two-carriers", order=110)
def two_carriers(record: Record) -> Iterator[Finding]:
    """A thing is said to be both on a board and in a piece of the enclosure."""
    for element in record.elements.values():
        if "on" in element.facts and "in" in element.facts:
            board, piece = element.facts["on"], element.facts["in"]
            message = f"{element.id} is said to be on {board} and also in {piece}"
            hint = f"keep 'on: {board}' for what a board carries, else keep 'in: {piece}'"
            yield Finding((*element.path, "in"), message, hint, key=True)


@rule("carried-by-itself", order=111)
def carried_by_itself(record: Record) -> Iterator[Finding]:
    """A chain of 'on', 'in' and 'sits_in' comes back to where it began."""
    done: set[str] = set()
    for element in record.elements.values():
        chain: list[str] = []
        step: Element | None = element
        while step is not None and step.id not in done:
            done.add(step.id)
            chain.append(step.id)
            step = _carrier(record, step)
        if step is not None and step.id in chain:
            loop = chain[chain.index(step.id) :]
            message = f"carried by itself: {' → '.join((*loop, step.id))}"
            yield Finding(step.path, message, "correct one 'on', 'in' or 'sits_in' of this chain", key=True)


@rule("joined-to-itself", order=112)
def joined_to_itself(record: Record) -> Iterator[Finding]:
    """Something is said to join a thing with that same thing."""
    for element in record.elements.values():
        ends = ids(element.facts.get("between"))
        twice = next((index for index, end in enumerate(ends) if end in ends[:index]), None)
        if twice is not None:
            message = f"{element.id} joins {ends[twice]} with itself"
            yield Finding((*element.path, "between", twice), message, "name what it joins at the other end")
        for index, other in enumerate(ids(element.facts.get("joined_to"))):
            if other == element.id:
                yield Finding((*element.path, "joined_to", index), f"{element.id} is joined to itself", "delete it")


@rule("end-without-place", order=113, severity=Severity.WARNING)
def end_without_place(record: Record) -> Iterator[Finding]:
    """An interconnect ends at a thing of which it is not known where it is."""
    for element in record.section("interconnects"):
        for index, name in enumerate(ids(element.facts.get("between"))):
            end = record.elements.get(name)
            if end is not None and not end.hosts and end.id not in record.hosts:
                message = f"{element.id} ends at {name}, and it is not said where {name} is"
                hint = f"say 'on: …' (a board) or 'in: …' (a piece of the enclosure) for {name}"
                yield Finding((*element.path, "between", index), message, hint)


@rule("id-is-a-keyword", order=114)
def id_is_a_keyword(record: Record) -> Iterator[Finding]:
    """An id is a word that has a meaning of its own in a record."""
    for element in record.elements.values():
        if element.id in _KEYWORDS:
            message = f"'{element.id}' cannot be an id: it stands for {_KEYWORDS[element.id]}"
            yield Finding(element.path, message, f"rename it, for example to '{element.id}_1'", key=True)


@rule("ids-nearly-alike", order=115, severity=Severity.WARNING)
def ids_nearly_alike(record: Record) -> Iterator[Finding]:
    """Two ids differ in nothing but capital letters."""
    first: dict[str, str] = {}
    for name, element in record.elements.items():
        other = first.setdefault(name.casefold(), name)
        if other != name:
            message = f"the ids '{name}' and '{other}' differ only in capital letters"
            yield Finding(element.path, message, "rename one of the two, or put both entries together", key=True)


def _carrier(record: Record, element: Element) -> Element | None:
    names = (element.facts.get(name) for name in _CARRIERS)
    return next((record.elements[name] for name in names if isinstance(name, str) and name in record.elements), None)
