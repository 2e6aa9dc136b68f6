"""What everything rests on: pictures, times in videos, measurements, markings, documents."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import evidence_anchor
from archdiff.page.pictures import Picture, picture_of
from archdiff.page.seats import called, records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.comparison import Comparison
    from archdiff.record import Record

TITLE = "Evidence"
ORDER = 140
_LINES = ("at", "page", "instrument", "date", "by", "note")


def view(comparison: Comparison) -> dict[str, Any] | None:
    """All evidence of both sides; None where neither record names any."""
    sides = [
        {"side": side, "entries": [_entry(record, side, name, entry) for name, entry in record.evidence.items()]}
        for side, record in records(comparison)
    ]
    return {"sides": sides} if any(side["entries"] for side in sides) else None


def _entry(record: Record, side: str, name: str, entry: Mapping[str, Any]) -> dict[str, Any]:
    file = str(entry.get("file", ""))
    picture = picture_of(Path(record.file).parent, file) if file else Picture()
    kind = str(entry.get("kind", "evidence"))
    return {
        "id": name,
        "anchor": evidence_anchor(side, name),
        "kind": kind,
        "shows": str(entry.get("shows", "")) or "what it shows is not said",
        "details": [f"{key} {entry[key]}" for key in _LINES if entry.get(key)],
        "of": [called(record, one) for one in entry.get("of", ())],
        "file": Path(file).name,
        "picture": picture,
    }
