"""Where the energy comes in, what makes what of it, and what it feeds: one tree a side."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from archdiff.cautions import cautions_of
from archdiff.page.anchors import element_anchor
from archdiff.page.facts import fact_text, told
from archdiff.page.graphs import supply_tree
from archdiff.page.seats import called, records
from archdiff.quantities import NOT_KNOWN, number
from archdiff.wording import sure_words, unlisted_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

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
# Figures told rail by rail: id, words, unit.
_OF_RAILS = (("conversion-loss", "{} lost in making it", "W"), ("rail-headroom", "limit {} times the current", ""))


def view(comparison: Comparison) -> dict[str, Any] | None:
    """The trees of both sides; None where neither record says anything of power."""
    sides = [_side(comparison, side, record) for side, record in records(comparison)]
    if not any(side["tree"] or side["taken"] for side in sides):
        return None
    return {"sides": sides, "cautions": cautions_of(comparison)}


def _side(comparison: Comparison, side: str, record: Record) -> dict[str, Any]:
    return {
        "side": side,
        "tree": _tree(side, record, _worked_out(comparison, side)),
        "picture": _picture(side, record),
        "taken": [(title, fact_text(record.power[key])) for key, title in _TAKEN if key in record.power],
        "why": unlisted_words(record.coverage.of("power"), "power"),
        "whole": record.coverage.is_whole("power"),
    }


def _worked_out(comparison: Comparison, side: str) -> dict[str, list[str]]:
    """What the figures say of each rail: what it costs to make, and how far it is from its limit."""
    found: dict[str, list[str]] = {}
    for name, words, unit in _OF_RAILS:
        for result in comparison.figures:
            measure = result.left if side == "left" else result.right
            for rail, value in measure.parts.items() if measure and result.figure.id == name else ():
                if value.high > 0 and (shown := number(value, unit)) != NOT_KNOWN:
                    found.setdefault(rail, []).append(words.format(shown))
    return found


def _tree(side: str, record: Record, worked_out: Mapping[str, list[str]]) -> list[dict[str, Any]]:
    rails = record.section(_RAILS)
    children: dict[str, list[Element]] = {}
    for rail in rails:
        children.setdefault(rail.text("from"), []).append(rail)
    known = {element.id for name in (*_SOURCES, _RAILS) for element in record.section(name)}
    roots = [element for name in _SOURCES for element in record.section(name)]
    roots += [rail for rail in rails if rail.text("from") not in known]
    seen: set[str] = set()
    trees = [_node(side, record, root, children, seen) for root in roots]
    for node in _all(trees):
        node["worked_out"] = ", ".join(worked_out.get(node["id"], ()))
    return trees


def _all(nodes: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for node in nodes:
        yield node
        yield from _all(node["rails"])


def _node(
    side: str, record: Record, element: Element, children: dict[str, list[Element]], seen: set[str]
) -> dict[str, Any]:
    seen.add(element.id)  # a loop of rails ends here
    below = [rail for rail in children.get(element.id, ()) if rail.id not in seen]
    makers = {rail.text("made_by") for rail in below}
    maker = element.text("made_by")
    return {
        "id": element.id,
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
