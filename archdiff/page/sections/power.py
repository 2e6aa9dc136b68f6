"""Where the energy comes in, what makes what of it, and what it feeds: one tree a side."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from archdiff.page.anchors import element_anchor
from archdiff.page.facts import fact_text, told
from archdiff.page.graphs import supply_tree
from archdiff.page.seats import called, records
from archdiff.wording import sure_words, unlisted_words

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

TITLE = "Power: the supply trees"
SHORT = "Power"
ORDER = 90
_SOURCES = ("power.entry", "power.storage")
_RAILS = "power.rails"
_FACTS = {
    "means": "{}",
    "voltage": "{}",
    "current": "{}",
    "limit": "limit {}",
    "energy": "{}",
    "charge": "{}",
    "efficiency": "{} efficient",
}
_TAKEN = (("standby", "Stand-by"), ("in_use", "In use"))


def view(comparison: Comparison) -> dict[str, Any] | None:
    """The trees of both sides; None where neither record says anything of power."""
    sides = [_side(side, record) for side, record in records(comparison)]
    return {"sides": sides} if any(side["tree"] or side["taken"] for side in sides) else None


def _side(side: str, record: Record) -> dict[str, Any]:
    return {
        "side": side,
        "tree": _tree(side, record),
        "picture": _picture(side, record),
        "taken": [(title, fact_text(record.power[key])) for key, title in _TAKEN if key in record.power],
        "why": unlisted_words(record.coverage.of("power"), "power"),
        "whole": record.coverage.is_whole("power"),
    }


def _tree(side: str, record: Record) -> list[dict[str, Any]]:
    rails = record.section(_RAILS)
    children: dict[str, list[Element]] = {}
    for rail in rails:
        children.setdefault(rail.text("from"), []).append(rail)
    known = {element.id for name in (*_SOURCES, _RAILS) for element in record.section(name)}
    roots = [element for name in _SOURCES for element in record.section(name)]
    roots += [rail for rail in rails if rail.text("from") not in known]
    seen: set[str] = set()
    return [_node(side, record, root, children, seen) for root in roots]


def _node(
    side: str, record: Record, element: Element, children: dict[str, list[Element]], seen: set[str]
) -> dict[str, Any]:
    seen.add(element.id)  # a loop of rails ends here
    below = [rail for rail in children.get(element.id, ()) if rail.id not in seen]
    makers = {rail.text("made_by") for rail in below}
    maker = element.text("made_by")
    return {
        "label": element.label,
        "anchor": element_anchor(side, element.id),
        "facts": ", ".join(told(element.facts, _FACTS)),
        "made_by": called(record, maker) if maker else "",
        "sure": sure_words(element.sure) if element.sure else "",
        "feeds": [_load(side, record, name) for name in _fed(record, element) if name not in makers],
        "rails": [_node(side, record, rail, children, seen) for rail in below],
    }


def _fed(record: Record, element: Element) -> list[str]:
    """What a supply feeds: as its own entry says, then what says so itself."""
    others = (other.id for other in record.elements.values() if other.text("fed_by") == element.id)
    return list(dict.fromkeys((*element.texts("feeds"), *others)))


def _picture(side: str, record: Record) -> Markup:
    graph = supply_tree(record, f"supply-{side}-")
    return Markup(graph.svg if graph else "")  # noqa: S704 - escaped where it is drawn


def _load(side: str, record: Record, name: str) -> dict[str, str]:
    return {"label": called(record, name), "anchor": element_anchor(side, name)}
