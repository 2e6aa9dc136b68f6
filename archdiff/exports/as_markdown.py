"""The comparison as Markdown that reads well in a repository or an article."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.alignment import Agreement, Verdict
from archdiff.cautions import cautions_of
from archdiff.figures.figure import Outcome
from archdiff.headlines import sentence
from archdiff.markdown import inert, own_words, quote, table
from archdiff.paths import Finding
from archdiff.remarks import remarks_on, remarks_on_elements, remarks_on_pair, remarks_without_home
from archdiff.unknowns import telling
from archdiff.wording import (
    amount,
    bears_words,
    column_words,
    counted,
    doubt_words,
    end_words,
    facing_words,
    gap_words,
    larger_words,
    names,
    outcome_words,
    path_silence_words,
    sure_words,
    verdict_words,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure
    from archdiff.headlines import Headline
    from archdiff.notes import Comment
    from archdiff.paths import Column, PathPair, Spot

NAME = "markdown"
# Comments on these stand under the headings of the same sense; all others with what they name.
_HEADINGS = ("headlines", "partition", "figures", "differences", "paths", "not known", "cautions")
_ALIGNED = ("---", "---:", "---:", "---")
_MOST_LOOKS = 10
_DOUBTFUL = ("inferred", "guessed")
_DANGEROUS = ("mains", "battery", "charged capacitors")


def write(comparison: Comparison) -> str:
    """Markdown text (CommonMark, with tables as on GitHub)."""
    blocks = [
        *_top(comparison),
        *_partition(comparison),
        *_figures(comparison),
        *_differences(comparison),
        *_paths(comparison),
        *_not_known(comparison),
        *_cautions(comparison),
    ]
    return "\n\n".join(blocks) + "\n"


def _top(comparison: Comparison) -> Iterator[str]:
    left, right = map(inert, names(comparison))
    yield f"# {inert(comparison.title)}"
    yield f"Left: **{left}**. Right: **{right}**."
    if comparison.notes.headline:
        yield own_words(comparison.notes.headline)
    signed = [inert(word) for word in (comparison.notes.by, comparison.notes.date) if word]
    if signed:
        yield f"*{', '.join(signed)}*"
    if comparison.headlines:
        yield "\n".join(line for headline in comparison.headlines for line in _headline(headline))
    yield from _quoted(remarks_on(comparison, "headlines"))
    yield from _without_heading(comparison)


def _headline(headline: Headline) -> Iterator[str]:
    """A headline as a list item, with what goes with it under it."""
    yield f"- {inert(headline.text)} *({sure_words(headline.sure)})*"
    for then in headline.then:
        yield f"  - {inert(then.text)}{f' *({sure_words(then.sure)})*' if then.sure else ''}"


def _without_heading(comparison: Comparison) -> Iterator[str]:
    """What the analyst says of the whole, of sections that only the page has, and of boards and paths."""
    homes = (*_HEADINGS, *(pair.subsystem for pair in comparison.pairs))
    for comment in remarks_without_home(comparison, homes):
        yield quote(comment.text, f"On {comment.on}" if comment.on else "")
    for comment in remarks_on_elements(comparison):
        sides = ((comparison.left, comment.left), (comparison.right, comment.right))
        called = [f"{r.elements[n].label} of {r.name}" for r, n in sides if n in r.elements]
        yield quote(comment.text, f"On {' and '.join(called)}" if called else "")


def _partition(comparison: Comparison) -> Iterator[str]:
    partition = comparison.partition
    yield "## Which board carries what"
    yield from _quoted(remarks_on(comparison, "partition"))
    if not partition.placed:
        yield "No function is paired and placed on both sides, so nothing can be said of it."
        return
    yield (
        f"Of {counted(partition.placed, 'paired function')} whose place is known on both sides, "
        f"{partition.placed - partition.distance} sit on boards that correspond and {partition.distance} would have "
        "to move to turn one partition into the other."
    )
    if partition.moves:
        yield "\n".join(f"- {inert(move.text)}" for move in partition.moves)


def _figures(comparison: Comparison) -> Iterator[str]:
    called = names(comparison)
    remarks = remarks_on(comparison, "figures")
    if not comparison.figures and not remarks:
        return
    yield "## Figures"
    yield from _quoted(remarks)
    of_products = [result for result in comparison.figures if result.pair is None]
    if of_products:
        yield table(["Figure", *map(inert, called), "What it shows"], _ALIGNED, _by_family(of_products, called))
    of_pair = [result for result in comparison.figures if result.pair is not None]
    if of_pair:
        rows = ([inert(result.figure.title), inert(_shown(result.pair, result))] for result in of_pair)
        yield table(["Figure of the two together", "Value"], ["---", "---:"], rows)


def _by_family(results: Sequence[FigureResult], called: tuple[str, str]) -> Iterator[list[str]]:
    for family in dict.fromkeys(result.figure.family for result in results):
        yield [f"**{inert(family.capitalize())}**", "", "", ""]
        for result in results:
            if result.figure.family == family:
                values = [_shown(measure, result) for measure in (result.left, result.right)]
                yield [*map(inert, (result.figure.title, *values, outcome_words(result, called)))]


def _shown(measure: Measure | None, result: FigureResult) -> str:
    """'12.4 cm²', or the likely value with its bounds: '2 W (1.8…2.2 W)'."""
    bounds, likely = amount(measure, result.figure)
    return f"{likely} ({bounds})" if likely else bounds


def _differences(comparison: Comparison) -> Iterator[str]:
    yield "## Differences"
    yield from _quoted(remarks_on(comparison, "differences"))
    for subsystem in dict.fromkeys(pair.subsystem for pair in comparison.pairs):
        pairs = [pair for pair in comparison.pairs if pair.subsystem == subsystem]
        yield f"### {inert(subsystem.capitalize()) or 'Subsystem not known'}"
        if subsystem and subsystem not in _HEADINGS:
            yield from _quoted(remarks_on(comparison, subsystem))
        told = [line for pair in pairs if (line := _difference(comparison, pair))]
        if told:
            yield "\n".join(told)
        yield _others(pairs)


def _difference(comparison: Comparison, pair: Pair) -> str:
    """One pair that differs, or that the analyst speaks of, as an entry of a list; '' for all others."""
    remarks = [quote(comment.text, indent="  ") for comment in remarks_on_pair(comparison, pair)]
    if pair.verdict in (Verdict.ALIKE, Verdict.UNKNOWN):
        words, known = f"{pair.function[:1].upper()}{pair.function[1:]}: {verdict_words(pair, names(comparison))}", ""
        if not remarks:
            return ""
    else:
        words, known = sentence(pair, (comparison.left, comparison.right)), sure_words(pair.sure)
    how = "; ".join(word for word in (known, doubt_words(pair)) if word)
    changes = "; ".join(f"{c.what}: {c.left} against {c.right}" for c in pair.changes)
    lines = [f"- {inert(words)}" + (f" *({how})*" if how else "")]
    lines += [f"  Facts that differ: {inert(changes)}."] if changes else []
    return "\n\n".join(["  \n".join(lines), *remarks])


def _others(pairs: Sequence[Pair]) -> str:
    """How the functions of a subsystem fare, those that are not listed included."""
    alike = sum(pair.verdict is Verdict.ALIKE for pair in pairs)
    unknown = sum(pair.verdict is Verdict.UNKNOWN for pair in pairs)
    differing = len(pairs) - alike - unknown
    return f"{counted(len(pairs), 'function')}: differing {differing}, alike {alike}, not known {unknown}."


def _paths(comparison: Comparison) -> Iterator[str]:
    """Paths that go together as a table of their stages, and those that stand alone as a line."""
    remarks = remarks_on(comparison, "paths")
    if not comparison.paths and not remarks:
        return
    yield "## Paths"
    yield from _quoted(remarks)
    called = names(comparison)
    for pair in comparison.paths:
        of = [path and f"{path.label} of {name}" for path, name in zip((pair.left, pair.right), called, strict=True)]
        yield f"### {inert(pair.kind.capitalize())}: {inert(' and '.join(one for one in of if one))}"
        if pair.is_complete:
            yield inert(_ends(pair))
            rows = (map(inert, _stages(column, called)) for column in pair.columns)
            yield table([*map(inert, called), "What is said"], ["---"] * 3, rows)
        else:
            here, there = (0, 1) if pair.left else (1, 0)
            record = (comparison.left, comparison.right)[there]
            why = path_silence_words(pair, record.coverage.of("paths"))
            way = ", ".join(stage.label for c in pair.columns for stage in ((c.left, c.right)[here],) if stage)
            yield inert(f"{called[there]}: {why}. {called[here]}: {way or 'no stages stated'}.")


def _ends(pair: PathPair) -> str:
    """In one line: 'From Chip and Chip (paired) to air and air (the same); faces up against faces into a plate.'."""
    ends = [f"{_both(end.left, end.right)} ({end_words(end)})" for end in (pair.start, pair.end)]
    facing = [facing_words(text) or "direction not stated" for text in (pair.facing.left, pair.facing.right)]
    same = pair.facing.agreement is Agreement.SAME
    ways = f"; both {facing[0]}" if same else f"; {facing[0]} against {facing[1]}"
    stated = pair.facing.left or pair.facing.right
    return f"From {ends[0]} to {ends[1]}{ways if stated else ''}."


def _both(left: Spot | None, right: Spot | None) -> str:
    return " and ".join((spot.label if spot else "") or "not stated" for spot in (left, right))


def _stages(column: Column, called: tuple[str, str]) -> tuple[str, str, str]:
    """The cells of one row: both stages with their places, and what is said with why."""
    left, right = (f"{s.place} {s.label}" if s else gap_words(column) for s in (column.left, column.right))
    said = [column_words(column, called), *(words for a in column.amounts if (words := larger_words(a, called)))]
    if column.silent and not column.silent.silence.is_known:
        said.append(column.silent.why)
    elif column.finding is not Finding.UNKNOWN and column.sure in _DOUBTFUL:
        said.append(sure_words(column.sure))
    return left, right, "; ".join(said)


def _not_known(comparison: Comparison) -> Iterator[str]:
    called = dict(zip(("left", "right"), map(inert, names(comparison)), strict=True))
    verdicts = sum(pair.verdict is Verdict.UNKNOWN for pair in comparison.pairs)
    doubtful = sum(bool(doubt_words(pair)) for pair in comparison.pairs)
    sided = [result for result in comparison.figures if result.pair is None]
    figures = sum(result.outcome is Outcome.UNKNOWN for result in sided)
    gaps = [f"{sum(u.side == side for u in comparison.unknowns)} of {name}" for side, name in called.items()]
    yield "## What is not known"
    yield from _quoted(remarks_on(comparison, "not known"))
    yield "\n".join(
        (
            f"- Without a verdict: {verdicts} of {counted(len(comparison.pairs), 'function')}.",
            f"- Without an answer which side is higher: {figures} of {counted(len(sided), 'figure')}.",
            f"- Paired, but perhaps not for the same job: {counted(doubtful, 'pair')}.",
            f"- Not answered, because something was not examined or not recorded: {', '.join(gaps)}.",
        )
    )
    looks = telling(comparison.look_at)
    if looks:
        yield "What to examine next, most informative first:"
        yield "\n".join(
            f"{i}. {called[e.side]}, {inert(e.where)}: {inert(e.what)} (affects {bears_words(e)})"
            f"{f'. How: {inert(e.how)}' if e.how else ''}"
            for i, e in enumerate(looks[:_MOST_LOOKS], 1)
        )
    if looks[_MOST_LOOKS:]:
        more = counted(len(looks) - _MOST_LOOKS, "more look")
        yield f"{more} {'affects' if len(looks) == _MOST_LOOKS + 1 else 'affect'} less."


def _cautions(comparison: Comparison) -> Iterator[str]:
    remarks = remarks_on(comparison, "cautions")
    groups = [group for group in cautions_of(comparison) if group.supply in _DANGEROUS]
    if not groups and not remarks:
        return
    yield "---"
    yield from _quoted(remarks)
    told = " ".join(
        f"**Caution, {group.supply}** ({inert(group.products)}): {inert(' '.join(group.cautions))}" for group in groups
    )
    if told:
        yield f"{told} No verdict on safety or electromagnetic compatibility is given here."


def _quoted(remarks: Iterable[Comment]) -> Iterator[str]:
    return (quote(comment.text) for comment in remarks)
