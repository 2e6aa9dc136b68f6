"""Every pair by subsystem: what does the job on each side, what is said of the two, and why they were paired."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.alignment import Verdict
from archdiff.page.anchors import pair_anchor, subsystem_anchor
from archdiff.page.comments import comments_on, comments_on_pair
from archdiff.page.diagrams.scene import Mark
from archdiff.page.glyphs import mark_of
from archdiff.page.seats import seat_view, suspect
from archdiff.wording import chance_words, names, sure_words, verdict_words

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison

TITLE = "Differences by subsystem"
SHORT = "Differences"
ORDER = 60
_REASONS = 8
_GROUNDS = {
    "looked": "measured, read or seen",
    "inferred": "inferred or guessed",
    "confirm": "pairing to be confirmed",
}


def view(comparison: Comparison) -> dict[str, Any] | None:
    """The subsystems in order, each with its differing pairs and, folded away, those alike."""
    grouped: dict[str, list[Pair]] = {}
    for pair in comparison.pairs:
        grouped.setdefault(pair.subsystem, []).append(pair)
    if not grouped:
        return None
    grounds = {ground for pair in comparison.pairs for ground in _grounds(comparison, pair)}
    return {
        "subsystems": [_subsystem(comparison, name, pairs) for name, pairs in grouped.items()],
        "verdicts": _choices(comparison),
        "surenesses": [(key, text) for key, text in _GROUNDS.items() if key in grounds],
    }


def _subsystem(comparison: Comparison, name: str, pairs: list[Pair]) -> dict[str, Any]:
    alike = [pair for pair in pairs if pair.verdict is Verdict.ALIKE and pair.is_complete]
    return {
        "name": name,
        "title": name.capitalize() or "Subsystem not known",
        "anchor": subsystem_anchor(name or "not known"),
        "comments": comments_on(comparison, name) if name else (),
        "differing": [_row(comparison, pair) for pair in pairs if pair not in alike],
        "alike": [_row(comparison, pair) for pair in alike],
        "count": len(pairs),
    }


def _row(comparison: Comparison, pair: Pair) -> dict[str, Any]:
    left = seat_view(comparison.left, "left", pair.left) if pair.left else None
    right = seat_view(comparison.right, "right", pair.right) if pair.right else None
    silent_side, silent_record = ("left", comparison.left) if pair.left is None else ("right", comparison.right)
    return {
        "pair": pair,
        "anchor": pair_anchor(comparison, pair),
        "sides": (left, right),
        "suspect": suspect(silent_record, silent_side, pair),
        "mark": mark_of(pair),
        "verdict": verdict_words(pair, names(comparison)),
        "sureness": _sureness(pair),
        "ground": " ".join(_grounds(comparison, pair)),
        "reasons": sorted(pair.reasons, key=lambda reason: -abs(reason.weight))[:_REASONS],
        "rival": _rival(comparison, pair),
        "comments": comments_on_pair(comparison, pair),
    }


def _grounds(comparison: Comparison, pair: Pair) -> list[str]:
    """What the row can be sifted by: how the verdict is known, and whether the pairing wants a second look."""
    confirm = ["confirm"] if pair in comparison.to_confirm else []
    if mark_of(pair) is Mark.UNKNOWN:
        return confirm
    return [*confirm, "inferred" if pair.sure in ("inferred", "guessed") else "looked"]


def _sureness(pair: Pair) -> str:
    """How the verdict is known and how likely the pairing is right; of a verdict not given only the latter."""
    known = "" if mark_of(pair) is Mark.UNKNOWN else sure_words(pair.sure)
    return "; ".join(words for words in (known, chance_words(pair)) if words)


def _rival(comparison: Comparison, pair: Pair) -> str:
    """The pairing that came second, in words."""
    rival = pair.runner_up
    if rival is None:
        return ""
    left = comparison.left.elements.get(rival.left)
    right = comparison.right.elements.get(rival.right)
    called = [f"{e.label} ({e.id})" if e else name for e, name in ((left, rival.left), (right, rival.right))]
    return f"{called[0]} with {called[1]}"


def _choices(comparison: Comparison) -> list[tuple[str, str]]:
    """(mark, words) of the verdicts that occur, for the filter."""
    words = {
        Mark.ALIKE: "alike",
        Mark.DIFFERENT: "done differently",
        Mark.ELSEWHERE: "placed elsewhere",
        Mark.BOTH: "both differently and elsewhere",
        Mark.ONLY: "in one product alone",
        Mark.SEPARATE_ONLY: "separate part in one alone",
        Mark.UNKNOWN: "not known",
    }
    found = {mark_of(pair) for pair in comparison.pairs}
    return [(mark.value, text) for mark, text in words.items() if mark in found]
