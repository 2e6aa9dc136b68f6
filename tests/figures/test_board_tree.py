"""How boards hang together, against networkx on made-up graphs and by hand on small records."""

from __future__ import annotations

from typing import TYPE_CHECKING

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures.facts.board_graph import distances, single_points

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

BOARDS = "abcdefg"
PLAIN = st.lists(st.frozensets(st.sampled_from(BOARDS), min_size=2, max_size=2), max_size=12)
ANY_ENDS = st.lists(st.frozensets(st.sampled_from(BOARDS), min_size=2, max_size=4), max_size=10)


@settings(deadline=None)
@given(PLAIN)
def test_links_and_boards_that_part_others_are_bridges_and_articulation_points_of_networkx(
    links: list[frozenset[str]],
) -> None:
    graph = nx.MultiGraph([tuple(sorted(ends)) for ends in links])
    boards, places = single_points(links)
    assert boards == set(nx.articulation_points(nx.Graph(graph)))
    assert {tuple(sorted(links[place])) for place in places} == {tuple(sorted(ends)) for ends in nx.bridges(graph)}
    assert len(places) == len(list(nx.bridges(graph)))


@settings(deadline=None)
@given(ANY_ENDS)
def test_links_of_several_ends_part_boards_as_networkx_parts_boards_and_links_together(
    links: list[frozenset[str]],
) -> None:
    both = nx.Graph([(board, place) for place, ends in enumerate(links) for board in ends])
    boards, places = single_points(links)
    assert boards | places == set(nx.articulation_points(both))


@settings(deadline=None)
@given(ANY_ENDS, st.sampled_from(BOARDS))
def test_distances_are_the_shortest_paths_of_networkx(links: list[frozenset[str]], start: str) -> None:
    both = nx.Graph([(board, place) for place, ends in enumerate(links) for board in ends])
    both.add_node(start)
    expected = nx.single_source_shortest_path_length(both, start)
    assert distances(start, links) == {node: far // 2 for node, far in expected.items() if isinstance(node, str)}


WHOLE = "coverage: {boards: whole, interconnects: whole, parts: whole}\n"
BUILD = """boards: {main: {outline: 50 x 50 mm}, front: {outline: 9 x 9 mm}, side: {outline: 8 x 8 mm}, far: {outline: 7 x 7 mm}}
enclosure: {shell: {}}
parts: {U1: {on: main, function: host processing}}
sensors: {eye: {on: far, function: ambient light sensing}}
actuators: {driver: {in: shell, function: sound output}}
interconnects:
  flex: {between: [main, front]}
  tail: {between: [main, side], count: 2}
  lead: {between: [side, eye]}
  wires: {between: [main, driver]}
"""
# main - front by one flex, main - side by two, side - far by one lead to a sensor there.


@pytest.mark.parametrize(
    ("figure", "value", "parts"),
    [
        ("parting-links", 2, {"flex": 1, "lead": 1}),
        ("parting-boards", 2, {"main": 1, "side": 1}),
        ("board-depth", 2, {"main": 0, "front": 1, "side": 1, "far": 2}),
    ],
)
def test_all_stated(
    figure: str, value: float, parts: dict[str, int], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(figure, record_of(WHOLE + BUILD))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (value, value)
    assert {name: part.best for name, part in measure.parts.items()} == parts
    assert measure.missing == ()


@pytest.mark.parametrize(("figure", "value"), [("parting-links", 0), ("parting-boards", 0), ("board-depth", 1)])
def test_a_ring_of_boards_has_no_single_point(figure: str, value: float, record_of: RecordOf, ends_of: EndsOf) -> None:
    ring = BUILD.replace("count: 2", "count: 1").replace("[main, front]", "[main, front, side, far]")
    ring = ring.replace("lead: {between: [side, eye]}", "lead: {between: [side, front, far, main]}")
    assert ends_of(figure, record_of(WHOLE + ring)) == (value, value)


@pytest.mark.parametrize(
    ("figure", "ends"), [("parting-links", (0, 3)), ("parting-boards", (0, 2)), ("board-depth", (1, 3))]
)
@pytest.mark.parametrize(
    ("change", "missing"),
    [
        (("on: far, function: ambient", "function: ambient"), "eye: on"),
        (("in: shell, function: sound", "function: sound"), "driver: on"),
        (("interconnects: whole", "interconnects: part"), "interconnects: looked at only in part"),
    ],
)
def test_what_may_join_boards_unseen_leaves_all_open_within_what_that_many_boards_allow(
    figure: str,
    ends: tuple[float, float],
    change: tuple[str, str],
    missing: str,
    record_of: RecordOf,
    measure_of: MeasureOf,
    ends_of: EndsOf,
) -> None:
    record = record_of((WHOLE + BUILD).replace(*change))
    assert ends_of(figure, record) == ends
    assert missing in measure_of(figure, record).missing


@pytest.mark.parametrize(
    ("figure", "ends"), [("parting-links", (0, 4)), ("parting-boards", (0, 3)), ("board-depth", (1, 4))]
)
def test_several_boards_in_one_entry_may_be_joined_in_any_way(
    figure: str, ends: tuple[float, float], record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + BUILD.replace("far: {outline", "far: {count: 2, outline"))
    assert ends_of(figure, record) == ends
    assert "far: an entry for each of these boards" in measure_of(figure, record).missing


@pytest.mark.parametrize(("figure", "value"), [("parting-links", 1), ("parting-boards", 0), ("board-depth", 1)])
def test_with_two_boards_there_is_little_to_ask(
    figure: str, value: float, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    two = "boards: {main: {}, front: {}}\nparts: {U1: {on: main, function: host processing}}\n"
    measure = measure_of(figure, record_of(f"{WHOLE}{two}interconnects: {{flex: {{between: [main, front]}}}}\n"))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (value, value)
    if figure != "parting-links":  # however many more links there are
        assert "interconnects: coverage" not in measure.used


@pytest.mark.parametrize("figure", ["parting-links", "parting-boards", "board-depth"])
def test_one_board_hangs_on_nothing_and_boards_not_looked_at_are_not_known(
    figure: str, record_of: RecordOf, ends_of: EndsOf
) -> None:
    assert ends_of(figure, record_of("coverage: {boards: whole}\nboards: {b: {}}\n")) == (0, 0)
    assert ends_of(figure, record_of("boards: {b: {}}\n")) is None


def test_a_board_that_no_link_is_known_to_reach_is_named(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("board-depth", record_of(WHOLE + BUILD.replace("  flex: {between: [main, front]}\n", "")))
    assert measure.how == "from main: main 0, side 1, far 2; no link is known to front"
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == (2, 2)


def test_depth_is_counted_from_each_board_that_may_be_the_main_board(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = BUILD.replace("main: {outline: 50 x 50 mm}", "main: {}")
    far = text.replace(
        "U1: {on: main, function: host processing}", "U1: {on: main}, U2: {on: far, function: host processing}"
    )
    assert ends_of("board-depth", record_of(WHOLE + far)) == (2, 3)  # 2 from main, 3 from far to front
    assert ends_of("board-depth", record_of(WHOLE.replace("boards: whole", "boards: part") + far)) is None
