"""Rows of two products in one order, what each side is said to have, and the marks between rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import align
from archdiff.notes import Notes
from archdiff.structure import Layer, matrix_of
from archdiff.structure.rows import BOARDS, Presence, Row, by_function, by_group, linked_counts, rows_of, ties

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

LEFT = """
coverage: {boards: whole, parts: whole, controls: whole, indicators: part}
boards: {main: {name: Main board}, front: {name: Key board}}
parts:
  U1: {on: main, function: host processing, means: microcontroller, joined_to: [U2, key1, key2]}
  U2: {on: main, function: program storage, means: serial flash}
  U3: {on: main, function: expansion, means: pin header, populated: false}
controls:
  key1: {on: front, function: volume adjustment, means: tactile switch}
  key2: {on: front, function: volume adjustment, means: tactile switch}
interconnects: {flex: {between: [main, front], means: flexible printed circuit}}
joints: {s1: {between: [main, front]}}
"""
RIGHT = """
coverage: {boards: whole, parts: whole, controls: whole, actuators: whole}
boards: {core: {name: Core board}}
parts:
  IC1: {on: core, function: host processing, also: [program storage], means: system on chip, joined_to: [dial, lamp]}
  X1: {on: core, function: purpose not known}
controls:
  dial: {on: core, function: volume adjustment, means: rotary encoder}
indicators:
  lamp: {on: core, function: status display, means: LED, count: 3}
"""


@pytest.fixture
def sides(record_of: RecordOf) -> tuple[Record, Record]:
    return record_of(LEFT), record_of(RIGHT)


@pytest.fixture
def rows(sides: tuple[Record, Record]) -> tuple[Row, ...]:
    return rows_of(align(*sides, Notes()), *sides)


def named(rows: tuple[Row, ...], label: str) -> Row:
    (row,) = [row for row in rows if row.label == label]
    return row


def test_pairs_share_a_row_and_boards_come_first(rows: tuple[Row, ...]) -> None:
    assert [row.label for row in rows] == [
        "Main board / Core board", "Key board", "host processing", "program storage", "volume adjustment",
        "status display", "purpose not known",
    ]  # fmt: skip
    assert rows[0].ids == (("main",), ("core",))
    assert rows[0].group == BOARDS
    assert named(rows, "volume adjustment").ids == (("key1", "key2"), ("dial",))
    assert named(rows, "status display").group == "user output"


def test_what_a_side_lacks_is_told_by_what_may_be_said_of_it(rows: tuple[Row, ...]) -> None:
    assert named(rows, "Key board").presence == (Presence.THERE, Presence.NONE)
    assert named(rows, "program storage").presence == (Presence.THERE, Presence.INSIDE)
    # Indicators of the left were looked at in part only; the one of the right that is not explained may be anything.
    assert named(rows, "status display").presence == (Presence.UNKNOWN, Presence.THERE)
    assert named(rows, "purpose not known").presence == (Presence.UNKNOWN, Presence.THERE)


def test_links_joints_and_empty_sites_have_no_row(rows: tuple[Row, ...]) -> None:
    shown = {name for row in rows for side in row.ids for name in side}
    assert shown == {"main", "front", "U1", "U2", "key1", "key2", "core", "IC1", "X1", "dial", "lamp"}


def test_exchanging_the_sides_exchanges_every_row(sides: tuple[Record, Record], rows: tuple[Row, ...]) -> None:
    turned = rows_of(align(sides[1], sides[0], Notes()), sides[1], sides[0])
    assert {(row.ids[::-1], row.presence[::-1]) for row in turned} == {(row.ids, row.presence) for row in rows}


def test_marks_between_rows_keep_layer_and_maker(sides: tuple[Record, Record], rows: tuple[Row, ...]) -> None:
    found = ties(matrix_of(sides[0]), rows, 0)
    place = {row.label: at for at, row in enumerate(rows)}
    boards = found[place["Main board / Core board"], place["Key board"]]
    assert boards.makers == {Layer.JOINED: ("flex",), Layer.FASTENED: ("s1",)}
    assert boards.pairs == 1
    keys = found[place["volume adjustment"], place["host processing"]]
    assert (keys.pairs, keys.makers) == (2, {Layer.JOINED: ()})
    assert (place["Key board"], place["volume adjustment"]) not in found  # a board does not sit on its keys


def test_entries_that_stand_for_several_count_as_such(sides: tuple[Record, Record], rows: tuple[Row, ...]) -> None:
    place = {row.label: at for at, row in enumerate(rows)}
    found = ties(matrix_of(sides[1]), rows, 1)
    assert found[place["status display"], place["host processing"]].pairs == 3
    counts = linked_counts(matrix_of(sides[1]), rows, 1)
    assert counts[place["host processing"], place["status display"]] == 3
    assert sum(counts.values()) == matrix_of(sides[1]).linked()


@pytest.mark.parametrize("fold", [by_function, by_group])
def test_folding_loses_no_thing_and_no_link(
    fold: Callable[[tuple[Row, ...]], tuple[Row, ...]], air_monitors: Comparison
) -> None:
    whole = rows_of(air_monitors.alignment, air_monitors.left, air_monitors.right)
    folded = fold(whole)
    assert len(folded) < len(whole)
    for side, record in ((0, air_monitors.left), (1, air_monitors.right)):
        matrix = matrix_of(record)
        names = [name for row in folded for name in row.ids[side]]
        assert sorted(names) == sorted(matrix.ids)
        assert sum(linked_counts(matrix, folded, side).values()) == matrix.linked()
    for row in folded:
        assert all(
            (presence is Presence.THERE) == bool(ids) for presence, ids in zip(row.presence, row.ids, strict=True)
        )


def test_folded_rows_are_not_known_before_they_are_none() -> None:
    def row(presence: Presence) -> Row:
        return Row("light guiding", "user output", (("x",), ()), (Presence.THERE, presence))

    for found, wanted in (
        ((Presence.NONE, Presence.UNKNOWN), Presence.UNKNOWN),
        ((Presence.NONE, Presence.INSIDE), Presence.INSIDE),
        ((Presence.NONE, Presence.NONE), Presence.NONE),
    ):
        (folded,) = by_function([row(presence) for presence in found])
        assert folded.presence[1] is wanted


def test_what_the_notes_leave_out_is_still_drawn(sides: tuple[Record, Record]) -> None:
    rows = rows_of(align(*sides, Notes(ignore_left=("U2",))), *sides)
    left_out = next(row for row in rows if row.ids[0] == ("U2",))
    assert left_out.presence == (Presence.THERE, Presence.UNKNOWN)
