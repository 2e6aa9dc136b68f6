"""What several figures ask of a link: which boards its ends lie on, and whether it joins boards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.figures.counting import added, listed, told
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element, Record


@dataclass(frozen=True, slots=True)
class Reach:
    """The boards that the ends of a link surely lie on, and how many of its ends have no known place."""

    boards: frozenset[str]
    loose: int

    @property
    def joins(self) -> Truth:
        """Whether it joins two or more boards; not known where it hangs on ends of unknown place."""
        if len(self.boards) > 1:
            return Truth.YES
        return Truth.UNKNOWN if len(self.boards) + self.loose > 1 else Truth.NO

    @property
    def is_open(self) -> bool:
        """Whether it may join more boards than are known."""
        return self.loose > 0 and len(self.boards) + self.loose > 1


def reach_of(record: Record, link: Element, lost: str = "") -> Reach:
    """Where the ends of a link lie; `lost` is an element to be taken for one of unknown place."""
    reached: set[str] = set()
    loose = 0
    for name in link.texts("between"):
        end = record.elements.get(name)
        if name in record.hosts:
            reached.add(name)
        elif end is not None and end.hosts and name != lost:
            reached.update(end.hosts)
        else:
            loose += 1
    boards = (name for name in reached if name in record.hosts and record.hosts[name].section == "boards")
    return Reach(frozenset(boards), loose)


def far_ends(record: Record, link: Element) -> Iterator[Element]:
    """The ends of a link that are no boards or pieces themselves but lie somewhere."""
    for name in dict.fromkeys(link.texts("between")):
        end = record.elements.get(name)
        if end is not None and name not in record.hosts:
            yield end


def joins_boards(ledger: Ledger, link: Element) -> Truth:
    """Whether a link joins two or more boards, with the places that decide it noted."""
    record = ledger.record
    answer = reach_of(record, link).joins
    for end in far_ends(record, link):
        lacking = answer is Truth.UNKNOWN and not end.hosts
        if lacking or reach_of(record, link, lost=end.id).joins is not answer:
            ledger.hosts(end)
    return answer


def ways_of(ledger: Ledger, link: Element) -> Bounds:
    """The ways of one link: as stated, else one at least."""
    return ledger.value(link, "ways") or Bounds.at_least(1)


def ways_across(ledger: Ledger) -> tuple[Bounds, dict[str, Bounds]]:
    """How many ways cross from board to board, and over which links, an entry of several alike counted as such."""
    whole = ledger.whole("interconnects")
    parts: dict[str, Bounds] = {}
    for link in listed(ledger.record, "interconnects"):
        answer = joins_boards(ledger, link)
        if answer is not Truth.NO:
            ways = ways_of(ledger, link) * link.count
            parts[link.id] = ways if answer is Truth.YES else Bounds(None, 0.0, ways.high)
    return added(parts.values(), whole=whole), parts


def ways_in_words(parts: Mapping[str, Bounds]) -> str:
    """'flex 14 + harness 8'."""
    return " + ".join(f"{key} {told(value)}" for key, value in parts.items()) or "no link between boards listed"
