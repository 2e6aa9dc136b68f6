"""Values of the comparison in the analyst's own words: `{left.board-count}` in the notes becomes the number itself.

A reference is `{SIDE.NAME}`. SIDE is `left`, `right` or `both`. NAME is

- a figure's id (`board-count` or `board_count`): its value with unit and bounds; under `both` that of a figure of
  the pair, and of any other figure what comparing the two sides shows;
- a property of the product: `name`, `price`, `mass` ...;
- `ID.FACT`: a fact of an element as it was written down, `{left.co2.size}`.

`{{` and `}}` stand for the braces themselves. A reference that names nothing is a fault: prose must not outlive what it
quotes.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from archdiff.problems import FaultyInputError, Problem
from archdiff.wording import amount, names, outcome_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.record import Record
    from archdiff.record.text import Document

_REFERENCE = re.compile(r"\{\{|\}\}|\{([A-Za-z_]+)\.([^{}\s]*)\}")
_SIDES = ("left", "right", "both")
_MARKDOWN = re.compile(r"([\\`*_\[\]<>#|])")
Path = tuple[str | int, ...]


class _NamesNothingError(LookupError):
    """A reference that names nothing; its text says what, `hint` what to write instead."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def with_live_values(comparison: Comparison) -> Comparison:
    """The comparison with every reference in headline and comments of its notes replaced.

    Raises FaultyInputError with all references that name nothing, at their places in the notes file.
    """
    notes = comparison.notes
    filling = _Filling(comparison, notes.document, [])
    headline = filling.text(notes.headline, ("headline",))
    comments = tuple(
        replace(comment, text=filling.text(comment.text, ("comments", index, "text")))
        for index, comment in enumerate(notes.comments)
    )
    if filling.problems:
        raise FaultyInputError(filling.problems)
    return replace(comparison, notes=replace(notes, headline=headline, comments=comments))


@dataclass(slots=True)
class _Filling:
    comparison: Comparison
    document: Document | None
    problems: list[Problem]

    def text(self, text: str, path: Path) -> str:
        def put(found: re.Match[str]) -> str:
            if found[0] in ("{{", "}}"):
                return found[0][0]
            try:
                return _MARKDOWN.sub(r"\\\1", self.value(found[1], found[2]))
            except _NamesNothingError as error:
                self.report(found[0], error, path)
                return found[0]

        return _REFERENCE.sub(put, text)

    def report(self, reference: str, error: _NamesNothingError, path: Path) -> None:
        message = f"{reference} names nothing: {error}"
        if self.document is None:
            self.problems.append(Problem("notes", 1, 1, "no-such-value", message, error.hint))
        else:
            self.problems.append(self.document.problem(path, "no-such-value", message, error.hint))

    def value(self, side: str, name: str) -> str:
        """The text that a reference stands for."""
        if side not in _SIDES:
            raise _NamesNothingError(f"'{side}' is no side", "begin with left, right or both; write {{ for a brace")
        found = self.of_figure(side, name.replace("_", "-"))
        if found is None and side != "both":
            found = _of_record(self.comparison.left if side == "left" else self.comparison.right, name)
        if found is None:
            raise self.nothing(side, name)
        return found

    def of_figure(self, side: str, name: str) -> str | None:
        result = next((r for r in self.comparison.figures if r.figure.id == name), None)
        if result is None:
            return None
        if side == "both":
            of_pair = result.pair is not None
            return amount(result.pair, result.figure)[0] if of_pair else outcome_words(result, names(self.comparison))
        if result.pair is not None:
            raise _NamesNothingError(f"'{name}' is a figure of the pair", f"write {{both.{name}}}")
        return amount(result.left if side == "left" else result.right, result.figure)[0]

    def nothing(self, side: str, name: str) -> _NamesNothingError:
        ids = [r.figure.id for r in self.comparison.figures if side == "both" or r.pair is None]
        record = {"left": self.comparison.left, "right": self.comparison.right}.get(side)
        facts: list[str] = []
        if record is not None:
            element = record.elements.get(name.partition(".")[0])
            facts = [f"{element.id}.{fact}" for fact in element.facts] if element else [*record.product]
        near = difflib.get_close_matches(name.replace("_", "-"), [*ids, *facts], n=1)
        hint = f"did you mean {{{side}.{near[0]}}}?" if near else "'archdiff figures' lists the ids of all figures"
        return _NamesNothingError(f"no figure, property of the product or ID.FACT is called '{name}'", hint)


def _of_record(record: Record, name: str) -> str | None:
    """A property of the product, or a fact of an element, as it was written down; None where there is none."""
    owner, _, fact = name.partition(".")
    if not fact:
        value = record.product.get(name)
        return None if value is None or isinstance(value, tuple | dict) else _as_written(value)
    element = record.elements.get(owner)
    if element is None or isinstance(element.facts.get(fact), tuple | dict):
        return None
    return _as_written(element.facts[fact]) if fact in element.facts else None


def _as_written(value: object) -> str:
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)
