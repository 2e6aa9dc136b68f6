"""What the page says of elements, seats and places: labels and lists ready for the templates."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from archdiff.alignment.seats import carriers_of
from archdiff.page.anchors import element_anchor, evidence_anchor
from archdiff.record.silence import Silence
from archdiff.wording import some_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from archdiff.alignment import Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

View = dict[str, Any]
_NAMED = 3  # names of members told; how many there are stands beside them


def records(comparison: Comparison) -> tuple[tuple[str, Record], tuple[str, Record]]:
    """('left', record) and ('right', record)."""
    return ("left", comparison.left), ("right", comparison.right)


def called(record: Record, name: str) -> str:
    """The label of the element with that id, else the words as they stand."""
    element = record.elements.get(name)
    return element.label if element else name


def places(record: Record, hosts: Iterable[str]) -> str:
    """Where something is: 'Main board', 'Main board and Front board', 'place not known'."""
    return " and ".join(called(record, host) for host in hosts) or "place not known"


def evidence_links(record: Record, side: str, ids: Iterable[str]) -> list[View]:
    """Id, anchor and tip of every piece of evidence that the record holds."""
    return [
        {"id": name, "anchor": evidence_anchor(side, name), "tip": str(record.evidence[name].get("shows", ""))}
        for name in dict.fromkeys(ids)
        if name in record.evidence
    ]


def seat_view(record: Record, side: str, seat: Seat) -> View:
    """One side of a pair as the templates show it."""
    label, means = _title(record, seat)
    return {
        "side": side,
        "label": label,
        "means": means,
        # What carries others is a place itself: that it lies nowhere is nothing that was not looked at.
        "place": "" if not seat.hosts and seat.first.id in _carriers(record) else places(record, seat.hosts),
        "count": seat.count,
        "ids": [{"id": name, "anchor": element_anchor(side, name)} for name in seat.ids],
        "evidence": evidence_links(record, side, (one for member in seat.members for one in member.evidence)),
    }


_carriers = lru_cache(maxsize=4)(carriers_of)


def _title(record: Record, seat: Seat) -> tuple[str, str]:
    """What to call a seat, and its means where that says more: nobody wants to read the function a second time."""
    if seat.embedded_in:
        return f"inside {called(record, seat.embedded_in)}", ""
    return titled_together(seat.members)


def titled_together(members: Sequence[Element]) -> tuple[str, str]:
    """What to call several that do one job: by all their names, 'Good, Fair and Poor', and their means."""
    names = list(dict.fromkeys(titled(member)[0] for member in members))
    return some_of(names, _NAMED), titled(members[0])[1]


def titled(element: Element) -> tuple[str, str]:
    """What to call an element, and its means where that says more than the name does."""
    label, means = element.label, element.means
    if means and label == element.function:
        return means, ""
    return label, means if means.lower() != label.lower() else ""


def suspect(record: Record, side: str, pair: Pair) -> View | None:
    """The element of the silent side in which the function may hide, where one is known."""
    if pair.silent is None or pair.silent.silence is Silence.NOT_THERE:
        return None
    element = record.elements.get(pair.silent.may_be)
    return {"label": element.label, "anchor": element_anchor(side, element.id)} if element else None
