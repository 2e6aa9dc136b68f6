"""How well two stages fit each other, in points: small whole numbers that are stated, not learnt.

They are our own judgement of what speaks for one job in a path, set so that what the alignment paired outweighs all
the rest, and so that two stages of which nothing is known go together rather than stand alone twice.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import product
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement
from archdiff.alignment.verdict import means_of, words, words_agree
from archdiff.paths.stages import AMOUNTS, is_board, known_functions
from archdiff.record import UNKNOWN_PURPOSE
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.alignment import Alignment, Pair, Seat
    from archdiff.paths.stages import Stage
    from archdiff.record import Element
    from archdiff.record.silence import Silent

SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN
ALONE = -2
PAIRED, SAME_JOB, OTHER_JOB = 8, 4, -7
SAME_WORDS, SHARED_WORD = 6, 1
SAME_MEANS, OTHER_MEANS = 4, -1
SAME_MATERIAL, LIKE_MATERIAL, OTHER_MATERIAL = 2, 1, -1
SAME_ROLE = 2
SAME_FACING, OTHER_FACING = 1, -1
SAME_AMOUNT, NEAR_AMOUNT = 1, 1
# For the reader: what counts, and for how much.
STATED = (
    ("the two elements are paired, or are boards or pieces that correspond", PAIRED),
    ("the two elements are there for the same function", SAME_JOB),
    ("their functions are known and none is shared", OTHER_JOB),
    ("both are the same words, where no element is named", SAME_WORDS),
    ("the words share one", SHARED_WORD),
    ("same means", SAME_MEANS),
    ("other means", OTHER_MEANS),
    ("same material", SAME_MATERIAL),
    ("a like material", LIKE_MATERIAL),
    ("other material", OTHER_MATERIAL),
    ("other or unknown means of one role (pad, plate, seal, case, a volume of air)", SAME_ROLE),
    ("facing the same way", SAME_FACING),
    ("facing another way", OTHER_FACING),
    ("the same quantity is stated of both", SAME_AMOUNT),
    ("and no such quantity shows a difference", NEAR_AMOUNT),
    ("a stage left alone", ALONE),
)


@dataclass(frozen=True, slots=True)
class Points:
    """Weighs a stage of one side against one of the other, by what the alignment paired and by their own facts.

    `paired` holds (my id, their id) of the elements that do one job, and of the hosts that correspond.
    """

    paired: frozenset[tuple[str, str]] = frozenset()
    mine_alone: Mapping[str, Silent] = field(default_factory=dict)
    """By id what this side alone has: nothing over there does any of its functions, and why that is known."""
    theirs_alone: Mapping[str, Silent] = field(default_factory=dict)

    @classmethod
    def after(cls, alignment: Alignment) -> Points:
        """Points from the left to the right."""
        seats = (pair for pair in alignment.pairs if _holds(pair))
        paired = {ids for pair in seats for ids in product(*pair.ids)}
        lefts, rights = _twins(pair.left for pair in alignment.pairs), _twins(pair.right for pair in alignment.pairs)
        # Which of several interchangeable pieces corresponds to which means nothing.
        hosts = (product(lefts.get(a, (a,)), rights.get(b, (b,))) for a, b in alignment.host_of.items())
        alone = (
            _alone((pair.left, pair) for pair in alignment.pairs),
            _alone((pair.right, pair) for pair in alignment.pairs),
        )
        return cls(frozenset(paired.union(*hosts)), *alone)

    def turned(self) -> Points:
        """The same from the right to the left."""
        return Points(frozenset((b, a) for a, b in self.paired), self.theirs_alone, self.mine_alone)

    def things(self, mine: Element, theirs: Element) -> Agreement:
        """Whether two elements do one job: paired, or there for the same first of all; a board is only a board."""
        if (mine.id, theirs.id) in self.paired:
            return SAME
        if is_board(mine) != is_board(theirs):
            return DIFFERENT
        here, there = known_functions(mine), known_functions(theirs)
        if not here or not there:
            return UNKNOWN
        if here[0] == there[0]:
            return SAME
        return UNKNOWN if set(here) & set(there) else DIFFERENT

    def job(self, mine: Stage, theirs: Stage) -> Agreement:
        """Whether two stages do one job; of an element and mere words, which may mean it, nothing is known."""
        if mine.thing is not None and theirs.thing is not None:
            return self.things(mine.thing, theirs.thing)
        if mine.words and theirs.words:
            return words_agree(" ".join(mine.words), " ".join(theirs.words))
        return UNKNOWN

    def of(self, mine: Stage, theirs: Stage) -> int:
        """The points of laying two stages side by side."""
        means = means_of(mine.means, theirs.means)
        points = self._job(mine, theirs)
        points += {SAME: SAME_MEANS, DIFFERENT: OTHER_MEANS, UNKNOWN: 0}[means]
        points += _material(mine.material, theirs.material)
        points += SAME_ROLE if means is not SAME and _same_role(mine, theirs) else 0
        points += facing_points(mine.facing, theirs.facing)
        return points + _amounts(mine, theirs)

    def _job(self, mine: Stage, theirs: Stage) -> int:
        job = self.job(mine, theirs)
        if mine.thing is not None and theirs.thing is not None:
            if (mine.thing.id, theirs.thing.id) in self.paired:
                return PAIRED
            return {SAME: SAME_JOB, DIFFERENT: OTHER_JOB, UNKNOWN: 0}[job]
        if mine.words and theirs.words:
            return {SAME: SAME_WORDS, DIFFERENT: 0, UNKNOWN: SHARED_WORD}[job]
        return SHARED_WORD if _told(mine) & _told(theirs) else 0


def facing_points(mine: str, theirs: str) -> int:
    """The points of two stated directions; 0 where a side states none."""
    return {SAME: SAME_FACING, DIFFERENT: OTHER_FACING, UNKNOWN: 0}[means_of(mine, theirs)]


def material_agrees(mine: str, theirs: str) -> Agreement:
    """Whether two materials agree; open where a side states none or the words are shared only in part."""
    return words_agree(mine, theirs) if mine and theirs else UNKNOWN


def _holds(pair: Pair) -> bool:
    if pair.left is None or pair.right is None:
        return False
    return UNKNOWN_PURPOSE not in (pair.left.function, pair.right.function)


def _alone(seats: Iterable[tuple[Seat | None, Pair]]) -> dict[str, Silent]:
    """The elements of one side all of whose functions are known not to be in the other product, each with a reason."""
    found: dict[str, list[Silent | None]] = {}
    for seat, pair in seats:
        for name in seat.ids if seat is not None else ():
            silent = None if pair.is_complete else pair.silent
            found.setdefault(name, []).append(silent)
    known = {
        name: [s for s in silents if s and s.silence is Silence.NOT_THERE and not s.further]
        for name, silents in found.items()
    }
    return {name: silents[0] for name, silents in known.items() if len(silents) == len(found[name])}


def _twins(seats: Iterable[Seat | None]) -> dict[str, tuple[str, ...]]:
    """By id all the elements that are interchangeable with that one, itself among them."""
    return {name: seat.ids for seat in seats if seat is not None for name in seat.ids}


def _material(mine: str, theirs: str) -> int:
    if not mine or not theirs:
        return 0
    return {SAME: SAME_MATERIAL, UNKNOWN: LIKE_MATERIAL, DIFFERENT: OTHER_MATERIAL}[words_agree(mine, theirs)]


def _same_role(mine: Stage, theirs: Stage) -> bool:
    hold_air = mine.amount("volume") is not None and theirs.amount("volume") is not None
    return hold_air or (bool(mine.role) and mine.role == theirs.role)


def _amounts(mine: Stage, theirs: Stage) -> int:
    stated = [(a, b) for name in AMOUNTS if (a := mine.bounds(name)) and (b := theirs.bounds(name))]
    near = all(a.overlaps(b) for a, b in stated)
    return SAME_AMOUNT + (NEAR_AMOUNT if near else 0) if stated else 0


def _told(stage: Stage) -> frozenset[str]:
    """The words of a stage, else those of what its element is there for and by."""
    if stage.thing is None:
        return stage.words
    return words(" ".join((*stage.functions, stage.means)))
