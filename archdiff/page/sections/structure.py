"""Who depends on whom: the design structure matrices of both products in one order."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from archdiff.page.matrix import fields, names, names_again
from archdiff.page.matrix_grid import grid_of
from archdiff.page.matrix_marks import presence_sign, sign
from archdiff.page.seats import called, records
from archdiff.structure import Layer, all_traced, matrix_of
from archdiff.structure.rows import BOARDS, Presence, by_function, by_group, linked_counts, rows_of, ties
from archdiff.wording import counted
from archdiff.wording import names as product_names

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from archdiff.comparison import Comparison
    from archdiff.page.matrix_grid import Grid
    from archdiff.record import Record
    from archdiff.structure.matrix import Mark
    from archdiff.structure.rows import Row, Tie

TITLE = "Structure: what depends on what"
SHORT = "Structure"
ORDER = 45
_MOST = 60  # rows that can still be read beside each other
_LARGEST = 1.4  # times its natural size, however wide the window
# What a row says of a column.
_PHRASES = {
    Layer.SITS: "sits on, in or over {}",
    Layer.JOINED: "joined to {}",
    Layer.FED: "fed by {}",
    Layer.PATH: "next on a path from {}",
    Layer.FASTENED: "fastened to {}",
    Layer.FORCED: "forced by {}",
}
_TOGETHER = {Layer.JOINED: "joined to each other", Layer.FASTENED: "fastened to each other"}
_MEANINGS = {
    Layer.SITS: ("sits on, in or over it", "the row depends on the column"),
    Layer.JOINED: ("joined to it", "by a link or a track; both ways"),
    Layer.FED: ("fed by it", "the row depends on the column"),
    Layer.PATH: ("next after it on a path", "of heat, sound, light, air, radio or touch"),
    Layer.FASTENED: ("fastened to it", "by a joint; both ways"),
    Layer.FORCED: ("forced by it", "as the analyst sees it; in no figure"),
}
_ABSENCES = {
    Presence.NONE: ("none found", "looked for, and not there"),
    Presence.INSIDE: ("no part of its own", "done inside another part or by a link, or it may be"),
    Presence.UNKNOWN: ("not known", "not looked at far enough: it may be there, with any marks"),
}


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Both pictures, their legend, and counts by subsystem as tables; None where nothing is tied to anything."""
    rows = rows_of(comparison.alignment, comparison.left, comparison.right)
    if not rows or not any(any(matrix_of(record).marks.values()) for _, record in records(comparison)):
        return None
    titles = _titles(comparison)
    chosen, unit = _readable(rows, titles)
    grid = grid_of(chosen, titles, counted=unit == "subsystem")
    return {
        "sides": [_side(comparison, grid, side) for side in (0, 1)],
        "widths": _widths(grid),
        "row_names": names(grid),
        "row_names_again": names_again(grid),
        "unit": unit,
        "layers": [(sign(layer), *words) for layer, words in _MEANINGS.items()],
        "absences": [(presence_sign(presence), *words) for presence, words in _ABSENCES.items()],
        "tables": [_table(comparison, by_group(rows), side, titles) for side in (0, 1)],
    }


def _widths(grid: Grid) -> str:
    """What the style sheet needs to lay fields, names and fields beside each other in one scale."""
    fields_wide, both = grid.width, grid.width + grid.names
    most = _LARGEST * (both + fields_wide)
    return (
        f"--fields: {fields_wide:g}; --names: {grid.names:g}; --most: {most:g}px; "
        f"--columns: minmax(0, {both:g}fr) minmax(0, {fields_wide:g}fr)"
    )


def _readable(rows: Sequence[Row], titles: Mapping[str, str]) -> tuple[Sequence[Row], str]:
    """The rows as they are where they can be read, else one a function, else one a subsystem; and what each is."""
    if len(rows) <= _MOST:
        return rows, "pair"
    folded = by_function(rows)
    if len(folded) <= _MOST:
        return folded, "function"
    return [replace(row, label=titles.get(row.group, row.group)) for row in by_group(rows)], "subsystem"


def _titles(comparison: Comparison) -> dict[str, str]:
    titles = {name: term.title for name, term in comparison.left.vocabulary.subsystems.items()}
    return {**titles, BOARDS: "Boards", "": "Not known"}


def _side(comparison: Comparison, grid: Grid, side: int) -> dict[str, Any]:
    name, record = records(comparison)[side]
    matrix = matrix_of(record)
    found = ties(matrix, grid.rows, side)
    tips = {mark: _tip(record, grid.rows, side, mark, tie) for mark, tie in found.items()}
    links = counted(matrix.linked(), "linked pair")
    label = f"Matrix of {product_names(comparison)[side]}: {links} of {matrix.size} things. The table below has counts."
    return {
        "side": name,
        "picture": fields(grid, side, found, tips, label),
        "size": matrix.size,
        "links": links,
        "paths_open": bool(record.section("paths")) and not record.coverage.is_whole("paths"),
        "traced": all_traced(record),
    }


def _tip(record: Record, rows: Sequence[Row], side: int, mark: Mark, tie: Tie) -> str:
    """'humidity sensing: joined to host processing (harness); fed by voltage conversion (v33)'.

    What holds both ways and stands alone is said of both together, in the same words in both fields.
    """
    many = f" ({tie.pairs} pairs of things)" if tie.pairs > 1 else ""
    if len(tie.makers) == 1 and (layer := next(iter(tie.makers))) in _TOGETHER:
        one, other = (_own_label(record, rows[place], side) for place in sorted(mark))
        return f"{one} and {other}: {_TOGETHER[layer]}{_by(record, tie.makers[layer])}{many}"
    row, column = (_own_label(record, rows[place], side) for place in mark)
    said = [_PHRASES[layer].format(column) + _by(record, makers) for layer, makers in tie.makers.items()]
    return f"{row}: {'; '.join(said)}{many}"


def _own_label(record: Record, row: Row, side: int) -> str:
    """What a side calls a row: a board by its own name, not by both."""
    own = row.ids[side]
    return record.elements[own[0]].label if row.group == BOARDS and len(own) == 1 else row.label


def _by(record: Record, makers: Sequence[str]) -> str:
    choices = record.decisions
    words = [str(choices[name]["choice"]) if name in choices else called(record, name) for name in makers]
    return f" ({', '.join(dict.fromkeys(words))})" if words else ""


def _table(comparison: Comparison, rows: Sequence[Row], side: int, titles: Mapping[str, str]) -> dict[str, Any]:
    """Linked pairs of things by subsystem, each pair counted once, in whichever direction it runs."""
    name, record = records(comparison)[side]
    counts = linked_counts(matrix_of(record), rows, side)
    heads = [titles.get(row.group, row.group) for row in rows]
    lines = []
    for a, row in enumerate(rows):
        cells = [_cell(counts, row, rows[b], side, (min(a, b), max(a, b))) for b in range(len(rows))]
        lines.append({"head": heads[a], "cells": cells})
    return {"side": name, "heads": heads, "lines": lines}


def _cell(counts: Mapping[Mark, int], row: Row, column: Row, side: int, mark: Mark) -> str:
    """A count; a dot where none is recorded, a dash where the side has no such things, '?' where nobody looked."""
    if mark in counts:
        return str(counts[mark])
    lacking = {row.presence[side], column.presence[side]} - {Presence.THERE}
    return "?" if Presence.UNKNOWN in lacking else "\N{EN DASH}" if lacking else "·"
