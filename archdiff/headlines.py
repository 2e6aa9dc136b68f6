"""The three to five differences that matter most, as sentences.

Ranking, stated once: how the product is cut over boards comes first, then how energy comes in, how the user works
it, how it senses, talks, cools and opens; a different package of the same chip never makes a headline. Within a
subsystem, what is done differently and elsewhere outranks what is only one of the two or only on one side, and what
the user meets outranks what serves it, and what is dear outranks what is cheap. The analyst's `weights` multiply
this. No subsystem speaks twice.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import log2
from typing import TYPE_CHECKING

from archdiff.alignment import Counts, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import Alignment, Pair, Partition, Seat
    from archdiff.figures import FigureResult
    from archdiff.notes import Notes
    from archdiff.record import Record

MOST = 5


@dataclass(frozen=True, slots=True)
class Headline:
    """One difference that matters, as a sentence; `sure` is how it is known.

    It speaks of a pair, of the figure with that id, or of a section of the page: one of the three is set.
    """

    text: str
    sure: str
    weight: float
    pair: Pair | None = None
    figure: str = ""
    section: str = ""


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
_SURE = ("measured", "read", "seen", "inferred", "guessed")


def headlines_of(
    alignment: Alignment,
    partition: Partition,
    figures: Sequence[FigureResult],
    records: tuple[Record, Record],
    notes: Notes,
) -> tuple[Headline, ...]:
    """At most five headlines, the weightiest first."""
    candidates = [
        *_of_boards(figures, records),
        *_of_partition(partition),
        *_of_pairs(alignment, records, notes),
        *_of_opening(figures, records),
    ]
    return tuple(sorted(candidates, key=lambda headline: -headline.weight)[:MOST])


def _of_boards(figures: Sequence[FigureResult], records: tuple[Record, Record]) -> Iterator[Headline]:
    found = {result.figure.id: result for result in figures}
    boards = found.get("board-count")
    if boards is None or boards.outcome.value not in ("left higher", "right higher"):
        return
    counts = [_whole(measure.bounds) if measure and measure.bounds else "" for measure in (boards.left, boards.right)]
    if not all(counts):
        return
    text = f"{records[0].name} is built on {_boards(counts[0])}, {records[1].name} on {_boards(counts[1])}."
    yield Headline(text, "seen", 12.0, figure="board-count")


def _boards(count: str) -> str:
    return f"{count} board" if count == "1" else f"{count} boards"


def _whole(bounds: object) -> str:
    low, exact = getattr(bounds, "low", 0.0), getattr(bounds, "is_exact", False)
    return f"{low:.0f}" if exact else f"at least {low:.0f}"


def _of_partition(partition: Partition) -> Iterator[Headline]:
    if not partition.placed or not partition.distance:
        return
    largest = max(partition.moves, key=lambda move: len(move.pairs))
    more = len(partition.moves) - 1
    others = f" {more} more {'group follows' if more == 1 else 'groups follow'}." if more else ""
    text = (
        f"{partition.distance} of {partition.placed} functions whose place is known in both sit on boards or pieces "
        f"that do not correspond. The largest group: {largest.text}.{others}"
    )
    sure = _weakest(pair.sure for move in partition.moves for pair in move.pairs)
    yield Headline(text, sure, 11.0 if partition.distance * 10 >= partition.placed else 6.0, section="partition")


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


def sentence(pair: Pair, records: tuple[Record, Record]) -> str:
    """What is said of one pair that differs, with the products' names."""
    left, right = records
    what = pair.function[:1].upper() + pair.function[1:]
    if pair.left is None or pair.right is None:
        seat, owner, other = (pair.left, left, right) if pair.left else (pair.right, right, left)
        means = _means(seat, owner) if seat else ""
        if seat is not None and not seat.first.populated:
            return f"{what}: {owner.name} has a site for it that was left empty, {other.name} has none."
        if pair.silent is not None and pair.silent.further:
            known = pair.verdict in (Verdict.ONLY_LEFT, Verdict.ONLY_RIGHT)
            return (
                f"{what}: {owner.name} has one more{'' if known else ' part of its own'} ({means}) than {other.name}."
            )
        if pair.verdict in (Verdict.SEPARATE_LEFT, Verdict.SEPARATE_RIGHT):
            found = f"none was found in {other.name}, where it may live inside another part"
            own = "it" if seat is not None and seat.embedded_in else "a part of its own for it"
            return f"{what}: {owner.name} has {own} ({means}); {found}."
        return f"{what}: {owner.name} has it ({means}), {other.name} does not."
    if pair.verdict is Verdict.ELSEWHERE:
        return f"{what}: on {_where(pair.left, left)} in {left.name}, on {_where(pair.right, right)} in {right.name}."
    place = ""
    if pair.verdict is Verdict.BOTH:
        place = f", and elsewhere: on {_where(pair.left, left)} against {_where(pair.right, right)}"
    return f"{what}: {_means(pair.left, left)} in {left.name}, {_means(pair.right, right)} in {right.name}{place}."


def _means(seat: Seat, record: Record) -> str:
    if seat.embedded_in:
        return f"inside {seat.first.label}"
    more = "" if _counts(record).of(seat).is_exact else " or more"
    many = f"{seat.count}{more} × " if seat.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
    return many + (seat.means or seat.first.label)


@lru_cache(maxsize=4)
def _counts(record: Record) -> Counts:
    return Counts(record)


def _where(seat: Seat, record: Record) -> str:
    return " and ".join(record.elements[host].label for host in seat.hosts) or "a place not stated"


def _of_opening(figures: Sequence[FigureResult], records: tuple[Record, Record]) -> Iterator[Headline]:
    found = {result.figure.id: result for result in figures}
    steps = found.get("opening-steps")
    if steps is None or steps.outcome.value not in ("left higher", "right higher"):
        return
    if steps.left is None or steps.right is None or steps.left.bounds is None or steps.right.bounds is None:
        return
    counts = _whole(steps.left.bounds), _whole(steps.right.bounds)
    if min(steps.left.bounds.low, steps.right.bounds.low) < 1:
        return
    word = "step" if counts[0] == "1" else "steps"
    text = f"{records[0].name} opens in {counts[0]} {word}, {records[1].name} in {counts[1]}."
    yield Headline(text, "seen", 3.5, figure="opening-steps")


def _weakest(words: Iterator[str]) -> str:
    return max(words, key=lambda word: _SURE.index(word) if word in _SURE else 2, default="seen")
