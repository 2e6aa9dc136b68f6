"""The figures by family: values with their bounds on a common scale, and how each was come by."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import figure_anchor
from archdiff.page.scales import scale
from archdiff.quantities import number
from archdiff.wording import amount, names, outcome_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.figures.figure import Figure, FigureResult, Measure

TITLE = "Figures"
ORDER = 50


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Families in order, each with its figures; None where none was computed."""
    families: dict[str, list[dict[str, Any]]] = {}
    for result in comparison.figures:
        families.setdefault(result.figure.family, []).append(_row(result, names(comparison)))
    return {"families": families} if families else None


def _row(result: FigureResult, called: tuple[str, str]) -> dict[str, Any]:
    figure = result.figure
    of_pair = result.pair is not None
    measures = [result.pair] if of_pair else [result.left, result.right]
    labels = ["both"] if of_pair else list(called)
    return {
        "figure": figure,
        "anchor": figure_anchor(figure.id),
        "of_pair": of_pair,
        "values": [_value(measure, figure) for measure in measures],
        "scale": "" if of_pair else scale(*(measure.bounds if measure else None for measure in measures)),
        "outcome": "" if of_pair else outcome_words(result, called),
        "told": [_told(label, measure) for label, measure in zip(labels, measures, strict=True)],
        "shares": _shares(measures, figure.unit),
    }


def _value(measure: Measure | None, figure: Figure) -> dict[str, Any]:
    shown, likely = amount(measure, figure)
    missing, said = (measure.missing, measure.said) if measure else ((), "")
    return {"number": shown, "best": likely, "missing": missing, "said": said}


def _told(label: str, measure: Measure | None) -> dict[str, Any]:
    return {
        "label": label,
        "how": measure.how if measure else "",
        "used": measure.used if measure else (),
        "missing": measure.missing if measure else (),
        "assumed": measure.assumed if measure else (),
    }


def _shares(measures: list[Measure | None], unit: str) -> list[tuple[str, list[str]]]:
    """The figure broken down: (part, one text a side)."""
    keys = dict.fromkeys(key for measure in measures if measure for key in measure.parts)
    # A key of one side alone, such as the id of its board, says nothing of the other.
    return [
        (key, [number(m.parts[key], m.unit or unit) if m and key in m.parts else "" for m in measures]) for key in keys
    ]
