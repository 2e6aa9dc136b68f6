"""Pairs of records with pairings made by hand, and how far an alignment agrees with them.

`truth.yaml` holds rows of {left, right, function}: the ids that do one job on each side, null where a side has
nothing. Several ids of one side are interchangeable. `known_absent` says of a null whether that side's record
proves that nothing is there; `optional` marks a row that an engineer may also leave unpaired.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import yaml

from archdiff.alignment import Verdict
from archdiff.cli.examples import example_in

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison

CASES = Path(__file__).parent
EXAMPLES = CASES.parents[1] / "examples"
NAMES = tuple(sorted(folder.name for folder in CASES.iterdir() if (folder / "truth.yaml").exists()))


@dataclass(frozen=True)
class Row:
    """One job, by hand."""

    left: frozenset[str]
    right: frozenset[str]
    function: str
    known_absent: bool | None
    optional: bool

    def holds(self, pair: tuple[str, str]) -> bool:
        """Whether the two elements do this job."""
        return pair[0] in self.left and pair[1] in self.right


@dataclass(frozen=True)
class Agreement:
    """Shares from 0 to 1, and in words what the alignment pairs wrongly and what it leaves unpaired."""

    precision: float
    recall: float
    wrong: tuple[str, ...]
    missed: tuple[str, ...]


def files_of(name: str) -> tuple[Path, Path]:
    """The two records of a case; those of the examples stay with the examples."""
    if (CASES / name / "left.yaml").exists():
        return CASES / name / "left.yaml", CASES / name / "right.yaml"
    pair = example_in(EXAMPLES / name)
    return pair.left, pair.right


def rows_of(name: str) -> list[Row]:
    """The truth of a case."""
    rows = yaml.safe_load((CASES / name / "truth.yaml").read_text(encoding="utf-8"))
    return [
        Row(_ids(r["left"]), _ids(r["right"]), r["function"], r.get("known_absent"), r.get("optional", False))
        for r in rows
    ]


def _ids(value: str | list[str] | None) -> frozenset[str]:
    return frozenset([value] if isinstance(value, str) else value or ())


def agreement_of(comparison: Comparison, rows: list[Row]) -> Agreement:
    """Precision over the pairs that were made, recall over the rows that have both sides."""
    made = [pair for pair in comparison.pairs if all(pair.ids)]
    wrong = [pair for pair in made if not _is_right(pair, rows)]
    wanted = [row for row in rows if row.left and row.right and not row.optional]
    missed = [row for row in wanted if not any(row.holds((a, b)) for p in made for a in p.ids[0] for b in p.ids[1])]
    return Agreement(
        1 - len(wrong) / len(made) if made else 0.0,
        1 - len(missed) / len(wanted),
        tuple(f"{pair.function}: {pair.ids[0]} with {pair.ids[1]}" for pair in wrong),
        tuple(f"{row.function}: {sorted(row.left)} with {sorted(row.right)}" for row in missed),
    )


def _is_right(pair: Pair, rows: list[Row]) -> bool:
    """Whether all members of one side do one job with all of the other.

    A row holds for the elements, not for the function alone: elements that were paired for their main job are
    paired for what else both do.
    """
    a, b = (frozenset(ids) for ids in pair.ids)
    return any(a <= row.left and b <= row.right for row in rows)


def unproven(comparison: Comparison, rows: list[Row]) -> list[str]:
    """Definite verdicts on one side alone where the other side's record proves nothing."""
    found = []
    for row in rows:
        if row.known_absent is not False:
            continue
        for pair in comparison.pairs:
            mine = row.left | row.right
            held = mine & {name for ids in pair.ids for name in ids}
            if not pair.is_complete and held and pair.function == row.function and pair.verdict is not Verdict.UNKNOWN:
                found.append(f"{pair.verdict}: {pair.function} {sorted(held)}")
    return found
