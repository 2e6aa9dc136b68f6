"""What must hold for the paths of any two records."""

from collections import Counter
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from archdiff.alignment import Agreement, align
from archdiff.cli.examples import example_in, examples_folder
from archdiff.notes import Match, Notes
from archdiff.paths import Column, Finding, PathPair, compare_paths
from archdiff.paths.pairing import Kind, _kinds, _ways
from archdiff.paths.points import ALONE, Points
from archdiff.record import read_record
from tests.alignment.strategies import reordered
from tests.paths.strategies import element_names, products, record_from, renamed
from tests.paths.test_sequence import every_way

MIRRORED = {Finding.ONLY_LEFT: Finding.ONLY_RIGHT, Finding.ONLY_RIGHT: Finding.ONLY_LEFT}
TOWARDS = {"left": Finding.ONLY_RIGHT, "right": Finding.ONLY_LEFT}
calm = settings(deadline=None, max_examples=100)
Data = dict[str, Any]
SAME, DIFFERENT = Agreement.SAME, Agreement.DIFFERENT


def compared(left: Data, right: Data, notes: Notes = Notes()) -> tuple[PathPair, ...]:  # noqa: B008 - Notes is frozen
    a, b = record_from(left), record_from(right)
    return compare_paths(a, b, align(a, b, notes), notes)


def column_said(column: Column, *, turned: bool) -> tuple[Any, ...]:
    stages = [stage.key if stage else None for stage in (column.left, column.right)]
    asked = [(q.name, *sorted((q.left, q.right)), q.agreement) for q in column.questions if q.name != "words"]
    amounts = [(a.name, a.agreement, a.ratio is None) for a in column.amounts]
    silent = column.silent and (column.silent.silence, column.silent.sure, column.silent.further)
    finding = MIRRORED.get(column.finding, column.finding) if turned else column.finding
    return (*(stages[::-1] if turned else stages), finding, asked, amounts, column.points, silent, column.sure)


def said(pairs: tuple[PathPair, ...], *, turned: bool = False) -> list[tuple[Any, ...]]:
    """Everything that is stated of paths, without ids, names and places."""
    told = []
    for pair in pairs:
        sides = [path and (path.function, path.sure) for path in (pair.left, pair.right)]
        ends = [pair.start.agreement, pair.end.agreement, pair.facing.agreement, pair.points, pair.tied, pair.sure]
        columns = [column_said(column, turned=turned) for column in pair.columns]
        silent = pair.silent and (pair.silent.silence, pair.silent.further)
        told.append((pair.kind, *(sides[::-1] if turned else sides), ends, columns, silent))
    return told


@calm
@given(products(), products())
def test_swapping_sides_mirrors_everything(a: Data, b: Data) -> None:
    assert said(compared(a, b)) == said(compared(b, a), turned=True)


@calm
@given(products(least=2), products(least=2), st.data())
def test_swapping_sides_mirrors_what_notes_order(a: Data, b: Data, data: st.DataObject) -> None:
    lefts, rights = (data.draw(st.permutations(list(side["paths"]))) for side in (a, b))
    one, two = (Match((left,), (right,)) for left, right in zip(lefts[:2], rights[:2], strict=True))
    notes = Notes(tie=(one,), never=(two,))
    there = compared(a, b, notes)
    back = said(compared(b, a, notes.mirrored()), turned=True)
    # Of two like paths that the notes keep apart either may come first.
    assert sorted(map(repr, said(there))) == sorted(map(repr, back))
    pairs = {(p.left.id, p.right.id) for p in there if p.left and p.right}
    assert (two.left[0], two.right[0]) not in pairs
    if a["paths"][one.left[0]]["kind"] == b["paths"][one.right[0]]["kind"]:
        assert (one.left[0], one.right[0]) in pairs


@calm
@given(products(), products(), st.permutations(range(7)))
def test_ids_names_and_order_do_not_matter(a: Data, b: Data, order: list[int]) -> None:
    plain = said(compared(a, b))
    names = {name: f"x{order[k % 7]}_{k}" for k, name in enumerate([*element_names(a), *a["paths"]])}
    changed = reordered(renamed(a, names), order)
    for section in ("parts", "shields", "enclosure", "paths"):
        for number, facts in enumerate(changed.get(section, {}).values()):
            facts["name"] = f"Thing {number}"
    assert said(compared(changed, b)) == plain


@calm
@given(products(), products())
def test_every_path_and_stage_stands_once_and_in_order(a: Data, b: Data) -> None:
    pairs = compared(a, b)
    for side, data in (("left", a), ("right", b)):
        paths = [getattr(pair, side) for pair in pairs if getattr(pair, side)]
        assert Counter(path.id for path in paths) == Counter(list(data["paths"]))
        for pair in pairs:
            if (path := getattr(pair, side)) is not None:
                places = [getattr(column, side).place for column in pair.columns if getattr(column, side)]
                assert places == list(range(1, 1 + len(data["paths"][path.id].get("through", ()))))


