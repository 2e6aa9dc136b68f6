"""Figures of structure: what is exact, what is bounded and what is not known, on records whose links are stated.

Values of the measures themselves are held against papers and libraries under tests/published and tests/structure; here
a published matrix is written as a record, and bounds are held against products of which everything is known.
"""

from __future__ import annotations

import math
from collections import Counter
from copy import deepcopy
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any

import networkx as nx
import numpy as np
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import all_figures
from archdiff.record import Document, Record
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.quantities import Bounds

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

SECTIONS = (
    *("boards", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas"),
    *("shields", "enclosure", "joints", "paths", "power", "links"),
)
FIGURES = {f.id: f.of_product for f in all_figures() if f.family == "structure" and f.of_product is not None}
OF_LINKS = [name for name in FIGURES if name != "things-listed"]
WHOLE = f"coverage: {{{', '.join(f'{name}: whole' for name in SECTIONS)}}}\n"
BUILD = """boards: {main: {placements: {top: 3, bottom: 0}}, front: {placements: {top: 4, bottom: 0}}}
parts:
  U1: {on: main, function: host processing, means: microcontroller, fed_by: v3, joined_to: [U2, key]}
  U2: {on: main, function: program storage, means: serial flash, fed_by: v3}
  U3: {on: main, function: voltage conversion, means: linear regulator, fed_by: jack}
controls: {key: {on: front, function: mode selection, means: tactile switch}}
indicators: {lamp: {on: front, function: status display, means: LED, count: 3, joined_to: [U1]}}
interconnects: {flex: {between: [main, front]}}
power: {entry: {jack: {on: main}}, rails: {v3: {from: jack, made_by: U3}}}
"""


def record_from(data: dict[str, Any]) -> Record:
    return build_record(Document("made", data))[0]


def ends(bounds: Bounds | None) -> tuple[float, float] | None:
    return None if bounds is None else (bounds.low, bounds.high)


# ---- worked by hand ------------------------------------------------------------------------------------------------


def test_all_is_exact_where_all_was_traced(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    # Worked by hand. 10 things: 2 boards, 3 chips, key, 3 lamps, jack. Pairs: 8 sit on a board (3 of them lamps), flex
    # joins 1, signals join 1 + 1 + 3, supply joins U1 and U2 to U3 and to the jack, U3 to the jack: 5. Sum 19.
    assert measure_of("things-listed", record).bounds.best == 10
    assert ends(measure_of("linked-pairs", record).bounds) == (19, 19)
    assert ends(measure_of("links-per-thing", record).bounds) == pytest.approx((1.9, 1.9))
    assert ends(measure_of("filled-share", record).bounds) == pytest.approx((19 / 45, 19 / 45))
    # Boards belong to no subsystem: compute with memory, user input, user output and power; memory with power.
    assert ends(measure_of("linked-subsystems", record).bounds) == (5, 5)
    # Core: U1, U2, key, 3 lamps. Each sees these six, U3 and the jack; U3 sees itself and the jack; the two boards
    # see each other: 6 x 8 + 2 + 1 + 4 = 55 of 100.
    assert ends(measure_of("propagation-cost", record).bounds) == pytest.approx((0.55, 0.55))
    core = measure_of("core-share", record)
    assert ends(core.bounds) == pytest.approx((0.6, 0.6))
    assert {role: part.best for role, part in core.parts.items()} == {"core": 6, "shared": 2, "periphery": 2}
    for name in FIGURES:
        assert measure_of(name, record).missing == (), name
        assert measure_of(name, record).bounds.is_exact, name


def test_the_cut_into_boards_by_networkx(record_of: RecordOf, measure_of: MeasureOf) -> None:
    record = record_of(WHOLE + BUILD)
    net = nx.Graph([("main", "front"), ("U1", "U2"), ("U1", "key"), *(("U1", f"lamp{n}") for n in range(3))])
    net.add_edges_from([("U1", "U3"), ("U2", "U3"), ("U1", "jack"), ("U2", "jack"), ("U3", "jack")])
    boards = [{"main", "U1", "U2", "U3", "jack"}, {"front", "key", "lamp0", "lamp1", "lamp2"}]
    expected = nx.community.modularity(net, boards)
    assert ends(measure_of("modularity-of-cut", record).bounds) == pytest.approx((expected, expected))
    found = measure_of("modularity-found", record).bounds
    assert found is not None
    assert found.best >= expected - 1e-9


def test_complexity_by_numpy(record_of: RecordOf, measure_of: MeasureOf) -> None:
    things = ["main", "front", "U1", "U2", "U3", "key", "l0", "l1", "l2", "jack"]
    on = [("U1", "main"), ("U2", "main"), ("U3", "main"), ("jack", "main"), ("key", "front")]
    pairs = [*on, ("main", "front"), ("U1", "U2"), ("U1", "key"), ("U1", "U3"), ("U2", "U3"), ("U1", "jack")]
    pairs += [("U2", "jack"), ("U3", "jack")] + [
        (lamp, other) for lamp in ("l0", "l1", "l2") for other in ("front", "U1")
    ]
    matrix = np.zeros((10, 10))
    for a, b in pairs:
        matrix[things.index(a), things.index(b)] = matrix[things.index(b), things.index(a)] = 1
    expected = 10 + matrix.sum() * np.linalg.svd(matrix, compute_uv=False).sum() / 10
    value = measure_of("structural-complexity", record_of(WHOLE + BUILD)).bounds
    assert ends(value) == pytest.approx((expected, expected))


# ---- a published matrix as a record --------------------------------------------------------------------------------

CLIMATE = yaml.safe_load(
    (Path(__file__).parents[1] / "published" / "data" / "climate_control.yaml").read_text("utf-8")
)  # fmt: skip


def climate() -> Record:
    """The climate control of Pimmler & Eppinger 1994, its types added up and clipped at 0, as joined things."""
    total: Counter[str] = Counter()
    for kind in ("spatial", "energy", "information", "material"):
        total.update(CLIMATE[kind])
    parts: dict[str, Any] = {key: {"name": name, "function": "expansion"} for key, name in CLIMATE["elements"].items()}
    for pair, value in total.items():
        if value > 0:
            parts[pair[0]].setdefault("joined_to", []).append(pair[1])
    return record_from(
        {
            "archdiff": 1,
            "product": {"name": "Climate control"},
            "coverage": dict.fromkeys(SECTIONS, "whole"),
            "parts": parts,
        }
    )


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("things-listed", 16),
        ("linked-pairs", 31),
        ("links-per-thing", 1.9375),  # Whitney 2004, from memory: each pair counted once
        ("filled-share", 0.258333),  # recomputed with networkx
        ("propagation-cost", 1.0),  # symmetric and connected: it says nothing
        ("core-share", 1.0),
        ("modularity-found", 0.315817),  # exact maximum by igraph, without weights
    ],
)
def test_figures_of_a_published_matrix(figure: str, value: float, ends_of: EndsOf) -> None:
    assert ends_of(figure, climate()) == pytest.approx((value, value), abs=1e-6)


