from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

SECTIONS = "boards, parts, interconnects, controls, indicators, sensors, actuators, antennas, shields, power, enclosure"
WHOLE = "coverage: {" + ", ".join(f"{name}: whole" for name in SECTIONS.split(", ")) + "}\n"
BUILD = """boards: {main: {placements: {top: 40, bottom: 2}}}
parts:
  U1: {on: main, function: host processing, means: microcontroller}
  U2: {on: main, function: program storage, means: serial flash}
  U3: {on: main, function: expansion, means: microcontroller, populated: false}
  R1: {on: main, function: signal biasing, means: resistor, count: 4}
actuators: {driver: {in: shell, function: sound output, means: moving-coil loudspeaker}}
power: {entry: {jack: {in: shell, means: coaxial dc plug}}}
interconnects:
  lead: {between: [main, driver], means: wire harness}
  stack: {between: [main, jack], means: board-to-board connector}
enclosure: {shell: {}, lid: {}}
"""


def test_parts_listed_are_told_by_subsystem_and_empty_sites_do_not_count(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("parts-listed", record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (8, 8)
    assert {key: part.best for key, part in measure.parts.items()} == {
        "compute": 5,
        "audio": 1,
        "memory": 1,
        "power": 1,
    }
    assert measure.how == "U1 + U2 + R1 x 4 + driver + jack = 8"


def test_a_part_of_unknown_purpose_may_belong_to_any_subsystem(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("parts-listed", record_of(WHOLE + BUILD.replace("function: program storage, ", "")))
    assert measure.bounds is not None
    assert measure.bounds.is_exact
    assert measure.missing == ("U2: function",)
    limits = {key: (part.low, part.high) for key, part in measure.parts.items()}
    assert limits == {"compute": (5, 6), "audio": (1, 2), "power": (1, 2), "not stated": (1, 1)}


def test_one_section_looked_at_in_part_leaves_the_count_open(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("parts-listed", record_of(WHOLE.replace("antennas: whole", "antennas: part") + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.best, measure.bounds.low, measure.bounds.high) == (None, 8, inf)
    assert measure.missing == ("antennas: looked at only in part",)
    assert all(part.high == inf for part in measure.parts.values())


def test_coverage_by_host_and_side_names_the_very_side(record_of: RecordOf, measure_of: MeasureOf) -> None:
    sides = "parts: {main: {top: whole, bottom: none}, elsewhere: part}"
    measure = measure_of("parts-listed", record_of(WHOLE.replace("parts: whole", sides) + BUILD))
    assert measure.missing == (
        "parts on the underside of main: not looked at",
        "parts elsewhere: looked at only in part",
    )


def test_places_left_out_of_a_coverage_by_host_are_named_too(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("parts-listed", record_of(WHOLE.replace("parts: whole", "parts: {main: whole}") + BUILD))
    assert measure.bounds is not None
    assert measure.bounds.high == inf
    assert measure.missing == ("parts elsewhere: not looked at",)


def test_nothing_looked_at_says_nothing_at_all(record_of: RecordOf, measure_of: MeasureOf) -> None:
    for figure in ("parts-listed", "parts-in-all"):
        measure = measure_of(figure, record_of(""))
        assert measure.bounds is None
        assert {"parts: not looked at", "controls: not looked at"} <= set(measure.missing)


def test_parts_in_all_adds_boards_placed_parts_cables_pieces_and_what_lies_off_the_boards(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("parts-in-all", record_of(WHOLE + BUILD))
    assert {key: part.best for key, part in measure.parts.items()} == {
        "boards": 1,
        "placed on boards": 42,
        "off the boards": 2,
        "cables": 1,
        "enclosure": 2,
    }
    assert measure.bounds is not None
    assert measure.bounds.best == 48


@pytest.mark.parametrize(
    ("hidden", "ends", "missing"),
    [
        ("in: shell, function: sound output", (47, 48), "driver: on"),
        ("means: wire harness", (47, 48), "lead: means"),
        (", bottom: 2", (46, inf), "main: placements bottom"),
    ],
)
def test_a_lacking_fact_widens_parts_in_all_and_is_named(
    hidden: str, ends: tuple[float, float], missing: str, record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    kept = "function: sound output" if "function" in hidden else ""
    record = record_of(WHOLE + BUILD.replace(hidden, kept))
    assert ends_of("parts-in-all", record) == ends
    assert missing in measure_of("parts-in-all", record).missing
