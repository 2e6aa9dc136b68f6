"""From a record to its seats: one per function and element, interchangeable elements together in one."""

from __future__ import annotations

from collections import Counter, defaultdict
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
        [
            (name, value if type(value) is str else _in_order(value))
            for name, value in element.facts.items()
            if name in kept and (naming or not (name in NAMING or isinstance(value, (dict, tuple))))
        ]
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


def carriers_of(record: Record) -> frozenset[str]:
    """The boards and pieces that carry something."""
    return frozenset(host for element in record.elements.values() for host in element.hosts)


def all_links(record: Record) -> list[tuple[str, str, str]]:
    """(relation, from id, to id) of every link that any element of the record states.

    A path is drawn through one of several alike as a rule; that makes it no other thing than its neighbours.
    """
    return [
        (rel, e.id, other) for e in record.elements.values() if e.section != "paths" for rel, other in record.links(e)
    ]


def seats_of(record: Record, marks: Marks, links: Iterable[tuple[str, str, str]]) -> list[Seat]:
    """All seats of a record, in the order of the file; elements without a function have none.

    Elements that agree in function, means, hosts, every describing fact and all links become one seat with
    several members; so do several elements that one tie of the notes names together.
    """
    taken = [e for name in seat_sections() for e in record.section(name) if e.id not in marks.ignored]
    # Few elements have another of the same kind beside them; only for those the dear comparison is made.
    kinds = [_kind_key(element, marks) for element in taken]
    common = Counter(kinds)
    bonds = _bonds({e.id for e, kind in zip(taken, kinds, strict=True) if common[kind] > 1}, links)
    groups: dict[Any, list[Element]] = {}
    for element, kind in zip(taken, kinds, strict=True):
        twin = _twin_key(element, marks, bonds.get(element.id, ())) if common[kind] > 1 else None
        groups.setdefault((kind, twin), []).append(element)
    own = embedded_means(record)
    return [seat for members in groups.values() for seat in _seats(record, tuple(members), own)]


def _bonds(wanted: set[str], links: Iterable[tuple[str, str, str]]) -> dict[str, list[tuple[str, str]]]:
    """What each of the wanted elements is joined to, and how."""
    bonds: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for relation, source, target in links:
        if source in wanted:
            bonds[source].append((relation, target))
        if target in wanted:
            bonds[target].append((f"~{relation}", source))
    return bonds


def _kind_key(element: Element, marks: Marks) -> Any:
    """Equal for all that may be twins; quick to make."""
    tie = marks.tied.get(element.id)
    return (element.section, element.functions, element.means, element.hosts) if tie is None else tie


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
    several = len(holders) > 1 or len(holders[0].hosts) > 1
    hosts = tuple(dict.fromkeys(host for e in holders for host in e.hosts)) if several else holders[0].hosts
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
