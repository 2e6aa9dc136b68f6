"""Partition: how differently the two products cut the same functions over their boards."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.facts.overlap import mutual_information, split_join, variation_of_information
from archdiff.figures.facts.pair_facts import PairLedger
from archdiff.figures.figure import Measure
from archdiff.figures.shelf import Family, pair_figure
from archdiff.quantities import Bounds
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.figures.figure import PairView

FAMILY = Family("partition", "Partition", 40)
_LOWEST_ARI = -0.5  # Chacon & Rastrojo 2023, Minimum adjusted Rand index for two clusterings of a given size


@pair_figure(
    title="Functions to move",
    order=10,
    meaning="The least number of paired functions to move to other boards to turn one product's cut into the other's.",
    formula="n - maximum-weight assignment of the overlap table of hosts, boards to boards and pieces to pieces",
    source="partition distance: Almudevar & Field 1999; Gusfield 2002",
)
def partition_distance(view: PairView) -> Measure:
    """Partition distance in paired seats, with the least moves; each pair of unknown place may add one."""
    partition = view.partition
    how = f"{partition.placed} placed - {partition.placed - partition.distance} that may stay = {partition.distance}"
    parts: dict[str, Bounds] = {}
    for move in partition.moves:
        parts[move.way] = parts.get(move.way, Bounds.exact(0)) + _with_loose(len(move.pairs), view, 1)
    ledger = PairLedger(view)
    ledger.note_places()
    if partition.untied is not None:
        ledger.left.assume(
            f"boards and pieces correspond as the analyst's notes tie them; if they were free, {partition.untied} "
            "moves would do"
        )
    bounds = _with_loose(partition.distance, view, 1)
    return ledger.measure(bounds, how if partition.placed else "no pair is placed", parts)


@pair_figure(
    title="Paired functions placed",
    order=20,
    meaning="How many functions are found in both products with the place known in both; all below rests on these.",
    formula="count of complete pairs with a known host on both sides",
    source="count; common practice, no source",
)
def pairs_placed(view: PairView) -> Measure:
    """Pairs in the overlap table, by left and right host."""
    loose = len(view.partition.unplaced)
    parts = {
        f"{a} and {b}": Bounds(None if loose else len(pairs), len(pairs), len(pairs) + loose)
        for (a, b), pairs in view.partition.table.items()
        if pairs
    }
    how = f"{view.partition.placed} placed, {len(view.partition.unplaced)} with a place not known"
    return _measure(view, _with_loose(view.partition.placed, view, 1), how, parts)


@pair_figure(
    title="Adjusted Rand index",
    order=30,
    meaning="Agreement of the two cuts beyond chance: 1 the same cut, about 0 no more alike than by chance.",
    formula="(index - expected index) / (greatest index - expected index) over pairs of things",
    source="Hubert & Arabie 1985; lower limit -0.5: Chacon & Rastrojo 2023",
)
def adjusted_rand(view: PairView) -> Measure:
    """Adjusted Rand index of the placed pairs."""
    ari = view.partition.ari
    if ari is None:
        return _measure(view, None, "fewer than two functions are placed in both")
    loose = bool(view.partition.unplaced)
    return _measure(view, Bounds(ari, _LOWEST_ARI, 1.0) if loose else Bounds.exact(ari), _table_in_words(view))


@pair_figure(
    title="Variation of information",
    unit="bit",
    order=40,
    meaning="How much knowing a function's board in one product leaves open about its board in the other; 0 nothing.",
    formula="H(left) + H(right) - 2 I(left, right)",
    source="Meila 2007, Journal of Multivariate Analysis 98:873-895",
)
def information_variation(view: PairView) -> Measure:
    """Variation of information in bits of the placed pairs."""
    placed, loose = view.partition.placed, len(view.partition.unplaced)
    if not placed:
        return _measure(view, None, "no pair is placed")
    value = variation_of_information(_counts(view))
    # A further pair never lowers n VI, and VI of n things is log2 n at most.
    low, high = value * placed / (placed + loose), math.log2(placed + loose)
    return _measure(view, Bounds(value, low, max(value, high)) if loose else Bounds.exact(value), _table_in_words(view))


@pair_figure(
    title="Normalised mutual information",
    order=45,
    meaning="How much of either cut the other tells: 1 all of it, 0 nothing.",
    formula="2 I(left, right) / (H(left) + H(right)); 1 where both put everything in one place",
    source="mean of the entropies as in Manning, Raghavan & Schuetze 2008, Introduction to Information Retrieval, 16.3",
)
def mutual_information_share(view: PairView) -> Measure:
    """Normalised mutual information of the placed pairs, 0 to 1; anything where some place is not known."""
    if not view.partition.placed:
        return _measure(view, None, "no pair is placed")
    value = mutual_information(_counts(view))
    loose = bool(view.partition.unplaced)
    return _measure(view, Bounds(value, 0.0, 1.0) if loose else Bounds.exact(value), _table_in_words(view))


@pair_figure(
    title="Split-join distance",
    order=50,
    meaning="How many functions lie outside the board that took most of their neighbours, seen from both sides.",
    formula="(n - sum of row maxima) + (n - sum of column maxima) of the overlap table",
    source="van Dongen 2000, CWI report INS-R0012",
)
def split_join_distance(view: PairView) -> Measure:
    """Split-join distance of the placed pairs; 0 on one side means that side's boards were only split."""
    if not view.partition.placed:
        return _measure(view, None, "no pair is placed")
    left, right = split_join(_counts(view))
    parts = {"from the left": _with_loose(left, view, 1), "from the right": _with_loose(right, view, 1)}
    return _measure(view, _with_loose(left + right, view, 2), f"{left} + {right} = {left + right}", parts)


