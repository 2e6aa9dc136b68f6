"""Which board carries which function on the two sides, and the least set of moves between the two."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import pair_anchor
from archdiff.page.bands import Band, bands
from archdiff.page.seats import called
from archdiff.quantities import plain
from archdiff.wording import counted

if TYPE_CHECKING:
    from archdiff.alignment import Move, Pair
    from archdiff.comparison import Comparison

TITLE = "Partition: which board carries what"
SHORT = "Partition"
ORDER = 40


def view(comparison: Comparison) -> dict[str, Any] | None:
    """The picture, the overlap table and the moves; None where no function is placed on both sides."""
    partition = comparison.partition
    if not partition.placed:
        return None
    lefts = {host: called(comparison.left, host) for host in partition.left_hosts}
    rights = {host: called(comparison.right, host) for host in partition.right_hosts}
    flows = [
        Band(left, right, len(pairs), partition.matched.get(left) != right)
        for (left, right), pairs in partition.table.items()
        if pairs
    ]
    return {
        "picture": bands(lefts, rights, flows, partition.matched),
        "lefts": list(lefts.values()),
        "rights": list(rights.values()),
        "rows": [_row(comparison, left, label) for left, label in lefts.items()],
        "moves": [_move(comparison, move) for move in partition.moves],
        "sums": _sums(comparison),
        "unplaced": [_named(comparison, pair) for pair in partition.unplaced],
    }


def _row(comparison: Comparison, left: str, label: str) -> dict[str, Any]:
    partition = comparison.partition
    cells = []
    for right in partition.right_hosts:
        pairs = partition.table.get((left, right), ())
        tip = ", ".join(dict.fromkeys(pair.function for pair in pairs))
        cells.append({"count": len(pairs), "tip": tip, "matched": partition.matched.get(left) == right})
    return {"label": label, "cells": cells}


def _move(comparison: Comparison, move: Move) -> dict[str, Any]:
    return {"text": move.text, "pairs": [_named(comparison, pair) for pair in move.pairs]}


def _named(comparison: Comparison, pair: Pair) -> dict[str, str]:
    return {"function": pair.function, "anchor": pair_anchor(comparison, pair)}


def _sums(comparison: Comparison) -> str:
    partition = comparison.partition
    staying = partition.placed - partition.distance
    words = f"Of {counted(partition.placed, 'paired function')} whose place is known on both sides, "
    words += f"{staying} sit on boards that correspond and {partition.distance} would have to move. "
    words += "What joins two boards or pieces lies on both and is not counted here."
    if partition.ari is not None:
        words += f" Adjusted Rand index {plain(partition.ari)} (1: cut alike; 0: no more alike than by chance)."
    return words
