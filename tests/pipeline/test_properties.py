"""Properties of a whole comparison, on the example records and on what is left of them after random cuts."""

from __future__ import annotations

import copy
import random
import re
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archdiff.alignment import Verdict
from archdiff.cli.examples import example_in, examples_folder
from archdiff.exports.as_json import as_data
from archdiff.pipeline import compare
from archdiff.record import read_document
from archdiff.record.build import build_record
from archdiff.record.plan import sections
from archdiff.record.text import Document

if TYPE_CHECKING:
    from archdiff.record import Record

NAMES = ("air-monitors", "bike-lights")
MIRRORED = {
    "only in left": "only in right",
    "separate part only in left": "separate part only in right",
    "left higher": "right higher",
}
MIRRORED |= {right: left for left, right in MIRRORED.items()}
FEW = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def data_of(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    pair = example_in(examples_folder() / name)
    return read_document(pair.left, "record").data, read_document(pair.right, "record").data


RAW = {name: data_of(name) for name in NAMES}


def record(data: dict[str, Any]) -> Record:
    built, problems = build_record(Document("record.yaml", copy.deepcopy(data)))
    assert not problems
    return built


def tables(data: dict[str, Any]) -> list[dict[str, Any]]:
    """Every map of the record that holds elements by id."""
    found = []
    for section in sections():
        table: Any = data
        for step in section.path:
            table = table.get(step, {})
        if table:
            found.append(table)
    return found


def renamed(value: Any, names: dict[str, str]) -> Any:
    """The same data with every id replaced, wherever it stands as a key or a value."""
    if isinstance(value, dict):
        kept = (
            "terms",
            "product",
            "function",
            "also",
            "means",
            "name",
            "material",
            "facing",
            "faces",
            "edge",
            "side",
            "kind",
        )  # no ids in there, but words that may read like one
        return {names.get(k, k): item if k in kept else renamed(item, names) for k, item in value.items()}
    if isinstance(value, list):
        return [renamed(item, names) for item in value]
    return names.get(value, value) if isinstance(value, str) else value


def shuffled(value: Any, chance: random.Random) -> Any:
    """The same data with every map of elements in another order."""
    if not isinstance(value, dict):
        return value
    keys = list(value)
    chance.shuffle(keys)
    return {key: shuffled(value[key], chance) for key in keys}


def gist(data: dict[str, Any]) -> list[tuple[Any, ...]]:
    """What a comparison says, without ids, names and order."""
    pairs = [
        (p["function"], p["verdict"], p["means"]["agreement"], p["place"]["agreement"], len(p["left_members"]),
         len(p["right_members"]), round(p["confidence"], 4), str(p["changes"]))
        for p in data["pairs"]
    ]  # fmt: skip
    figures = [(f["id"], f.get("outcome"), *_values(f)) for f in data["figures"]]
    return [*sorted(map(str, pairs)), *map(str, figures), str(data["partition"]["distance"])]


def _values(figure: dict[str, Any]) -> list[Any]:
    measures = [figure.get(side) for side in ("left", "right", "pair")]
    return [tuple(_rounded(m[end]) for end in ("value", "low", "high")) if m else None for m in measures]


def _rounded(value: float | None) -> float | None:
    return None if value is None else float(f"{value:.9g}")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("side", [0, 1])
def test_a_record_compared_with_itself_is_all_alike(name, side):
    one = RAW[name][side]
    result = compare(record(one), record(one))
    assert result.partition.distance == 0
    open_purpose = [p for p in result.pairs if p.verdict is Verdict.UNKNOWN]
    assert all(p.is_complete for p in result.pairs)
    assert all(p.function == "purpose not known" or not (p.left.means and p.left.hosts) for p in open_purpose)
    assert all(p.verdict in (Verdict.ALIKE, Verdict.UNKNOWN) for p in result.pairs)
    assert not [p.changes for p in result.pairs if p.changes]
    assert not [f for f in result.figures if f.outcome.value in ("left higher", "right higher")]


@pytest.mark.parametrize("name", NAMES)
def test_exchanging_the_sides_mirrors_everything(name):
    left, right = RAW[name]
    one = as_data(compare(record(left), record(right)))
    other = as_data(compare(record(right), record(left)))

    def key(pair: dict[str, Any], *, turned: bool) -> tuple[Any, ...]:
        a, b = ("right", "left") if turned else ("left", "right")
        verdict = MIRRORED.get(pair["verdict"], pair["verdict"]) if turned else pair["verdict"]
        changes = tuple((c["what"], c[a], c[b]) for c in pair["changes"])
        return (
            tuple(sorted(pair[f"{a}_members"])), tuple(sorted(pair[f"{b}_members"])), pair["function"], verdict,
            pair["means"]["agreement"], pair["place"]["agreement"], round(pair["score"], 5),
            round(pair["confidence"], 5), changes,
        )  # fmt: skip

    assert sorted(key(p, turned=False) for p in one["pairs"]) == sorted(key(p, turned=True) for p in other["pairs"])
    assert {(b["left"], b["right"]) for b in one["boards"]} == {(b["right"], b["left"]) for b in other["boards"]}
    assert one["partition"]["distance"] == other["partition"]["distance"]
    for figure, turned in zip(one["figures"], other["figures"], strict=True):
        assert figure["id"] == turned["id"]
        if "outcome" in figure:
            assert figure["outcome"] == MIRRORED.get(turned["outcome"], turned["outcome"])
            assert _values(figure)[:2] == _values(turned)[:2][::-1]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("seed", range(3))
def test_order_ids_and_product_names_change_nothing(name, seed):
    left, right = RAW[name]
    before = gist(as_data(compare(record(left), record(right))))
    chance = random.Random(seed)
    ids = [key for table in tables(left) for key in table]
    names = dict(zip(ids, (f"x{n}" for n in chance.sample(range(1000), len(ids))), strict=True))
    other = shuffled(renamed(left, names), chance)
    other["product"] = {**other["product"], "name": "Another name", "maker": "Another maker"}
    if repair := other["product"].get("repair"):
        other["product"]["repair"] = {**repair, "plays": renamed(repair["plays"], names)}
    after = gist(as_data(compare(record(other), record(right))))
    swap = {key: name for name, key in names.items()}
    assert sorted(re.sub(r"\bx\d+\b", lambda found: swap[found[0]], line) for line in after) == sorted(before)


@FEW
@given(name=st.sampled_from(NAMES), side=st.sampled_from([0, 1]), data=st.data())
def test_cutting_an_element_from_a_section_not_wholly_covered_never_yields_only_in(name, side, data):
    both = [copy.deepcopy(RAW[name][0]), copy.deepcopy(RAW[name][1])]
    whole = compare(record(both[0]), record(both[1]))
    section = data.draw(st.sampled_from([s for s in sections() if s.holds_seats and _table(both[side], s.path)]))
    table = _table(both[side], section.path)
    gone = data.draw(st.sampled_from(sorted(table)))
    del table[gone]
    both[side].setdefault("coverage", {})[section.covered_by] = "part"
    cut = compare(record(both[0]), record(both[1]))
    mine, others = ("left", "right") if side == 0 else ("right", "left")
    partners = {getattr(p, others).first.id for p in whole.pairs if p.is_complete and gone in getattr(p, mine).ids}
    lone = (Verdict.ONLY_RIGHT, Verdict.SEPARATE_RIGHT) if side == 0 else (Verdict.ONLY_LEFT, Verdict.SEPARATE_LEFT)
    for pair in cut.pairs:
        seat = getattr(pair, others)
        if seat is not None and pair.verdict in lone and seat.first.id in partners:
            # Only a stated absence may still speak: a cut element cannot have been stated absent.
            stated = {a.function for a in (cut.left, cut.right)[side].absences}
            assert pair.function in stated


def _table(data: dict[str, Any], path: tuple[str, ...]) -> dict[str, Any]:
    table: Any = data
    for step in path:
        table = table.get(step, {})
    return table or {}
