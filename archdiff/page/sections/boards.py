"""The boards side by side, and how they are joined."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from archdiff.page.anchors import element_anchor, pair_anchor
from archdiff.page.facts import Phrase, fact_text, told
from archdiff.page.glyphs import mark_of
from archdiff.page.graphs import signal_map
from archdiff.page.seats import evidence_links, places, records, seat_view
from archdiff.wording import names, silent_short, silent_words, verdict_words

if TYPE_CHECKING:
    from archdiff.alignment import HostPair, Pair
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

TITLE = "Boards, and how they are joined"
SHORT = "Boards"
ORDER = 70
_FACTS = ("outline", "area", "thickness", "layers", "copper", "placements", "in", "facing", "material", "marking")
_LINK_FACTS: dict[str, Phrase] = {
    "ways": "{} ways",
    "pitch": "{} pitch",
    "length": "{} long",
    "detachable": lambda yes: "detachable" if yes else "not detachable",
    "carries": "carries {}",
}


def view(comparison: Comparison) -> dict[str, Any] | None:
    """Board pairs and interconnect pairs; None where neither product has either."""
    boards = [_boards(comparison, pair) for pair in comparison.alignment.hosts if pair.is_board]
    links = [_link(comparison, pair) for pair in comparison.pairs if _joins(pair)]
    groups = [_group(comparison, group.left, group.right) for group in comparison.alignment.groups]
    if not boards and not links:
        return None
    return {"boards": boards, "links": links, "groups": groups, "talk": [_talk(*one) for one in records(comparison)]}


def _talk(side: str, record: Record) -> Markup:
    graph = signal_map(record, f"talk-{side}-")
    return Markup(graph.svg if graph else "")  # noqa: S704 - escaped where it is drawn


def _boards(comparison: Comparison, pair: HostPair) -> dict[str, Any]:
    ids = (pair.left, pair.right)
    sides = [
        _board(record, side, record.elements[name]) if name is not None else None
        for (side, record), name in zip(records(comparison), ids, strict=True)
    ]
    rows = [
        {"title": fact, "values": [side["facts"].get(fact, "not stated") if side else "—" for side in sides]}
        for fact in _FACTS
        if any(side and fact in side["facts"] for side in sides)
    ]
    return {
        "sides": sides,
        "rows": rows,
        "shared": pair.shared,
        "title": " and ".join(dict.fromkeys(side["label"] for side in sides if side)),
        "short": silent_short(pair.silent),
        "why": silent_words(pair.silent),
        "open": pair.silent is None or not pair.silent.silence.is_known,
    }


def _board(record: Record, side: str, board: Element) -> dict[str, Any]:
    facts = {key: fact_text(board.facts[key]) for key in _FACTS if board.facts.get(key) is not None}
    if "in" in facts:
        facts["in"] = places(record, (facts["in"],))
    return {
        "label": board.label,
        "anchor": element_anchor(side, board.id),
        "facts": facts,
        "evidence": evidence_links(record, side, board.evidence),
    }


def _joins(pair: Pair) -> bool:
    return any(seat.section == "interconnects" for seat in pair.seats)


def _link(comparison: Comparison, pair: Pair) -> dict[str, Any]:
    sides = [
        {**seat_view(record, side, seat), "facts": "; ".join(told(seat.first.facts, _LINK_FACTS))} if seat else None
        for (side, record), seat in zip(records(comparison), (pair.left, pair.right), strict=True)
    ]
    return {
        "pair": pair,
        "anchor": pair_anchor(comparison, pair),
        "sides": sides,
        "mark": mark_of(pair),
        "verdict": verdict_words(pair, names(comparison)),
    }


def _group(comparison: Comparison, left: tuple[str, ...], right: tuple[str, ...]) -> str:
    """'Key board and Lamp board on the left carry what Front board carries on the right'."""
    what = [places(record, ids) for (_, record), ids in zip(records(comparison), (left, right), strict=True)]
    verb = "carry" if len(left) > 1 else "carries"
    return f"{what[0]} on the left {verb} what {what[1]} on the right {'carry' if len(right) > 1 else 'carries'}"
