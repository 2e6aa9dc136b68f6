"""The picture of a design structure matrix: one side's fields as SVG, the names of the rows as another.

Each layer has a shape and a place of its own in a field, so that several can lie on each other and none needs a
colour. What a side does not have is struck through; what nobody looked for is hatched.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from archdiff.page.diagrams.markup import number, tag, text, title
from archdiff.page.diagrams.textwidth import shorten, wrap
from archdiff.page.matrix_marks import band, marks, svg
from archdiff.structure.rows import Presence

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from markupsafe import Markup

    from archdiff.structure.matrix import Mark
    from archdiff.structure.rows import Row, Tie

ROOM, NAMES = 538.0, 126.0  # px for the fields of one side, and for the names between the two sides
_WIDEST, _COUNTED = 26.0, 40.0  # greatest pitch, without and with counts in the fields
_GAP, _EDGE = 2.0, 1.0
_HEADS, _NUMBERS = 70.0, 13.0  # above the fields: names of groups, numbers of columns
_SMALLEST, _LARGEST = 9.0, 11.5  # type sizes
_LINE = 1.1  # of the type size, from line to line
_UPRIGHT = 16.0  # from this pitch on numbers of columns need not be turned
_SIDES = ("left", "right")
_SAID = {
    Presence.INSIDE: "no part of its own",
    Presence.NONE: "none found",
    Presence.UNKNOWN: "not known whether it has one",
}


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the rows lie, which are the columns too; `counted` where fields hold many pairs and say how many."""

    rows: Sequence[Row]
    groups: Sequence[str]  # what to call each row's group
    starts: Sequence[float]
    pitch: float
    counted: bool

    @property
    def end(self) -> float:
        """Where the last row ends."""
        return self.starts[-1] + self.pitch

    @property
    def width(self) -> float:
        """Width of the picture of one side in px."""
        return self.end + _EDGE

    @property
    def size(self) -> float:
        """Type size of names and numbers."""
        return min(_LARGEST, max(_SMALLEST, self.pitch * 0.95))


def grid_of(rows: Sequence[Row], titles: Mapping[str, str], *, counted: bool) -> Grid:
    """The grid of at least one row; `titles` calls the groups."""
    changes = sum(a.group != b.group for a, b in pairwise(rows))
    pitch = min(_COUNTED if counted else _WIDEST, (ROOM - 2 * _EDGE - changes * _GAP) / len(rows))
    starts, at = [], _EDGE
    for place, row in enumerate(rows):
        at += _GAP if place and rows[place - 1].group != row.group else 0.0
        starts.append(at)
        at += pitch
    return Grid(rows, [titles.get(row.group, row.group) for row in rows], starts, pitch, counted)


def fields(grid: Grid, side: int, ties: Mapping[Mark, Tie], tips: Mapping[Mark, str], label: str) -> Markup:
    """One side's fields with the names of the groups above them; `tips` says each mark in words."""
    drawn = [
        *_heads(grid),
        *_bands(grid, side),
        *_lines(grid),
        *(_field(grid, mark, tie, tips[mark]) for mark, tie in ties.items() if mark[0] != mark[1]),
        *(_own_field(grid, place, side, ties.get((place, place))) for place in range(len(grid.rows))),
    ]
    width, height = grid.width, grid.width + _HEADS + _NUMBERS
    body = tag("g", *drawn, transform=f"translate(0 {number(_HEADS + _NUMBERS)})")
    return svg(f"matrix {_SIDES[side]}", width, height, body, role="img", aria_label=label)


def names(grid: Grid, again: str = "") -> Markup:
    """The numbers and names of the rows, to stand beside the fields; hidden from screen readers, who have the table."""
    left = grid.size * 1.3
    drawn = []
    for place, (row, start) in enumerate(zip(grid.rows, grid.starts, strict=True)):
        middle = start + grid.pitch / 2 + grid.size * 0.35 + _HEADS + _NUMBERS
        several = 2 if grid.pitch >= 2 * _LINE * grid.size else 1
        lines, _ = wrap(row.label, grid.size, (NAMES - left - 8,) * several)
        first = middle - (len(lines) - 1) * _LINE * grid.size / 2
        words = [text(w, x=left + 4, y=first + i * _LINE * grid.size) for i, w in enumerate(lines)]
        drawn.append(tag("g", title(row.label), text(str(place + 1), x=left, y=middle, class_="matrix-number"), *words))
    height = grid.width + _HEADS + _NUMBERS
    classes = f"matrix-names {again}".strip()
    return svg(classes, NAMES, height, "".join(drawn), aria_hidden="true", font_size=grid.size)