@pair_figure(
    title="Functions paired",
    order=60,
    meaning="Of the functions found in either product, the share found in both.",
    formula="complete pairs / (complete pairs + functions found on one side only)",
    source="Jaccard 1901 index of two sets",
)
def paired_share(view: PairView) -> Measure:
    """Share, 0 to 1, of pairs with both sides; where the other side was not looked at it may be there."""
    pairs = view.alignment.pairs
    complete = sum(pair.is_complete for pair in pairs)
    may_be = [pair for pair in pairs if not pair.is_complete and not _is_absent(pair)]
    missing = tuple(f"{'right' if pair.right is None else 'left'} {pair.function}: not known" for pair in may_be)
    how = f"{complete} of {len(pairs)}" + (
        f", {len(may_be)} not known, those among them that may live inside another part" if may_be else ""
    )
    if not pairs:
        return Measure(None, how="no functions listed")
    bounds = Bounds(complete, complete, complete + len(may_be)) / len(pairs)
    return Measure(bounds, missing=tuple(dict.fromkeys(missing)), how=how)


def _is_absent(pair: Pair) -> bool:
    return pair.silent is not None and pair.silent.silence is Silence.NOT_THERE


def _with_loose(value: int, view: PairView, each: int) -> Bounds:
    """`value`, or up to `each` more for every pair whose place is not known."""
    loose = each * len(view.partition.unplaced)
    return Bounds(value, value, value + loose)


def _counts(view: PairView) -> dict[tuple[str, str], int]:
    return {hosts: len(pairs) for hosts, pairs in view.partition.table.items() if pairs}


def _table_in_words(view: PairView) -> str:
    return "; ".join(f"{a} and {b} share {count}" for (a, b), count in _counts(view).items())


def _measure(view: PairView, bounds: Bounds | None, how: str, parts: dict[str, Bounds] | None = None) -> Measure:
    """The measure, with the facts that place both seats of every pair noted as used or as lacking."""
    ledger = PairLedger(view)
    ledger.note_places()
    return ledger.measure(bounds, how, parts)
