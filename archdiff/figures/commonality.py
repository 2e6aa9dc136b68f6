"""Commonality: how much of one product could be taken over into the other.

The indices were made for the parts lists of one maker's range. Between rivals they tell how far two teams chose
alike: first the jobs, then the means, then the very part.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement
from archdiff.figures.counting import Ledger, told
from archdiff.figures.facts.shared_kinds import (
    degree_of_commonality,
    function_of,
    kind_of,
    possible_counts,
    sides_of,
    total_constant_commonality,
)
from archdiff.figures.figure import Measure
from archdiff.figures.shelf import Family, pair_figure
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from archdiff.alignment import Pair
    from archdiff.figures.facts.shared_kinds import Naming
    from archdiff.figures.figure import PairView

FAMILY = Family("commonality", "Commonality", 50)
_PART_FACTS = ("means", "marking", "package", "maker")  # in the order in which they are asked
_KINDS = "parts count as one where function and means agree; the index was made for the part numbers of one maker"


@pair_figure(
    title="Functions in both",
    order=10,
    meaning="Of the functions that what is listed is mainly there for, the share found in both products.",
    formula="functions of both / functions of either, each counted once; functions inside other parts left out",
    source="Jaccard 1901 index of two sets",
)
def functions_in_both(view: PairView) -> Measure:
    """Share, 0 to 1, of different main functions."""
    return _of_sets(view, function_of, _share, (0.0, 1.0))


@pair_figure(
    title="Kinds of part in both",
    order=20,
    meaning="Of all kinds of part, a function done by a means, the share found in both products.",
    formula="kinds of both / kinds of either, each counted once",
    source="Jaccard 1901 index of two sets",
)
def kinds_in_both(view: PairView) -> Measure:
    """Share, 0 to 1, of different pairs of main function and means."""
    return _of_sets(view, kind_of, _share, (0.0, 1.0))


@pair_figure(
    title="Paired functions by the same means",
    order=30,
    meaning="Of the functions paired, the share that both products do by the same means.",
    formula="pairs with the same means / pairs with both sides",
    source="share; common practice, no source",
)
def same_means(view: PairView) -> Measure:
    """Share, 0 to 1, of complete pairs; where a side states no means it may be the same."""
    pairs = [pair for pair in view.alignment.pairs if pair.is_complete]
    return _of_pairs(view, pairs, _by_same_means)


@pair_figure(
    title="Paired parts that are the same part",
    order=40,
    meaning="Of the paired parts, the share that is the very same part by marking, maker and package.",
    formula="pairs in which means and all three agree / pairs that have a part of its own on both sides",
    source="share; common practice, no source",
)
def same_parts(view: PairView) -> Measure:
    """Share, 0 to 1: one fact that differs tells two parts apart; all must be stated to call them the same."""
    pairs = [p for p in view.alignment.pairs if p.is_complete and not any(seat.embedded_in for seat in p.seats)]
    measure = _of_pairs(view, pairs, _is_same_part)
    assumed = "a marking that differs tells two parts apart; one that holds a date or a lot would do so wrongly"
    return replace(measure, assumed=(assumed,))


@pair_figure(
    title="Degree of commonality",
    order=50,
    meaning="In how many of the two products a kind of part is used on average: 1 nothing shared, 2 all shared.",
    formula="sum over distinct kinds of part of the products that use each / number of distinct kinds",
    source="Collier 1981, Decision Sciences 12:85-96; from memory, worked by hand",
)
def commonality_degree(view: PairView) -> Measure:
    """Degree of commonality index, 1 to 2 for two products; 1 more than the share of kinds in both."""
    return _of_sets(view, kind_of, _degree, (1.0, 2.0), _KINDS)


@pair_figure(
    title="Total constant commonality",
    order=60,
    meaning="The same on a scale from 0; two products of the same d kinds reach d / (2d - 1), not 1.",
    formula="1 - (distinct kinds - 1) / (sum of uses - 1)",
    source="Wacker & Treleven 1986, Journal of Operations Management 6:219-241; from memory, worked by hand",
)
def commonality_constant(view: PairView) -> Measure:
    """Total constant commonality index; its greatest value depends on how many kinds there are."""
    return _of_sets(view, kind_of, _constant, (0.0, 1.0), _KINDS)


def _share(both: float, either: float) -> float:
    return both / either


def _degree(both: float, either: float) -> float:
    return degree_of_commonality(both + either, either)


def _constant(both: float, either: float) -> float:
    return total_constant_commonality(both + either, either)


def _ledgers(view: PairView) -> tuple[Ledger, Ledger]:
    return Ledger(view.left, "left"), Ledger(view.right, "right")


def _of_sets(
    view: PairView,
    name: Naming,
    index: Callable[[float, float], float],
    limits: tuple[float, float],
    assumed: str = "",
) -> Measure:
    """An index of how many of all are in both: exact, over all that loose entries may be, or within its limits."""
    left, right = sides_of(view.left, view.right, name)
    both, either = len(left.has & right.has), len(left.has | right.has)
    if not either:
        return _noted((left.ledger, right.ledger), None, "nothing listed whose kind is known")
    how = f"{both} of {either}: {len(left.has)} in left and {len(right.has)} in right"
    value = index(both, either)
    if not (left.whole and right.whole):
        bounds, how = Bounds(value, *limits), f"{how}, as far as listed"
    else:
        found = [index(*counts) for counts in possible_counts(left, right)]
        bounds = Bounds(value, min(found), max(found))
    return _noted((left.ledger, right.ledger), bounds, how, assumed, f"{both} of {either} as listed")


def _of_pairs(view: PairView, pairs: Sequence[Pair], answer: Callable[[Ledger, Ledger, Pair], Truth]) -> Measure:
    ledgers = _ledgers(view)
    answers = [answer(*ledgers, pair) for pair in pairs]
    yes, maybe = answers.count(Truth.YES), answers.count(Truth.UNKNOWN)
    if not pairs:
        return _noted(ledgers, None, "no pair to compare")
    count = Bounds(yes if not maybe else None, yes, yes + maybe)
    words = f"{told(count)} of {len(pairs)}"
    return _noted(ledgers, count / len(pairs), words, said=words)


def _by_same_means(left: Ledger, right: Ledger, pair: Pair) -> Truth:
    # What lives inside another part on one side only is told apart by that, whatever means is stated.
    if not any(seat.embedded_in for seat in pair.seats):
        _note(left, right, pair, "means")
    if pair.means is Agreement.UNKNOWN:
        return Truth.UNKNOWN
    return Truth.YES if pair.means is Agreement.SAME else Truth.NO


def _is_same_part(left: Ledger, right: Ledger, pair: Pair) -> Truth:
    """No where one fact differs, which then is the only one used; yes where nothing that matters is left open."""
    telling = next((fact for fact in _PART_FACTS if len(set(_stated(pair, fact)) - {""}) > 1), None)
    if telling is not None:
        _note(left, right, pair, telling)
        return Truth.NO
    known = [_note(left, right, pair, fact) for fact in _PART_FACTS]
    return Truth.YES if all(known) else Truth.UNKNOWN


def _stated(pair: Pair, fact: str) -> tuple[str, ...]:
    """A fact of both sides as it is compared; '' where it is not stated."""
    if fact == "means":
        return tuple(seat.means for seat in pair.seats)
    return tuple(" ".join(seat.first.text(fact).casefold().split()) for seat in pair.seats)


def _note(left: Ledger, right: Ledger, pair: Pair, fact: str) -> bool:
    """Note a fact of both sides as used or as lacking; whether both state it."""
    sides = zip((left, right), pair.seats, _stated(pair, fact), strict=True)
    known = [ledger.note(seat.first.id, fact, known=bool(text)) for ledger, seat, text in sides]
    return all(known)


def _noted(ledgers: Iterable[Ledger], bounds: Bounds | None, how: str, assumed: str = "", said: str = "") -> Measure:
    sides = [ledger.measure(None) for ledger in ledgers]
    used = tuple(fact for side in sides for fact in side.used)
    missing = tuple(fact for side in sides for fact in side.missing)
    return Measure(bounds, used, missing, how=how, assumed=(assumed,) if assumed else (), said=said)
