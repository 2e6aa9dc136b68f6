"""References in the analyst's words: replaced by what the comparison says, or refused where they stand."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.pipeline import compare_files
from archdiff.problems import FaultyInputError

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

LEFT = """\
archdiff: 1
product: {name: Larn, kind: lamp, price: 12 EUR}
coverage: {boards: whole, parts: part}
boards: {main: {outline: 40 x 30 mm}, front: {outline: 20 x 10 mm}}
parts: {U1: {on: main, function: host processing, means: microcontroller, size: 5 x 5 mm, marking: "A*B_c"}}
"""
RIGHT = LEFT.replace("Larn", "Tosk").replace(", front: {outline: 20 x 10 mm}", "")


def compared(folder: Path, comment: str) -> Comparison:
    (folder / "a.yaml").write_text(LEFT, "utf-8")
    (folder / "b.yaml").write_text(RIGHT, "utf-8")
    notes = f"archdiff_notes: 1\nheadline: Two lamps.\ncomments:\n  - on: partition\n    text: |\n      {comment}\n"
    (folder / "n.yaml").write_text(notes, "utf-8")
    return compare_files(folder / "a.yaml", folder / "b.yaml", folder / "n.yaml")


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("{left.board-count} boards against {right.board_count}", "2 boards against 1"),
        ("{both.board-count}", "Larn: 2 \N{MULTIPLICATION SIGN} Tosk"),
        ("{left.name} at {left.price}", "Larn at 12 EUR"),
        ("{right.U1.size}", "5 x 5 mm"),
        ("{left.U1.marking}", r"A\*B\_c"),
        ("{{left.name}} and {a brace}", "{left.name} and {a brace}"),
    ],
)
def test_a_reference_becomes_its_value(tmp_path: Path, written: str, shown: str) -> None:
    text = compared(tmp_path, written).notes.comments[0].text.replace("\N{NO-BREAK SPACE}", " ")
    assert shown in text


@pytest.mark.parametrize(
    ("written", "said", "hint"),
    [
        ("{left.board-cuont}", "no figure", "did you mean {left.board-count}?"),
        ("{middle.board-count}", "'middle' is no side", "begin with left"),
        ("{left.U9.size}", "no figure", "'archdiff figures' lists"),
        ("{left.U1.sise}", "no figure", "did you mean {left.U1.size}?"),
        ("{left.partition-distance}", "figure of the pair", "{both.partition-distance}"),
    ],
)
def test_a_reference_that_names_nothing_is_refused_at_its_place(
    tmp_path: Path, written: str, said: str, hint: str
) -> None:
    with pytest.raises(FaultyInputError) as refused:
        compared(tmp_path, f"fine {written} {written}")
    first, second = refused.value.problems
    assert first.message == second.message
    assert (Path(first.file).name, first.line, first.rule) == ("n.yaml", 5, "no-such-value")
    assert said in first.message
    assert hint in first.hint


def test_a_lower_bound_stays_one(tmp_path: Path) -> None:
    text = compared(tmp_path, "{left.placements} placed").notes.comments[0].text
    assert text.replace("\N{NO-BREAK SPACE}", " ").startswith("≥ 1 placed")
