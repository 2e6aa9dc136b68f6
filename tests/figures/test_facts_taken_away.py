"""For every figure and every fact it says it used: without that fact it is bounded or not known, and names it."""

from __future__ import annotations

from copy import deepcopy
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from archdiff.figures import Measure, all_figures
from archdiff.record import Document, Record, read_record
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from collections.abc import Iterator

EXAMPLES = sorted(
    path for path in (Path(__file__).parents[2] / "examples").glob("*/*.yaml") if path.name != "notes.yaml"
)
# Where the format lets one fact stand in for another, both are taken away.
STAND_INS = {
    "area": ("outline", "cut_outs"),
    "outline": ("cut_outs",),
    "detachable": ("means",),
    "reusable": ("means",),
    "in": ("sits_in", "on"),
    "on": ("sits_in",),
}
FIGURES = {figure.id: figure.of_product for figure in all_figures() if figure.of_product is not None}


def read(path: Path) -> Record:
    record, problems = read_record(path)
    assert record is not None, problems
    return record


def without(record: Record, fact: str) -> Record:
    """The record without one fact, given as a figure names it."""
    data = deepcopy(record.document.data)
    subject, name = fact.split(": ", 1)
    if name == "coverage":
        data["coverage"] = {**data["coverage"], subject: "part"}
    elif subject.startswith("opening "):
        action = data["opening"][int(subject.split()[1]) - 1]
        del action[name]
        data.get("joints", {}).get(action.get("what"), {}).pop("seconds_each", None)
    elif subject in ("product", "power"):
        del data[subject][name]
    elif " stage " in subject:
        path, place = subject.split(" stage ")
        stage = data["paths"][path]["through"][int(place) - 1]
        del stage[name]
        # An element that the stage names may state the same.
        entry(data, record.elements[stage["what"]].path).pop(name, None) if stage["what"] in record.elements else None
    else:
        element = entry(data, record.elements[subject].path)
        first, *inner = name.split()
        assert first in element, fact
        if inner:
            del element[first][inner[0]]
        for stand_in in (*([] if inner else [first]), *STAND_INS.get(first, ())):
            element.pop(stand_in, None)
    return build_record(Document(record.file, data))[0]


def alternatives(fact: str) -> set[str]:
    """The fact and those of the same subject that could stand in for it: any of them may be asked for."""
    subject, name = fact.split(": ", 1)
    return {fact, *(f"{subject}: {other}" for other in STAND_INS.get(name, ()))}


def entry(data: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        data = data[step]
    return data


def numbers(measure: Measure) -> Iterator[bool]:
    """Whether the figure and each of its parts is exactly known."""
    yield measure.bounds is not None and measure.bounds.is_exact
    yield from (part.is_exact and name != "not stated" for name, part in measure.parts.items())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_fact_used_is_needed_and_named_when_it_is_gone(path: Path) -> None:
    record = read(path)
    measures = {name: compute(record) for name, compute in FIGURES.items()}
    needed: dict[str, list[str]] = {}
    for name, measure in measures.items():
        for fact in measure.used:
            needed.setdefault(fact, []).append(name)
    assert len(needed) > 30
    for fact, names in needed.items():
        subject = fact.split(":", maxsplit=1)[0]
        lacking = f"{subject}: looked at only in part" if fact.endswith(": coverage") else fact
        poorer = without(record, fact)
        for name in names:
            measure = FIGURES[name](poorer)
            assert alternatives(lacking) & set(measure.missing), (name, fact, measure)
            assert not all(numbers(measure)), (name, fact, measure)
            before, after = measures[name].bounds, measure.bounds
            if before is not None and after is not None:
                assert after.low <= before.low * (1 + 1e-9), (name, fact)
                assert after.high >= before.high * (1 - 1e-9), (name, fact)
            assert before is not None or after is None, (name, fact)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_is_exact_lacks_nothing_that_it_rests_on_and_what_is_not_says_why(path: Path) -> None:
    record = read(path)
    for name, compute in FIGURES.items():
        measure = compute(record)
        open_above = measure.bounds is None or not measure.bounds.is_known
        assert not open_above or measure.missing or "no boards" in measure.how, (name, measure)
        assert measure.how, name


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_figure_is_nothing_because_nobody_looked(path: Path) -> None:
    record = read(path)
    blind = {key: value for key, value in record.document.data.items() if key in ("archdiff", "product")}
    empty = build_record(Document(record.file, {**blind, "coverage": {}}))[0]
    for name, compute in FIGURES.items():
        measure = compute(empty)
        assert measure.bounds is None or measure.used[0].startswith("product:"), (name, measure)
        assert measure.bounds is not None or measure.missing, name
