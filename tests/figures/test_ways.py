"""What the conductors of the links carry for the supply."""

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

FIGURES = ("way-current", "way-load", "way-drop")
FLEX = (
    "means: flexible printed circuit, current: 0.4 A, supply_ways: 2, length: 50 mm, conductor_width: 0.25 mm, "
    "conductor_thickness: 18 um"
)
LEAD = "means: wire harness, current: 0.5 A, supply_ways: 1"
SIGNALS = "means: coaxial lead, supply_ways: 0"


def links(*facts: str, coverage: str = "whole") -> str:
    listed = ", ".join(f"l{place}: {{between: [a, b], {one}}}" for place, one in enumerate(facts, start=1))
    return f"coverage: {{interconnects: {coverage}}}\nboards: {{a: {{}}, b: {{}}}}\ninterconnects: {{{listed}}}\n"


def test_by_hand(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(links(FLEX, LEAD, SIGNALS))
    current, load, drop = (measure_of(name, record) for name in FIGURES)
    assert current.bounds is not None
    assert current.bounds.best == 0.5  # 0.5 A in the one way of the harness, 0.2 A in each of the flex
    assert {name: part.best for name, part in current.parts.items()} == {"l1": 0.2, "l2": 0.5, "l3": 0}
    # Section 0.0045 mm2 = 6.975 square mils: 0.048 x 10^0.44 x 6.975^0.725 = 0.5405 A, so 0.37 of it (C).
    assert load.bounds is not None
    assert load.bounds.best == pytest.approx(0.2 / 0.5405, abs=2e-4)
    # 1.724e-8 x 0.05 / 4.5e-9 = 0.19156 ohm, at 0.2 A 38.31 mV (C).
    assert drop.bounds is not None
    assert drop.bounds.best == pytest.approx(0.03831, abs=5e-6)
    assert list(load.parts) == list(drop.parts) == ["l1"]
    assert any("roughly" in statement for statement in load.assumed)


def test_several_alike_share_the_current_of_the_entry(record_of: RecordOf, ends_of: EndsOf) -> None:
    assert ends_of("way-current", record_of(links(f"{LEAD}, count: 2"))) == (0.25, 0.5)


def test_one_of_several_ways_carries_the_even_share_at_least_and_all_at_most(
    record_of: RecordOf, measure_of: MeasureOf
) -> None:
    """Two ways of 5 V and 3.3 V with 0.14 A in all: where 5 V takes all, 0.14 A go through one (C)."""
    bounds = measure_of("way-current", record_of(links("means: wire harness, current: 0.14 A, supply_ways: 2"))).bounds
    assert bounds is not None
    assert (bounds.low, bounds.best, bounds.high) == (0.07, 0.07, 0.14)


@pytest.mark.parametrize("figure", FIGURES)
def test_looked_at_in_part_gives_at_least(figure: str, record_of: RecordOf, ends_of: EndsOf) -> None:
    whole = ends_of(figure, record_of(links(FLEX)))
    assert whole is not None
    assert ends_of(figure, record_of(links(FLEX, coverage="part"))) == (whole[0], inf)


@pytest.mark.parametrize(
    ("figure", "fact"),
    [
        *((figure, "current: 0.4 A") for figure in FIGURES),
        *((figure, "supply_ways: 2") for figure in FIGURES),
        *((figure, "conductor_width: 0.25 mm") for figure in FIGURES[1:]),
        *((figure, "conductor_thickness: 18 um") for figure in FIGURES[1:]),
        ("way-drop", "length: 50 mm"),
    ],
)
def test_each_fact_that_is_needed_is_named(figure: str, fact: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of(links(f"{FLEX}, count: 1".replace(f"{fact}, ", ""))))
    assert measure.bounds is None
    assert f"l1: {fact.split(':', maxsplit=1)[0]}" in measure.missing


def test_a_size_without_an_upper_limit_leaves_it_open(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("way-load", record_of(links(FLEX.replace("0.25 mm", "at least 0.25 mm"))))
    assert measure.bounds is None
    assert "l1: conductor_width" in measure.missing


def test_a_link_of_unknown_means_may_be_flat_or_not(record_of: RecordOf, ends_of: EndsOf) -> None:
    flat = ends_of("way-load", record_of(links(FLEX)))
    unknown = ends_of("way-load", record_of(links(FLEX.replace("means: flexible printed circuit, ", ""))))
    assert flat is not None
    assert unknown == (0, flat[1])


@pytest.mark.parametrize(("figure", "facts"), [("way-current", ()), ("way-load", (LEAD,)), ("way-drop", (LEAD,))])
def test_without_such_a_link_there_is_no_number(
    figure: str, facts: tuple[str, ...], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(links(*facts)))
    assert measure.bounds is None
    assert measure.how in ("no link recorded", "no flat link recorded")
    assert (measure.moot, measure.missing) == (True, ())


@pytest.mark.parametrize(("figure", "facts"), [("way-current", ()), ("way-load", (LEAD,)), ("way-drop", (LEAD,))])
@pytest.mark.parametrize(
    ("coverage", "lacking"),
    [("part", "interconnects: looked at only in part"), ("{a: whole}", "interconnects elsewhere: not looked at")],
)
def test_such_a_link_may_be_where_nobody_looked(
    figure: str, facts: tuple[str, ...], coverage: str, lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(links(*facts, coverage=coverage)))
    assert (measure.bounds, measure.moot) == (None, False)
    assert lacking in measure.missing


@pytest.mark.parametrize("figure", ["way-load", "way-drop"])
@pytest.mark.parametrize(
    ("facts", "lacking"), [("ways: 4", "l1: means"), ("means: embedded in host", "l1: what it is, inside another")]
)
def test_a_link_of_which_nobody_knows_what_it_is_may_be_flat(
    figure: str, facts: str, lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(links(facts)))
    assert (measure.bounds, measure.moot) == (None, False)
    assert lacking in measure.missing


@pytest.mark.parametrize("figure", FIGURES)
def test_not_looked_at_is_not_known(figure: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of(figure, record_of("coverage: {interconnects: none}\n"))
    assert measure.bounds is None
    assert "interconnects: not looked at" in measure.missing
