"""The differences that matter most, as sentences, at most one for each subsystem.

The partition over boards comes first, then how energy comes in, how the user works the product, how it senses,
talks, cools and opens. A different package of the same chip never makes a headline. Within a subsystem what differs
both in principle and location comes before what differs in one of them or is on one side only, what the user meets
before what serves it, what is dear before what is cheap. The analyst's `weights` multiply this.
"""

from __future__ import annotations

from dataclasses import replace
from math import log2
from typing import TYPE_CHECKING

from archdiff.alignment import Verdict
from archdiff.alignment.verdict import weakest
from archdiff.headlines.consequences import consequences_of
from archdiff.headlines.headline import Headline
from archdiff.headlines.sentences import sentence
from archdiff.headlines.shown import HIGHER

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import Alignment, Move, Pair, Partition
    from archdiff.figures import FigureResult
    from archdiff.knockons import Chain
    from archdiff.notes import Notes
    from archdiff.quantities import Bounds
    from archdiff.record import Record

MOST = 5
# Common practice, no source: how much a subsystem says about how a team solved the brief.
_SUBSYSTEM = {
    "power": 8.0, "user input": 7.5, "sensing": 7.0, "wireless": 6.0, "thermal": 6.0, "audio": 5.5,
    "user output": 5.5, "shielding": 5.0, "memory": 4.0, "compute": 4.0, "opening": 3.0, "structure": 2.0,
}  # fmt: skip
_VERDICT = {
    Verdict.BOTH: 1.0, Verdict.ONLY_LEFT: 0.9, Verdict.ONLY_RIGHT: 0.9, Verdict.DIFFERENT: 0.9,
    Verdict.SEPARATE_LEFT: 0.6, Verdict.SEPARATE_RIGHT: 0.6, Verdict.ELSEWHERE: 0.5,
}  # fmt: skip
# What the user meets says more than what serves it.
_KIND = {
    "power.entry": 1.0, "power.storage": 1.0, "controls": 1.0, "sensors": 1.0, "actuators": 1.0, "antennas": 0.9,
    "indicators": 1.0, "shields": 0.8, "parts": 0.7, "interconnects": 0.6,
}  # fmt: skip
_OTHER_KIND = 0.4
_BELOW_THE_CUT = 10.5  # no single pair outranks how the product is cut over boards


def headlines_of(
    alignment: Alignment,
    partition: Partition,
    figures: Sequence[FigureResult],
    records: tuple[Record, Record],
    notes: Notes,
    chains: Sequence[Chain] = (),
) -> tuple[Headline, ...]:
    """At most five headlines, the weightiest first, each with what is known to go with it."""
    candidates = [
        *_of_counts(figures, records),
        *_of_partition(partition, records),
        *_of_pairs(alignment, records, notes),
    ]
    chosen = sorted(candidates, key=lambda headline: -headline.weight)[:MOST]
    told = consequences_of(chosen, partition, chains, figures, records)
    return tuple(replace(headline, then=then) for headline, then in zip(chosen, told, strict=True))


def _of_counts(figures: Sequence[FigureResult], records: tuple[Record, Record]) -> Iterator[Headline]:
    """Of boards and of steps to open it, where it is known which product has more of them."""
    left, right = (record.name for record in records)
    for result in figures:
        if result.figure.id not in ("board-count", "opening-steps") or result.outcome not in HIGHER:
            continue
        a, b = (measure.bounds for measure in (result.left, result.right) if measure and measure.bounds)
        if result.figure.id == "board-count":
            text = f"{left} is built on {_counted(a, 'board')}, {right} on {_counted(b, 'board')}."
            yield Headline(text, "seen", 12.0, figure="board-count")
        elif min(a.low, b.low) >= 1:
            text = f"{left} opens in {_counted(a, 'step')}, {right} in {_count(b)}."
            yield Headline(text, "seen", 3.5, figure="opening-steps")


def _count(bounds: Bounds) -> str:
    return f"{bounds.low:.0f}" if bounds.is_exact else f"at least {bounds.low:.0f}"


def _counted(bounds: Bounds, thing: str) -> str:
    return f"{_count(bounds)} {thing}{'' if bounds.low == 1 else 's'}"


def _of_partition(partition: Partition, records: tuple[Record, Record]) -> Iterator[Headline]:
    if not partition.placed or not partition.distance:
        return
    largest = max(partition.moves, key=lambda move: len(move.pairs))
    more = len(partition.moves) - 1
    moved = f"Largest group: {largest.text}." if more else f"{largest.text[:1].upper()}{largest.text[1:]}."
    others = f" {more} more {'group' if more == 1 else 'groups'}." if more else ""
    sit = "sits" if partition.distance == 1 else "sit"
    where = _elsewhere(partition.moves, records)
    text = f"Of {partition.placed} functions located in both, {partition.distance} {sit} {where}. {moved}{others}"
    sure = weakest(*(pair.sure for move in partition.moves for pair in move.pairs))
    yield Headline(text, sure, 11.0 if partition.distance * 10 >= partition.placed else 6.0, section="partition")


def _elsewhere(moves: Sequence[Move], records: tuple[Record, Record]) -> str:
    """'on a different board', and more than that only where pieces of the enclosure come into it."""
    left, right = records
    hosts = [host for move in moves for host in (left.hosts[move.left_host], right.hosts[move.right_host])]
    boards = all(host.section == "boards" for host in hosts)
    return "on a different board" if boards else "on a different board or housing part"


def _of_pairs(alignment: Alignment, records: tuple[Record, Record], notes: Notes) -> Iterator[Headline]:
    best: dict[str, Headline] = {}
    for pair in alignment.pairs:
        weight = min(_weight(pair) * float(notes.weights.get(pair.subsystem, 1.0)), _BELOW_THE_CUT)
        if weight > 0 and (pair.subsystem not in best or best[pair.subsystem].weight < weight):
            best[pair.subsystem] = Headline(sentence(pair, records), pair.sure, weight, pair=pair)
    yield from best.values()


def _weight(pair: Pair) -> float:
    """How much one pair says: its verdict, subsystem, kind of thing, price, and how sure all that is."""
    if not all(seat.first.populated for seat in pair.seats):
        return 0.0
    kind = max(_KIND.get(seat.section, _OTHER_KIND) for seat in pair.seats)
    inside = 0.7 if any(seat.embedded_in for seat in pair.seats) else 1.0
    prices = [price.low for seat in pair.seats if (price := seat.first.bounds("price")) is not None]
    dear = 1 + 0.1 * log2(1 + max(prices, default=0.0))
    right = pair.confidence if pair.is_complete else 1.0
    doubt = 0.5 if pair.sure in ("inferred", "guessed") else 1.0
    said = _VERDICT.get(pair.verdict, 0.0) * _SUBSYSTEM.get(pair.subsystem, 1.0)
    return said * kind * inside * dear * right * doubt
