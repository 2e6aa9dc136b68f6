"""The picture of a design structure matrix: one side's fields as SVG, the names of the rows as another.

Each layer has a shape and a place of its own in a field, so that several can lie on each other and none needs a
colour. What a side does not have is struck through; what nobody looked for is hatched.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from archdiff.page.diagrams.markup import number, tag, text, title
from archdiff.page.diagrams.textwidth import shorten, wrap
from archdiff.page.matrix_grid import BESIDE, EDGE, GAP, LARGEST, NUMBERS, SMALLEST
from archdiff.page.matrix_marks import (
    PAINTED,
    ground_class,
    line_class,
    mark_class,
    mark_width,
    marks,
    outline,
    short,
    svg,
)
from archdiff.structure.rows import Presence

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from markupsafe import Markup

    from archdiff.page.matrix_grid import Grid
    from archdiff.structure.matrix import Mark
    from archdiff.structure.rows import Tie

_HEADS, _NUMBERS = 70.0, 12.0  # above the fields: names of groups, a row of numbers of columns
_CROWDED = 9.4  # below this pitch numbers of columns stand in two rows by turns, or they would touch
_LINE = 1.1  # of the type size, from line to line
_UPRIGHT = 16.0  # from this pitch on numbers of columns need not be turned
_SIDES = ("left", "right")
_GROUND, _NAMES = "matrix-ground", "matrix-rows"  # ids of what is drawn once and shown twice
_SAID = {
    Presence.INSIDE: "no part of its own",
    Presence.NONE: "none found",
    Presence.UNKNOWN: "not known whether it has one",
}


def fields(grid: Grid, side: int, ties: Mapping[Mark, Tie], tips: Mapping[Mark, str], label: str) -> Markup:
    """One side's fields with the names of the groups above them; `tips` says each mark in words.

    Heads and lines are drawn with the left side; the right one shows them again.
    """
    tied = {mark: tie for mark, tie in ties.items() if mark[0] != mark[1]}
    drawn = [
        *_bands(grid, side),
        tag("g", *_heads(grid), *_lines(grid), id=_GROUND) if side == 0 else tag("use", href=f"#{_GROUND}"),
        *(_counted_fields if grid.counted else _plain_fields)(grid, tied, tips),
        *_own_fields(grid, side, ties),
    ]
    width, height = grid.width, grid.width + _above(grid)
    body = tag("g", *drawn, transform=f"translate(0 {number(_above(grid))})")
    return svg(f"matrix {_SIDES[side]}", width, height, body, role="img", aria_label=label)


def _above(grid: Grid) -> float:
    """The height of all that stands above the fields."""
    return _HEADS + _levels(grid) * _NUMBERS


def _levels(grid: Grid) -> int:
    return 2 if grid.pitch < _CROWDED else 1


def names(grid: Grid) -> Markup:
    """The numbers and names of the rows, to stand beside the fields; hidden from screen readers, who have the table."""
    left = grid.size * NUMBERS
    lines = _above(grid) + grid.pitch / 2 + grid.size * 0.35
    feet = [start + lines for start in grid.starts]
    numbers = [tag("text", str(place), y=short(foot)) for place, foot in enumerate(feet, 1)]
    room = (grid.names - left - BESIDE + 4,) * (2 if grid.pitch >= 2 * _LINE * grid.size else 1)
    words = [_name(row.label, foot, grid.size, room) for row, foot in zip(grid.rows, feet, strict=True)]
    body = [
        tag("g", *numbers, class_="matrix-number", transform=f"translate({number(left)} 0)"),
        tag("g", *words, transform=f"translate({number(left + 4)} 0)"),
    ]
    return _beside(grid, "matrix-names", tag("g", *body, id=_NAMES))


def names_again(grid: Grid) -> Markup:
    """The same once more, for where the sides stand one above the other."""
    return _beside(grid, "matrix-names again", tag("use", href=f"#{_NAMES}"))


def _beside(grid: Grid, classes: str, body: str) -> Markup:
    height = grid.width + _above(grid)
    return svg(classes, grid.names, height, body, aria_hidden="true", font_size=grid.size)


def _name(label: str, foot: float, size: float, room: tuple[float, ...]) -> str:
    """A name in one line or two; what had to be cut has the whole in its tip."""
    lines, whole = wrap(label, size, room)
    first = foot - (len(lines) - 1) * _LINE * size / 2
    words = "".join(text(line, y=short(first + i * _LINE * size)).rstrip() for i, line in enumerate(lines))
    return words if whole else tag("g", title(label), words)


def _heads(grid: Grid) -> Iterator[str]:
    """Names of the groups, turned, and the numbers of the columns under them."""
    heads = []
    for name, members in groupby(range(len(grid.rows)), key=lambda place: grid.groups[place]):
        places = list(members)
        middle = (grid.starts[places[0]] + grid.starts[places[-1]] + grid.pitch) / 2 + grid.size * 0.35
        words = shorten(name, grid.size, _HEADS - 4)
        head = text(words, y=short(middle))
        heads.append(head if words == name else tag("g", title(name), head))
    where = f"rotate(-90) translate({number(_levels(grid) * _NUMBERS + 4)} 0)"
    yield tag("g", *heads, class_="matrix-group", transform=where, font_size=grid.size)
    yield from _column_numbers(grid)


def _column_numbers(grid: Grid) -> Iterator[str]:
    middles = [(place, start + grid.pitch / 2) for place, start in enumerate(grid.starts, 1)]
    if grid.pitch >= _UPRIGHT:
        upright = (tag("text", str(place), x=short(at)) for place, at in middles)
        yield tag("g", *upright, class_="matrix-number middle", transform="translate(0 -3)", font_size=grid.size)
        return
    levels = _levels(grid)
    for level in range(levels):
        turned = (tag("text", str(place), y=short(at + SMALLEST * 0.35)) for place, at in middles[level::levels])
        where = f"rotate(-90) translate({number(2 + level * _NUMBERS)} 0)"
        yield tag("g", *turned, class_="matrix-number turned", transform=where, font_size=SMALLEST)


def _bands(grid: Grid, side: int) -> Iterator[str]:
    """Row and column of everything that this side does not have, or may not have."""
    for presence, said in _SAID.items():
        found = [place for place, row in enumerate(grid.rows) if row.presence[side] is presence]
        if not found:
            continue
        ways = {place: _cross(grid, grid.starts[place] + grid.pitch / 2) for place in found}
        grounds = (tag("path", title(f"{p + 1} {grid.rows[p].label}: {said}"), d=way) for p, way in ways.items())
        yield tag("g", *grounds, class_=ground_class(presence), stroke_width=grid.pitch)
        if presence is not Presence.UNKNOWN:
            yield tag("path", class_=line_class(presence), d="".join(ways.values()))


def _cross(grid: Grid, at: float) -> str:
    """The way along a row and down the column of the same number."""
    low, end = short(EDGE), short(grid.end)
    return f"M{low} {short(at)}H{end}M{short(at)} {low}V{end}"


def _lines(grid: Grid) -> Iterator[str]:
    """Hairlines between rows, stronger ones between groups, and the frame."""
    plain, strong = "", ""
    for place, start in list(enumerate(grid.starts))[1:]:
        if grid.rows[place].group != grid.rows[place - 1].group:
            strong += _cross(grid, start - GAP / 2)
        else:
            plain += _cross(grid, start)
    yield tag("path", class_="matrix-line", d=plain) if plain else ""
    yield tag("path", class_="matrix-line group", d=strong) if strong else ""
    span = grid.end - EDGE
    yield tag("rect", class_="matrix-frame", x=EDGE, y=EDGE, width=short(span), height=short(span))


def _plain_fields(grid: Grid, ties: Mapping[Mark, Tie], tips: Mapping[Mark, str]) -> Iterator[str]:
    """Fields with one mark by their layer, then those with several, each with its tip."""
    single = {mark: next(iter(tie.makers)) for mark, tie in ties.items() if len(tie.makers) == 1}
    for layer in PAINTED:
        ways: dict[str, str] = {}  # what holds both ways is one path under one tip
        for mark, its in single.items():
            if its is layer:
                ways[tips[mark]] = ways.get(tips[mark], "") + outline(layer, *_corner(grid, mark), grid.pitch)
        drawn = [tag("path", title(tip), d=way) for tip, way in ways.items()]
        if drawn:
            yield tag("g", *drawn, class_=mark_class(layer), stroke_width=mark_width(layer, grid.pitch))
    for mark, tie in ties.items():
        if mark not in single:
            yield tag("g", title(tips[mark]), marks(tie.makers, *_corner(grid, mark), grid.pitch))


def _corner(grid: Grid, mark: Mark) -> tuple[float, float]:
    return grid.starts[mark[1]], grid.starts[mark[0]]


def _counted_fields(grid: Grid, ties: Mapping[Mark, Tie], tips: Mapping[Mark, str]) -> Iterator[str]:
    for mark, tie in ties.items():
        x, y = _corner(grid, mark)
        count = text(str(tie.pairs), class_="matrix-count", x=short(x + grid.pitch - 3), y=short(y + grid.pitch - 4))
        yield tag("g", title(tips[mark]), marks(tie.makers, x + 2, y + 2, grid.pitch * 0.55), count, font_size=LARGEST)


def _own_fields(grid: Grid, side: int, ties: Mapping[Mark, Tie]) -> Iterator[str]:
    """The fields on the diagonal: whether the side has it, and in a counted grid how many pairs lie within.

    Where it has not, or may not have it, the row and the column say so in words.
    """
    places = {presence: _having(grid, side, presence) for presence in Presence}
    yield tag("g", *_there(grid, places[Presence.THERE]), class_="matrix-own", stroke_width=grid.pitch + 1)
    small = [_square(grid.starts[p] + 0.3 * grid.pitch, 0.4 * grid.pitch) for p in places[Presence.INSIDE]]
    if small:
        yield tag("path", class_="matrix-own inside", d="".join(small))
    queries = [_on_diagonal(grid, p, "?", grid.size) for p in places[Presence.UNKNOWN]]
    if queries:
        yield tag("g", *queries, class_="matrix-query", font_size=grid.size)
    within = [_on_diagonal(grid, p, str(ties[p, p].pairs), LARGEST) for p in range(len(grid.rows)) if (p, p) in ties]
    if grid.counted and within:
        yield tag("g", *within, class_="matrix-within", font_size=LARGEST)


def _having(grid: Grid, side: int, presence: Presence) -> Sequence[int]:
    return [place for place, row in enumerate(grid.rows) if row.presence[side] is presence]


def _there(grid: Grid, places: Sequence[int]) -> Iterator[str]:
    """Full fields, each a stroke as wide as the field."""
    for place in places:
        start = grid.starts[place]
        way = f"M{short(start - 0.5)} {short(start + grid.pitch / 2)}h{short(grid.pitch + 1)}"
        yield tag("path", title(f"{place + 1} {grid.rows[place].label}"), d=way)


def _square(start: float, size: float) -> str:
    return f"M{short(start)} {short(start)}h{short(size)}v{short(size)}h-{short(size)}z"


def _on_diagonal(grid: Grid, place: int, words: str, size: float) -> str:
    middle = grid.starts[place] + grid.pitch / 2
    return text(words, x=short(middle), y=short(middle + size * 0.35))
