"""What is said of a pair, a figure, silence and doubt: every such phrase of page and exports is made here alone.

The worst mistake a comparison can make is to show 'not looked at' as 'not there'. The phrases for the two are
therefore kept side by side in this file, and a pair whose other side is silent is judged by the reason of that
silence before anything else.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.alignment import Agreement, Verdict
from archdiff.figures.figure import Outcome
from archdiff.paths import Finding
from archdiff.quantities import NOT_KNOWN, best, number, plain, times
from archdiff.record.coverage import WHOLE
from archdiff.record.silence import Silence
from archdiff.unknowns import CONFIRM_BELOW

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.figures.figure import Figure, FigureResult, Measure
    from archdiff.paths import Amount, Column, End, PathPair
    from archdiff.record.silence import Silent
    from archdiff.unknowns import LookAt

NOT_ASKED = "not applicable"  # it is known that there is nothing of the kind: no spacing of one microphone
Names = tuple[str, str]  # what the left and the right product are called

_SURE = {
    "measured": "measured",
    "read": "read off a marking or document",
    "seen": "seen",
    "inferred": "inferred",
    "guessed": "guessed",
}
_COVERAGE = {"whole": "looked at whole", "part": "looked at in part", "none": "not looked at"}
# What is said of a complete pair; of any other verdict it is told what is open.
_OF_BOTH = frozenset({Verdict.ALIKE, Verdict.DIFFERENT, Verdict.ELSEWHERE, Verdict.BOTH})
_SURELY, _RATHER = 0.97, 0.5
_FACING = {"in": "inwards", "into plate": "into a plate", "around": "all around"}


def names(comparison: Comparison) -> Names:
    """What the two products are called; told apart where both have one name."""
    left, right = comparison.left.name, comparison.right.name
    return (left, right) if left != right else (f"{left} (left)", f"{right} (right)")


def verdict_words(pair: Pair, names: Names) -> str:
    """The verdict with the products' names in it: 'placed elsewhere', 'only in Veska One', 'not known'."""
    if pair.is_complete:
        return pair.verdict.value if pair.verdict in _OF_BOTH else _what_is_open(pair)
    if pair.silent is None or not pair.silent.silence.is_known:
        return NOT_KNOWN
    here = names[0] if pair.left is not None else names[1]
    if not pair.seats[0].first.populated:
        return f"site left empty only in {here}"
    what = "" if pair.silent.silence is Silence.NOT_THERE else "separate part "
    return f"one more {what}in {here}" if pair.silent.further else f"{what}only in {here}"


def _what_is_open(pair: Pair) -> str:
    """What of a complete pair is not known, when no difference could be shown in the rest."""
    asked = (("means", pair.means), ("place", pair.place))
    open_ones = [word for word, agreement in asked if agreement is Agreement.UNKNOWN]
    return f"{NOT_KNOWN}: {' and '.join(open_ones)}" if open_ones else NOT_KNOWN


def silent_short(silent: Silent | None) -> str:
    """One side's silence in two to four words, for the cell of a table."""
    if silent is None:
        return NOT_KNOWN
    words = {
        Silence.NOT_THERE: "none found",
        Silence.NO_SEPARATE_PART: "no part of its own",
        Silence.NOT_LOOKED_AT: NOT_KNOWN,
    }
    return words[silent.silence]


def silent_words(silent: Silent | None) -> str:
    """Why one side shows nothing and how sure that is: 'not known: parts looked at only in part'."""
    if silent is None:
        return f"{NOT_KNOWN}: nothing is recorded"
    words = f"{silent_short(silent)}: {silent.why}"
    return f"{words} ({sure_words(silent.sure)})" if silent.silence.is_known else words


def sure_words(sure: str) -> str:
    """How a fact is known, in plain words."""
    return _SURE.get(sure, "how it is known is not said")


def chance_words(pair: Pair) -> str:
    """How likely the pairing itself is right, in words; '' for one side alone."""
    if not pair.is_complete:
        return ""
    if pair.tied:
        return "paired by the analyst"
    if pair.confidence >= _SURELY:
        return "almost certainly the same job"
    if pair.confidence >= CONFIRM_BELOW:
        return "probably the same job"
    return "possibly the same job" if pair.confidence >= _RATHER else "a weak match: look again"


def doubt_words(pair: Pair) -> str:
    """What a reader must be told of a pairing that may be wrong; '' where it is all but certain or the analyst's."""
    return "" if pair.tied or pair.confidence >= _SURELY else chance_words(pair)


def amount(measure: Measure | None, figure: Figure) -> tuple[str, str]:
    """A measure with its unit, and its most likely value alone ('' where none can be named or it is exact anyway)."""
    if measure is None:
        return NOT_KNOWN, ""
    if measure.moot:
        return NOT_ASKED, ""
    unit = measure.unit or figure.unit
    return number(measure.bounds, unit), best(measure.bounds, unit)


