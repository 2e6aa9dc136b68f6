"""Which board carries which function on the two sides, and the least set of moves between the two."""

from __future__ import annotations

from string import ascii_lowercase
from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import pair_anchor
from archdiff.page.bands import Band, bands
from archdiff.page.seats import called
from archdiff.quantities import plain
from archdiff.wording import counted, names

if TYPE_CHECKING:
    from archdiff.alignment import HostGroup, Move, Pair
    from archdiff.comparison import Comparison

    Letters = dict[tuple[str, str], str]

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
    letters = {(move.left_host, move.right_host): _letter(place) for place, move in enumerate(partition.moves)}
    flows = [
        Band(*hosts, len(pairs), partition.matched.get(hosts[0]) != hosts[1], letters.get(hosts, ""))
        for hosts, pairs in partition.table.items()
        if pairs
    ]
    return {
        "picture": bands(lefts, rights, flows, partition.matched, names(comparison)),
        "rights": list(rights.values()),
        "rows": [_row(comparison, left, label, letters) for left, label in lefts.items()],
        "moves": [_move(comparison, move, letters) for move in partition.moves],
        "groups": [_group(comparison, group) for group in comparison.alignment.groups],
        "sums": _sums(comparison),
        "unplaced": [_named(comparison, pair) for pair in partition.unplaced],
    }


def _letter(place: int) -> str:
    """What a move is called by: a to z, then aa, ab and so on."""
    before, own = divmod(place, len(ascii_lowercase))
    return (_letter(before - 1) if before else "") + ascii_lowercase[own]


def _row(comparison: Comparison, left: str, label: str, letters: Letters) -> dict[str, Any]:
    partition = comparison.partition
    cells = []
    for right in partition.right_hosts:
        pairs = partition.table.get((left, right), ())
        cells.append(
            {
                "count": len(pairs),
                "tip": ", ".join(dict.fromkeys(pair.function for pair in pairs)),
                "matched": partition.matched.get(left) == right,
                "letter": letters.get((left, right), ""),
            }
        )
    return {"label": label, "cells": cells}


def _move(comparison: Comparison, move: Move, letters: Letters) -> dict[str, Any]:
    way = move.way or move.text
    return {
        "letter": letters[move.left_host, move.right_host],
        "way": way[:1].upper() + way[1:],
        "there": called(comparison.right, move.right_host),
        "pairs": [_named(comparison, pair) for pair in move.pairs],
    }


def _group(comparison: Comparison, group: HostGroup) -> dict[str, Any]:
    """Several boards of one product beside one of the other: the analyst's word, or a suggestion to confirm."""
    sides = list(zip((comparison.left, comparison.right), (group.left, group.right), names(comparison), strict=True))
    several, one = sides if len(group.left) > 1 else sides[::-1]
    tied = any((match.left, match.right) == (group.left, group.right) for match in comparison.notes.same_board)
    return {
        "several": " and ".join(called(several[0], host) for host in several[1]),
        "of": several[2],
        "one": " and ".join(called(one[0], host) for host in one[1]),
        "of_one": one[2],
        "tied": tied,
    }


def _named(comparison: Comparison, pair: Pair) -> dict[str, str]:
    return {"function": pair.function, "anchor": pair_anchor(comparison, pair)}


def _sums(comparison: Comparison) -> str:
    partition = comparison.partition
    staying = partition.placed - partition.distance
    words = f"Of {counted(partition.placed, 'paired function')} whose place is known on both sides, "
    words += f"{staying} lie on boards or pieces that correspond and {partition.distance} would have to move. "
    if partition.untied is not None:
        words += f"With boards and pieces paired otherwise than the analyst ties them, {partition.untied} would do. "
    words += "What joins two boards or pieces lies on both and is not counted here."
    if partition.ari is not None:
        words += f" Adjusted Rand index {plain(partition.ari)} (1: cut alike; 0: no more alike than by chance)."
    return words
