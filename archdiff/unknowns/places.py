"""A part of the product that was not wholly looked at, as one look: where, for what, and what stands in the way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.record import sections
from archdiff.record.coverage import NONE
from archdiff.record.gaps import gaps_of
from archdiff.unknowns import ways
from archdiff.unknowns.asked import Thing, in_a_sentence, thing_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.record import Element, Record

_SIDES = {"bottom": "underside", "top": "top side"}
# Sections of coverage that are no list of things called as their title says.
_LISTED = {
    "enclosure": "pieces of the housing",
    "opening": "actions of opening",
    "power": "supplies",
    "links": "connections",
}


@dataclass(frozen=True, slots=True)
class Place:
    """One gap of coverage: a section of the record on one host, on one side; both may be ''."""

    section: str
    host: str
    side: str
    word: str

    @property
    def key(self) -> tuple[str, ...]:
        """What is seen with one look: all sections on one side of one host."""
        return ("at", self.host, self.side) if self.host and self.host != "elsewhere" else ("in", self.section)


def places_of(record: Record) -> dict[str, Place]:
    """Every gap by its words, as it is named among the unknowns."""
    stated = record.coverage.gaps()
    gaps = gaps_of(record)
    found = {gap.where: Place(*place) for gap, place in zip(gaps, stated, strict=False)}
    return found | {gap.where: Place(gap.section, "", "", NONE) for gap in gaps[len(stated) :]}


def where_of(record: Record, place: Place) -> tuple[Thing, str]:
    """The thing to look at, and which of its sides."""
    if place.host and place.host != "elsewhere":
        return thing_of(record, place.host), _SIDES.get(place.side, "")
    return Thing("Off the boards" if place.host else "Whole product"), ""


def sought(places: Sequence[Place], more: Sequence[str] = ()) -> str:
    """What is looked for: 'parts, sensors'; 'antennas not listed yet' where some were looked at; `more` last."""
    titles = {section.name: section.title.lower() for section in sections() if "." not in section.name} | _LISTED
    names = dict.fromkeys(titles.get(place.section, place.section) for place in places)
    yet = "" if all(place.word == NONE for place in places) else " not listed yet"
    return ", ".join([f"{', '.join(names)}{yet}", *more])


def how_to(record: Record, place: Place) -> str:
    """How to look there; what stands in the way and what would be lost are told as far as the record has them."""
    if place.key[0] == "in":
        return ways.BY_SECTION.get(place.section, ways.LOOK_CLOSELY)
    host = record.elements.get(place.host)
    board = host is not None and host.section == "boards"
    if host is None:
        return ways.LOOK_CLOSELY
    covers = " and ".join(map(_called, _covers(record, host, place.side)))
    turn = ["turn the board over"] if board and place.side == "bottom" else []
    *first, last = [*turn, *([f"lift {covers}"] if covers else []), "list what is there"]
    act = f"{', '.join(first)} and {last}" if first else last
    return "; ".join([act, *_in_the_way(record, host)])


def _covers(record: Record, host: Element, side: str) -> Iterator[Element]:
    """Cans and plates over that side, and what the host itself is hidden under."""
    for shield in record.section("shields"):
        if host.id in shield.hosts and shield.populated and shield.text("side") in ("", side):
            yield shield
    cover = record.elements.get(host.text("hidden_under"))
    if cover is not None:
        yield cover


def _in_the_way(record: Record, host: Element) -> Iterator[str]:
    """With which recorded action the host comes off, and which joints of it cannot be undone whole."""
    freed = [number for number, action in enumerate(record.opening, 1) if host.id in action.get("frees", ())]
    name = f"the {in_a_sentence(host.label)}"
    if freed:
        yield f"{name} comes off with action {freed[-1]} of the opening"
    elif record.opening:
        yield f"no recorded action takes {name} off"
    for joint in record.section("joints"):
        if host.id in joint.texts("between"):
            if record.has_trait(joint, "destructive"):
                yield f"{_called(joint)} cannot be undone without damage"
            elif joint.facts.get("reusable") is False:
                yield f"{_called(joint)} does not hold again once undone"


def _called(element: Element) -> str:
    """'the radio can (soldered can)'; what has no name is called by what it is."""
    if not element.facts.get("name"):
        return f"the {element.means or element.label}"
    means = f" ({element.means})" if element.means else ""
    return f"the {in_a_sentence(element.label)}{means}"
