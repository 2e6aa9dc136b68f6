"""How each product was opened: both sequences on one time scale, with tools, depth, hidden steps and cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.cautions import cautions_of
from archdiff.figures.facts.handling import handlings
from archdiff.figures.facts.reach import last_comes_off, steps_through
from archdiff.page.facts import fact_text
from archdiff.page.seats import called, evidence_links, records
from archdiff.page.timeline import Step, timeline
from archdiff.quantities import number
from archdiff.record import as_bounds
from archdiff.wording import counted, unlisted_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.comparison import Comparison
    from archdiff.quantities import Bounds
    from archdiff.record import Record

TITLE = "Opening: what comes off, and how long it takes"
SHORT = "Opening"
ORDER = 100


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Both sequences; None where neither record has one."""
    sides = [_side(side, record) for side, record in records(comparison)]
    if not any(side["steps"] for side in sides):
        return None
    timed = [side["timed"] for side in sides]
    return {"sides": sides, "picture": timeline(timed), "cautions": cautions_of(comparison), **_tails(timed)}


def _drawn(step: Mapping[str, Any]) -> Step:
    least, most = step["reach"]
    words = f"{step['text']}, {step['time']}"
    return Step(words, least, most, hidden=step["hidden"], estimated=step["estimated"])


def _tails(sides: list[list[Step]]) -> dict[str, bool]:
    """Which kinds of uncertain ends the caption has to explain."""
    steps = [step for side in sides for step in side if step.least is not None]
    return {
        "tailed": any(step.least != step.most and not step.is_endless for step in steps),
        "endless": any(step.is_endless for step in steps),
    }


def _side(side: str, record: Record) -> dict[str, Any]:
    coverage = record.coverage.of("opening")
    ended = steps_through(record)
    steps = [
        _step(record, side, step) | _timing(step, done.seconds) | _ending(record, place, ended)
        for place, (step, done) in enumerate(zip(record.opening, handlings(record), strict=True))
    ]
    whole = coverage == "whole"
    return {
        "side": side,
        "steps": steps,
        "timed": [_drawn(step) for step in steps],
        "whole": whole,
        "why": unlisted_words(coverage, "opening"),
        "untimed": sum(step["seconds"] is None or step["estimated"] for step in steps),
        "estimated": sum(step["estimated"] for step in steps),
        "tools": list(dict.fromkeys(step["tool"] for step in steps if step["tool"])),
        "depth": f"{'' if whole else 'at least '}{counted(ended[-1], 'step')}" if steps else "",
        "boards": [_depth(record, board.id, ended, whole=whole) for board in record.boards] if steps else [],
    }


def _step(record: Record, side: str, step: Mapping[str, Any]) -> dict[str, Any]:
    count = int(step.get("count", 1))
    what = called(record, str(step.get("what", "")))
    many = f"{count} × " if count > 1 else ""  # noqa: RUF001 - the sign is meant
    return {
        "text": f"{str(step.get('do', 'other')).capitalize()} {many}{what}".strip(),
        "tool": str(step.get("tool", "")),
        "hidden": step.get("hidden") is True,
        "destructive": step.get("destructive") is True,
        "caution": str(step.get("caution", "")),
        "note": str(step.get("note", "")),
        "reveals": [called(record, name) for name in step.get("reveals", ())],
        "evidence": evidence_links(record, side, step.get("evidence", ())),
    }


def _timing(step: Mapping[str, Any], estimate: Bounds | None) -> dict[str, Any]:
    """The time stated; where there is none, the one estimated, said to be so."""
    stated = as_bounds(step.get("time"))
    if stated is not None:
        return {"time": fact_text(step["time"]), "estimated": False, **_seconds(stated)}
    if estimate is not None and estimate.is_known:
        return {"time": f"{number(estimate, 's')}, estimated", "estimated": True, **_seconds(estimate)}
    return {"time": "time not taken", "estimated": False, "seconds": None, "reach": (None, None)}


def _seconds(time: Bounds) -> dict[str, Any]:
    return {"seconds": time.likely, "reach": (max(time.low, 0.0), max(time.high, 0.0))}


def _ending(record: Record, place: int, ended: tuple[int, ...]) -> dict[str, Any]:
    """What comes off with the action at `place`, and the number of the step that ends with it."""
    off = record.opening[place].get("frees", ())
    ends = ended[place] > (ended[place - 1] if place else 0)
    return {"off": [called(record, name) for name in off], "ends": ended[place] if ends and off else 0}


def _depth(record: Record, board: str, ended: tuple[int, ...], *, whole: bool) -> str:
    place = last_comes_off(record).get(board)
    if place is None:
        return f"{called(record, board)}: not known, no step recorded takes it off"
    return f"{called(record, board)} is off after step {ended[place]}{'' if whole else ' or later'}"
