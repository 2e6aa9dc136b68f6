"""The comparison as JSON, as `schema/comparison.schema.json` describes it."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from archdiff.alignment import HostPair, Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure
    from archdiff.headlines import Headline
    from archdiff.paths import Amount, Column, End, PathPair, Question, Stage
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
        "boards": [_host(host) for host in comparison.alignment.hosts if host.is_board],
        "board_groups": [{"left": list(g.left), "right": list(g.right)} for g in comparison.alignment.groups],
        "partition": {
            "placed": partition.placed,
            "distance": partition.distance,
            "ari": partition.ari,
            "moves": [
                {
                    "text": move.text,
                    "left_host": move.left_host,
                    "right_host": move.right_host,
                    "functions": [pair.function for pair in move.pairs],
                }
                for move in partition.moves
            ],
        },
        "figures": [_figure(result) for result in comparison.figures],
        "paths": [_path(pair) for pair in comparison.paths],
        "knock_ons": [
            {
                "side": chain.side,
                "root": chain.root,
                "stated_by_analyst": chain.analyst,
                "about": list(chain.about),
                "links": [{"effect": s.effect, "because": s.because, "sure": s.sure} for s in chain.links],
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


def _headline(comparison: Comparison, headline: Headline) -> dict[str, Any]:
    """A headline; what goes with it rests on the chain of `knock_ons` in that place, from 0, or on these figures."""
    return {
        "text": headline.text,
        "sure": headline.sure,
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
    runner = pair.runner_up
    return {
        "left": pair.left.first.id if pair.left else None,
        "right": pair.right.first.id if pair.right else None,
        "left_members": list(pair.left.ids) if pair.left else [],
        "right_members": list(pair.right.ids) if pair.right else [],
        "function": pair.function,
        "subsystem": pair.subsystem,
        "verdict": pair.verdict.value,
        "means": {"agreement": pair.means.value, "left": _means(pair.left), "right": _means(pair.right)},
        "place": {
            "agreement": pair.place.value,
            "left": list(pair.left.hosts) if pair.left else [],
            "right": list(pair.right.hosts) if pair.right else [],
        },
        "changes": [{"what": c.what, "left": c.left, "right": c.right} for c in pair.changes],
        "score": round(pair.score, 6),
        "confidence": round(pair.confidence, 6),
        "sure": pair.sure,
        "tied_by_notes": pair.tied,
        "reasons": [{"text": r.text, "weight": round(r.weight, 6)} for r in pair.reasons],
        "runner_up": None
        if runner is None
        else {
            "left": runner.left,
            "right": runner.right,
            "score": round(runner.score, 6),
            "margin": round(runner.margin, 6),
        },
        "silence": _silent(pair.silent),
        "empty_site": list(pair.site.ids) if pair.site else [],
    }


def _means(seat: Seat | None) -> str | None:
    return None if seat is None else (seat.means or None)


def _silent(silent: Silent | None) -> dict[str, Any] | None:
    if silent is None:
        return None
    return {"kind": silent.silence.value, "why": silent.why, "sure": silent.sure}


def _host(host: HostPair) -> dict[str, Any]:
    return {"left": host.left, "right": host.right, "shared": host.shared, "silence": _silent(host.silent)}


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
    ratio = amount.ratio
    return {
        "what": amount.name,
        "left": None if amount.left is None else str(amount.left),
        "right": None if amount.right is None else str(amount.right),
        "agreement": amount.agreement.value,
        "ratio": None if ratio is None else {"value": ratio.best, **_limits(ratio.low, ratio.high)},
    }


def _figure(result: FigureResult) -> dict[str, Any]:
    figure = result.figure
    row: dict[str, Any] = {
        "id": figure.id,
        "title": figure.title,
        "family": figure.family,
        "unit": figure.unit,
        "meaning": figure.meaning,
        "formula": figure.formula,
        "source": figure.source,
        "missing": [
            f"{side}: {fact}"
            for side, measure in (("left", result.left), ("right", result.right), ("both", result.pair))
            for fact in (measure.missing if measure else ())
        ],
    }
    if result.pair is not None:
        return {**row, "pair": _measure(result.pair)}
    ratio = result.ratio
    return {
        **row,
        "left": _measure(result.left),
        "right": _measure(result.right),
        "outcome": result.outcome.value,
        "ratio": None if ratio is None else {"value": ratio.best, **_limits(ratio.low, ratio.high)},
    }


def _measure(measure: Measure | None) -> dict[str, Any]:
    if measure is None:
        return {"value": None, "low": None, "high": None, "used": [], "how": ""}
    bounds = measure.bounds
    row: dict[str, Any] = {"value": None, "low": None, "high": None}
    if bounds is not None:
        row = {"value": bounds.best, **_limits(bounds.low, bounds.high)}
    if measure.unit:
        row["unit"] = measure.unit
    row |= {"used": list(measure.used), "how": measure.how}
    if measure.assumed:
        row["assumed"] = list(measure.assumed)
    if measure.said:
        row["said"] = measure.said
    if measure.moot:
        row["not_applicable"] = True
    if bounds is not None:
        row["parts"] = {name: {"value": b.best, **_limits(b.low, b.high)} for name, b in measure.parts.items()}
    return row


def _limits(low: float, high: float) -> dict[str, float | None]:
    """Limits for JSON, which has no infinity: null is 'no limit known'."""
    return {"low": low if math.isfinite(low) else None, "high": high if math.isfinite(high) else None}
