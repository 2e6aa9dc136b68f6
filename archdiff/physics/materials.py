"""Materials and finishes by the words a record uses for them."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from archdiff.tables import read_table
from archdiff.vocabulary.folding import fold

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.tables import Row


def material_named(words: str) -> Row | None:
    """The row of a material by its name or one of its synonyms; None for one that the table does not hold."""
    return _by_name("materials").get(fold(words))


def finish_named(words: str) -> Row | None:
    """The row of a finish by its name or one of its synonyms; None for one that the table does not hold."""
    return _by_name("finishes").get(fold(words))


@cache
def known_conductivities() -> tuple[float, float]:
    """The least and the greatest conductivity in W/(m K) that any material of the table may have."""
    spans = [row.span("conductivity") for row in read_table("materials").rows.values()]
    return min(low for low, _ in spans), max(high for _, high in spans)


@cache
def _by_name(table: str) -> Mapping[str, Row]:
    """Every spelling, folded, with its row; ValueError where two rows claim one."""
    found: dict[str, Row] = {}
    for row in read_table(table).rows.values():
        for name in (row.key, *str(row.values.get("also", "")).split(", ")):
            if name and found.setdefault(fold(name), row) is not row:
                raise ValueError(f"{table}: '{name}' stands for both {found[fold(name)].key} and {row.key}")
    return found
