"""What a hand does in each action of the opening, and how long that takes by predetermined times.

Motions that are the same in every product have times from a table. How long it takes to undo one fastener does
not stand there: the record states it, with where it comes from.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from archdiff.figures.facts.reach import takes_off
from archdiff.physics import motions
from archdiff.quantities import Bounds
from archdiff.record import as_bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record
    from archdiff.tables import Row

# Sections whose entries can state how long undoing one takes.
_TIMED_EACH = ("joints", "interconnects", "power.entry")
_TAKING_OFF = frozenset({"lift", "slide", "pull", "remove battery"})
_PROCESS = frozenset({"wait", "heat", "discharge"})
_TURNING = "turn over"


@dataclass(frozen=True, slots=True)
class Handling:
    """One action: how often each motion of the table is made, and the time in s of the undoing itself.

    `undoing` is None where neither record nor table tells it; `source` is where the record has it from.
    """

    motions: Mapping[str, int]
    undoing: Bounds | None
    source: str = ""

    @property
    def seconds(self) -> Bounds | None:
        """Time in s of the whole action; None where that of the undoing is not known."""
        return None if self.undoing is None else self.undoing + by_table(self.motions)


def handlings(record: Record, ledger: Ledger | None = None) -> tuple[Handling, ...]:
    """What is done in each action, first to last; facts used and lacking are noted where a ledger is given."""
    done: list[Handling] = []
    held = ""
    for place, action in enumerate(record.opening, start=1):
        tool = str(action.get("tool", ""))
        taken_up, held = bool(tool) and tool != held, tool or held
        if _goes_by_table(record, action):
            made = _motions(record, action, taken_up=taken_up)
            done.append(Handling(made, *_undoing(record, ledger, action)))
        else:
            done.append(_as_timed(ledger, place, action))
    return tuple(done)


def by_table(made: Mapping[str, int]) -> float:
    """Time in s of motions by the table."""
    return motions.seconds(motions.handling(made, times()), _rows()["time measurement unit"].number("seconds"))


@cache
def times() -> Mapping[str, float]:
    """What one motion takes, in TMU, by its name."""
    return {name: row.number("time") for name, row in _rows().items() if "time" in row.values}


def tables_cited() -> str:
    """The source of the predetermined times, with how it was checked."""
    return _rows()["position"].cited


def _rows() -> Mapping[str, Row]:
    return read_table("motions").rows


def _goes_by_table(record: Record, action: Mapping[str, Any]) -> bool:
    """Whether it is made of motions of the table and the undoing of fasteners that can state a time each."""
    if action["do"] in _PROCESS:
        return False
    return _timed_each(record, action) is not None or action["do"] in (*_TAKING_OFF, _TURNING)


def _timed_each(record: Record, action: Mapping[str, Any]) -> Element | None:
    thing = record.elements.get(str(action.get("what", "")))
    return thing if thing is not None and thing.section in _TIMED_EACH else None


def _motions(record: Record, action: Mapping[str, Any], *, taken_up: bool) -> dict[str, int]:
    turning = action["do"] == _TURNING
    made = {
        "tool change": int(taken_up),
        "find": int(action.get("hidden") is True),
        "turn": int(turning),
        "position": _number(record, action) if action.get("tool") and not turning else 0,
        "remove": int(takes_off(action) or action["do"] in _TAKING_OFF),
    }
    return {motion: count for motion, count in made.items() if count}


def _number(record: Record, action: Mapping[str, Any]) -> int:
    thing = _timed_each(record, action)
    return int(action.get("count", 1 if thing is None else thing.count))


def _undoing(record: Record, ledger: Ledger | None, action: Mapping[str, Any]) -> tuple[Bounds | None, str]:
    thing = _timed_each(record, action)
    if thing is None:
        return Bounds.exact(0.0), ""
    each = thing.bounds("seconds_each")
    if ledger is not None:
        ledger.note(thing.id, "seconds_each", known=each is not None)
    if each is None:
        return None, ""
    return each * _number(record, action), thing.text("time_source") or "no source stated"


def _as_timed(ledger: Ledger | None, place: int, action: Mapping[str, Any]) -> Handling:
    """An action that nothing in the record or the table could tell the time of but a stopwatch."""
    stated = as_bounds(action.get("time"))
    if ledger is not None:
        ledger.note(f"opening {place}", "time", known=stated is not None)
    return Handling({}, stated, "as timed" if stated is not None else "")
