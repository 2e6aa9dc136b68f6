"""Modularity against networkx and igraph, and what the search promises."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import igraph
import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.structure.modules import HIGHEST, LOWEST, best_grouping, modularity, shares_within

if TYPE_CHECKING:
    import random

Links = list[dict[int, float]]


@st.composite
def links(draw: st.DrawFn, most: int = 9) -> Links:
    count = draw(st.integers(2, most))
    pairs = draw(st.lists(st.sampled_from(list(combinations(range(count), 2))), min_size=1, max_size=22, unique=True))
    found: Links = [{} for _ in range(count)]
    for a, b in pairs:
        found[a][b] = found[b][a] = draw(st.integers(1, 4))
    return found


def as_network(found: Links) -> nx.Graph:
    net = nx.Graph()
    net.add_nodes_from(range(len(found)))
    net.add_weighted_edges_from((a, b, weight) for a, near in enumerate(found) for b, weight in near.items() if a < b)
    return net


@settings(deadline=None, max_examples=200)
@given(links(), st.lists(st.integers(0, 3), min_size=9, max_size=9))
def test_modularity_equals_that_of_networkx(found: Links, groups: list[int]) -> None:
    groups = groups[: len(found)]
    communities = [{m for m, g in enumerate(groups) if g == group} for group in set(groups)]
    expected = nx.community.modularity(as_network(found), communities)
    assert modularity(found, groups) == pytest.approx(expected, abs=1e-12)
    assert LOWEST <= expected < HIGHEST


@settings(deadline=None, max_examples=150)
@given(links())
def test_what_is_found_is_no_better_than_the_exact_optimum_and_hardly_worse(found: Links) -> None:
    edges = [(a, b) for a, near in enumerate(found) for b in near if a < b]
    net = igraph.Graph(n=len(found), edges=edges)
    weights = [found[a][b] for a, b in edges]
    exact = net.modularity(net.community_optimal_modularity(weights=weights), weights=weights)
    value = modularity(found, best_grouping(found))
    assert value is not None
    # igraph's programme stops within a small gap of the optimum.
    assert value <= exact + 1e-4
    assert value >= exact - 0.03


@settings(deadline=None, max_examples=60)
@given(links(most=14), st.lists(st.integers(0, 3), min_size=14, max_size=14))
def test_a_start_is_never_lost(found: Links, start: list[int]) -> None:
    start = start[: len(found)]
    value, given_one = modularity(found, best_grouping(found, [start])), modularity(found, start)
    assert value is not None
    assert given_one is not None
    assert value >= max(given_one, 0.0) - 1e-12


@settings(deadline=None, max_examples=60)
@given(links(most=12), st.randoms(use_true_random=False))
def test_the_order_of_the_members_does_not_matter(found: Links, chance: random.Random) -> None:
    place = list(range(len(found)))
    chance.shuffle(place)
    mixed: Links = [{} for _ in found]
    for member, near in enumerate(found):
        others = list(near.items())
        chance.shuffle(others)
        mixed[place[member]] = {place[other]: weight for other, weight in others}
    one, other = modularity(found, best_grouping(found)), modularity(mixed, best_grouping(mixed))
    assert one == pytest.approx(other, abs=1e-9)


def test_no_links_have_no_modularity() -> None:
    assert modularity([{}, {}], [0, 1]) is None
    assert shares_within([{}, {}], [0, 1]) is None
    assert len(best_grouping([{}, {}])) == 2
    assert best_grouping([]) == []


def test_links_within_and_by_chance_are_told_apart() -> None:
    # Worked by hand: a path of three in the groups {0, 1} and {2}: one of two links within; degrees 3 and 1 of 4.
    assert shares_within([{1: 1}, {0: 1, 2: 1}, {1: 1}], [0, 0, 1]) == pytest.approx((1 / 2, 9 / 16 + 1 / 16))


def test_a_large_graph_is_grouped_as_well_as_by_networkx() -> None:
    net = nx.planted_partition_graph(30, 20, 0.5, 0.003, seed=5)
    found: Links = [dict.fromkeys(net[member], 1.0) for member in net]
    value = modularity(found, best_grouping(found))
    other = nx.community.modularity(net, nx.community.louvain_communities(net, seed=1))
    assert value == pytest.approx(other, abs=0.01)
