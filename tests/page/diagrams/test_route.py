"""The router against networkx on the same grid, with the same penalties."""

from itertools import pairwise

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.page.diagrams.field import Field
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.route import BEND, CROSSING, Tip, find

TRACKS = [8.0 * n for n in range(9)]
SPOT = st.integers(0, 8).map(lambda n: 8.0 * n)


def _cost(points: list[tuple[float, float]], first: int, last: int) -> float:
    axes = [0 if ya == yb else 1 for (_, ya), (_, yb) in pairwise(points)]
    turns = [first, *axes, last]
    length = sum(abs(xa - xb) + abs(ya - yb) for (xa, ya), (xb, yb) in pairwise(points))
    return length + BEND * sum(a != b for a, b in pairwise(turns))


def _theirs(boxes: list[Rect], start: Tip, goal: Tip) -> float | None:
    """The cheapest cost by networkx' Dijkstra on the grid of (x, y, axis) states."""
    graph = nx.Graph()
    for x in TRACKS:
        for y in TRACKS:
            graph.add_edge((x, y, 0), (x, y, 1), weight=BEND)
            for axis, (nx_, ny) in enumerate(((x + 8, y), (x, y + 8))):
                if nx_ > TRACKS[-1] or ny > TRACKS[-1]:
                    continue
                inside = any(
                    b.y0 < y < b.y1 and b.x0 < nx_ and x < b.x1
                    if axis == 0
                    else b.x0 < x < b.x1 and b.y0 < ny and y < b.y1
                    for b in boxes
                )
                if not inside:
                    graph.add_edge((x, y, axis), (nx_, ny, axis), weight=8.0)
    ends = (start.x, start.y, start.axis), (goal.x, goal.y, goal.axis)
    return nx.dijkstra_path_length(graph, *ends) if nx.has_path(graph, *ends) else None


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(SPOT, SPOT, SPOT, SPOT), max_size=4), SPOT, SPOT, st.integers(0, 1), SPOT, SPOT)
def test_no_way_is_cheaper_than_the_one_found(corners, sx, sy, axis, gx, gy) -> None:
    boxes = [Rect(min(a, c), min(b, d), max(a, c), max(b, d)).grown(3.0) for a, b, c, d in corners]
    start, goal = Tip(sx, sy, axis), Tip(gx, gy, 1)
    points = find(Field(boxes), (TRACKS, TRACKS), (start, goal), "me")
    theirs = _theirs(boxes, start, goal)
    if points is None:
        assert theirs is None
    else:
        assert points[0] == (sx, sy)
        assert points[-1] == (gx, gy)
        assert theirs is not None
        assert abs(_cost(points, axis, 1) - theirs) < 1e-6


def test_another_wire_is_crossed_but_never_run_along() -> None:
    field = Field([])
    field.add([(0.0, 32.0), (64.0, 32.0)], "other")
    points = find(field, (TRACKS, TRACKS), (Tip(32.0, 0.0, 1), Tip(32.0, 64.0, 1)), "me")
    assert points == [(32.0, 0.0), (32.0, 64.0)]
    assert field.crossings(1, 32.0, 0.0, 64.0, "me") == 1
    assert field.shared(0, 32.0, 0.0, 64.0, "me") is None
    assert field.shared(0, 32.0, 0.0, 64.0, "other") == 64.0


def test_a_detour_shorter_than_a_crossing_is_taken() -> None:
    field = Field([])
    field.add([(24.0, 32.0), (40.0, 32.0)], "other")
    straight = find(field, (TRACKS, TRACKS), (Tip(32.0, 0.0, 1), Tip(32.0, 64.0, 1)), "me")
    assert straight is not None
    assert len(straight) == 2, f"a crossing costs {CROSSING} px, four bends cost {4 * BEND}"
