"""Whatever bytes a file holds, reading and checking end with problems at places in the file, or with success."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from archdiff.record import read_record
from archdiff.rules import check_record

if TYPE_CHECKING:
    from pathlib import Path

    from archdiff.problems import Problem

SEED = """\
archdiff: 1
product: {name: Thing, kind: device, mass: 236 g, envelope: 96 x 96 x 38 mm, supply: [mains]}
coverage: {parts: {main: {top: whole, bottom: part}, elsewhere: none}, opening: whole}
evidence: {P1: {kind: photo, file: photos/a.png, shows: "a board, é ☃ 😀", of: [main]}}
boards:
  main: {outline: 62 x 48 mm, placements: {top: 3}, in: lower, cut_outs: [{size: 5 x 5 mm, at: [9 mm, 9 mm]}]}
  front: {outline: round 40 mm}
parts:
  U1: {on: main, side: top, at: [12 mm, 10..14 mm], size: 7 x 7 mm, function: MCU, also: [flash memory], power: 0.4 W}
  U2: {on: main, side: top, sits_in: U1, fed_by: v5, joined_to: [U1], package: 0402, turned: 90 deg, sure: seen}
interconnects: {flex: {between: [main, front], ways: 14, pitch: 0.5 mm, width: 7.5 mm, supply_ways: 2}}
shields: {can: {on: main, covers: [U1], means: soldered can}}
power:
  entry: {jack: {in: lower, means: coaxial dc plug, voltage: 5 V, current: 1 A, supplied_with: {current: 2 A}}}
  rails: {v5: {from: jack, voltage: 5 V, made_by: U2, feeds: [U1]}}
  in_use: about 1.5 W
enclosure: {lower: {}, upper: {mass: 44.8 ± 0.5 g}}
joints: {s1: {between: [upper, lower], drive: hexalobular 6, count: 4, hidden_under: front}}
paths: {heat: {kind: heat, from: U1, through: [{what: pad, thickness: 1 mm}], to: air}}
opening: [{do: unscrew, what: s1, count: 4}, {do: lift, what: upper, reveals: [main]}]
absent: [{function: program storage, as: separate part, embedded_in: U1}]
decisions: {d1: {choice: one board, about: [main], forces: [flex]}}
terms: {functions: {frobnication: {meaning: turns the frob, subsystem: compute}}}
"""
_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")  # what ends a line in YAML 1.1, which the parser reads
PIECES = [
    b"",
    b"\n",
    b" ",
    b"\t",
    b":",
    b": ",
    b"-",
    b"- ",
    b"{",
    b"}",
    b"[",
    b"]",
    b"'",
    b'"',
    b"#",
    b"&a ",
    b"*a",
    b"*a :",
]
PIECES += [
    b"!!x ",
    b"? ",
    b"| ",
    b"> ",
    b"---\n",
    b"...\n",
    b"%YAML 1.1\n",
    b"<<: ",
    b"\x00",
    b"\xff",
    b"\xef\xbb\xbf",
    b"\xc2\x85",
]
PIECES += [
    b"null",
    b"true",
    b"-1",
    b"1e999",
    b"999999999999999999999",
    b"at least -1e308 mm",
    b"nan",
    b"0 x 0 mm",
    b"\xe2\x80\xa8",
    b"elsewhere",
    b"main",
]

cut = st.tuples(st.integers(0, len(SEED.encode())), st.integers(0, 30), st.sampled_from(PIECES) | st.binary(max_size=4))


def mutated(cuts: list[tuple[int, int, bytes]]) -> bytes:
    raw = SEED.encode()
    for start, length, piece in cuts:
        raw = raw[:start] + piece + raw[start + length :]
    return raw


def all_problems(file: Path, raw: bytes) -> list[Problem]:
    file.write_bytes(raw)
    record, problems = read_record(file)
    return problems + (check_record(record) if record is not None else [])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("mutations")
    (folder / "photos").mkdir()
    (folder / "photos" / "a.png").write_bytes(b"x")
    return folder / "record.yaml"


def test_the_seed_can_be_read_and_checked(file: Path) -> None:
    file.write_bytes(SEED.encode())
    record, problems = read_record(file)
    assert record is not None
    assert not problems


@given(st.lists(cut, min_size=1, max_size=4))
@example([(0, 0, b"*a : 1\n")])
@example([(0, 5000, b"*a : 1\n")])
@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_change_of_bytes_makes_it_fail(file: Path, cuts: list[tuple[int, int, bytes]]) -> None:
    raw = mutated(cuts)
    for problem in all_problems(file, raw):
        lines = _BREAK.split(raw.decode("utf-8-sig", errors="replace"))
        assert 1 <= problem.line <= len(lines)
        assert problem.message
        # A place behind the last character is one too: there something is missing.
        assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1


@given(st.data())
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_values_in_foreign_places_do_no_harm(file: Path, data: st.DataObject) -> None:
    """Whole values swapped: the text stays YAML, so that the schema and the rules are reached."""
    spans = [match.span(1) for match in re.finditer(r": ([^,{}\[\]\n\"]+)", SEED)]
    spans += [match.span(0) for match in re.finditer(r"\[[^\[\]]*\]", SEED)]
    start, end = data.draw(st.sampled_from(spans))
    other = data.draw(st.sampled_from(spans))
    piece = data.draw(
        st.sampled_from([SEED[slice(*other)], "-5 mm", "0 W", "{}", "[]", "main", "U1", "at least 3 mm", "1e9 m", "~"])
    )
    for problem in all_problems(file, (SEED[:start] + piece + SEED[end:]).encode()):
        assert problem.line <= SEED.count("\n") + 1
        assert problem.hint or problem.rule == "not-yaml"
