"""Crossings: how many contacts and conductors the links have, and what those between boards carry."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger, added, listed, told
from archdiff.figures.facts.link_facts import joins_boards, reach_of, ways_across, ways_in_words, ways_of
from archdiff.figures.facts.pair_facts import PairLedger
from archdiff.figures.shelf import Family, figure, pair_figure
from archdiff.quantities import Bounds, number
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.figure import Measure, PairView
    from archdiff.record import Element, Record

FAMILY = Family("crossings", "Ways of the links", 22)


@figure(
    title="Ways of all links",
    glance=True,
    order=10,
    meaning="How many contacts or conductors all links have, those to something off the boards among them.",
    formula="sum of ways over all interconnects",
    source="count; common practice, no source",
    preferred="lower: each way costs contacts and copper",
)
def ways_of_all_links(record: Record) -> Measure:
    """Ways of all links, with each link's own."""
    ledger = Ledger(record)
    whole = ledger.whole("interconnects")
    parts = {link.id: ways_of(ledger, link) * link.count for link in listed(record, "interconnects")}
    total = added(parts.values(), whole=whole)
    terms = " + ".join(f"{key} {told(value)}" for key, value in parts.items())
    return ledger.measure(total, f"{terms or 'no links listed'} = {told(total)}", parts)


@figure(
    title="Signal ways between boards",
    order=20,
    meaning="How many of the ways that cross from board to board carry signals, supply and ground not counted.",
    formula="sum over links between boards of ways - supply ways - ground ways",
    source="count; common practice, no source",
    preferred="lower: each signal that leaves its board is one more to route, plug and test",
)
def signal_ways(record: Record) -> Measure:
    """Signal ways of the links that join two or more boards, with each link's own."""
    return _crossing(record, _signals)


@figure(
    title="Supply and ground ways between boards",
    order=30,
    meaning="How many of the ways that cross from board to board carry supply or ground.",
    formula="sum over links between boards of supply ways + ground ways",
    source="count; common practice, no source",
)
def supply_and_ground_ways(record: Record) -> Measure:
    """Supply and ground ways of the links that join two or more boards, with each link's own."""
    return _crossing(record, _supplies)


@pair_figure(
    title="Ways between boards for each paired function",
    order=40,
    meaning=(
        "How many more ways the left product lets cross from board to board than the right one, for each function "
        "that is found in both; below 0 where the right product has more."
    ),
    formula="(ways between boards on the left - those on the right) / paired functions placed in both",
    source="own definition; common practice, no source",
)
def ways_per_paired_function(view: PairView) -> Measure:
    """Left less right, in ways a paired function, with each side's own number."""
    ledger = PairLedger(view)
    ledger.note_places()
    (left, of_left), (right, of_right) = ways_across(ledger.left), ways_across(ledger.right)
    placed, loose = view.partition.placed, len(view.partition.unplaced)
    if not placed:
        return ledger.measure(None, "no pair is placed")
    functions = Bounds(None if loose else placed, placed, placed + loose)
    how = (
        f"({told(left)} - {told(right)}) ways / {told(functions)} functions; left {ways_in_words(of_left)}, right "
        f"{ways_in_words(of_right)}"
    )
    less = (left - right) / functions
    sides = {"left": left / functions, "right": right / functions}
    told_apart = math.isfinite(less.low) or math.isfinite(less.high)
    parts = {key: value for key, value in sides.items() if told(value) != "not known"}
    said = f"{number(sides['left'])} in {view.left.name}, {number(sides['right'])} in {view.right.name}"
    return ledger.measure(less if told_apart else None, how, parts, said)


def _crossing(record: Record, count: Callable[[Ledger, Element], Bounds]) -> Measure:
    """A number of ways over the links between boards; a link that may join none may add none."""
    ledger = Ledger(record)
    whole = ledger.whole("interconnects")
    parts: dict[str, Bounds] = {}
    for link in listed(record, "interconnects"):
        ways = count(Ledger(record), link) * link.count
        answer = joins_boards(ledger, link) if ways.high else reach_of(record, link).joins
        if answer is not Truth.NO:
            count(ledger, link)
            parts[link.id] = ways if answer is Truth.YES else Bounds(None, 0.0, ways.high)
    total = added(parts.values(), whole=whole)
    return ledger.measure(total, f"{ways_in_words(parts)} = {told(total)}", parts)


def _signals(ledger: Ledger, link: Element) -> Bounds:
    """Ways less supply and ground; each of these that is not stated may be any number of the ways, or none."""
    ways = ways_of(ledger, link)
    least, most = _taken(ledger, link, ways)
    low, high = max(0.0, ways.low - most), max(0.0, ways.high - least)
    return Bounds(low if low == high else None, low, high)


def _supplies(ledger: Ledger, link: Element) -> Bounds:
    """Supply and ground ways: as stated, else any number of all ways."""
    stated = [ledger.value(link, name) for name in ("supply_ways", "ground_ways")]
    # How many ways there are matters only where not all of these are stated.
    low, high = _taken(ledger, link, ways_of(ledger, link) if None in stated else ANY)
    return Bounds(low if low == high else None, low, high)


def _taken(ledger: Ledger, link: Element, ways: Bounds) -> tuple[float, float]:
    """The least and the greatest number of ways that supply and ground take."""
    stated = [ledger.value(link, name) for name in ("supply_ways", "ground_ways")]
    known = [value for value in stated if value is not None]
    low = sum(value.low for value in known)
    return low, sum(value.high for value in known) if len(known) == len(stated) else max(low, ways.high)