@calm
@given(products("whole", sure="seen"))
def test_a_record_and_itself_show_no_difference(a: Data) -> None:
    for pair in compared(a, a):
        assert pair.is_complete
        assert pair.facing.agreement is not DIFFERENT
        for column in pair.columns:
            assert column.is_complete
            assert column.points > 0 or not column.left.functions
            assert column.finding in (Finding.ALIKE, Finding.UNKNOWN)


@calm
@given(products(), products())
def test_no_way_to_lay_the_stages_has_more_points(a: Data, b: Data) -> None:
    left, right = record_from(a), record_from(b)
    points = Points.after(align(left, right))
    for pair in compared(a, b):
        lefts, rights = ([s for c in pair.columns if (s := getattr(c, side))] for side in ("left", "right"))
        worth = [[points.of(x, y) for y in rights] for x in lefts]
        # Each way gains over leaving all alone what its pairs are worth beyond the two gaps that they close.
        best = max(sum(worth[i][j] - 2 * ALONE for i, j in way) for way in every_way(len(lefts), len(rights)))
        found = [c.points for c in pair.columns if c.is_complete]
        assert sum(found) - 2 * ALONE * len(found) == (best if pair.is_complete else 0)


@calm
@given(products(), products())
def test_no_way_to_pair_the_paths_has_more_points(a: Data, b: Data) -> None:
    left, right = record_from(a), record_from(b)
    points = Points.after(align(left, right))
    pairs = compared(a, b)
    for name in _kinds():
        kind = Kind(name, _ways(left, name, ()), _ways(right, name, ()), points, Notes())
        table = np.array([[kind.worth(x, y) for y in kind.rights] for x in kind.lefts])
        table = table.reshape(len(kind.lefts), len(kind.rights))
        at = linear_sum_assignment(table, maximize=True)
        assert sum(pair.points for pair in pairs if pair.kind == name) == table[at].sum()


@calm
@given(products(), products())
def test_only_in_is_never_said_of_what_may_have_been_overlooked(a: Data, b: Data) -> None:
    for pair in compared(a, b):
        for side, data in (("left", a), ("right", b)):
            path = getattr(pair, side)
            only = [c for c in pair.columns if c.finding is TOWARDS[side]]
            if data["coverage"]["paths"] != "whole":
                assert not only
            if path is not None and only:
                stated = data["paths"][path.id]
                assert stated["sure"] == "seen" or stated["sure"] == "measured"
                assert stated["through"]


def cut_back(whole: Data, data: st.DataObject) -> Data:
    """The record without some stages, paths and jobs, and its coverage marked for what is gone."""
    cut = {**whole, "coverage": dict(whole["coverage"]), "paths": {}}
    for name, path in whole["paths"].items():
        kept = [stage for stage in path.get("through", ()) if data.draw(st.integers(0, 3))]
        if data.draw(st.integers(0, 4)):
            cut["paths"][name] = {**path, "through": kept}
        if kept != path.get("through", []) or name not in cut["paths"]:
            cut["coverage"]["paths"] = "part"
    for section in ("parts", "shields", "enclosure"):
        cut[section] = {name: dict(facts) for name, facts in whole.get(section, {}).items()}
        for facts in cut[section].values():
            if data.draw(st.integers(0, 4)) == 0:
                del facts["function"]  # what it does is then not known, or what such things do as a rule
    return cut


@calm
@given(products("whole", sure="seen"), products("whole", sure="seen"), st.data())
def test_a_cut_record_never_contradicts_the_whole_one(whole: Data, other: Data, data: st.DataObject) -> None:
    """Stages, paths and jobs are cut, the coverage marked: what is then said leaves open what the whole record says."""
    cut = cut_back(whole, data)
    truth = record_from(whole)
    for pair in compared(cut, other):
        for column in pair.columns:
            if column.finding is Finding.ONLY_RIGHT and column.right.thing and pair.left:
                job = column.right.thing.function
                stages = whole["paths"][pair.left.id].get("through", ())
                there = [s for s in stages if s["what"] in truth.elements and truth.elements[s["what"]].function == job]
                here = [c for c in pair.columns if c.right and c.right.thing and c.right.thing.function == job]
                assert len(there) < len(here)
            if column.finding is Finding.ONLY_RIGHT and pair.left is None:
                kinds = [path["kind"] for path in whole["paths"].values()]
                assert kinds.count(pair.kind) == column.silent.further


@pytest.mark.parametrize("name", ["air-monitors", "bike-lights"])
def test_the_examples_turned_round_are_mirrored(name: str) -> None:
    pair = example_in(examples_folder() / name)
    left, right = (read_record(file)[0] for file in (pair.left, pair.right))
    assert left is not None
    assert right is not None
    there = compare_paths(left, right, align(left, right), Notes())
    back = compare_paths(right, left, align(right, left), Notes())
    assert said(there) == said(back, turned=True)
    assert {(p.left and p.left.id, p.right and p.right.id) for p in there} == {
        (p.right and p.right.id, p.left and p.left.id) for p in back
    }
