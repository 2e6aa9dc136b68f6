"""One cut case after another: from a seed to what is wrong in it, and to the fewest cuts that make it wrong."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from random import Random
from typing import TYPE_CHECKING

from archdiff.pipeline import compare
from archdiff.record.build import build_record
from archdiff.record.text import Document
from tests.ablation.cutting import Cut, column_of, cut_back, cuts_of, path_cuts_of
from tests.ablation.judging import Judgement, judge, narrower
from tests.ablation.making import example_made_whole, pair_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.record import Record
    from tests.ablation.making import Data

EXAMPLES = ("bike-lights", "air-monitors")
CUTS_PER_PAIR = 10  # cases of one pair, each of two depths
_COLUMNS = 0.3  # how often both benches left out one kind of fact
Cuts = tuple[list[Cut], list[Cut]]


@dataclass(frozen=True, slots=True)
class Case:
    """Two whole records, what is cut from each, and what was found."""

    name: str
    data: tuple[Data, Data]
    cuts: Cuts
    found: Judgement


def record_from(data: Data) -> Record:
    """The record of some data; fails where that has faults of quantity or term."""
    record, problems = build_record(Document("record.yaml", copy.deepcopy(data)))
    assert not problems, problems
    return record


def whole_pair(name: str) -> tuple[Data, Data]:
    """The whole pair of that name: an example's, or the invented one of a number."""
    return example_made_whole(name) if name in EXAMPLES else pair_of(int(name))


def cases_of(name: str, cases: int = CUTS_PER_PAIR, *, unmarked: bool = False, stages: bool = True) -> Iterator[Case]:
    """The cases of one pair: each cut in two depths, of which the deeper holds the other's cuts.

    With `stages` single stages of paths are cut too, and facts of them.
    """
    data = whole_pair(name)
    whole = compared(data, ([], []))
    for number in range(cases):
        chance = Random(f"{name}/{number}")
        deep = tuple(cuts_of(side, chance, chance.choice((0, 1, 2, 4, 8)), unmarked=unmarked) for side in data)
        if chance.random() < _COLUMNS:
            column = column_of(data, chance)
            deep = ([column, *deep[0]], [column, *deep[1]])
        if stages:
            ways = [path_cuts_of(side, chance, chance.choice((0, 1, 3))) for side in data]
            deep = tuple([*cuts, *more] for cuts, more in zip(deep, ways, strict=True))
        light = tuple(cuts[: len(cuts) // 2] for cuts in deep)
        richer = compared(data, light) if any(light) else whole
        yield Case(f"{name}/{number} light", data, light, judge(richer, whole))
        poorer = compared(data, deep)
        found = judge(poorer, whole)
        narrower(poorer, richer, found)
        yield Case(f"{name}/{number} deep", data, deep, found)


def compared(data: tuple[Data, Data], cuts: Cuts) -> Comparison:
    """The comparison of the two records after the cuts."""
    left, right = (record_from(cut_back(side, some)) for side, some in zip(data, cuts, strict=True))
    return compare(left, right)


def fewest(case: Case, kind: str) -> tuple[Cuts, str]:
    """The case with every cut left out that a statement of this kind can be wrong without, and the statement."""
    whole = compared(case.data, ([], []))

    def wrong(cuts: Cuts) -> str:
        return next((said for k, said in judge(compared(case.data, cuts), whole).wrong if k == kind), "")

    kept = (list(case.cuts[0]), list(case.cuts[1]))
    said = wrong(kept)
    if not said:
        return kept, next(s for k, s in case.found.wrong if k == kind)
    for side in (0, 1):
        for cut in list(kept[side]):
            trial = tuple([c for c in some if at != side or c != cut] for at, some in enumerate(kept))
            if less := wrong(trial):
                kept, said = trial, less
    return kept, said
