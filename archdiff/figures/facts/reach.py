"""How far the opening leads: what ends a step, and with which step something has come off for good."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.record import Record


def steps_through(record: Record) -> tuple[int, ...]:
    """How many steps have ended with each action, first to last.

    A step ends by setting something free, by parting the supply, or because the next action needs another tool
    ((EU) 2023/1669, annex IV 5); taking up a tool or undoing a fastener alone ends none.
    """
    ended: list[int] = []
    steps, tool, begun = 0, "", False
    for action in record.opening:
        needed = str(action.get("tool", ""))
        if begun and needed and tool and needed != tool:
            steps += 1
        tool, begun = needed or tool, True
        if takes_off(action) or _parts_supply(record, action):
            steps, begun = steps + 1, False
        ended.append(steps)
    return tuple(ended)


def steps_of(record: Record) -> int:
    """How many steps all actions make."""
    return steps_through(record)[-1] if record.opening else 0


def takes_off(action: Mapping[str, Any]) -> bool:
    """Whether the action says that something comes off."""
    return bool(action.get("frees"))


def still_in(record: Record) -> str:
    """In words which boards the recorded actions leave in: two openings that end at other depths compare badly."""
    off = last_comes_off(record)
    kept = [board.label for board in record.boards if board.id not in off]
    return f"no recorded action takes off {' and '.join(kept)}" if kept and record.opening else ""


def last_comes_off(record: Record) -> dict[str, int]:
    """Place, from 0, of the last action that says of an element that it comes off.

    Before that it may have come off together with what carries it.
    """
    return {name: place for place, action in enumerate(record.opening) for name in action.get("frees", ())}


def depths(record: Record, *, whole: bool) -> dict[str, Bounds]:
    """After how many steps each element that comes off has done so for the last time; others are missing.

    Exact where the opening is `whole`; a step that was not recorded can only add to it.
    """
    ended = steps_through(record)
    make = Bounds.exact if whole else Bounds.at_least
    return {name: make(ended[place]) for name, place in last_comes_off(record).items()}


def _parts_supply(record: Record, action: Mapping[str, Any]) -> bool:
    thing = record.elements.get(str(action.get("what", "")))
    return action["do"] == "unplug" and (thing is None or thing.section == "power.entry")
