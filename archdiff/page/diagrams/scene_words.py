"""What the tiles and boards of a scene say, taken from the seats and their silence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.page.diagrams.scene import Mark, State
from archdiff.record import UNKNOWN_PURPOSE
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.alignment import Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.record import Element
    from archdiff.record.silence import Silent

_STATES = {
    Silence.NOT_THERE: State.NOT_THERE,
    Silence.NO_SEPARATE_PART: State.EMBEDDED,
    Silence.NOT_LOOKED_AT: State.NOT_LOOKED_AT,
}


def lone_mark(silent: Silent | None) -> Mark:
    """The verdict of a board that one side alone has: known to be alone, or not."""
    return Mark.ONLY if silent is not None and silent.silence.is_known else Mark.UNKNOWN


def ghost_words(pair: Pair) -> tuple[str, str, State]:
    """What a side that shows nothing says of one function and of several, "{}" being these, and how it is drawn."""
    silent = pair.silent
    if pair.site is not None:
        known = silent is not None and silent.silence.is_known
        return "{}: site left empty", "{}: sites left empty", State.NOT_THERE if known else State.NOT_LOOKED_AT
    if silent is not None and silent.further and silent.silence.is_known:
        return "no further {}", "nothing further for {}", _STATES[silent.silence]
    if silent is None or silent.silence is Silence.NOT_LOOKED_AT:
        said = "counterpart not known" if pair.function == UNKNOWN_PURPOSE else "{}: not known"
        return said, said, State.NOT_LOOKED_AT
    if silent.silence is Silence.NO_SEPARATE_PART:
        return "no part of its own for {}", "no parts of their own for {}", _STATES[silent.silence]
    return "no {}", "none of {}", _STATES[silent.silence]


def title(seat: Seat, pair: Pair) -> str:
    """The function, and whether its site was left empty."""
    empty = "" if seat.first.populated else " (site left empty)"
    return pair.function[:1].upper() + pair.function[1:] + empty


def detail(seat: Seat, place: str, inside: Sequence[str]) -> str:
    """By what it is done, in what package or size, where if that needs saying, and what else lives inside."""
    facts = [seat.means, seat.first.text("package") or seat.first.text("size"), place]
    also = f"; also {', '.join(inside)}" if inside else ""
    return ", ".join(fact for fact in facts if fact) + also


def inside(comparison: Comparison) -> dict[str, dict[str, list[str]]]:
    """By side and element id the functions that live inside it and have no tile of their own."""
    found: dict[str, dict[str, list[str]]] = {"left": {}, "right": {}}
    for pair in comparison.pairs:
        if all(seat.embedded_in for seat in pair.seats):
            for side, seat in (("left", pair.left), ("right", pair.right)):
                if seat is not None:
                    found[side].setdefault(seat.embedded_in, []).append(seat.function)
    return found


def tip(seat: Seat) -> str:
    """What the record calls it."""
    return f"{seat.first.label} ({', '.join(seat.ids)})"


def board_detail(board: Element) -> str:
    """Outline and layers, as far as they are recorded."""
    layers = board.text("layers")
    facts = [board.text("outline"), f"{layers} layer{'s' * (layers != '1')}" if layers else ""]
    return ", ".join(fact for fact in facts if fact)
