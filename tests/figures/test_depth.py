"""Depth: after how many steps boards, stores, keys and lamps are in hand.

Steps as (EU) 2023/1669, annex IV 5 defines them (read); the depths below are counted by hand.
"""

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

SECTIONS = ("opening", "boards", "power", "controls", "indicators")
WHOLE = f"coverage: {{{', '.join(f'{name}: whole' for name in SECTIONS)}}}\n"
BUILD = """boards: {main: {}, keys: {in: lid}}
enclosure: {lid: {}, base: {}}
power: {entry: {jack: {in: base}}, storage: {cell: {in: base}, coin: {on: main}}}
controls: {up: {on: keys}}
indicators: {lamp: {on: main}}
"""
OPENING = """opening:
  - {do: unplug, what: jack}
  - {do: unscrew, tool: hexalobular 6}
  - {do: lift, what: lid, frees: [lid, keys], reveals: [main, cell]}
  - {do: remove battery, what: cell, frees: [cell]}
  - {do: unscrew, tool: hexalobular 6}
  - {do: pry, tool: spudger}
  - {do: lift, what: main, frees: [main]}
  - {do: unclip, frees: [keys]}
"""
BOARDS, THINGS = "steps-to-boards", "steps-to-stores-and-controls"


def test_steps_to_each_board_by_hand(record_of: RecordOf, measure_of: MeasureOf) -> None:
    """1 unplugged, 2 lid and keys off, 3 cell out, 4 change of tool, 5 main off, 6 keys parted from the lid."""
    measure = measure_of(BOARDS, record_of(WHOLE + BUILD + OPENING))
    assert {name: (part.low, part.high) for name, part in measure.parts.items()} == {"main": (5, 5), "keys": (6, 6)}
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (6, 6)
    assert measure.missing == ()


def test_what_is_on_a_board_is_in_hand_with_it(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(THINGS, record_of(WHOLE + BUILD + OPENING))
    depths = {name: part.best for name, part in measure.parts.items()}
    assert depths == {"cell": 3, "coin": 5, "up": 6, "lamp": 5}
    assert "up: on" in measure.used
    assert measure.missing == ()


def test_a_board_no_step_takes_off_is_not_known_and_not_without_end(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(BOARDS, record_of(WHOLE + BUILD + OPENING.replace("frees: [main]", "reveals: [lamp]")))
    assert measure.bounds is not None
    assert (measure.bounds.best, measure.bounds.low, measure.bounds.high) == (None, 5, inf)
    assert (measure.parts["main"].low, measure.parts["main"].high) == (0, inf)
    assert measure.missing == ("main: the step in which it comes off",)
    assert "main not known" in measure.how


def test_opened_in_part_gives_lower_limits(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = WHOLE.replace("opening: whole", "opening: part") + BUILD + OPENING
    measure = measure_of(BOARDS, record_of(text))
    assert {name: (part.low, part.high) for name, part in measure.parts.items()} == {"main": (5, inf), "keys": (6, inf)}
    things = measure_of(THINGS, record_of(text))
    # The board may have given up its coin cell in a step that nobody wrote down.
    assert {name: part.low for name, part in things.parts.items()} == {"cell": 3, "coin": 0, "up": 0, "lamp": 0}
    assert "coin: the step in which it comes off" in things.missing


def test_a_thing_without_a_place_is_not_known(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(THINGS, record_of(WHOLE + BUILD.replace("up: {on: keys}", "up: {}") + OPENING))
    assert {"up: on", "up: the step in which it comes off"} <= set(measure.missing)
    assert measure.parts["up"].high == inf


@pytest.mark.parametrize("figure", [BOARDS, THINGS])
def test_never_opened_is_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = WHOLE.replace("opening: whole", "opening: none") + BUILD
    measure = measure_of(figure, record_of(text))
    assert measure.bounds is None
    assert "opening: not looked at" in measure.missing


@pytest.mark.parametrize("figure", [BOARDS, THINGS])
def test_nothing_of_the_kind_has_no_depth(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(WHOLE + "enclosure: {lid: {}}\nopening:\n  - {do: lift, frees: [lid]}\n"))
    assert measure.bounds is None
    assert measure.missing
