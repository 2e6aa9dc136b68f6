"""Two published repairability indices against sums done by hand and a published declaration sheet.

(EU) 2023/1669, annex IV 5: weights, points and classes read; the sums computed by hand. That fasteners are those of
the part itself, that a part not there scores 5 and that 7 years of updates score 5 was read second-hand.
French index, Code de l'environnement, R541-214: five criteria of 20, index = sum / 10 (read); the declaration sheet
gives 7.7 -> 15.4 and 7.8, 10, 10 -> 17.8 (read; the weights behind it computed by hand).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures
from archdiff.figures.facts.index_points import classes, points_of_depth, points_of_updates, rows, weighted
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

PARTS = {
    "battery": 6, "display": 4, "back_cover": 1, "front_camera": 9, "rear_camera": 9, "charging_port": 12,
    "buttons": 12, "microphones": 16, "speakers": 8,
}  # fmt: skip
HELD_BY_TAPE = ("battery", "display", "back_cover")


def telephone(steps: Mapping[str, int], repair: str, *, last_tool: str = "soldering iron") -> str:
    """A telephone whose parts come off after so many steps, each step one lift with a spudger, the last otherwise."""
    pieces = ", ".join(f"x{i}: {{}}" for i in range(1, 18))
    joints = ", ".join(f"tape_{p}: {{between: [{p}, frame], means: double-sided tape}}" for p in HELD_BY_TAPE)
    last = max(steps.values())
    actions = []
    for number in range(1, last + 1):
        off = [part for part, when in steps.items() if when == number] or [f"x{number}"]
        tape = next((f"tape_{part}" for part in off if part in HELD_BY_TAPE), "")
        tool = last_tool if number == last else "spudger"
        what = f"do: peel, what: {tape}" if tape else "do: lift"
        actions.append(f"  - {{{what}, tool: {tool}, frees: [{', '.join(off)}]}}")
    plays = ", ".join(f"{part}: [{part}]" for part in PARTS)
    return (
        "archdiff: 1\n"
        f"product: {{name: Tarvo, kind: telephone, repair: {{plays: {{{plays}}}, {repair}}}}}\n"
        "coverage: {opening: whole, joints: whole}\n"
        f"enclosure: {{back_cover: {{}}, frame: {{}}, {pieces}}}\n"
        "power: {storage: {battery: {}}, entry: {charging_port: {}}}\n"
        "indicators: {display: {}}\ncontrols: {buttons: {}}\nactuators: {speakers: {}}\n"
        "sensors: {front_camera: {}, rear_camera: {}, microphones: {}}\n"
        f"joints: {{{joints}}}\nopening:\n" + "\n".join(actions) + "\n"
    )


def measured(figure: str, record: Record) -> Measure:
    compute = next(known.of_product for known in all_figures() if known.id == figure)
    assert compute is not None
    return compute(record)


@pytest.mark.parametrize(
    ("steps", "points"),
    [(0, 5), (1, 5), (2, 5), (3, 4), (5, 4), (6, 3), (10, 3), (11, 2), (15, 2), (16, 1), (99, 1)],
)
def test_points_for_the_depth(steps: int, points: int) -> None:
    assert points_of_depth(Bounds.exact(steps)) == Bounds.exact(points)


def test_an_open_depth_has_every_lower_score() -> None:
    assert points_of_depth(Bounds.at_least(4)) == Bounds(None, 1, 4)


@pytest.mark.parametrize(("years", "points"), [(7, 5), (8, 5), (6.5, 3), (6, 3), (5, 1), (3, 1)])
def test_points_for_years_of_updates(years: float, points: int) -> None:
    assert points_of_updates(years) == points


def test_weights_add_up_to_one() -> None:
    for group in ("part", "parameter"):
        assert sum(row.number("weight") for row in rows(group).values()) == pytest.approx(1)


def test_the_sums_by_hand() -> None:
    """SDD 3.30, fasteners 3.60, tools 3.85; spare parts 3, updates 5, information 3 -> 3.5925 (computed by hand)."""
    depth = {part: points_of_depth(Bounds.exact(steps)) for part, steps in PARTS.items()}
    fasteners = {part: Bounds.exact(3 if part in HELD_BY_TAPE else 5) for part in PARTS}
    tools = {part: Bounds.exact(1 if part == "microphones" else 4) for part in PARTS}
    scores = [weighted("part", each).low for each in (depth, fasteners, tools)]
    assert scores == pytest.approx([3.30, 3.60, 3.85])
    given = dict(zip(rows("parameter"), map(Bounds.exact, [*scores, 3.0, 5.0, 3.0]), strict=True))
    assert weighted("parameter", given).low == pytest.approx(3.5925)


def test_the_same_index_comes_out_of_a_whole_record(record_of: RecordOf) -> None:
    repair = (
        "fasteners_supplied: [tape_battery, tape_display, tape_back_cover], tools_with_spare_part: [], "
        "tools_with_product: [], spare_parts_points: 3, update_years: 7, information_points: 3"
    )
    measure = measured("repairability-index", record_of(telephone(PARTS, repair)))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((3.5925, 3.5925))
    assert [score.low for score in measure.parts.values()] == pytest.approx([3.30, 3.60, 3.85, 3, 5, 3])
    assert measure.said == "class B on the scale for telephones and tablets"
    assert measure.missing == ()


def test_a_product_with_nothing_to_take_apart_has_the_best_index(record_of: RecordOf) -> None:
    plays = ", ".join(f"{part}: []" for part in PARTS)
    best = f"{{plays: {{{plays}}}, spare_parts_points: 5, update_years: 7, information_points: 5}}"
    record = record_of(
        f"archdiff: 1\nproduct: {{name: T, kind: t, repair: {best}}}\ncoverage: {{opening: whole, joints: whole}}\n"
    )
    measure = measured("repairability-index", record)
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((5, 5))
    assert measure.said.startswith("class A on")


def test_the_lowest_of_everything_is_one() -> None:
    low = dict.fromkeys(rows("part"), Bounds.exact(1))
    each = weighted("part", low)
    assert weighted("parameter", dict.fromkeys(rows("parameter"), each)).low == pytest.approx(1)
    assert classes(Bounds.exact(1.0)) == ("E",)


@pytest.mark.parametrize(
    ("index", "letter"),
    [(4.00, "A"), (3.99, "B"), (3.35, "B"), (3.34, "C"), (2.55, "C"), (2.54, "D"), (1.75, "D"), (1.74, "E")],
)
def test_limits_of_the_classes(index: float, letter: str) -> None:
    assert classes(Bounds.exact(index)) == (letter,)


def test_a_range_may_be_of_several_classes() -> None:
    assert classes(Bounds(None, 2.6, 3.4)) == ("B", "C")


SHEET = "documentation: 7.7, taking_apart: 7.8, tools: 10, fasteners: 10"


def test_the_published_declaration_sheet(record_of: RecordOf) -> None:
    """7.7 -> 15.4 of 20; 7.8, 10, 10 -> 17.8 of 20; with three full criteria (15.4 + 17.8 + 60) / 10 = 9.32 by hand."""
    full = f"repair: {{french_sheet: {{{SHEET}, supply: 20, prices: 20, particular: 20}}}}"
    measure = measured("french-index", record_of(f"archdiff: 1\nproduct: {{name: T, kind: t, {full}}}\n"))
    assert measure.parts["documentation"].low == pytest.approx(15.4)
    assert measure.parts["dismantling"].low == pytest.approx(17.8)
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((9.32, 9.32))


def test_marks_that_are_lacking_leave_the_french_index_open(record_of: RecordOf) -> None:
    text = f"archdiff: 1\nproduct: {{name: T, kind: t, repair: {{french_sheet: {{{SHEET}}}}}}}\n"
    measure = measured("french-index", record_of(text))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((3.32, 9.32))
    assert len(measure.missing) == 3
