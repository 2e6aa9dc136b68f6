"""Interconnects: what joins the boards with each other and with what lies off them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import (
    Ledger,
    added,
    count_listed,
    count_true,
    listed,
    means_of,
    number,
    share,
    sum_in_words,
    told,
)
from archdiff.figures.facts.link_facts import joins_boards, ways_across, ways_in_words
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("interconnects", "Interconnects", 20)
_GUESS = (
    "a flat cable of n ways is (n + 1) x pitch wide (common practice, no source; from memory), give or take one "
    "pitch (ours)"
)


@figure(
    title="Interconnects",
    order=10,
    meaning="How many electrical links join boards with each other or with something off them.",
    formula="count of interconnects, by means",
    source="count; common practice, no source",
    preferred="lower: each link is a part to buy, to plug and to fail",
)
def interconnect_count(record: Record) -> Measure:
    """Links by means."""
    return count_listed(record, "interconnects", label=means_of)


@figure(
    title="Links between boards",
    order=20,
    meaning="How many of the links run from one board to another.",
    formula="count of interconnects with ends on two or more boards",
    source="count; common practice, no source",
    preferred="lower: fewer links between boards",
)
def links_between_boards(record: Record) -> Measure:
    """Links that join two or more boards, each named."""
    ledger = Ledger(record)
    whole = ledger.whole("interconnects")
    links = listed(record, "interconnects")
    answers = {link.id: joins_boards(ledger, link) for link in links}
    count = count_true(links, lambda link: answers[link.id], whole=whole)
    parts = {link.id: Bounds.exact(link.count) for link in links if answers[link.id] is Truth.YES}
    return ledger.measure(count, sum_in_words(e for e in links if answers[e.id] is Truth.YES), parts)


@figure(
    title="Ways between boards",
    order=30,
    meaning="How many contacts or conductors cross from board to board.",
    formula="sum of ways over the interconnects that join two or more boards",
    source="count; common practice, no source",
    preferred="lower: each way costs contacts and copper",
)
def ways_between_boards(record: Record) -> Measure:
    """Ways of the links that join two or more boards, with each link's own."""
    ledger = Ledger(record)
    total, parts = ways_across(ledger)
    return ledger.measure(total, f"{ways_in_words(parts)} = {told(total)}", parts)


@figure(
    title="Flex links",
    order=40,
    meaning="How many of the links are flexible circuits or flat cables.",
    formula="count of interconnects whose means is a flat film or band that bends",
    source="count; common practice, no source",
)
def flex_links(record: Record) -> Measure:
    """Links whose means has the trait 'flat', each named."""
    ledger = Ledger(record)
    whole = ledger.whole("interconnects")
    links = listed(record, "interconnects")
    count = count_true(links, lambda link: ledger.trait(link, "flat"), whole=whole)
    flat = [link for link in links if record.has_trait(link, "flat")]
    parts = {link.id: Bounds.exact(link.count) for link in flat}
    return ledger.measure(count, sum_in_words(flat), parts)


@figure(
    title="Detachable links",
    order=50,
    meaning="Share of the links that can be parted and rejoined without damage.",
    formula="detachable interconnects / interconnects",
    source="count; common practice, no source",
    preferred="higher: easier to test and to mend",
)
def detachable_share(record: Record) -> Measure:
    """Share, 0 to 1, of links that are said to be detachable or whose means is."""
    ledger = Ledger(record)
    whole = ledger.whole("interconnects")
    links = listed(record, "interconnects")
    count = count_true(links, lambda link: _detachable(ledger, link), whole=whole)
    everything = number(links)
    how = f"{told(count)} of {everything}" + ("" if whole else " listed")
    return ledger.measure(share(count, everything, whole=whole), how)


@figure(
    title="Cable width",
    unit="mm",
    order=60,
    meaning="How wide the flat links are, side by side: the board edge and the slots they take.",
    formula="sum of widths; (ways + 1) x pitch where the width is not stated, give or take one pitch",
    source="(n + 1) x pitch: common practice, no source; the allowance of one pitch is ours",
)
def cable_width(record: Record) -> Measure:
    """Width in mm of all flat links, as stated or from ways and pitch."""
    ledger = Ledger(record)
    parts: dict[str, Bounds] = {}
    whole, open_end = ledger.whole("interconnects"), False
    for link in listed(record, "interconnects"):
        width = _width(ledger, link)
        if width is not None:
            parts[link.id] = width * link.count
        open_end = open_end or (width is None and record.means_term(link.means) is None)
    total = added(parts.values(), whole=whole and not open_end)
    terms = " + ".join(f"{key} {told(value)}" for key, value in parts.items())
    return ledger.measure(total, f"{terms or 'no flex link listed'} = {told(total)} mm", parts)


def flat_cable_width(ways: Bounds, pitch: Bounds) -> Bounds:
    """Width of a flat cable: (n + 1) x pitch, between n x pitch and (n + 2) x pitch."""
    guess = (ways + 1) * pitch
    return Bounds(guess.best, (ways * pitch).low, ((ways + 2) * pitch).high)


def _width(ledger: Ledger, link: Element) -> Bounds | None:
    """Its width as stated or estimated; None where it is not flat or nobody knows whether it is."""
    if ledger.trait(link, "flat") is not Truth.YES:
        return None
    stated = ledger.value(link, "width")
    if stated is not None:
        return stated
    ways, pitch = ledger.value(link, "ways"), ledger.value(link, "pitch")
    if ways is None or pitch is None:
        return Bounds(None, 0.0, math.inf)
    ledger.assume(_GUESS)
    return flat_cable_width(ways, pitch)


def _detachable(ledger: Ledger, link: Element) -> Truth:
    stated = link.facts.get("detachable")
    if isinstance(stated, bool):
        ledger.use(link.id, "detachable")
        return Truth.YES if stated else Truth.NO
    answer = ledger.trait(link, "detachable")
    if answer is Truth.UNKNOWN:
        ledger.lack(link.id, "detachable")
    return answer
