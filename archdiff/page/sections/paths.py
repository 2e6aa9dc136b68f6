"""The ways of heat, sound, light, air, radio and touch: left and right as two strips, one under the other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import element_anchor
from archdiff.page.facts import told
from archdiff.page.seats import called, evidence_links, records
from archdiff.record.coverage import WHOLE
from archdiff.wording import sure_words, unlisted_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

TITLE = "Paths of heat, sound, light, air, radio and touch"
SHORT = "Paths"
ORDER = 80
_SECTION = "paths"
_STAGE_FACTS = {
    "material": "{}",
    "thickness": "{} thick",
    "length": "{} long",
    "width": "{} wide",
    "diameter": "⌀ {}",
    "area": "{}",
    "volume": "{}",
    "conductivity": "{}",
    "resistance": "{}",
    "parallel": "{} side by side",
    "facing": "faces {}",
}


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Kinds of path, each with the strips of both sides; None where no path is recorded."""
    sides = records(comparison)
    kinds = dict.fromkeys(path.text("kind") for _, record in sides for path in record.section(_SECTION))
    if not kinds:
        return None
    return {"kinds": [{"kind": kind, "sides": [_side(side, record, kind) for side, record in sides]} for kind in kinds]}


def _side(side: str, record: Record, kind: str) -> dict[str, Any]:
    found = [path for path in record.section(_SECTION) if path.text("kind") == kind]
    coverage = record.coverage.of(_SECTION)
    return {
        "side": side,
        "paths": [_strip(record, side, path) for path in found],
        "why": unlisted_words(coverage, "paths"),
        "open": coverage != WHOLE,
    }


def _strip(record: Record, side: str, path: Element) -> dict[str, Any]:
    start, end = path.text("from"), path.text("to")
    return {
        "title": path.label,
        "anchor": element_anchor(side, path.id),
        "start": called(record, start) if start else "start not stated",
        "end": called(record, end) if end else "end not stated",
        "stages": [_stage(record, stage) for stage in path.facts.get("through", ())],
        "sure": sure_words(path.sure),
        "evidence": evidence_links(record, side, path.evidence),
    }


def _stage(record: Record, stage: Mapping[str, Any]) -> dict[str, Any]:
    what = str(stage.get("what") or stage.get("means") or "stage not named")
    return {
        "what": called(record, what),
        "facts": ", ".join(told(stage, _STAGE_FACTS)),
        "note": str(stage.get("note", "")),
        "doubtful": stage.get("sure") in ("inferred", "guessed"),
    }
