"""The comparison as JSON, as `schema/comparison.schema.json` describes it."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from archdiff.alignment import Pair, RunnerUp
    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure
    from archdiff.headlines import Headline
    from archdiff.paths import Amount, Column, End, PathPair, Question, Stage
    from archdiff.quantities import Bounds
    from archdiff.record.silence import Silent

NAME = "json"


def write(comparison: Comparison) -> str:
    """JSON text in a stated order: a line a pair, a figure, a chain, so that two of them can be held together."""
    lines = (f"{_line(key)}: {_rows(value)}" for key, value in as_data(comparison).items())
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _rows(value: Any) -> str:
    if not isinstance(value, list) or not value:
        return _line(value)
    return "[\n  " + ",\n  ".join(map(_line, value)) + "\n]"


def _line(value: Any) -> str:
    # Without indentation the encoder written in C does it, five times as fast.
    return json.dumps(value, ensure_ascii=False)


def as_data(comparison: Comparison) -> dict[str, Any]:
    """The comparison as plain data."""
    partition = comparison.partition
    return {
        "archdiff_comparison": 1,
        "title": comparison.title,
        "left": comparison.left.name,
        "right": comparison.right.name,
        "headline": comparison.notes.headline or None,
        "comments": [
            {"on": c.on or None, "left": c.left or None, "right": c.right or None, "text": c.text}
            for c in comparison.notes.comments
        ],
        "headlines": [_headline(comparison, headline) for headline in comparison.headlines],
        "pairs": [_pair(pair) for pair in comparison.pairs],
        "boards": [
            {**_taken(host, "left", "right", "shared"), "silence": _silent(host.silent)}
            for host in comparison.alignment.hosts
            if host.is_board
        ],
        "board_groups": [_taken(group, "left", "right") for group in comparison.alignment.groups],
        "partition": {
            **_taken(partition, "placed", "distance", "ari"),
            "moves": [
                {
                    **_taken(move, "text", "left_host", "right_host"),
                    "functions": [pair.function for pair in move.pairs],
                }
                for move in partition.moves
            ],
        },
        "figures": [_figure(result) for result in comparison.figures],
        "paths": [_path(pair) for pair in comparison.paths],
        "knock_ons": [
            {
                **_taken(chain, "side", "root"),
                "stated_by_analyst": chain.analyst,
                "about": list(chain.about),
                "links": [_taken(link, "effect", "because", "sure") for link in chain.links],
            }
            for chain in comparison.chains
        ],
        "unknowns": [
            {"side": u.side, "about": u.about, "why": u.why, "hangs": list(u.hangs)} for u in comparison.unknowns
        ],
        "look_at": [
            {
                "side": e.side,
                "where": e.where,
                "what": e.what,
                "how": e.how,
                "settles": e.settles,
                "verdicts": e.verdicts,
                "figures": e.figures,
                "asked_by_analyst": e.asked,
                "waiting": list(e.waiting),
            }
            for e in comparison.look_at
        ],
        "to_confirm": [
            {
                "left": pair.ids[0][0],
                "right": pair.ids[1][0],
                "function": pair.function,
                "confidence": round(pair.confidence, 6),
            }
            for pair in comparison.to_confirm
        ],
        "warnings": [str(problem) for problem in comparison.warnings],
    }


def _taken(thing: object, *names: str) -> dict[str, Any]:
    """Attributes of a thing under their own names."""
    values = {name: getattr(thing, name) for name in names}
    return {name: list(value) if isinstance(value, tuple) else value for name, value in values.items()}


def _headline(comparison: Comparison, headline: Headline) -> dict[str, Any]:
    """A headline; what goes with it rests on the chain of `knock_ons` in that place, from 0, or on these figures."""
    return {
        **_taken(headline, "text", "sure"),
        "then": [
            {
                "text": then.text,
                "sure": then.sure or None,
                "knock_on": None if then.chain is None else comparison.chains.index(then.chain),
                "figures": list(then.figures),
            }
            for then in headline.then
        ],
    }


def _pair(pair: Pair) -> dict[str, Any]:
    left, right = pair.left, pair.right
    return {
        "left": left.first.id if left else None,
        "right": right.first.id if right else None,
        "left_members": list(left.ids) if left else [],
        "right_members": list(right.ids) if right else [],
        **_taken(pair, "function", "subsystem"),
        "verdict": pair.verdict.value,
        "means": {
            "agreement": pair.means.value,
            "left": (left.means or None) if left else None,
            "right": (right.means or None) if right else None,
        },
        "place": {
            "agreement": pair.place.value,
            "left": list(left.hosts) if left else [],
            "right": list(right.hosts) if right else [],
        },
        "changes": [_taken(change, "what", "left", "right") for change in pair.changes],
        "score": round(pair.score, 6),
        "confidence": round(pair.confidence, 6),
        "sure": pair.sure,
        "tied_by_notes": pair.tied,
        "reasons": [{"text": r.text, "weight": round(r.weight, 6)} for r in pair.reasons],
        "runner_up": _runner_up(pair.runner_up),
        "silence": _silent(pair.silent),
        "empty_site": list(pair.site.ids) if pair.site else [],
    }


def _runner_up(runner: RunnerUp | None) -> dict[str, Any] | None:
    if runner is None:
        return None
    return {**_taken(runner, "left", "right"), "score": round(runner.score, 6), "margin": round(runner.margin, 6)}


def _silent(silent: Silent | None) -> dict[str, Any] | None:
    return {"kind": silent.silence.value, **_taken(silent, "why", "sure")} if silent else None


def _path(pair: PathPair) -> dict[str, Any]:
    return {
        "kind": pair.kind,
        "left": pair.left.id if pair.left else None,
        "right": pair.right.id if pair.right else None,
        "points": pair.points,
        "tied_by_notes": pair.tied,
        "from": _end(pair.start),
        "to": _end(pair.end),
        "facing": _question(pair.facing),
        "stages": [_column(column) for column in pair.columns],
        "silence": _silent(pair.silent),
        "sure": pair.sure,
    }


def _end(end: End) -> dict[str, Any]:
    left, right = (spot.text or None if spot is not None else None for spot in (end.left, end.right))
    return {"agreement": end.agreement.value, "left": left, "right": right}


def _question(question: Question) -> dict[str, Any]:
    return {"agreement": question.agreement.value, "left": question.left or None, "right": question.right or None}


def _column(column: Column) -> dict[str, Any]:
    return {
        "left": _stage(column.left),
        "right": _stage(column.right),
        "finding": column.finding.value,
        "points": column.points,
        "answers": [{"what": question.name, **_question(question)} for question in column.questions],
        "amounts": [_amount(amount) for amount in column.amounts],
        "stands_at": column.elsewhere.place if column.elsewhere else None,
        "silence": _silent(column.silent),
        "sure": column.sure,
    }


def _stage(stage: Stage | None) -> dict[str, Any] | None:
    if stage is None:
        return None
    return {"place": stage.place, "what": str(stage.facts.get("what", "")), "element": stage.thing is not None}


def _amount(amount: Amount) -> dict[str, Any]:
    return {
        "what": amount.name,
        "left": None if amount.left is None else str(amount.left),
        "right": None if amount.right is None else str(amount.right),
        "agreement": amount.agreement.value,
        "ratio": _bounds(amount.ratio),
    }


def _figure(result: FigureResult) -> dict[str, Any]:
    sides = (("left", result.left), ("right", result.right), ("both", result.pair))
    row = _taken(result.figure, "id", "title", "family", "unit", "meaning", "formula", "source")
    row["missing"] = [f"{side}: {fact}" for side, measure in sides for fact in (measure.missing if measure else ())]
    if result.pair is not None:
        return {**row, "pair": _measure(result.pair)}
    measures = {"left": _measure(result.left), "right": _measure(result.right)}
    return {**row, **measures, "outcome": result.outcome.value, "ratio": _bounds(result.ratio)}


def _measure(measure: Measure | None) -> dict[str, Any]:
    row: dict[str, Any] = {"value": None, "low": None, "high": None}
    if measure is None:
        return {**row, "used": [], "how": ""}
    row |= _bounds(measure.bounds) or {}
    row |= {"unit": measure.unit} if measure.unit else {}
    row |= _taken(measure, "used", "how")
    row |= {name: value for name, value in _taken(measure, "assumed", "said").items() if value}
    row |= {"not_applicable": True} if measure.moot else {}
    row |= {"parts": {name: _bounds(part) for name, part in measure.parts.items()}} if measure.bounds else {}
    return row


def _bounds(bounds: Bounds | None) -> dict[str, float | None] | None:
    """Bounds for JSON, which has no infinity: null is 'no limit known'."""
    if bounds is None:
        return None
    low, high = (limit if math.isfinite(limit) else None for limit in (bounds.low, bounds.high))
    return {"value": bounds.best, "low": low, "high": high}
