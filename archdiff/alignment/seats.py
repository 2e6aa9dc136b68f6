"""From a record to its seats: one per function and element, interchangeable elements together in one."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any

from archdiff.alignment.model import Seat
from archdiff.record import section, sections

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from archdiff.notes import Match
    from archdiff.record import Element, Record
    from archdiff.record.plan import Plan

# What tells one of several interchangeable things from the next, without making it another thing.
_OWN = frozenset({"name", "at", "turned", "side", "evidence", "note", "label", "sure", "count", "colours"})
# What stands in the model already (seat, host, link) or is worded by each analyst.
_ELSEWHERE = frozenset({"function", "also", "means"})
# What speaks of other things than the element itself, in free words that often hold an id.
_OF_OTHERS = frozenset({"hidden_under", "reached_through", "seen_through", "separated_by", "fed_through"})
# What names a thing or tells of the market: no sign of a common job, and no difference of the build.
NAMING = frozenset({"marking", "maker", "time_source", "price", "edge", "in", "on"})


@dataclass(frozen=True, slots=True)
class Marks:
    """What the notes say of the elements of one side: left out, tied (by group), and set apart from twins."""

    ignored: frozenset[str] = frozenset()
    tied: Mapping[str, int] = field(default_factory=dict)
    never: Mapping[str, frozenset[int]] = field(default_factory=dict)

    @classmethod
    def of(cls, ties: Sequence[Match], never: Sequence[Match], ignored: frozenset[str], side: str) -> Marks:
        """The marks of the side called 'left' or 'right'."""
        tied = {name: index for index, match in enumerate(ties) for name in getattr(match, side)}
        apart: dict[str, set[int]] = defaultdict(set)
        for index, match in enumerate(never):
            for name in getattr(match, side):
                apart[name].add(index)
        return cls(ignored, tied, {name: frozenset(found) for name, found in apart.items()})


@cache
def describing(section_name: str) -> frozenset[str]:
    """The facts of a section's elements that describe the element itself: no names, places or references."""
    plan = section(section_name).plan
    return frozenset(
        name
        for name, inner in plan.properties.items()
        if name not in _OWN and name not in _ELSEWHERE and name not in _OF_OTHERS and not _refers(inner)
    )


def _refers(plan: Plan) -> bool:
    return bool(plan.refers_to or (plan.items and plan.items.refers_to))


def content(element: Element, *, naming: bool = False) -> str:
    """What an element is by its own facts, as one text: equal for elements that differ in name and place only.

    With `naming` markings, maker and price count too, and lists and mappings, which may name ids within.
    """
    kept = describing(element.section)
    facts = sorted(
        (name, _in_order(value))
        for name, value in element.facts.items()
        if name in kept and (naming or not (name in NAMING or isinstance(value, dict | tuple)))
    )
    return f"{element.section}|{element.functions}|{element.means}|{facts}"


def _in_order(value: Any) -> str:
    """A value as text, whatever order its mappings were written in."""
    if isinstance(value, dict):
        return str(sorted((name, _in_order(item)) for name, item in value.items()))
    if isinstance(value, tuple):
        return str([_in_order(item) for item in value])
    return str(value)


@cache
def seat_sections() -> tuple[str, ...]:
    """The sections whose elements have seats."""
    return tuple(known.name for known in sections() if known.holds_seats)


def all_links(record: Record) -> list[tuple[str, str, str]]:
    """(relation, from id, to id) of every link that any element of the record states."""
    return [(rel, e.id, other) for e in record.elements.values() for rel, other in record.links(e)]


def seats_of(record: Record, marks: Marks, links: Iterable[tuple[str, str, str]]) -> list[Seat]:
    """All seats of a record, in the order of the file; elements without a function have none.

    Elements that agree in function, means, hosts, every describing fact and all links become one seat with
    several members; so do several elements that one tie of the notes names together.
    """
    bonds: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for relation, source, target in links:
        bonds[source].append((relation, target))
        bonds[target].append((f"~{relation}", source))
    groups: dict[Any, list[Element]] = {}
    for name in seat_sections():
        for element in record.section(name):
            if element.id not in marks.ignored:
                key = _twin_key(element, marks, bonds.get(element.id, ()))
                groups.setdefault(key, []).append(element)
    own = embedded_means(record)
    return [seat for members in groups.values() for seat in _seats(record, tuple(members), own)]


def _twin_key(element: Element, marks: Marks, bonds: Iterable[tuple[str, str]]) -> Any:
    tie = marks.tied.get(element.id)
    if tie is not None:
        return tie
    apart = marks.never.get(element.id, frozenset())
    return content(element, naming=True), element.hosts, element.populated, frozenset(bonds), apart


def embedded_means(record: Record) -> str:
    """The vocabulary's name for what lives inside another element."""
    return next((term.name for term in record.vocabulary.means.values() if "embedded" in term.traits), "")


def _seats(record: Record, members: tuple[Element, ...], inside: str) -> list[Seat]:
    # Elements that the notes tie as one do one job, whatever each of them was written down for.
    jobs = {member.function for member in members[1:]} - {members[0].function}
    functions = dict.fromkeys(name for member in members for name in member.functions if name not in jobs)
    return [seat for name in functions for seat in [_seat(record, members, name, inside)] if seat is not None]


def _seat(record: Record, members: tuple[Element, ...], function: str, inside: str) -> Seat | None:
    holders = tuple(member for member in members if function in member.functions)
    if members[0].function == function:
        holders = members  # a tie of several elements is one seat of the first one's function
    hosts = tuple(dict.fromkeys(host for member in holders for host in member.hosts))
    main = [member for member in holders if member.function == function]
    if not main:
        return Seat(function, holders, inside, hosts, holders[0].id)
    stated = {member.means for member in main}
    means = stated.pop() if len(stated) == 1 else ""
    return Seat(function, holders, means, hosts, _lives_in(record, main[0]))


def _lives_in(record: Record, element: Element) -> str:
    if not record.has_trait(element, "embedded"):
        return ""
    carrier = element.facts.get("sits_in") or next(iter(element.texts("joined_to")), "")
    return str(carrier) if carrier in record.elements else ""
