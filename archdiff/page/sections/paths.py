"""The ways of heat, sound, light, air, radio, touch and force: two strips with like stages under each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.alignment import Agreement
from archdiff.page.anchors import element_anchor
from archdiff.page.diagrams.scene import Mark
from archdiff.page.facts import fact_text
from archdiff.page.seats import evidence_links, records
from archdiff.paths import AMOUNTS, STATED, Finding
from archdiff.quantities import times
from archdiff.wording import column_words, end_words, facing_words, gap_words, names, path_silence_words, sure_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.paths import Column, End, PathPair, Stage

TITLE = "Paths of heat, sound, light, air, radio and touch"
SHORT = "Paths"
ORDER = 80
SIDES = ("left", "right")
_AMOUNTS = {
    "thickness": "{} thick",
    "length": "{} long",
    "width": "{} wide",
    "diameter": "⌀ {}",
    "parallel": "{} side by side",
}
_BLANK: dict[str, Any] = {"gap": "", "place": 0, "differs": False, "facts": [], "note": "", "doubtful": ""}
_MARKS = {
    Finding.ALIKE: Mark.ALIKE,
    Finding.DIFFERENT: Mark.DIFFERENT,
    Finding.ELSEWHERE: Mark.ELSEWHERE,
    Finding.ONLY_LEFT: Mark.ONLY,
    Finding.ONLY_RIGHT: Mark.ONLY,
    Finding.UNKNOWN: Mark.UNKNOWN,
}


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Kinds of path, each with its pairs of strips; None where no path is recorded."""
    kinds: dict[str, list[PathPair]] = {}
    for pair in comparison.paths:
        kinds.setdefault(pair.kind, []).append(pair)
    if not kinds:
        return None
    found = [{"kind": kind, "pairs": [_pair(comparison, pair) for pair in pairs]} for kind, pairs in kinds.items()]
    return {"kinds": found, "points": STATED}


def _pair(comparison: Comparison, pair: PathPair) -> dict[str, Any]:
    called = names(comparison)
    columns = [_stages(column, called) for column in pair.columns]
    sides = zip(SIDES, (pair.left, pair.right), called, strict=True)
    told = [(side, path, name) for side, path, name in sides if path is not None]
    return {
        "anchor": f"path-{element_anchor(told[0][0], told[0][1].id)}",
        "heads": [_head(comparison, pair, side) for side in SIDES],
        "label": " beside ".join(f"{path.label} of {name}" for _, path, name in told) + ": stages in order",
        "complete": pair.is_complete,
        "tied": pair.tied,
        "columns": [_ends("from", pair.start), *columns, _ends("to", pair.end)],
        "whys": _whys(pair),
    }


def _head(comparison: Comparison, pair: PathPair, side: str) -> dict[str, Any]:
    """What stands above a strip: its title and direction, or why the side has none."""
    record, path = dict(records(comparison))[side], getattr(pair, side)
    if path is None:
        known = pair.silent is not None and pair.silent.silence.is_known
        return {
            "side": side,
            "title": "",
            "why": path_silence_words(pair, record.coverage.of("paths")),
            "open": not known,
        }
    return {
        "side": side,
        "title": path.label,
        "anchor": element_anchor(side, path.id),
        "sure": sure_words(path.sure),
        "facing": facing_words(getattr(pair.facing, side)),
        "turned": pair.facing.agreement is Agreement.DIFFERENT,
        "evidence": evidence_links(record, side, path.evidence),
    }


def _ends(word: str, end: End) -> dict[str, Any]:
    spots = [getattr(end, side) for side in SIDES]
    cells = [spot and {**_BLANK, "title": spot.label or "not stated"} for spot in spots]
    return {"end": word, "cells": cells, "said": end_words(end), "mark": None, "finding": "end"}


def _stages(column: Column, called: tuple[str, str]) -> dict[str, Any]:
    stages = (column.left, column.right)
    cells = [
        _gap(column) if stage is None else _cell(column, stage, side) for stage, side in zip(stages, SIDES, strict=True)
    ]
    return {
        "end": "",
        "cells": cells,
        "said": column_words(column, called),
        "mark": _MARKS.get(column.finding),
        "finding": column.finding.name.lower().replace("_", "-"),
    }


def _gap(column: Column) -> dict[str, Any]:
    known = column.elsewhere is not None or (column.silent is not None and column.silent.silence.is_known)
    return {**_BLANK, "gap": "known" if known else "open", "title": gap_words(column)}


def _cell(column: Column, stage: Stage, side: str) -> dict[str, Any]:
    other = column.asked(Agreement.DIFFERENT)
    # A stage that is called by its means says it once.
    means = stage.means if stage.means.casefold() != stage.label.casefold() else ""
    told = (("means", means), ("material", stage.material), ("facing", facing_words(stage.facing)))
    facts = [{"text": text, "differs": name in other, "tag": "b", "times": ""} for name, text in told if text]
    return {
        **_BLANK,
        "place": stage.place,
        "title": stage.label,
        "differs": "means" in other and not means,
        "facts": [*facts, *_amounts(column, stage, side)],
        "note": str(stage.facts.get("note", "")),
        "doubtful": str(stage.facts.get("sure", "")) if stage.doubtful else "",
    }


def _amounts(column: Column, stage: Stage, side: str) -> Iterator[dict[str, Any]]:
    """The quantities of a stage; the larger of two that differ says how many times the other it is."""
    compared = {amount.name: amount for amount in column.amounts}
    for name in AMOUNTS:
        value, amount = stage.amount(name), compared.get(name)
        if value is not None:
            larger = amount is not None and amount.larger == side
            yield {
                "text": _AMOUNTS.get(name, "{}").format(fact_text(value)),
                "differs": amount is not None and amount.differs,
                "tag": "i",
                "times": times(amount.times) if amount is not None and larger else "",
            }


def _whys(pair: PathPair) -> list[dict[str, str]]:
    """Why stages are not recorded, each reason once a side."""
    if not pair.is_complete:
        return []
    found = {
        (SIDES[column.left is not None], column.silent.why): None
        for column in pair.columns
        if column.silent is not None and not column.silent.silence.is_known
    }
    return [{"side": side, "why": why} for side, why in found]
