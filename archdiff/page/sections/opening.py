"""How each product was opened: both sequences on one time scale, with tools, hidden steps and cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.facts import fact_text
from archdiff.page.seats import called, evidence_links, records
from archdiff.page.timeline import Step, timeline
from archdiff.record import as_bounds
from archdiff.wording import unlisted_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.comparison import Comparison
    from archdiff.record import Record

TITLE = "Opening, step by step"
SHORT = "Opening"
ORDER = 100


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Both sequences; None where neither record has one."""
    sides = [_side(side, record) for side, record in records(comparison)]
    if not any(side["steps"] for side in sides):
        return None
    return {"sides": sides, "picture": timeline([side["timed"] for side in sides])}


def _side(side: str, record: Record) -> dict[str, Any]:
    coverage = record.coverage.of("opening")
    steps = [_step(record, side, step) for step in record.opening]
    return {
        "side": side,
        "steps": steps,
        "timed": [Step(step["text"], step["seconds"], step["hidden"]) for step in steps],
        "whole": coverage == "whole",
        "why": unlisted_words(coverage, "opening"),
        "untimed": sum(step["seconds"] is None for step in steps),
        "tools": list(dict.fromkeys(step["tool"] for step in steps if step["tool"])),
    }


def _step(record: Record, side: str, step: Mapping[str, Any]) -> dict[str, Any]:
    time = as_bounds(step.get("time"))
    count = int(step.get("count", 1))
    what = called(record, str(step.get("what", "")))
    many = f"{count} × " if count > 1 else ""  # noqa: RUF001 - the sign is meant
    return {
        "text": f"{str(step.get('do', 'other')).capitalize()} {many}{what}".strip(),
        "tool": str(step.get("tool", "")),
        "time": fact_text(step["time"]) if step.get("time") else "time not taken",
        "seconds": (time.best if time.best is not None else time.low) if time else None,
        "hidden": step.get("hidden") is True,
        "destructive": step.get("destructive") is True,
        "caution": str(step.get("caution", "")),
        "note": str(step.get("note", "")),
        "reveals": [called(record, name) for name in step.get("reveals", ())],
        "evidence": evidence_links(record, side, step.get("evidence", ())),
    }
