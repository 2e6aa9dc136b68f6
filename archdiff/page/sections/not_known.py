"""What cannot be said, why not, and what to look at next on the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import element_anchor, pair_anchor
from archdiff.page.seats import called, records
from archdiff.record import sections
from archdiff.wording import chance_words, coverage_words, names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.record import Record

TITLE = "What is not known, and what to look at next"
SHORT = "Not known"
ORDER = 130


def view(comparison: Comparison) -> dict[str, Any]:
    """The ranked look-at list, what hangs on each gap, open questions, and how far each section was looked at."""
    return {
        "look_at": [entry for entry in comparison.look_at if entry.settles],
        "rest": [entry for entry in comparison.look_at if not entry.settles],
        "to_confirm": [_doubtful(comparison, pair) for pair in comparison.to_confirm],
        "questions": [
            _question(side, record, question) for side, record in records(comparison) for question in record.questions
        ],
        "coverage": _coverage(comparison),
        "called": names(comparison),
    }


def _doubtful(comparison: Comparison, pair: Pair) -> dict[str, str]:
    """One pair that the analyst should confirm: what it is, who is paired with whom, and how sure that is."""
    left, right = (", ".join(seat.ids) for seat in pair.seats)
    return {
        "function": pair.function,
        "anchor": pair_anchor(comparison, pair),
        "left": left,
        "right": right,
        "chance": chance_words(pair),
    }


def _question(side: str, record: Record, question: Mapping[str, Any]) -> dict[str, str]:
    about = str(question.get("about", ""))
    return {
        "side": side,
        "about": called(record, about) if about else "",
        "anchor": element_anchor(side, about),
        "ask": str(question.get("ask", "")),
        "settle_by": str(question.get("settle_by", "")),
    }


def _coverage(comparison: Comparison) -> list[dict[str, Any]]:
    """One row a section of the record: how far it was looked at on either side, and where not."""
    titles = {section.covered_by: section.title for section in sections() if "." not in section.name}
    titles |= {"power": "Power", "opening": "Opening", "links": "What each thing is joined to and fed by"}
    rows = []
    for name, title in titles.items():
        cells = []
        for _, record in records(comparison):
            word = record.coverage.of(name)
            cells.append({"word": word, "words": coverage_words(word), "gaps": _gaps(record, name)})
        rows.append({"title": title, "cells": cells})
    return rows


def _gaps(record: Record, name: str) -> list[str]:
    """Where a partly covered section was not looked at: 'Main board, top: looked at in part'."""
    said = []
    for section, host, side, word in record.coverage.gaps():
        if section == name and host:
            where = f"{called(record, host)}, {side}" if side else called(record, host)
            said.append(f"{where}: {coverage_words(word)}")
    return said
