"""Geometry: bodies and cut-outs lie on their boards. Only what is certain whatever the bounds is said.

Positions are those of middles, from the lower left corner of the host seen from its top side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.record import as_bounds
from archdiff.rules.facts import board_of, number, shown, size_of
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds, Size
    from archdiff.record import Element, Record

# Positions are read off photos: what reaches over by less than this many mm is not spoken of.
_SLACK = 0.5
# Bodies that do not lie flat on the face of their board.
_OFF_THE_FACE = frozenset({"in cut-out", "on its side", "wired", "plugged"})


@dataclass(frozen=True, slots=True)
class _Core:
    """A body's least half extents in mm, across and up, whatever is not known of how it is turned."""

    across: float
    up: float


def _core(size: Size, turned: Bounds | None) -> _Core:
    width, depth = size.width.low / 2, size.depth.low / 2
    if turned is None:
        return _Core(min(width, depth), min(width, depth))
    if size.is_round or (turned.is_exact and turned.low % 180 == 0):
        return _Core(width, depth)
    if turned.is_exact and turned.low % 90 == 0:
        return _Core(depth, width)
    return _Core(min(width, depth), min(width, depth))


def _over(at: tuple[Bounds, Bounds], core: _Core, outline: Size) -> float:
    """By how many mm the body reaches over the outline at the least; 0 or below where it may lie within."""
    (across, up) = at
    if not outline.is_round:
        sides = (
            core.across - across.high,
            core.up - up.high,
            across.low + core.across - outline.width.high,
            up.low + core.up - outline.depth.high,
        )
        return max(sides)
    radius = outline.width.high / 2
    # The middle of a round board is only known as well as its diameter is.
    away = [max(0.0, place.low - radius, outline.width.low / 2 - place.high) for place in (across, up)]
    return math.hypot(*away) + min(core.across, core.up) - radius


@rule("part-outside-board", order=200)
def part_outside_board(record: Record) -> Iterator[Finding]:
    """The body of a part reaches over the edge of its board."""
    for board, outline, element in _on_outlines(record):
        size, at = size_of(element.facts), element.at
        at_edge = element.facts.get("side") == "edge" or "edge" in element.facts
        if size is None or at is None or at_edge or element.facts.get("mounting") in _OFF_THE_FACE:
            continue
        over = _over(at, _core(size, number(element.facts, "turned")), outline)
        if over > _SLACK:
            place = f"[{shown(at[0])}, {shown(at[1])}] mm"
            message = (
                f"{element.id} ({size}) with its middle at {place} reaches at least {over:.3g} mm over the edge of "
                f"{board.id} ({outline})"
            )
            hint = "correct 'at', 'size' or 'on'; say 'side: edge' or 'edge: …' where it stands out on purpose"
            yield Finding((*element.path, "at"), message, hint)


@rule("position-outside-board", order=201)
def position_outside_board(record: Record) -> Iterator[Finding]:
    """The middle of a thing without a stated size lies off its board."""
    for board, outline, element in _on_outlines(record):
        if element.at is None or size_of(element.facts) is not None:
            continue
        over = _over(element.at, _Core(0.0, 0.0), outline)
        if over > _SLACK:
            message = f"the middle of {element.id} lies {over:.3g} mm off {board.id} ({outline})"
            yield Finding((*element.path, "at"), message, "correct 'at' or 'on'")


@rule("cut-out-outside-board", order=202)
def cut_out_outside_board(record: Record) -> Iterator[Finding]:
    """A cut-out reaches over the edge of its board."""
    for board in record.boards:
        outline = size_of(board.facts, "outline")
        for index, hole in enumerate(board.facts.get("cut_outs", ())):
            at = [as_bounds(value) for value in hole.get("at", ())]
            size = size_of(hole)
            if outline is None or size is None or len(at) != 2 or at[0] is None or at[1] is None:  # noqa: PLR2004
                continue
            over = _over((at[0], at[1]), _core(size, None), outline)
            if over > _SLACK:
                message = (
                    f"this cut-out ({size}) reaches at least {over:.3g} mm over the edge of {board.id} ({outline})"
                )
                hint = "correct 'at' or 'size'; a notch at the edge ends at the edge"
                yield Finding((*board.path, "cut_outs", index), message, hint)


@rule("body-larger-than-board", order=203, severity=Severity.WARNING)
def body_larger_than_board(record: Record) -> Iterator[Finding]:
    """A thing is larger than the board that carries it."""
    for board, outline, element in _on_outlines(record):
        size = size_of(element.facts)
        if size is None or element.facts.get("mounting") in _OFF_THE_FACE:
            continue
        short, long = sorted((size.width.low, size.depth.low))
        room_short, room_long = sorted((outline.width.high, outline.depth.high))
        if short > room_short + _SLACK or long > math.hypot(room_short, room_long) + _SLACK:
            message = f"{element.id} ({size}) is larger than its board {board.id} ({outline})"
            hint = "check both sizes; a thing that is only wired to the board is 'in' a piece of the enclosure"
            yield Finding((*element.path, "size"), message, hint)


@rule("area-above-outline", order=204)
def area_above_outline(record: Record) -> Iterator[Finding]:
    """A board is said to have more area than its outline encloses."""
    for board in record.boards:
        area, outline = number(board.facts, "area"), size_of(board.facts, "outline")
        if area is not None and outline is not None and area.low > outline.area.high * 1.001:
            message = (
                f"one side of {board.id} is said to have {shown(area, 'mm²')}, and its outline ({outline}) encloses "
                f"only {shown(outline.area, 'mm²')}"
            )
            hint = "state the area of one side, not of both; or correct 'outline'"
            yield Finding((*board.path, "area"), message, hint)


def _on_outlines(record: Record) -> Iterator[tuple[Element, Size, Element]]:
    """(board, its outline, element) for everything on one board of known outline."""
    for element in record.elements.values():
        board = record.elements.get(board_of(record, element))
        if board is None or board is element or element.facts.get("on") != board.id:
            continue
        outline = size_of(board.facts, "outline")
        if outline is not None:
            yield board, outline, element
