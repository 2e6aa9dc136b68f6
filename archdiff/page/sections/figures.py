"""The figures by family: values with their bounds on a common scale, and how each was come by."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.figures import Outcome
from archdiff.figures import families as all_families
from archdiff.page.anchors import figure_anchor
from archdiff.page.scales import scale
from archdiff.page.seats import evidence_links
from archdiff.quantities import NOT_KNOWN, number
from archdiff.wording import NOT_ASKED, amount, names, outcome_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.figures.figure import Figure, FigureResult, Measure
    from archdiff.record import Record

TITLE = "Figures"
ORDER = 50
_SHORT = 60  # letters that a class may have to stand beside its value; what is longer is told with the sum
_MOST, _LINKS = 8, 4  # parts and pieces of evidence shown of one figure; the exports have all


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Families in order, each with its figures: what tells the two apart, what does not, what says nothing at all."""
    families: dict[str, dict[str, Any]] = {}
    for result in comparison.figures:
        family = families.setdefault(result.figure.family, {"telling": [], "alike": [], "open": []})
        if _says_nothing(result):
            family["open"].append(_lacking(result, names(comparison)))
        else:
            family["telling" if _tells_apart(result) else "alike"].append(_row(comparison, result))
    titles = {family.id: family.title for family in all_families()}
    return {"families": [(key, titles[key], family) for key, family in families.items()]} if families else None


def _tells_apart(result: FigureResult) -> bool:
    """Whether a figure shows a difference; a figure of the pair is one of how the two differ."""
    return result.pair is not None or result.outcome in (Outcome.LEFT_HIGHER, Outcome.RIGHT_HIGHER)


def _says_nothing(result: FigureResult) -> bool:
    measures = [result.pair] if result.pair is not None else [result.left, result.right]
    return all(amount(measure, result.figure)[0] in (NOT_KNOWN, NOT_ASKED) for measure in measures)


def _lacking(result: FigureResult, called: tuple[str, str]) -> dict[str, Any]:
    """A figure that nothing can be said of: why not, once for both sides where it is the same."""
    both = list(zip(called, (result.left, result.right), strict=True))
    sides = [("", result.pair)] if result.pair is not None else both
    why: dict[str, list[str]] = {}
    for name, measure in sides:
        word = amount(measure, result.figure)[0]
        how = f" ({measure.how})" if measure and measure.how else ""
        why.setdefault(f"{word}{how}", []).append(name)
    words = "; ".join(f"{text}{' for ' if any(who) else ''}{' and '.join(who)}" for text, who in why.items())
    lacks = dict.fromkeys(fact for _, measure in sides if measure for fact in measure.missing)
    figure = result.figure
    return {"figure": figure, "anchor": figure_anchor(figure.id), "lacks": [*lacks], "why": words}


def _row(comparison: Comparison, result: FigureResult) -> dict[str, Any]:
    figure, called = result.figure, names(comparison)
    of_pair = result.pair is not None
    measures = [result.pair] if of_pair else [result.left, result.right]
    labels = ["both"] if of_pair else list(called)
    sides = ["both"] if of_pair else ["left", "right"]
    return {
        "figure": figure,
        "anchor": figure_anchor(figure.id),
        "of_pair": of_pair,
        "values": [_value(measure, figure) for measure in measures],
        "scale": "" if of_pair else scale(*(measure.bounds if measure else None for measure in measures)),
        "outcome": "" if of_pair else outcome_words(result, called),
        "told": [
            _told(comparison, label, side, measure)
            for label, side, measure in zip(labels, sides, measures, strict=True)
        ],
        "shares": _shares(measures, figure.unit),
        "assumed": list(dict.fromkeys(words for measure in measures if measure for words in measure.assumed)),
    }


def _value(measure: Measure | None, figure: Figure) -> dict[str, Any]:
    shown, likely = amount(measure, figure)
    missing, said = (measure.missing, measure.said) if measure else ((), "")
    return {"number": shown, "best": likely, "missing": missing, "said": said if len(said) <= _SHORT else ""}


def _told(comparison: Comparison, label: str, side: str, measure: Measure | None) -> dict[str, Any]:
    if measure is None:
        return {"label": label, "how": "", "used": (), "missing": (), "said": "", "evidence": ()}
    return {
        "label": label,
        "how": measure.how,
        "used": measure.used,
        "missing": measure.missing,
        "said": measure.said if len(measure.said) > _SHORT else "",
        "evidence": _evidence(comparison, side, measure)[:_LINKS],
    }


def _evidence(comparison: Comparison, side: str, measure: Measure) -> list[dict[str, str]]:
    """Links to what the facts used rest on, each once; of a figure of the pair every fact names its own side."""
    found: dict[str, dict[str, str]] = {}
    for fact in measure.used:
        owner, _, rest = fact.partition(" ") if side == "both" else (side, "", fact)
        record = {"left": comparison.left, "right": comparison.right}.get(owner)
        if record is not None:
            for link in evidence_links(record, owner, _rests_on(record, rest.partition(":")[0])):
                found.setdefault(link["anchor"], link)
    return list(found.values())


def _rests_on(record: Record, subject: str) -> tuple[str, ...]:
    """Ids of the evidence of an element, of a stage of a path ('heat stage 2') or of an action ('opening 3')."""
    name, _, place = subject.partition(" ")
    if name == "opening" and place.isdigit():
        return tuple(record.opening[int(place) - 1].get("evidence", ()))
    stated = {"product": record.product, "power": record.power}.get(name)
    if stated is not None:
        return tuple(stated.get("evidence", ()))
    element = record.elements.get(name)
    if element is None:
        return ()
    number = place.removeprefix("stage ")
    if place != number and number.isdigit():
        return tuple(element.facts["through"][int(number) - 1].get("evidence", element.evidence))
    return element.evidence


def _shares(measures: list[Measure | None], unit: str) -> tuple[list[tuple[str, list[str]]], int]:
    """The figure broken down: (part, one text a side), and how many more parts there are."""
    keys = dict.fromkeys(key for measure in measures if measure for key in measure.parts)
    # A key of one side alone, such as the id of its board, says nothing of the other.
    parts = [
        (key, [number(m.parts[key], m.unit or unit) if m and key in m.parts else "" for m in measures]) for key in keys
    ]
    return parts[:_MOST], len(parts[_MOST:])
