"""The comparison as Markdown that reads well in a repository or an article."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from archdiff.alignment import Verdict
from archdiff.headlines import sentence

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison
    from archdiff.figures import FigureResult, Measure

NAME = "markdown"


def write(comparison: Comparison) -> str:
    """Markdown text."""
    blocks = [
        *_top(comparison),
        *_partition(comparison),
        *_figures(comparison),
        *_pairs(comparison),
        *_open(comparison),
    ]
    return "\n\n".join(blocks) + "\n"


def _top(comparison: Comparison) -> Iterator[str]:
    yield f"# {_inert(comparison.title)}"
    yield f"Left: **{_inert(comparison.left.name)}**. Right: **{_inert(comparison.right.name)}**."
    if comparison.notes.headline:
        yield comparison.notes.headline
    yield "\n".join(f"- {_inert(h.text)} ({h.sure})" for h in comparison.headlines)


def _partition(comparison: Comparison) -> Iterator[str]:
    partition = comparison.partition
    yield "## Which board carries what"
    yield (
        f"{partition.placed} functions are paired and placed on both sides; "
        f"{partition.distance} of them would have to move to turn one partition into the other."
    )
    if partition.moves:
        yield "\n".join(f"- {_inert(move.text)}" for move in partition.moves)


def _figures(comparison: Comparison) -> Iterator[str]:
    yield "## Figures"
    names = (_inert(comparison.left.name), _inert(comparison.right.name))
    rows = [f"| figure | unit | {names[0]} | {names[1]} |", "|---|---|---|---|"]
    rows += [_figure_row(result) for result in comparison.figures]
    yield "\n".join(rows)


def _figure_row(result: FigureResult) -> str:
    figure = result.figure
    if result.pair is not None:
        return f"| {figure.title} | {figure.unit} | {_number(result.pair)} | |"
    return f"| {figure.title} | {figure.unit} | {_number(result.left)} | {_number(result.right)} |"


def _number(measure: Measure | None) -> str:
    return "not known" if measure is None or measure.bounds is None else str(measure.bounds)


def _pairs(comparison: Comparison) -> Iterator[str]:
    yield "## Differences"
    records = (comparison.left, comparison.right)
    for subsystem in comparison.left.vocabulary.subsystems:
        lines = [
            f"- {_inert(sentence(pair, records))}"
            for pair in comparison.pairs
            if pair.subsystem == subsystem and pair.verdict not in (Verdict.ALIKE, Verdict.UNKNOWN)
        ]
        if lines:
            yield f"### {subsystem.capitalize()}"
            yield "\n".join(lines)


def _open(comparison: Comparison) -> Iterator[str]:
    names = {"left": comparison.left.name, "right": comparison.right.name}
    if comparison.look_at:
        yield "## Look at next"
        yield "\n".join(
            f"{i}. {_inert(names[entry.side])}: {_inert(entry.where)} — {_inert(entry.what)}"
            + (f" (settles {entry.settles})" if entry.settles else "")
            for i, entry in enumerate(comparison.look_at, 1)
        )


def _inert(text: str) -> str:
    """Record text as plain words in Markdown: CommonMark 0.31 section 2.4 lets every punctuation be escaped."""
    return re.sub(r"([\\`*_{}\[\]<>#|!~])", r"\\\1", " ".join(text.split()))
