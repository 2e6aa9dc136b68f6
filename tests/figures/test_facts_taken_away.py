"""For every figure and every fact it says it used: without that fact it is bounded or not known, and names it.

Nothing here is listed by hand: the figures are those of the shelf, the facts those that each figure says it used on
each example, one product at a time and for the figures of the pair both together.
"""

from __future__ import annotations

import math
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.cli.examples import example_in
from archdiff.figures import Measure, PairView, all_figures
from archdiff.notes import read_notes
from archdiff.pipeline import compare
from archdiff.quantities import Bounds
from archdiff.record import Document, Record, read_record
from archdiff.record.build import build_record
from tests.figures.taking_away import NONE, World, looked_at_all_over, of_pair, of_product, without

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from archdiff.notes import Notes

FOLDERS = sorted(path.parent for path in (Path(__file__).parents[2] / "examples").glob("*/notes.yaml"))
PLACES = ("on", "in", "sits_in")
EXAMPLES = sorted(path for folder in FOLDERS for path in folder.glob("*.yaml") if path.name != "notes.yaml")


def read(path: Path) -> Record:
    record, problems = read_record(path)
    assert record is not None, problems
    return record


def pair_in(folder: Path) -> tuple[Record, Record, Notes]:
    pair = example_in(folder)
    left, right = read(Path(pair.left)), read(Path(pair.right))
    assert pair.notes is not None
    return left, right, read_notes(pair.notes, left, right)[0]


def numbers(measure: Measure) -> Iterator[bool]:
    """Whether the figure and each of its parts is exactly known."""
    yield measure.bounds is not None and measure.bounds.is_exact
    yield from (part.is_exact and name != "not stated" for name, part in measure.parts.items())


def subject(fact: str) -> str:
    return fact.rsplit(": ", 1)[0]


def named(facts: Iterable[str]) -> set[str]:
    """How a figure names these facts where they are lacking; where a thing lies is one fact, however it is written."""
    found = set(facts)
    found |= {f"{subject(fact)}: looked at only in part" for fact in facts if fact.endswith(": coverage")}
    return found | {f"{subject(fact)}: on" for fact in facts if fact.rsplit(": ", 1)[1] in PLACES}


def lacking(world: World, name: str, fact: str) -> tuple[bool, frozenset[str], Measure]:
    """Whether a figure names a fact that is gone, all that is gone, and the figure without it.

    Where the format lets another fact stand in for it, that one is used now and was not before: it goes as well. So
    do, where nothing is named yet, the other facts of the same thing, one of which may say the same.
    """
    whole, gone = world.measure(name), frozenset({fact})
    while True:
        measure = world.measure(name, gone)
        found = bool(named(gone) & set(measure.missing))
        fresh = set(measure.used) - set(whole.used) - gone
        fresh = {other for other in fresh if not found or subject(other) == subject(fact)}
        if not fresh:
            break
        gone |= fresh
    others = frozenset(other for other in whole.used if subject(other) == subject(fact)) | gone
    if found or others == gone:
        return found, gone, measure
    measure = world.measure(name, others)
    return bool(named({fact}) & set(measure.missing)), others, measure


def is_wider(poorer: Bounds | None, richer: Bounds | None) -> bool:
    if richer is None or poorer is None:
        return poorer is None
    ends = ((poorer.low, richer.low), (richer.high, poorer.high))
    return all(outer <= inner or math.isclose(outer, inner) for outer, inner in ends)


def shown(measure: Measure) -> object:
    """All that a reader sees of a figure's value."""
    return measure.bounds, dict(measure.parts), measure.said, measure.moot


