"""Where the rows and columns of a matrix lie, and how wide its fields and the names beside them are; all in px."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from archdiff.page.diagrams.textwidth import width as width_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from archdiff.structure.rows import Row

BOTH = 1196.0
"""What a window of 1280 px leaves for the fields of both sides and the names between them."""
ROOM = 538.0
"""The most that the fields of one side take."""
LEAST = 8.4
"""No pitch is smaller: at this one lines of the smallest type do not run into each other."""
_WIDEST, _COUNTED = 26.0, 40.0  # greatest pitch, without and with counts in the fields
GAP, EDGE = 2.0, 1.0
"""Between groups of rows, and round the fields."""
SMALLEST, LARGEST = 9.0, 11.5
"""Type sizes."""
NUMBERS = 1.3
"""Room for the numbers of the rows, as a multiple of the type size."""
BESIDE = 12.0
"""Beside a name on both sides together."""
_LONGEST = 200.0  # no name takes more room than this; longer ones are broken or cut


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the rows lie, which are the columns too; `counted` where fields hold many pairs and say how many.

    `names` is the width for the numbers and names of the rows.
    """

    rows: Sequence[Row]
    groups: Sequence[str]  # what to call each row's group
    starts: Sequence[float]
    pitch: float
    names: float
    counted: bool

    @property
    def end(self) -> float:
        """Where the last row ends."""
        return round(self.starts[-1] + self.pitch, 1)

    @property
    def width(self) -> float:
        """Width of the picture of one side in px."""
        return self.end + EDGE

    @property
    def size(self) -> float:
        """Type size of names and numbers."""
        return _size(self.pitch)


def grid_of(rows: Sequence[Row], titles: Mapping[str, str], *, counted: bool) -> Grid:
    """The grid of at least one row; `titles` calls the groups."""
    beside = _names(rows)
    pitch = _pitch(rows, min(ROOM, (BOTH - beside) / 2), counted=counted)
    if pitch < LEAST:  # the fields come first: names that are longer are cut
        pitch = min(LEAST, _pitch(rows, ROOM, counted=counted))
    starts, at = [], EDGE
    for place, row in enumerate(rows):
        at += GAP if place and rows[place - 1].group != row.group else 0.0
        starts.append(round(at, 1))
        at += pitch
    groups = [titles.get(row.group, row.group) for row in rows]
    return Grid(rows, groups, starts, pitch, min(beside, math.floor(BOTH - 2 * (at + EDGE))), counted)


def _names(rows: Sequence[Row]) -> float:
    size = LARGEST if len(rows) * LARGEST < ROOM else SMALLEST
    longest = max(width_of(row.label, size) for row in rows)
    return math.ceil(min(longest, _LONGEST) + NUMBERS * size + BESIDE)


def _pitch(rows: Sequence[Row], room: float, *, counted: bool) -> float:
    """The pitch, on a tenth of a px so that every coordinate is short."""
    changes = sum(a.group != b.group for a, b in pairwise(rows))
    free = (room - 2 * EDGE - changes * GAP) / len(rows)
    return math.floor(10 * min(_COUNTED if counted else _WIDEST, free) + 1e-9) / 10


def _size(pitch: float) -> float:
    return round(min(LARGEST, max(SMALLEST, pitch * 0.95)), 1)