# ---- what is not known ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", OF_LINKS)
def test_nothing_is_said_of_links_where_none_is_recorded(name: str, record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = (
        "coverage: {boards: whole, parts: whole, interconnects: whole}\nboards: {main: {}}\nparts: {U1: {on: main}}\n"
    )
    measure = measure_of(name, record_of(text))
    assert measure.bounds is None
    assert "links: what things are joined to and fed by" in measure.missing


def test_a_product_traced_and_found_without_links_has_none(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(WHOLE + "parts: {U1: {function: expansion}, U2: {function: expansion}}\n")
    assert ends_of("linked-pairs", record) == (0, 0)
    assert ends_of("propagation-cost", record) == (0.5, 0.5)
    assert ends_of("core-share", record) == (0, 0)
    assert ends_of("structural-complexity", record) == (2, 2)
    assert ends_of("modularity-of-cut", record) is None


@pytest.mark.parametrize(
    ("gap", "wanted"),
    [
        # All things are known, not all links: more links only raise these.
        ("links", {"linked-pairs": (19, math.inf), "filled-share": (19 / 45, 1), "propagation-cost": (0.55, 1)}),
        ("joints", {"links-per-thing": (1.9, math.inf), "core-share": (0.6, 1), "linked-subsystems": (5, 66)}),
        # Further things may be there: what is divided by their number may fall.
        ("parts", {"linked-pairs": (19, math.inf), "filled-share": (0, 1), "propagation-cost": (0, 1)}),
        ("sensors", {"links-per-thing": None, "core-share": (0, 1), "linked-subsystems": (5, 66)}),
    ],
)
def test_a_gap_opens_the_bounds_as_far_as_it_may(
    gap: str, wanted: dict[str, tuple[float, float] | None], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    record = record_of(WHOLE.replace(f"{gap}: whole", f"{gap}: part") + BUILD)
    for name, limits in wanted.items():
        measure = measure_of(name, record)
        assert ends(measure.bounds) == (None if limits is None else pytest.approx(limits)), name
        assert f"{gap}: looked at only in part" in measure.missing, name


def test_parts_that_are_placed_and_not_listed_leave_shares_open(record_of: RecordOf, measure_of: MeasureOf) -> None:
    more = BUILD.replace("top: 3", "top: 40")
    measure = measure_of("propagation-cost", record_of(WHOLE + more))
    assert ends(measure.bounds) == (0, 1)
    assert measure.missing == ("main: parts that are placed and not listed one by one",)
    assert ends(measure_of("linked-pairs", record_of(WHOLE + more)).bounds) == (19, math.inf)
    unsaid = measure_of("core-share", record_of(WHOLE + BUILD.replace("top: 3, ", "")))
    assert ends(unsaid.bounds) == (0, 1)
    assert "main: placements top" in unsaid.missing


def test_how_far_links_were_traced_has_to_be_said(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("propagation-cost", record_of(WHOLE.replace(", links: whole", "") + BUILD))
    assert "links: how far they were traced" in measure.missing
    assert ends(measure.bounds) == pytest.approx((0.55, 1))


def test_large_matrices_are_bounded_and_not_solved(measure_of: MeasureOf) -> None:
    parts = {f"U{n}": {"function": "expansion", "joined_to": [f"U{n + 1}"]} for n in range(1200)}
    parts["U1200"] = {"function": "expansion"}
    data = {"archdiff": 1, "product": {"name": "Tarvo"}, "coverage": dict.fromkeys(SECTIONS, "whole"), "parts": parts}
    record = record_from(data)
    found = measure_of("modularity-found", record)
    assert "more than 1000 entries" in found.how
    assert ends(found.bounds)[1] == 1
    complexity = measure_of("structural-complexity", record)
    assert "more than 600 entries" in complexity.how
    # A path of n things: E = 2 / sin(pi / (2 (n + 1))) - 2 for an even number, 2 cot - 2 for an odd one (any table of
    # graph spectra).
    n = len(parts)
    energy = 2 / math.tan(math.pi / (2 * (n + 1))) - 2
    assert complexity.bounds is not None
    assert complexity.bounds.low <= n + 2 * (n - 1) * energy / n <= complexity.bounds.high
    assert ends(measure_of("propagation-cost", record).bounds) == (1, 1)


def test_beyond_a_size_only_things_are_counted_and_the_reason_is_told(measure_of: MeasureOf) -> None:
    parts = {f"U{n}": {"function": "expansion", "joined_to": ["U0"]} for n in range(2001)}
    data = {"archdiff": 1, "product": {"name": "Tarvo"}, "coverage": dict.fromkeys(SECTIONS, "whole"), "parts": parts}
    record = record_from(data)
    assert ends(measure_of("things-listed", record).bounds) == (2001, 2001)
    for name in OF_LINKS:
        measure = measure_of(name, record)
        assert measure.bounds is None
        assert measure.how == "not computed for more than 2000 entries"


# ---- bounds against products of which everything is known ----------------------------------------------------------


@st.composite
def products(draw: st.DrawFn) -> dict[str, Any]:
    names = [f"U{n}" for n in range(draw(st.integers(2, 6)))]
    parts: dict[str, Any] = {}
    for name in names:
        others = [other for other in names if other != name]
        parts[name] = {
            "on": draw(st.sampled_from(["a", "b"])),
            "function": draw(
                st.sampled_from(["host processing", "program storage", "voltage conversion", "expansion"])
            ),
            "means": "resistor",
            "count": draw(st.integers(1, 3)),
            "joined_to": draw(st.lists(st.sampled_from(others), max_size=2, unique=True)),
        } | ({"fed_by": draw(st.sampled_from(["v", "jack"]))} if draw(st.booleans()) else {})
    placed = {board: sum(p["count"] for p in parts.values() if p["on"] == board) for board in "ab"}
    boards = {board: {"placements": {"top": count, "bottom": 0}} for board, count in placed.items()}
    rail = {"from": "jack"} | ({"made_by": names[0]} if draw(st.booleans()) else {})
    return {
        "archdiff": 1,
        "product": {"name": "Tarvo"},
        "coverage": dict.fromkeys(SECTIONS, "whole"),
        "boards": {"a": boards["a"] | {"in": "shell"}, "b": boards["b"]},
        "parts": parts,
        "interconnects": {f"w{n}": {"between": draw(st.sampled_from(list(combinations(["a", "b", *names], 2))))} for n in range(draw(st.integers(0, 2)))},
        "power": {"entry": {"jack": {"on": "a"}}, "rails": {"v": rail}},
        "enclosure": {"shell": {"function": "housing"}, "lid": {"function": "housing"}},
        "joints": {"s": {"between": ["shell", "lid"]}},
        "paths": {"p": {"kind": "heat", "from": names[0], "through": [{"what": names[-1]}, {"what": "shell"}]}},
    }  # fmt: skip


def hidings(data: dict[str, Any]) -> list[tuple[str, ...]]:
    found: list[tuple[str, ...]] = [("coverage", section) for section in SECTIONS]
    found += [
        ("entry", section, key) for section in ("parts", "interconnects", "joints", "paths") for key in data[section]
    ]
    found += [("links", "parts", key, fact) for key in data["parts"] for fact in ("joined_to", "fed_by", "on")]
    found += [("links", "boards", "a", "in"), ("placements", "a", "top"), ("placements", "b", "bottom")]
    found += [("means", key) for key in data["parts"]]
    return found + [("power", "v", fact) for fact in ("made_by", "from")]


def without(data: dict[str, Any], hidden: list[tuple[str, ...]]) -> Record:
    poorer = deepcopy(data)
    for kind, *rest in hidden:
        if kind == "coverage":
            poorer["coverage"][rest[0]] = "part"
        elif kind == "entry":
            poorer["coverage"][rest[0]] = "part"
            poorer[rest[0]].pop(rest[1], None)
        elif kind == "links":
            poorer["coverage"]["links"] = "part"
            poorer[rest[0]].get(rest[1], {}).pop(rest[2], None)
        elif kind == "placements":
            poorer["boards"][rest[0]]["placements"].pop(rest[1], None)
        elif kind == "means":
            poorer["parts"].get(rest[0], {}).pop("means", None)
        else:
            poorer["coverage"]["power"] = "part"
            poorer["power"]["rails"][rest[0]].pop(rest[1], None)
    return record_from(poorer)


def holds(outer: Measure, inner: Measure) -> bool:
    if outer.bounds is None or inner.bounds is None:
        return outer.bounds is None
    spare = 1e-9 * max(1.0, abs(inner.bounds.low))
    return outer.bounds.low <= inner.bounds.low + spare and inner.bounds.high <= outer.bounds.high + spare


@settings(deadline=None, max_examples=200)
@given(st.data())
def test_hiding_links_and_things_never_excludes_the_true_value(drawn: st.DataObject) -> None:
    data = drawn.draw(products())
    hidden = drawn.draw(st.lists(st.sampled_from(hidings(data)), max_size=6, unique=True))
    fewer = hidden[: drawn.draw(st.integers(0, len(hidden)))]
    whole, richer, poorer = (without(data, taken) for taken in ([], fewer, hidden))
    for name, compute in FIGURES.items():
        true, some, least = compute(whole), compute(richer), compute(poorer)
        assert true.bounds is None or true.bounds.is_exact, (name, true)
        if true.bounds is not None:
            assert holds(some, true), (name, fewer, true, some)
            assert holds(least, some), (name, hidden, some, least)
