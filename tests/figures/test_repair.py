"""The repairability index where its inputs are lacking: bounds from 1 to 5 points each, and what is lacking named."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import all_figures
from archdiff.record import Document
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

INDEX = next(figure.of_product for figure in all_figures() if figure.id == "repairability-index")
# Two parts: the back, held by screws, comes off with a driver in step 1, the battery, glued, with hot air in step 2.
REPAIR: dict[str, Any] = {
    "plays": {
        "battery": ["cell"], "back_cover": ["back"], "display": [], "front_camera": [], "rear_camera": [],
        "charging_port": [], "buttons": [], "microphones": [], "speakers": [],
    },
    "fasteners_supplied": ["glue"], "tools_with_spare_part": [], "tools_with_product": ["hot air"],
    "spare_parts_points": 3, "information_points": 5, "update_years": 6,
}  # fmt: skip
DATA: dict[str, Any] = {
    "archdiff": 1,
    "product": {"name": "Tarvo", "kind": "telephone", "repair": REPAIR},
    "coverage": {"opening": "whole", "joints": "whole"},
    "enclosure": {"back": {}, "frame": {}},
    "power": {"storage": {"cell": {"in": "frame"}}},
    "joints": {
        "screws": {"between": ["back", "frame"], "means": "machine screw", "count": 2},
        "glue": {"between": ["cell", "frame"], "means": "stretch-release tape"},
    },
    "opening": [
        {"do": "unscrew", "what": "screws", "tool": "hexalobular 6"},
        {"do": "lift", "what": "back", "frees": ["back"]},
        {"do": "unglue", "what": "glue", "tool": "hot air", "frees": ["cell"]},
    ],
}


def record_from(data: dict[str, Any]) -> Record:
    record, problems = build_record(Document("made", data))
    assert not problems
    return record


def index(data: dict[str, Any]) -> Measure:
    assert INDEX is not None
    return INDEX(record_from(data))


def changed(**facts: Any) -> dict[str, Any]:
    data = deepcopy(DATA)
    data["product"]["repair"] |= facts
    return data


def without(*names: str) -> dict[str, Any]:
    data = deepcopy(DATA)
    for name in names:
        data["product"]["repair"].pop(name)
    return data


def test_all_stated_by_hand() -> None:
    """Depth 1 and 2 steps -> 5 and 5, SDD 5. Fasteners: back 5, battery 3 (new tape comes with it), others 5: 4.4.

    Tools: back basic 4; battery basic and, with the product, hot air 2; others 5: .3 x 2 + .1 x 4 + .6 x 5 = 4.
    Index .25 x 5 + .15 x (4.4 + 4 + 3 + 3 + 5) = 1.25 + 2.91 = 4.16 (computed by hand).
    """
    measure = index(DATA)
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((4.16, 4.16))
    assert measure.said.startswith("class A on")
    assert measure.missing == ()


@pytest.mark.parametrize(
    ("data", "low", "high", "missing"),
    [
        # one score from 1 to 5 instead of 3: .15 x (-2 .. +2)
        (without("spare_parts_points"), 4.16 - 0.3, 4.16 + 0.3, "product: repair, spare parts"),
        (without("update_years"), 4.16 - 0.3, 4.16 + 0.3, "product: repair, software updates"),
        (without("information_points"), 4.16 - 0.6, 4.16, "product: repair, repair information"),
        # the tape scores 1 or 3: .15 x .3 x (-2 .. 0)
        (without("fasteners_supplied"), 4.16 - 0.09, 4.16, "product: repair, fasteners that come with the spare part"),
        # hot air scores 2 or 3
        (without("tools_with_spare_part"), 4.16, 4.16 + 0.045, "product: repair, tools that come with the spare part"),
        # hot air scores 1 or 2
        (without("tools_with_product"), 4.16 - 0.045, 4.16, "product: repair, tools that come with the product"),
    ],
)
def test_a_lacking_input_has_any_points_and_is_named(
    data: dict[str, Any], low: float, high: float, missing: str
) -> None:
    measure = index(data)
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((low, high))
    assert measure.missing == (missing,)


def test_a_part_nobody_names_has_any_points_in_all_three() -> None:
    data = deepcopy(DATA)
    del data["product"]["repair"]["plays"]["speakers"]
    measure = index(data)
    assert measure.bounds is not None
    # .05 x (.25 + .15 + .15) x (-4 .. 0)
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((4.16 - 0.11, 4.16))
    assert measure.missing == ("product: repair, which element is the speakers",)


def test_a_part_that_no_step_takes_off_is_not_known_and_not_the_worst() -> None:
    data = deepcopy(DATA)
    del data["opening"][2]["frees"]
    measure = index(data)
    assert measure.bounds is not None
    # battery depth 5, fasteners 3, tools 2 become anything: .3 x (.25 x (-4..0) + .15 x (-2..+2) + .15 x (-1..+3))
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx((4.16 - 0.435, 4.16 + 0.225))
    assert "cell: the step in which it comes off" in measure.missing


def test_opened_in_part_there_may_be_more_steps_tools_and_fasteners() -> None:
    data = deepcopy(DATA)
    data["coverage"]["opening"] = "part"
    measure = index(data)
    assert measure.bounds is not None
    assert measure.bounds.high == pytest.approx(4.16)
    # battery and back cover at 1 point each: .25 x 3.4 + .15 x (3.4 + 3.4 + 3 + 3 + 5)
    assert measure.bounds.low == pytest.approx(0.85 + 2.67)
    assert "opening: looked at only in part" in measure.missing


def test_of_several_the_lowest_counts() -> None:
    data = changed(plays={**REPAIR["plays"], "back_cover": ["back", "cell"]})
    both = changed(plays={**REPAIR["plays"], "back_cover": ["cell"]})
    assert index(data).bounds == index(both).bounds


@pytest.mark.parametrize("repair", ["", ", repair: {source: leaflet}", ", repair: {plays: {}}"])
def test_nothing_stated_says_nothing(repair: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(f"archdiff: 1\nproduct: {{name: T, kind: t{repair}}}\n")
    measure = measure_of("repairability-index", record)
    assert measure.bounds is None
    assert measure.missing


LEFT_OUT = st.sets(st.sampled_from([*(n for n in REPAIR if n != "plays"), *(f"plays {p}" for p in REPAIR["plays"])]))
COVERAGE = st.sampled_from(["", "opening", "joints", "screws", "glue"])


def poorer(left_out: set[str], less: str) -> dict[str, Any]:
    data = deepcopy(DATA)
    repair = data["product"]["repair"]
    for name in left_out:
        (repair["plays"] if name.startswith("plays ") else repair).pop(name.removeprefix("plays "))
    if less in data["coverage"]:
        data["coverage"][less] = "part"
    elif less:
        data["joints"][less].pop("means")
    return data


@settings(deadline=None, max_examples=120)
@given(LEFT_OUT, LEFT_OUT, COVERAGE)
def test_knowing_more_only_narrows_the_index(some: set[str], more: set[str], less: str) -> None:
    true, fewer, fewest = (index(poorer(out, word)) for out, word in ((set(), ""), (some, ""), (some | more, less)))
    for outer, inner in ((fewer, true), (fewest, fewer), (fewest, true)):
        if outer.bounds is not None and inner.bounds is not None:
            assert outer.bounds.low <= inner.bounds.low + 1e-9
            assert outer.bounds.high >= inner.bounds.high - 1e-9
        assert outer.bounds is None or inner.bounds is not None
