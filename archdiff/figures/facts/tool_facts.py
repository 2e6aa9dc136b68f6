"""What several families ask of a tool: which are used, and whether one is of the basic kind."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from archdiff.record import Truth
from archdiff.tables import read_table
from archdiff.vocabulary.folding import fold

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.record import Record
    from archdiff.tables import Row

_TOGETHER = re.compile(r"\s*(?:\band\b|\+|,|/|;)\s*")
_SIZE = re.compile(r"\b(?:no\.?\s*|size\s*)?[a-z]{0,2}\d+(?:[.,]\d+)?(?:\s*x\s*\d+(?:[.,]\d+)?)?\s*(?:mm)?\b")


def tools_used(record: Record, *, through: int | None = None) -> dict[str, int]:
    """Each tool that the actions name, with how many name it; `through` is the place of the last action looked at."""
    uses: dict[str, int] = {}
    for action in record.opening if through is None else record.opening[: through + 1]:
        if "tool" in action:
            uses[str(action["tool"])] = uses.get(str(action["tool"]), 0) + 1
    return uses


def is_basic(tool: str) -> Truth:
    """Whether a tool, or each of several named together, is a basic one; not known where no row has the word."""
    answers = {_answer(row) for row in rows_of(tool)}
    if Truth.NO in answers:
        return Truth.NO
    return Truth.UNKNOWN if Truth.UNKNOWN in answers else Truth.YES


def cited(tools: Iterable[str]) -> tuple[str, ...]:
    """The sources that say of these tools whether they are basic, each with how it was checked."""
    rows = (row for tool in tools for row in rows_of(tool) if row is not None)
    return tuple(dict.fromkeys(row.cited for row in rows))


def rows_of(tool: str) -> tuple[Row | None, ...]:
    """The row of the table of basic tools for each tool named; None for a word that it does not have."""
    return tuple(_by_word().get(_plain(word)) for word in _TOGETHER.split(tool) if word)


def _answer(row: Row | None) -> Truth:
    if row is None:
        return Truth.UNKNOWN
    return Truth.YES if row.values["basic"] == "yes" else Truth.NO


def _plain(word: str) -> str:
    return fold(_SIZE.sub(" ", word.casefold()))


@cache
def _by_word() -> Mapping[str, Row]:
    rows = read_table("basic_tools").rows.values()
    return {_plain(word): row for row in rows for word in str(row.values["words"]).split(";")}
