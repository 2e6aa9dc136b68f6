"""From data to the model: quantities, terms, hosts, links."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.quantities import Bounds, Quantity, Size
from archdiff.record import Record, as_bounds, read_record
from archdiff.record.schema import load_schema
from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from pathlib import Path

TEXT = """\
archdiff: 1
product: {name: Thing, kind: device, mass: 236 ± 1 g, envelope: 96 x 96 x 38 mm, model: 3, supply: [battery]}
coverage: {parts: {main: whole, elsewhere: part}}
evidence: {P1: {kind: statement, shows: told}}
boards:
  main: {outline: 60 x 40 mm, in: lower}
  front: {}
parts:
  U1: {on: main, at: [12 mm, 10..14 mm], function: MCU, also: [flash memory, MCU], means: micro controller, package: 0402, evidence: [P1], sure: read}
  U2: {sits_in: U1, function: frobnication, name: 12, populated: false, count: 3, joined_to: [U1, ghost]}
  U3: {}
  U4: {in: lower}
  U5: {sits_in: U5}
interconnects:
  flex: {between: [main, front], ways: 14}
  lead: {between: [U1, U4]}
  odd: {between: [U3, ghost]}
power:
  in_use: 1.5 W
  entry: {jack: {on: front}}
  rails: {v5: {from: jack, feeds: [U1], made_by: U2}}
enclosure: {lower: {}}
joints: {s1: {between: [main, lower]}}
absent: [{function: tweeter, as: separate part, on: front, because: one cone, sure: seen, evidence: [P1]}]
opening: [{do: lift, what: lower, time: 4 s}]
"""


@pytest.fixture
def record(tmp_path: Path) -> Record:
    file = tmp_path / "record.yaml"
    file.write_text(TEXT, "utf-8")
    record, problems = read_record(file)
    assert record is not None
    assert not problems
    return record


def test_words_are_brought_to_the_vocabularys_own(record: Record) -> None:
    chip = record.elements["U1"]
    assert chip.functions == ("host processing", "program storage")
    assert chip.function == "host processing"
    assert chip.means == "microcontroller"
    assert record.subsystem(chip.function) == "compute"
    assert record.has_trait(chip, "placement")
    assert not record.has_trait(chip, "mains")
    assert record.absences[0].function == "treble output"


def test_unknown_words_stay_as_they_are(record: Record) -> None:
    assert record.elements["U2"].function == "frobnication"
    assert record.function_term("frobnication") is None
    assert record.subsystem("frobnication") == ""
    assert not record.has_trait(record.elements["U2"], "placement")


def test_a_section_may_give_a_function_to_what_names_none(record: Record) -> None:
    assert record.elements["U3"].functions == ("purpose not known",)
    assert record.elements["flex"].function == "board joining"
    assert record.elements["s1"].function == "fastening"
    assert record.elements["jack"].function == "power entry"
    assert record.elements["lower"].functions == ()


def test_quantities_and_sizes_are_read_and_text_stays_text(record: Record) -> None:
    mass, envelope = record.product["mass"], record.product["envelope"]
    assert isinstance(mass, Quantity)
    assert mass.bounds == Bounds(236.0, 235.0, 237.0)
    assert isinstance(envelope, Size)
    assert envelope.height == Bounds.exact(38.0)
    assert record.product["model"] == "3"
    assert record.elements["U1"].facts["package"] == "0402"
    assert record.elements["flex"].facts["ways"] == 14
    assert record.elements["U1"].at == (Bounds.exact(12.0), Bounds(12.0, 10.0, 14.0))
    assert record.elements["U3"].at is None
    assert as_bounds(record.power["in_use"]) == Bounds.exact(1.5)
    assert as_bounds(record.opening[0]["time"]) == Bounds.exact(4.0)


@pytest.mark.parametrize(
    ("name", "hosts"),
    [
        ("U1", ("main",)),
        ("U2", ("main",)),
        ("U3", ()),
        ("U4", ("lower",)),
        ("U5", ()),
        ("main", ("lower",)),
        ("front", ()),
        ("flex", ("main", "front")),
        ("lead", ("main", "lower")),
        ("odd", ()),
        ("s1", ("main", "lower")),
        ("jack", ("front",)),
    ],
)
def test_hosts_are_found_through_seats_and_ends(record: Record, name: str, hosts: tuple[str, ...]) -> None:
    assert record.elements[name].hosts == hosts


def test_what_is_said_of_an_element(record: Record) -> None:
    first, second, third = (record.elements[name] for name in ("U1", "U2", "U3"))
    assert [first.label, second.label, third.label] == ["host processing", "12", "purpose not known"]
    assert record.elements["front"].label == "front"
    assert [first.count, second.count] == [1, 3]
    assert [first.populated, second.populated, third.populated] == [True, False, True]
    assert [first.sure, second.sure] == ["read", ""]
    assert [first.evidence, second.evidence] == [("P1",), ()]


def test_links_lead_only_to_elements_that_there_are(record: Record) -> None:
    assert list(record.links(record.elements["U2"])) == [("joined_to", "U1"), ("sits_in", "U1")]
    assert list(record.links(record.elements["v5"])) == [("feeds", "U1"), ("made_by", "U2"), ("from", "jack")]
    assert list(record.links(record.elements["flex"])) == [("between", "main"), ("between", "front")]


def test_sections_and_hosts(record: Record) -> None:
    assert [element.id for element in record.boards] == ["main", "front"]
    assert list(record.hosts) == ["main", "front", "lower"]
    assert [element.id for element in record.section("power.rails")] == ["v5"]
    assert record.section("sensors") == ()
    assert (record.name, len(record.questions), dict(record.decisions)) == ("Thing", 0, {})


def test_an_absence_keeps_all_that_is_said_of_it(record: Record) -> None:
    (absence,) = record.absences
    assert absence.separate
    assert (absence.on, absence.because, absence.sure, absence.evidence) == ("front", "one cone", "seen", ("P1",))
    spot = record.document.spot((*absence.path, "function"))
    assert TEXT.splitlines()[spot.line - 1][spot.column - 1 :].startswith("tweeter")


def test_every_element_knows_its_place_in_the_file(record: Record) -> None:
    lines = TEXT.splitlines()
    for element in record.elements.values():
        spot = record.document.spot(element.path, key=True)
        assert lines[spot.line - 1][spot.column - 1 :].startswith(element.id + ":")


@pytest.mark.parametrize(("kind", "table"), [("function", "functions"), ("means", "means")])
def test_the_words_that_the_schema_offers_are_those_of_the_vocabulary(kind: str, table: str) -> None:
    offered = next(branch["enum"] for branch in load_schema("record")["definitions"][kind]["anyOf"] if "enum" in branch)
    assert set(offered) == set(getattr(load_vocabulary(), table))
