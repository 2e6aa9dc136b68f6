"""Every element of both records, with its facts and what they rest on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import element_anchor, pair_anchor
from archdiff.page.comments import comments_on_element
from archdiff.page.facts import facts_of
from archdiff.page.seats import evidence_links, places, records, titled
from archdiff.record import section
from archdiff.wording import coverage_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

TITLE = "Parts list of both"
SHORT = "Parts"
ORDER = 120


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Both lists, section by section; None where both records are bare."""
    sides = [_side(comparison, side, record) for side, record in records(comparison)]
    return {"sides": sides} if any(side["sections"] for side in sides) else None


def _side(comparison: Comparison, side: str, record: Record) -> dict[str, Any]:
    paired = _pairs(comparison, side)
    grouped: dict[str, list[Element]] = {}
    for element in record.elements.values():
        grouped.setdefault(element.section, []).append(element)
    return {
        "side": side,
        "count": len(record.elements),
        "sections": [
            {
                "title": section(name).title,
                "coverage": coverage_words(record.coverage.of(name)),
                "rows": [_row(comparison, side, record, element, paired.get(element.id, ())) for element in elements],
            }
            for name, elements in grouped.items()
        ],
    }


def _pairs(comparison: Comparison, side: str) -> dict[str, list[tuple[str, str]]]:
    """(anchor, function) of the pairs in which each element of that side has a seat."""
    found: dict[str, list[tuple[str, str]]] = {}
    for pair in comparison.pairs:
        seat = pair.left if side == "left" else pair.right
        for name in seat.ids if seat else ():
            found.setdefault(name, []).append((pair_anchor(comparison, pair), pair.function))
    return found


def _row(
    comparison: Comparison, side: str, record: Record, element: Element, pairs: list[tuple[str, str]] | tuple[()]
) -> dict[str, Any]:
    told = {function for _, function in pairs}
    label, means = titled(element)
    return {
        "id": element.id,
        "anchor": element_anchor(side, element.id),
        "label": label,
        "count": element.count,
        "populated": element.populated,
        "means": means,
        "pairs": pairs,
        "functions": [function for function in element.functions if function not in told],
        "place": places(record, element.hosts) if element.hosts else "",
        "facts": facts_of(element, ("also", "count", "populated")),
        "note": element.text("note"),
        "sure": element.sure or "not said how",
        "evidence": evidence_links(record, side, element.evidence),
        "comments": comments_on_element(comparison, side, element.id),
    }
