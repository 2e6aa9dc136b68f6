"""Shape faults of records: each at its exact place, with what to do."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from archdiff.record import read_record

if TYPE_CHECKING:
    from pathlib import Path

    from archdiff.problems import Problem

HEAD = "archdiff: 1\nproduct: {name: Thing, kind: device}\n"  # two lines


Ask = Callable[[str], "list[Problem]"]


@pytest.fixture
def problems(tmp_path: Path) -> Ask:
    def of(text: str) -> list[Problem]:
        file = tmp_path / "record.yaml"
        file.write_text(text, "utf-8")
        return sorted(read_record(file)[1])

    return of


def places(found: list[Problem]) -> list[tuple[int, int, str]]:
    return [(problem.line, problem.column, problem.rule) for problem in found]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bords: {}\n", [(3, 1, "unknown-entry")]),
        ("boards: {main: {tickness: 1 mm}}\n", [(3, 17, "unknown-entry")]),
        ("parts:\n  U1:\n    zide: top\n    fnction: x\n", [(5, 5, "unknown-entry"), (6, 5, "unknown-entry")]),
        ("boards: {main: {layers: two}}\n", [(3, 25, "wrong-shape")]),
        ("boards: {main: {layers: 0}}\n", [(3, 25, "wrong-shape")]),
        ("boards: {main: {thickness: 1.6}}\n", [(3, 28, "wrong-shape")]),
        ("boards: [main]\n", [(3, 9, "wrong-shape")]),
        ("boards:\n  main:\n", [(4, 8, "wrong-shape")]),
        ("parts: {U1: {side: topp}}\n", [(3, 20, "not-one-of")]),
        ("parts: {U1: {sure: certain}}\n", [(3, 20, "not-one-of")]),
        ("parts: {U1: {populated: no}}\n", [(3, 25, "wrong-shape")]),
        ("parts: {U 1: {}}\n", [(3, 9, "bad-id")]),
        ("parts: {-x: {}}\n", [(3, 9, "bad-id")]),
        ("parts: {'': {}}\n", [(3, 9, "bad-id")]),
        ("interconnects: {flex: {ways: 4}}\n", [(3, 23, "missing-entry")]),
        ("interconnects: {flex: {between: [main]}}\n", [(3, 33, "wrong-shape")]),
        ("evidence: {P1: {}}\n", [(3, 16, "missing-entry"), (3, 16, "missing-entry")]),
        ("parts: {U1: {at: [1 mm, 2 mm, 3 mm]}}\n", [(3, 18, "wrong-shape")]),
        ("coverage: {parts: {main: {top: all}}}\n", [(3, 32, "not-one-of")]),
        ("opening: [{do: unscru}]\n", [(3, 16, "not-one-of")]),
    ],
)
def test_a_shape_fault_is_told_at_its_place(problems: Ask, text: str, expected: object) -> None:
    assert places(problems(HEAD + text)) == expected


def test_a_missing_entry_is_told_by_name_each_on_its_own(problems: Ask) -> None:
    found = problems(HEAD + "evidence: {P1: {}}\n")
    assert {problem.message for problem in found} == {"'kind' is missing here", "'shows' is missing here"}
    found = problems("archdiff: 1\nproduct: {}\n")
    assert {problem.message for problem in found} == {"'name' is missing here", "'kind' is missing here"}


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("bords: {}\n", "did you mean 'boards'?"),
        ("boards: {main: {tickness: 1 mm}}\n", "did you mean 'thickness'?"),
        ("parts: {U1: {side: topp}}\n", "did you mean 'top'?"),
        ("opening: [{do: unscru}]\n", "did you mean 'unscrew'?"),
        ("boards: {main: {thickness: 1.6}}\n", "mm"),
        ("parts: {U 1: {}}\n", "letters, digits"),
    ],
)
def test_a_hint_names_what_to_write(problems: Ask, text: str, hint: str) -> None:
    (problem,) = problems(HEAD + text)
    assert hint in problem.hint


def test_all_faults_come_at_once(problems: Ask) -> None:
    text = (
        "archdiff: 2\nproduct: {name: Thing, kind: device, mas: 1 g}\nbords: {}\nparts: {U1: {side: topp}}\nparts: {}\n"
    )
    assert {problem.rule for problem in problems(text)} == {"not-one-of", "unknown-entry", "repeated-key"}
    assert len(problems(text)) == 5


@pytest.mark.parametrize(
    ("entry", "column", "word"),
    [
        ("boards: {main: {thickness: 1.6 kg}}\n", 28, "length"),
        ("boards: {main: {thickness: thick}}\n", 28, "thick"),
        ("boards: {main: {outline: 60 mm}}\n", 26, "size"),
        ("boards: {main: {outline: 60 x 40 kg}}\n", 26, "length"),
        ("parts: {U1: {at: [1 mm, 2 s]}}\n", 25, "length"),
        ("parts: {U1: {power: 2..1 W}}\n", 21, "lower"),
        ("parts: {U1: {capacity: 16 deg}}\n", 24, "information"),
        ("paths: {p: {kind: heat, from: U1, through: [{what: pad, thickness: 1 W}]}}\n", 68, "length"),
    ],
)
def test_a_quantity_of_another_kind_is_told_at_its_value(problems: Ask, entry: str, column: int, word: str) -> None:
    (problem,) = problems(HEAD + entry)
    assert (problem.line, problem.column, problem.rule) == (3, column, "not-a-quantity")
    assert word in problem.message + problem.hint


def test_an_id_used_in_two_sections_is_told_at_the_second(problems: Ask) -> None:
    (problem,) = problems(HEAD + "boards: {main: {}}\nparts: {U1: {}, main: {}}\n")
    assert (problem.line, problem.column, problem.rule) == (4, 17, "id-used-twice")
    assert "boards" in problem.message
    (problem,) = problems(HEAD + "parts: {x: {}}\npower: {rails: {x: {}}}\n")
    assert (problem.line, problem.column, problem.rule) == (4, 17, "id-used-twice")


def test_a_term_that_the_vocabulary_has_already_is_told(problems: Ask) -> None:
    text = "terms: {functions: {MCU: {meaning: thinks, subsystem: compute}}}\n"
    (problem,) = problems(HEAD + text)
    assert (problem.line, problem.column, problem.rule) == (3, 21, "bad-term")
