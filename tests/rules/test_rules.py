from __future__ import annotations

import importlib.util
import re
import sys
from pathlib import Path

import pytest

from archdiff.problems import Severity
from archdiff.record import read_record
from archdiff.rules import all_rules, check_record
from archdiff.rules.rule import rule

# Test folders are no packages: the reader of the case files is loaded by its place.
_spec = importlib.util.spec_from_file_location("case_files", Path(__file__).with_name("case_files.py"))
assert _spec is not None
assert _spec.loader is not None
case_files = importlib.util.module_from_spec(_spec)
sys.modules["case_files"] = case_files
_spec.loader.exec_module(case_files)

CASES = case_files.all_cases()
NAMES = [known.name for known in all_rules()]


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "photos").mkdir()
    for name in ("a.png", "a.PNG", "a.raw", "a.csv"):
        (tmp_path / "photos" / name).write_bytes(b"x")
    (tmp_path / "photos.png").write_bytes(b"x")
    return tmp_path


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_rule_tells_exactly_what_is_marked(case, folder):
    file = folder / "record.yaml"
    file.write_text(case.text, "utf-8")
    record, problems = read_record(file)
    assert record is not None, problems
    assert not problems
    found = [problem for problem in check_record(record) if problem.rule == case.rule]
    assert {(problem.line, problem.column) for problem in found} == case.places, found
    assert bool(found) == (case.kind == "breaks")
    assert len(found) == len(case.places), "told twice"


@pytest.mark.parametrize("name", NAMES)
def test_every_rule_has_a_case_that_breaks_it_and_one_that_is_fine(name):
    assert {case.kind for case in CASES if case.rule == name} == {"breaks", "fine"}


def test_every_case_file_is_of_a_rule():
    assert {case.rule for case in CASES} == set(NAMES)


def test_there_are_many_rules_in_a_fixed_order():
    places = [(known.order, known.name) for known in all_rules()]
    assert len(places) >= 30
    assert places == sorted(places)
    assert len({known.order for known in all_rules()}) == len(places), "two rules claim one place"


@pytest.mark.parametrize("known", all_rules(), ids=lambda known: known.name)
def test_a_rule_says_in_one_plain_sentence_what_it_finds(known):
    assert known.meaning.endswith(".")
    assert known.meaning[0].isupper()
    assert not re.search(r"[_`]", known.meaning.replace("sits_in", ""))


@pytest.mark.parametrize("name", ["", "Part", "part", "part_outside", "part-", "part-0402"])
def test_a_rule_needs_a_name_of_plain_words(name):
    with pytest.raises(ValueError, match="plain words"):
        rule(name, order=1)(lambda _record: iter(()))


def test_a_rule_needs_a_docstring():
    with pytest.raises(ValueError, match="docstring"):
        rule("good-name", order=1)(lambda _record: iter(()))


def problems_of(text, folder):
    file = folder / "record.yaml"
    file.write_text("archdiff: 1\nproduct: {name: Thing, kind: device}\n" + text, "utf-8")
    record, problems = read_record(file)
    assert record is not None, problems
    return check_record(record)


def test_a_problem_has_words_with_numbers_a_hint_and_its_severity(folder):
    text = (
        "boards: {main: {outline: 60 x 40 mm}}\nparts: {U1: {on: main, side: top, at: [58 mm, 20 mm], size: 7 x 7 mm}}"
    )
    (problem,) = problems_of(text, folder)
    assert problem.rule == "part-outside-board"
    assert problem.severity is Severity.FAULT
    # 58 mm + 7 mm / 2 - 60 mm
    assert "1.5 mm over the edge of main (60 x 40 mm)" in problem.message
    assert "side: edge" in problem.hint


def test_a_near_miss_names_what_was_probably_meant(folder):
    (problem,) = problems_of("boards: {main: {}}\nparts: {U1: {on: mian}}", folder)
    assert problem.hint == "did you mean 'main'?"
    (problem,) = problems_of("enclosure: {upper: {}}\nparts: {U1: {on: upper}}", folder)
    assert problem.hint == "write 'in: upper' instead of 'on: upper'"
    (problem,) = problems_of("boards: {main: {}}\nparts: {U1: {in: main}}", folder)
    assert problem.hint == "write 'on: main' instead of 'in: main'"
    (problem,) = problems_of("parts: {U1: {function: host procesing}}", folder)
    assert "did you mean 'host processing'" in problem.hint
    assert problem.severity is Severity.WARNING


def test_all_problems_come_at_once_sorted_by_place(folder):
    text = "parts:\n  U1: {on: nowhere, joined_to: [U1, ghost]}\nboards:\n  main: {area: -3 mm2}\n"
    found = problems_of(text, folder)
    assert [problem.rule for problem in found] == [
        "no-such-id",
        "joined-to-itself",
        "no-such-id",
        "quantity-below-zero",
    ]
    assert found == sorted(found)
