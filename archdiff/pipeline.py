"""The stages in order: read, check, align, figure, follow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.alignment import align, partition_of
from archdiff.comparison import Comparison
from archdiff.figures import PairView, compute_figures
from archdiff.headlines import headlines_of
from archdiff.knockons import follow
from archdiff.live_values import with_live_values
from archdiff.notes import Notes, notes_problems, read_notes
from archdiff.paths import compare_paths
from archdiff.problems import FaultyInputError, Problem, Severity, faults
from archdiff.record import OTHER_FORMAT, Record, read_record
from archdiff.rules import check_record
from archdiff.unknowns import look_at, to_confirm, unknowns_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Progress = Callable[[str], None]


def check_file(file: str | Path) -> tuple[Record | None, list[Problem]]:
    """Read one record and apply every rule; the record is None where it could not be read at all.

    No warning is given on a line that has a fault: what it misses may just have been cut out.
    """
    record, problems = read_record(file)
    if record is not None:
        hurt = {problem.line for problem in faults(problems)}
        found = check_record(record)
        problems += [p for p in found if p.severity is Severity.FAULT or p.line not in hurt]
    return record, sorted(set(problems))


def check_input(file: str | Path) -> list[Problem]:
    """What is wrong with a record, or with notes: these are held against the two records that they name."""
    _, problems = check_file(file)
    if any(problem.rule == OTHER_FORMAT for problem in problems):
        return notes_problems(file, check_file)
    return problems


def compare_files(
    left: str | Path, right: str | Path, notes: str | Path | None = None, progress: Progress | None = None
) -> Comparison:
    """Compare two records. Raises FaultyInputError with every fault of all files."""
    say = progress or (lambda _: None)
    say("reading and checking")
    left_record, left_problems = check_file(left)
    right_record, right_problems = check_file(right)
    problems = [*left_problems, *right_problems]
    words = Notes()
    if notes is not None and left_record is not None and right_record is not None:
        words, found = read_notes(notes, left_record, right_record)
        problems += found
    if faults(problems) or left_record is None or right_record is None:
        raise FaultyInputError(problems)
    return compare(left_record, right_record, words, problems, progress)


def compare(
    left: Record,
    right: Record,
    notes: Notes | None = None,
    warnings: list[Problem] | None = None,
    progress: Progress | None = None,
) -> Comparison:
    """Compare two records that were read and checked."""
    say, words = progress or (lambda _: None), notes or Notes()
    say("aligning")
    alignment = align(left, right, words)
    partition = partition_of(alignment, left, right)
    paths = compare_paths(left, right, alignment, words)
    say("computing figures")
    figures = compute_figures(PairView(left, right, alignment, partition))
    say("following what follows from what")
    unknowns = unknowns_of(alignment, figures, left, right)
    chains = follow(alignment, left, right)
    comparison = Comparison(
        left,
        right,
        words,
        alignment,
        partition,
        figures,
        chains=chains,
        unknowns=unknowns,
        look_at=look_at(unknowns, left, right),
        to_confirm=to_confirm(alignment),
        headlines=headlines_of(alignment, partition, figures, (left, right), words, chains),
        warnings=tuple(warnings or ()),
        paths=paths,
    )
    return with_live_values(comparison)