def outcome_words(result: FigureResult, names: Names) -> str:
    """What comparing a figure's two sides shows, with the ratio where it is known: 'Veska One: 2 × Orlim Two'."""  # noqa: RUF002 - meant
    outcome = result.outcome
    if outcome is Outcome.UNKNOWN:
        moot = [name for name, side in zip(names, (result.left, result.right), strict=True) if side and side.moot]
        return f"{NOT_ASKED} in {' and '.join(moot)}" if moot else NOT_KNOWN
    if outcome in (Outcome.SAME, Outcome.NO_DIFFERENCE):
        return outcome.value
    left_higher = outcome is Outcome.LEFT_HIGHER
    ratio = result.ratio
    # The higher over the lower, so that every ratio on the page is above 1.
    turned = ratio.inverse() if ratio is not None and left_higher and ratio.low > 0 else ratio
    more = times(turned) if turned is not None and turned.low >= 1 else ""
    higher, lower = names if left_higher else names[::-1]
    return f"{higher}: {more} {lower}" if more else f"{higher} higher"


def some_of(names: Sequence[str], most: int) -> str:
    """So many of the names, and how many more there are: 'Good, Fair and 2 more'."""
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")


def coverage_words(word: str) -> str:
    """How far a section of a record was looked at."""
    return _COVERAGE[word]


def unlisted_words(coverage: str, things: str) -> str:
    """What may be said where a side lists none of these things, by how far that section was looked at."""
    if coverage == WHOLE:
        return f"none: {things} looked at whole"
    return f"{NOT_KNOWN}: {things} {coverage_words(coverage)}"


def bears_words(look: LookAt) -> str:
    """What waits for a look: '10 verdicts, 46 figures'; '' where nothing does."""
    waiting = ((look.verdicts, "verdict"), (look.figures, "figure"))
    return ", ".join(counted(count, thing) for count, thing in waiting if count)


def counted(count: int, thing: str, things: str = "") -> str:
    """'1 function', '3 functions'; 'no functions'."""
    if count == 1:
        return f"1 {thing}"
    return f"{count or 'no'} {things or thing + 's'}"


def weighed(weight: float) -> str:
    """Whether a reason speaks for or against a pairing, and how strongly in nats: 'for 2.3', 'against 0.4'."""
    return f"{'for' if weight >= 0 else 'against'} {plain(round(abs(weight), 1))}"


def column_words(column: Column, names: Names) -> str:
    """What is said of one column of stages: 'alike in means', 'done differently: material', 'only in Veska One'."""
    same, other = (" and ".join(column.asked(a)) for a in (Agreement.SAME, Agreement.DIFFERENT))
    if column.finding in (Finding.ONLY_LEFT, Finding.ONLY_RIGHT):
        here = names[0] if column.left is not None else names[1]
        further = column.silent is not None and column.silent.further
        return f"one more in {here}" if further else f"only in {here}"
    said = {
        Finding.ALIKE: f"alike in {same}",
        Finding.DIFFERENT: f"done differently: {other}",
        Finding.ELSEWHERE: "in another order",
        Finding.UNKNOWN: f"{NOT_KNOWN} whether alike" if column.is_complete else NOT_KNOWN,
    }
    return said.get(column.finding, column.finding.value)


def gap_words(column: Column) -> str:
    """What stands where one side shows no stage: 'none' only where that is known, else 'not recorded'."""
    if column.elsewhere is not None:
        return f"stands as stage {column.elsewhere.place}"
    if column.silent is None or not column.silent.silence.is_known:
        return "not recorded"
    return "no further one" if column.silent.further else "none"


def path_silence_words(pair: PathPair, coverage: str) -> str:
    """What is said of the side without a path, by how far its paths were looked at."""
    silent = pair.silent
    if silent is not None and coverage == WHOLE and (silent.further or not silent.silence.is_known):
        return silent_words(silent)
    return unlisted_words(coverage, "paths")


def larger_words(amount: Amount, names: Names) -> str:
    """Which side's quantity is larger and by how much: 'thickness 2.5 × in Veska One'; '' where none surely is."""  # noqa: RUF002 - the sign is meant
    if not amount.larger:
        return ""
    return f"{amount.name} {times(amount.times) or 'larger'} in {names[amount.larger == 'right']}"


def facing_words(facing: str) -> str:
    """Which way something points: 'faces up', 'faces into a plate'; '' where that is not stated."""
    return f"faces {_FACING.get(facing, facing)}" if facing else ""


def end_words(end: End) -> str:
    """Whether two ends of paths go together."""
    if end.agreement is Agreement.SAME:
        return "paired" if end.are_elements else "the same"
    if end.agreement is Agreement.DIFFERENT:
        return "different jobs"
    return f"{NOT_KNOWN} whether the same"
