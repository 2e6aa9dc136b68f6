"""Crowding: what lies on one side of one board does not lie twice in one place and has room there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.quantities.bounds import total
from archdiff.record.plan import section
from archdiff.rules.facts import board_of, number, shown, size_of
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds, Size
    from archdiff.record import Element, Record

_FACES = ("top", "bottom")
_LIES_ELSEWHERE = frozenset({"in cut-out", "on its side", "socketed", "wired", "plugged"})
# Bodies that share less than this many mm in either direction may as well touch.
_SLACK = 0.5
# A round or slantwise body surely covers the square within its inner circle: half side over radius.
_SQUARE_IN_CIRCLE = 0.5**0.5


@dataclass(frozen=True, slots=True)
class _Patch:
    """The rectangle that a body covers for certain, in mm."""

    element: Element
    left: float
    right: float
    lower: float
    upper: float

    def meets(self, other: _Patch) -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        up = min(self.upper, other.upper) - max(self.lower, other.lower)
        return across > _SLACK and up > _SLACK


@rule("bodies-overlap", order=210, severity=Severity.WARNING)
def bodies_overlap(record: Record) -> Iterator[Finding]:
    """Two bodies lie in the same place on the same side of one board."""
    for patches in _patches(record).values():
        for one, other in _meeting(patches):
            if _may_share(one.element, other.element):
                continue
            first, second = sorted((one.element, other.element), key=lambda e: _line_of(record, e))
            message = (
                f"{second.id} ({second.facts['size']}) and {first.id} ({first.facts['size']}) overlap on the "
                f"{second.facts['side']} of {second.facts['on']}"
            )
            hint = "correct 'at', 'size' or 'side'; one that lies over the other says 'sits_in' or 'hidden_under'"
            yield Finding((*second.path, "at"), message, hint)


@rule("bodies-above-board-area", order=211, severity=Severity.WARNING)
def bodies_above_board_area(record: Record) -> Iterator[Finding]:
    """The bodies on one side of a board have more area than that side."""
    gathered: dict[tuple[str, str], list[Bounds]] = {}
    for element in record.elements.values():
        size, side = size_of(element.facts), str(element.facts.get("side"))
        if size is not None and side in _FACES and _lies_flat(element) and not _stacked(record, element):
            gathered.setdefault((board_of(record, element), side), []).append(size.area * element.count)
    for (name, side), areas in gathered.items():
        board = record.elements.get(name)
        room = None if board is None else _area(board)
        taken = total(areas)
        if board is not None and room is not None and taken.low > room.high:
            message = (
                f"what is listed on the {side} of {name} takes {shown(taken, 'mm²')}, and one side of it has "
                f"{shown(room, 'mm²')}"
            )
            hint = "check sizes, counts and sides; what lies above other parts says 'sits_in' or 'hidden_under'"
            yield Finding(board.path, message, hint, key=True)


def _line_of(record: Record, element: Element) -> tuple[int, int]:
    spot = record.document.spot(element.path, key=True)
    return spot.line, spot.column


def _area(board: Element) -> Bounds | None:
    outline = size_of(board.facts, "outline")
    stated = number(board.facts, "area")
    return stated if stated is not None else outline.area if outline is not None else None


def _patches(record: Record) -> dict[tuple[str, str], list[_Patch]]:
    found: dict[tuple[str, str], list[_Patch]] = {}
    for element in record.elements.values():
        size, at, side = size_of(element.facts), element.at, element.facts.get("side")
        board = board_of(record, element)
        if size is None or at is None or side not in _FACES or not board or element.count > 1:
            continue
        if not _lies_flat(element):
            continue
        across, up = _half_extents(size, number(element.facts, "turned"))
        patch = _Patch(element, at[0].high - across, at[0].low + across, at[1].high - up, at[1].low + up)
        found.setdefault((board, str(side)), []).append(patch)
    return found


def _half_extents(size: Size, turned: Bounds | None) -> tuple[float, float]:
    width, depth = size.width.low / 2, size.depth.low / 2
    if size.is_round:
        return width * _SQUARE_IN_CIRCLE, width * _SQUARE_IN_CIRCLE
    if turned is not None and turned.is_exact and turned.low % 90 == 0:
        return (width, depth) if turned.low % 180 == 0 else (depth, width)
    least = min(width, depth)
    # Not stated: upright or across. Stated and slantwise, or only roughly known: any angle.
    return (least, least) if turned is None else (least * _SQUARE_IN_CIRCLE, least * _SQUARE_IN_CIRCLE)


def _meeting(patches: list[_Patch]) -> Iterator[tuple[_Patch, _Patch]]:
    """Pairs that meet, by a sweep from left to right: only what is still open is looked at."""
    reached: list[_Patch] = []
    for patch in sorted(patches, key=lambda p: (p.left, p.element.id)):
        reached = [other for other in reached if other.right > patch.left]
        yield from ((other, patch) for other in reached if patch.meets(other))
        reached.append(patch)


def _may_share(one: Element, other: Element) -> bool:
    if _covers(one) or _covers(other):
        return True
    named = (one.facts.get("hidden_under"), one.facts.get("sits_in"))
    named_back = (other.facts.get("hidden_under"), other.facts.get("sits_in"))
    return other.id in named or one.id in named_back


def _covers(element: Element) -> bool:
    """Whether it is the sort of thing that lies over others."""
    return "covers" in section(element.section).plan.properties


def _stacked(record: Record, element: Element) -> bool:
    """Whether it shares its place with something else that counts: it lies over other parts or under one."""
    over = record.elements.get(str(element.facts.get("hidden_under")))
    return _covers(element) or (over is not None and not _covers(over))


def _lies_flat(element: Element) -> bool:
    off_the_face = "sits_in" in element.facts or element.facts.get("mounting") in _LIES_ELSEWHERE
    return element.populated and not off_the_face
