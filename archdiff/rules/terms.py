"""Terms: words that the vocabulary does not know, and functions in a section where nobody expects them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.record import section
from archdiff.rules.facts import leaves
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Record


@rule("unknown-function", order=900, severity=Severity.WARNING)
def unknown_function(record: Record) -> Iterator[Finding]:
    """A function is no term of the vocabulary, so it pairs only with the very same words."""
    for path, plan, value in leaves(record):
        if plan.term == "function" and record.vocabulary.function(str(value)) is None:
            message = f"the function '{value}' is not in the vocabulary"
            hint = _suggest(record.vocabulary.near_functions(str(value)), "functions", str(value))
            yield Finding(path, message, hint)


@rule("unknown-means", order=901, severity=Severity.WARNING)
def unknown_means(record: Record) -> Iterator[Finding]:
    """A means is no term of the vocabulary, so nothing is known of its nature."""
    for path, plan, value in leaves(record):
        if plan.term == "means" and record.vocabulary.means_term(str(value)) is None:
            message = f"the means '{value}' is not in the vocabulary"
            yield Finding(path, message, _suggest(record.vocabulary.near_means(str(value)), "means", str(value)))


@rule("function-in-unusual-section", order=902, severity=Severity.WARNING)
def function_in_unusual_section(record: Record) -> Iterator[Finding]:
    """A function is recorded in a section where it is not looked for."""
    for element in record.elements.values():
        term = record.function_term(element.function)
        if term is None or not term.found_in or element.section in term.found_in or "function" not in element.facts:
            continue
        if not section(element.section).holds_seats:
            continue
        places = ", ".join(term.found_in)
        message = f"'{term.name}' is recorded under '{element.section}', and it is looked for under: {places}"
        hint = f"move {element.id} there, or choose another function"
        yield Finding((*element.path, "function"), message, hint)


def _suggest(found: list[str], kind: str, word: str) -> str:
    fields = "meaning: …, subsystem: …" if kind == "functions" else "meaning: …"
    own = f"or describe it under 'terms': {{{kind}: {{{word}: {{{fields}}}}}}}"
    if not found:
        return own.removeprefix("or ")
    names = " or ".join(f"'{name}'" for name in found)
    return f"did you mean {names}? {own}"
