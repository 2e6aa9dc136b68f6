"""The figures as CSV: every figure on every side, numbers as numbers, nothing that a spreadsheet would run."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

from archdiff.exports import export
from archdiff.pipeline import compare_files

FOLDER = Path(__file__).parents[2] / "examples" / "bike-lights"


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_each_figure_has_a_row_a_side_and_its_numbers() -> None:
    comparison = compare_files(FOLDER / "gloffin-ember.yaml", FOLDER / "plinsk-wink.yaml", FOLDER / "notes.yaml")
    found = rows(export(comparison, "figures"))
    wanted = [(r.figure.id, of) for r in comparison.figures for of in (("both",) if r.pair else ("left", "right"))]
    assert len(found) == len(wanted)
    for row, (name, of) in zip(found, wanted, strict=True):
        result = comparison.figure(name)
        measure = {"left": result.left, "right": result.right, "both": result.pair}[of]
        assert row["id"] == name
        assert row["formula"].removeprefix("'") == result.figure.formula
        bounds = measure.bounds if measure else None
        if bounds is None:
            assert (row["best"], row["lowest"], row["highest"]) == ("", "", "")
        elif bounds.is_exact:
            assert float(row["best"]) == float(f"{bounds.low:.10g}")


def test_a_product_called_like_a_formula_stays_text() -> None:
    comparison = compare_files(FOLDER / "gloffin-ember.yaml", FOLDER / "plinsk-wink.yaml")
    record = replace(comparison.left, product={**comparison.left.product, "name": "=1+1"})
    found = rows(export(replace(comparison, left=record), "figures"))
    assert {row["of"] for row in found} == {"'=1+1", comparison.right.name, "both"}
