"""Chains of differences: from a choice to what it made necessary.

A link is drawn only where the record ties the two things together (sits on, joins, covers, made by) or the analyst
says so under `decisions`. Of two tied things the cause is the board, not what sits on it or joins it; the supply, not
its converter; the part, not its shield.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.alignment import Alignment, HostPair
    from archdiff.record import Element, Record


@dataclass(frozen=True, slots=True)
class Link:
    """One thing that a choice made necessary.

    >>> all(link.effect for chain in result.comparison.chains for link in chain.links)
    True
    """

    effect: str  # the thing, in words
    because: str  # what in the record ties it to the choice, or the analyst's reason
    sure: str
    effect_id: str


@dataclass(frozen=True, slots=True)
class Chain:
    """A choice and what follows from it.

    >>> all(chain.links for chain in result.comparison.chains)
    True
    """

    root: str  # the choice
    links: tuple[Link, ...]
    analyst: bool  # stated under `decisions`; otherwise the record ties the things together
    side: str  # "left" or "right"
    about: tuple[str, ...] = ()  # ids of what the choice is about


def follow(alignment: Alignment, left: Record, right: Record) -> tuple[Chain, ...]:
    """All chains, those with most links first."""
    chains: list[Chain] = []
    for side, record in (("left", left), ("right", right)):
        differing = _differing(alignment, side)
        chains += _stated(record, side)
        chains += _from_boards(alignment, record, side, differing)
        chains += _from_supplies(record, side, differing)
        chains += _from_shields(record, side, differing)
    return tuple(sorted(chains, key=lambda chain: (not chain.analyst, -len(chain.links), chain.side)))


def _differing(alignment: Alignment, side: str) -> set[str]:
    """Element ids of one side whose pair is known to differ."""
    same = (Verdict.ALIKE, Verdict.UNKNOWN)
    seats = [p.left if side == "left" else p.right for p in alignment.pairs if p.verdict not in same]
    return {name for seat in seats if seat is not None for name in seat.ids}


def _stated(record: Record, side: str) -> Iterator[Chain]:
    for decision in record.decisions.values():
        sure, because = str(decision.get("sure", "inferred")), str(decision.get("because", ""))
        forced = [record.elements[name] for name in decision.get("forces", ()) if name in record.elements]
        if forced:
            links = tuple(Link(_called(element), because, sure, element.id) for element in forced)
            about = tuple(str(name) for name in decision.get("about", ()) if name in record.elements)
            yield Chain(str(decision["choice"]), links, analyst=True, side=side, about=about)


def _from_boards(alignment: Alignment, record: Record, side: str, differing: set[str]) -> Iterator[Chain]:
    for hosts in alignment.hosts:
        board = _alone(hosts, side)
        on_it = [e for e in record.elements.values() if e.id in differing and board in e.hosts]
        if board is not None and on_it:
            links = tuple(_tied(e, "joins it to the rest" if len(e.hosts) > 1 else "sits on it") for e in on_it)
            root = f"an additional board: {record.elements[board].label}"
            yield Chain(root, links, analyst=False, side=side, about=(board,))


def _alone(hosts: HostPair, side: str) -> str | None:
    """The board that this side has and the other is known not to have."""
    mine, other = (hosts.left, hosts.right) if side == "left" else (hosts.right, hosts.left)
    known = hosts.silent is not None and hosts.silent.silence.is_known
    return mine if hosts.is_board and other is None and known else None


def _from_supplies(record: Record, side: str, differing: set[str]) -> Iterator[Chain]:
    supplies = {e.id for name in ("power.entry", "power.storage") for e in record.section(name)}
    for supply in sorted(supplies & differing):
        rails = [rail for rail in record.section("power.rails") if rail.text("from") == supply]
        makers = [(rail, record.elements[rail.text("made_by")]) for rail in rails if rail.text("made_by") in differing]
        if makers:
            links = tuple(_tied(maker, f"makes {rail.label} from it") for rail, maker in makers)
            yield Chain(_called(record.elements[supply]), links, analyst=False, side=side, about=(supply,))


def _from_shields(record: Record, side: str, differing: set[str]) -> Iterator[Chain]:
    for shield in record.section("shields"):
        covered = [record.elements[name] for name in shield.texts("covers") if name in differing]
        if covered and shield.id in differing:
            root = " and ".join(dict.fromkeys(_called(part) for part in covered))
            about = tuple(part.id for part in covered)
            yield Chain(root, (_tied(shield, "covers it"),), analyst=False, side=side, about=about)


def _tied(element: Element, because: str) -> Link:
    return Link(_called(element), because, element.sure or "seen", element.id)


def _called(element: Element) -> str:
    """Its name and its means where that says more; what has no name of its own is called by its means."""
    if element.means and not element.facts.get("name"):
        return element.means
    means = f", {element.means}" if element.means and element.means.casefold() not in element.label.casefold() else ""
    return f"{element.label}{means}"