def troubles(world: World, looked_at: World, name: str, fact: str) -> Iterator[str]:
    """What is wrong with one figure without one fact that it says it used."""
    whole = world.measure(name)
    found, gone, measure = lacking(world, name, fact)
    if not found:
        yield f"does not say that it lacks it, only {measure.missing}"
    if all(numbers(measure)):
        yield f"is exact without it: {measure.bounds}"
    if not is_wider(measure.bounds, whole.bounds):
        yield f"is {measure.bounds} without it and {whole.bounds} with it"
    # Another fact that is lacking, or what nobody looked at, may hide that this one matters.
    if shown(measure) == shown(whole):
        open_to_view = [place for place in (world, looked_at) if not place.measure(name).missing]
        if any(shown(place.measure(name)) == shown(place.measure(name, gone)) for place in open_to_view):
            yield f"is the same without it: {measure.bounds}"


def all_troubles(world: World, looked_at: World) -> tuple[list[str], int]:
    """Everything that is wrong, and how many different facts are used."""
    facts = [(name, fact) for name in world.figures for fact in world.measure(name).used]
    found = [f"{name}, {fact}: {what}" for name, fact in facts for what in troubles(world, looked_at, name, fact)]
    return found, len({fact for _, fact in facts})


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_fact_used_is_needed_and_named_when_it_is_gone(path: Path) -> None:
    record = read(path)
    found, facts = all_troubles(of_product(record), of_product(looked_at_all_over(record)))
    assert not found, "\n".join(found)
    assert facts > 30


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_each_fact_used_of_a_pair_is_needed_and_named_with_its_side_when_it_is_gone(folder: Path) -> None:
    left, right, notes = pair_in(folder)
    looked_at = of_pair(looked_at_all_over(left), looked_at_all_over(right), notes)
    found, facts = all_troubles(of_pair(left, right, notes), looked_at)
    assert not found, "\n".join(found)
    assert facts > 10


def outlined(record: Record) -> Bounds | None:
    size = record.elements["main"].size("outline")
    return None if size is None else size.area


@pytest.mark.parametrize(
    ("figure", "wrong"),
    [
        (lambda r: Measure(outlined(r), ("main: outline",)), "does not say that it lacks it"),
        (lambda _: Measure(Bounds.exact(3), ("main: outline",), ("main: outline",)), "is exact without it"),
        (lambda r: Measure(Bounds(None, 1, 3), ("main: outline",), () if outlined(r) else ("main: outline",)), "same"),
        (
            lambda r: Measure(
                Bounds(None, 1, 4) if outlined(r) else Bounds(None, 2, 3),
                ("main: outline",),
                () if outlined(r) else ("main: outline",),
            ),
            "without it and",
        ),
    ],
)
def test_a_figure_that_does_without_what_it_says_it_used_is_caught(
    figure: Callable[[Record], Measure], wrong: str, record_of: Callable[[str], Record]
) -> None:
    record = record_of("coverage: {boards: whole}\nboards: {main: {outline: 40 x 30 mm}}\n")
    world = World({"tried": figure}, partial(without, record))
    found, _ = all_troubles(world, world)
    assert any(wrong in what for what in found), found


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_pairing_held_for_this_is_that_of_the_example(folder: Path) -> None:
    left, right, notes = pair_in(folder)
    comparison = compare(left, right, notes)
    view = PairView(left, right, comparison.alignment, comparison.partition)
    held = of_pair(left, right, notes)
    for figure in all_figures():
        if figure.of_pair is not None:
            assert held.measure(figure.id) == figure.of_pair(view), figure.id


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_is_exact_lacks_nothing_that_it_rests_on_and_what_is_not_says_why(path: Path) -> None:
    world = of_product(read(path))
    for name in world.figures:
        measure = world.measure(name)
        open_above = measure.bounds is None or not measure.bounds.is_known
        assert not open_above or measure.missing or measure.moot or "no boards" in measure.how, (name, measure)
        assert measure.how, name


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_figure_is_nothing_because_nobody_looked(path: Path) -> None:
    record = read(path)
    blind = {key: value for key, value in record.document.data.items() if key in ("archdiff", "product")}
    world = of_product(build_record(Document(record.file, {**blind, "coverage": {}}))[0])
    for name in world.figures:
        measure = world.measure(name, NONE)
        assert measure.bounds is None or measure.used[0].startswith("product:"), (name, measure)
        assert measure.bounds is not None or measure.missing, name