def _heads(grid: Grid) -> Iterator[str]:
    """Names of the groups, turned, and the numbers of the columns under them."""
    for name, members in groupby(range(len(grid.rows)), key=lambda place: grid.groups[place]):
        places = list(members)
        middle = (grid.starts[places[0]] + grid.starts[places[-1]] + grid.pitch) / 2 + grid.size * 0.35
        words = shorten(name, grid.size, _HEADS - 4)
        yield tag("g", title(name), text(words, class_="matrix-group", transform=_turned(middle, -_NUMBERS - 3),
                  font_size=grid.size))  # fmt: skip
    for place, start in enumerate(grid.starts):
        middle = start + grid.pitch / 2
        if grid.pitch >= _UPRIGHT:
            yield text(str(place + 1), class_="matrix-number middle", x=middle, y=-3, font_size=grid.size)
        else:
            turn = _turned(middle + _SMALLEST * 0.35, -2)
            yield text(str(place + 1), class_="matrix-number turned", transform=turn, font_size=_SMALLEST)


def _turned(x: float, y: float) -> str:
    return f"translate({number(x)} {number(y)}) rotate(-90)"


def _bands(grid: Grid, side: int) -> Iterator[str]:
    """Row and column of everything that this side does not have, or may not have."""
    span = grid.end - _EDGE
    for row, start in zip(grid.rows, grid.starts, strict=True):
        if row.presence[side] is not Presence.THERE:
            across = band(row.presence[side], _EDGE, start, span, grid.pitch)
            down = band(row.presence[side], start, _EDGE, grid.pitch, span)
            yield tag("g", title(f"{row.label}: {_SAID[row.presence[side]]}"), across, down)


def _lines(grid: Grid) -> Iterator[str]:
    """Hairlines between rows, stronger ones between groups, and the frame."""
    span, end = grid.end - _EDGE, grid.end
    for place, start in list(enumerate(grid.starts))[1:]:
        new = grid.rows[place].group != grid.rows[place - 1].group
        at = start - (_GAP / 2 if new else 0.0)
        classes = "matrix-line group" if new else "matrix-line"
        yield tag(
            "path",
            class_=classes,
            d=f"M{number(_EDGE)} {number(at)}H{number(end)}M{number(at)} {number(_EDGE)}V{number(end)}",
        )
    yield tag("rect", class_="matrix-frame", x=_EDGE, y=_EDGE, width=span, height=span)


def _field(grid: Grid, mark: Mark, tie: Tie, tip: str) -> str:
    x, y, pitch = grid.starts[mark[1]], grid.starts[mark[0]], grid.pitch
    if not grid.counted:
        return tag("g", title(tip), marks(tie.makers, x, y, pitch))
    count = text(str(tie.pairs), class_="matrix-count", x=x + pitch - 3, y=y + pitch - 4, font_size=_LARGEST)
    return tag("g", title(tip), marks(tie.makers, x + 2, y + 2, pitch * 0.55), count)


def _own_field(grid: Grid, place: int, side: int, tie: Tie | None) -> str:
    """The field on the diagonal: whether the side has it, and in a counted grid how many pairs lie within."""
    row, start, pitch = grid.rows[place], grid.starts[place], grid.pitch
    presence = row.presence[side]
    words = f"{place + 1} {row.label}" + ("" if presence is Presence.THERE else f": {_SAID[presence]}")
    if presence is Presence.UNKNOWN:
        middle = start + pitch / 2
        shape = text("?", class_="matrix-query", x=middle, y=middle + grid.size * 0.35, font_size=grid.size)
    else:
        inset = pitch * (0.0 if presence is Presence.THERE else 0.3)
        size = pitch - 2 * inset
        kind = {Presence.THERE: "there", Presence.INSIDE: "inside", Presence.NONE: "none"}[presence]
        shape = tag("rect", class_=f"matrix-own {kind}", x=start + inset, y=start + inset, width=size, height=size)
    if grid.counted and tie is not None:
        middle = start + pitch / 2
        shape += text(str(tie.pairs), class_="matrix-within", x=middle, y=middle + _LARGEST * 0.35, font_size=_LARGEST)
    return tag("g", title(words), shape)
