"""Visibility and its roles against networkx, on small random graphs whose entries may stand for several things."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.structure.visibility import Role, circles, visibility_of

Arrows = list[tuple[int, int]]


@st.composite
def graphs(draw: st.DrawFn) -> tuple[list[list[int]], list[int]]:
    count = draw(st.integers(1, 9))
    ends = st.integers(0, count - 1)
    arrows = draw(st.lists(st.tuples(ends, ends), max_size=20))
    found = [sorted({b for a, b in arrows if a == entry and b != entry}) for entry in range(count)]
    return found, draw(st.lists(st.integers(1, 4), min_size=count, max_size=count))


def one_by_one(graph: list[list[int]], counts: list[int]) -> nx.DiGraph:
    """The same with a node for every thing: all of one entry depend on all of another."""
    net = nx.DiGraph()
    net.add_nodes_from((entry, copy) for entry, count in enumerate(counts) for copy in range(count))
    for entry, targets in enumerate(graph):
        for target in targets:
            net.add_edges_from(
                ((entry, a), (target, b)) for a in range(counts[entry]) for b in range(counts[target])
            )  # fmt: skip
    return net


@settings(deadline=None, max_examples=200)
@given(graphs())
def test_fans_and_cost_equal_those_of_the_closure_by_networkx(drawn: tuple[list[list[int]], list[int]]) -> None:
    graph, counts = drawn
    seen = visibility_of(graph, counts)
    closure = nx.transitive_closure(one_by_one(graph, counts), reflexive=True)
    assert seen.total == closure.number_of_edges()
    assert seen.propagation_cost == pytest.approx(closure.number_of_edges() / sum(counts) ** 2)
    for entry in range(len(graph)):
        assert seen.fan_out[entry] == closure.out_degree((entry, 0))
        assert seen.fan_in[entry] == closure.in_degree((entry, 0))


@settings(deadline=None, max_examples=200)
@given(graphs())
def test_circles_are_the_strongly_connected_components(drawn: tuple[list[list[int]], list[int]]) -> None:
    graph, _ = drawn
    net = nx.DiGraph([(a, b) for a, targets in enumerate(graph) for b in targets])
    net.add_nodes_from(range(len(graph)))
    number = circles(graph)
    found = {frozenset(e for e, group in enumerate(number) if group == own) for own in number}
    assert found == {frozenset(component) for component in nx.strongly_connected_components(net)}
    assert all(number[a] >= number[b] for a, b in net.edges)


@settings(deadline=None, max_examples=200)
@given(graphs())
def test_roles_follow_from_who_reaches_the_core(drawn: tuple[list[list[int]], list[int]]) -> None:
    graph, counts = drawn
    seen = visibility_of(graph, counts)
    net = nx.DiGraph([(a, b) for a, targets in enumerate(graph) for b in targets])
    net.add_nodes_from(range(len(graph)))
    sizes = [sum(counts[e] for e in c) for c in nx.strongly_connected_components(net) if len(c) > 1]
    assert sum(counts[e] for e in seen.core) == max(sizes, default=0)
    for entry, role in enumerate(seen.roles()):
        assert (role is Role.CORE) == (entry in seen.core)
        if seen.core and entry not in seen.core:
            # Whatever reaches the core sees all that the core sees and itself; whatever it reaches is seen likewise.
            core = min(seen.core)
            if nx.has_path(net, entry, core):
                assert role in (Role.CONTROL, Role.SHARED)
            if nx.has_path(net, core, entry):
                assert role is Role.SHARED


@settings(deadline=None, max_examples=100)
@given(graphs(), st.integers(0, 8), st.integers(0, 8))
def test_a_further_dependence_never_lowers_the_cost_or_the_core(
    drawn: tuple[list[list[int]], list[int]], one: int, other: int
) -> None:
    graph, counts = drawn
    one, other = one % len(graph), other % len(graph)
    more = [sorted({*targets, other} - {one}) if e == one else targets for e, targets in enumerate(graph)]
    before, after = visibility_of(graph, counts), visibility_of(more, counts)
    assert after.total >= before.total
    assert sum(counts[e] for e in after.core) >= sum(counts[e] for e in before.core)


def test_without_a_circle_there_is_no_core() -> None:
    seen = visibility_of([[1], [2], []], [1, 1, 1])
    assert seen.core == frozenset()
    assert set(seen.roles()) == {Role.PERIPHERY}


def test_things_under_one_entry_see_each_other_only_round_a_circle() -> None:
    # Worked by hand: two lamps fed by one driver do not depend on each other; joined both ways they do.
    assert visibility_of([[1], []], [2, 1]).total == 2 * 2 + 1
    assert visibility_of([[1], [0]], [2, 1]).total == 9


def test_long_chains_need_no_recursion() -> None:
    count = 20_000
    seen = visibility_of([[n + 1] for n in range(count - 1)] + [[]], [1] * count)
    assert seen.total == count * (count + 1) // 2
