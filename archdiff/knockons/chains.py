"""Chains of differences: from a choice to what it made necessary.

A link is drawn only where the record itself ties the two things together (sits on, joins, covers, made by),
or where the analyst says so under `decisions`. Which of two tied things is the cause follows one order: a board
before what sits on it or joins it, a supply before what converts it, a part before what shields it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.alignment import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.alignment import Alignment, HostPair, Pair
    from archdiff.record import Element, Record


@dataclass(frozen=True, slots=True)
class Link:
    """One step of a chain: the effect follows from the cause.

    >>> {link.side for chain in result.comparison.chains for link in chain.links} <= {"left", "right"}
    True
    """

    cause: str
    effect: str
    because: str  # what in the record of `side` ties the two
    sure: str
    side: str  # "left" or "right"
    effect_id: str = ""  # element id on that side


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
        chains += _from_entries(record, side, differing)
        chains += _from_shields(record, side, differing)
    return tuple(sorted(chains, key=lambda chain: (not chain.analyst, -len(chain.links), chain.side)))


def _differing(alignment: Alignment, side: str) -> dict[str, Pair]:
    """Element ids of one side whose pair differs in a way that is known."""
    same = (Verdict.ALIKE, Verdict.UNKNOWN)
    found: dict[str, Pair] = {}
    for pair in alignment.pairs:
        seat = pair.left if side == "left" else pair.right
        if seat is not None and pair.verdict not in same:
            for name in seat.ids:
                found.setdefault(name, pair)
    return found


def _stated(record: Record, side: str) -> Iterator[Chain]:
    for decision in record.decisions.values():
        root, sure = str(decision["choice"]), str(decision.get("sure", "inferred"))
        because = str(decision.get("because", ""))
        effects = [record.elements[name] for name in decision.get("forces", ()) if name in record.elements]
        if effects:
            links = tuple(Link(root, _called(e), because, sure, side, e.id) for e in effects)
            about = tuple(str(name) for name in decision.get("about", ()) if name in record.elements)
            yield Chain(root, links, analyst=True, side=side, about=about)


def _from_boards(alignment: Alignment, record: Record, side: str, differing: dict[str, Pair]) -> Iterator[Chain]:
    for hosts in alignment.hosts:
        board = _alone(hosts, side)
        if board is None:
            continue
        root = f"an additional board: {record.elements[board].label}"
        links = [
            Link(root, _called(element), reason, element.sure or "seen", side, element.id)
            for element in record.elements.values()
            if element.id in differing and (reason := _tie_to_board(element, board))
        ]
        if links:
            yield Chain(root, tuple(links), analyst=False, side=side, about=(board,))


def _alone(hosts: HostPair, side: str) -> str | None:
    """The board that this side has and the other is known not to have."""
    mine, other = (hosts.left, hosts.right) if side == "left" else (hosts.right, hosts.left)
    known = hosts.silent is not None and hosts.silent.silence.is_known
    return mine if hosts.is_board and other is None and known else None


def _tie_to_board(element: Element, board: str) -> str:
    if board not in element.hosts:
        return ""
    return "joins it to the rest" if len(element.hosts) > 1 else "sits on it"


def _from_entries(record: Record, side: str, differing: dict[str, Pair]) -> Iterator[Chain]:
    sources = {e.id for name in ("power.entry", "power.storage") for e in record.section(name)}
    for source in sorted(sources & differing.keys()):
        links = [
            Link(
                _called(record.elements[source]),
                _called(maker),
                f"makes {rail.label} from it",
                maker.sure or "seen",
                side,
                maker.id,
            )
            for rail in record.section("power.rails")
            if rail.text("from") == source and (maker := record.elements.get(rail.text("made_by"))) is not None
            if maker.id in differing
        ]
        if links:
            yield Chain(_called(record.elements[source]), tuple(links), analyst=False, side=side, about=(source,))


def _from_shields(record: Record, side: str, differing: dict[str, Pair]) -> Iterator[Chain]:
    for shield in record.section("shields"):
        covered = [record.elements[name] for name in shield.texts("covers") if name in differing]
        if covered and shield.id in differing:
            root = " and ".join(dict.fromkeys(_called(part) for part in covered))
            link = Link(root, _called(shield), "covers it", shield.sure or "seen", side, shield.id)
            about = tuple(part.id for part in covered)
            yield Chain(root, (link,), analyst=False, side=side, about=about)


def _called(element: Element) -> str:
    """Its name and its means where that says more; what has no name of its own is called by its means."""
    if element.means and not element.facts.get("name"):
        return element.means
    means = f", {element.means}" if element.means and element.means.casefold() not in element.label.casefold() else ""
    return f"{element.label}{means}"
