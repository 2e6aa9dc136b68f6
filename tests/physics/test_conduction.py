"""Slabs, sums of slabs and layered boards, against hand calculation, a published board and a general library.

Flags: R read in a copy of the source, C recomputed by hand, L recomputed with a general library.
"""

from __future__ import annotations

import math

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.physics.conduction import along_layers, side_by_side, slab, through_layers

SOME = st.floats(0.01, 1000)


def test_slabs_by_hand() -> None:
    assert slab(1e-3, 3, 15e-3 * 15e-3) == pytest.approx(1.4815, abs=5e-5)  # C: a pad under a 15 mm chip
    assert slab(0.5e-3, 0.026, 15e-3 * 15e-3) == pytest.approx(85.47, abs=5e-3)  # C: the same chip over still air


def test_a_plated_hole_is_a_slab_of_the_area_of_its_ring() -> None:
    # t / (k pi (d p - p²)), hole 0.3 mm, plating 25 um, board 1.6 mm, copper 398: 186.1 K/W, 25 holes 7.445 (R, C).
    ring = math.pi * (0.3e-3 * 25e-6 - 25e-6**2)
    one = slab(1.6e-3, 398, ring)
    assert one == pytest.approx(186.1, abs=0.05)
    assert side_by_side([one] * 25) == pytest.approx(7.445, abs=5e-4)


def test_side_by_side_by_hand() -> None:
    assert side_by_side([12, 20]) == pytest.approx(7.5)  # C


@pytest.mark.parametrize(("resistances", "together"), [([], math.inf), ([0, 5], 0), ([math.inf, 4], 4)])
def test_side_by_side_at_its_ends(resistances: list[float], together: float) -> None:
    assert side_by_side(resistances) == together


@pytest.mark.parametrize(
    ("thickness", "conductivity", "area", "resistance"),
    [(1, 0, 1, math.inf), (1, 1, 0, math.inf), (0, 0, 0, 0), (1, math.inf, 1, 0), (1, math.inf, 0, math.inf)],
)
def test_a_slab_at_its_ends(thickness: float, conductivity: float, area: float, resistance: float) -> None:
    assert slab(thickness, conductivity, area) == resistance


@given(st.lists(SOME, min_size=1, max_size=6))
def test_side_by_side_is_the_resistance_between_two_nodes_of_a_network(resistances: list[float]) -> None:
    """L: networkx, effective resistance between two nodes; a middle node keeps parallel edges apart."""
    graph = nx.Graph()
    for number, resistance in enumerate(resistances):
        graph.add_edge("source", number, weight=resistance / 2)
        graph.add_edge(number, "air", weight=resistance / 2)
    # The edges' weights are resistances.
    whole = nx.resistance_distance(graph, "source", "air", weight="weight", invert_weight=True)
    assert side_by_side(resistances) == pytest.approx(whole, rel=1e-6)


BOARD = 1.6  # mm, with four layers of 35 um copper (398) in a laminate of 0.343 through and 1.059 along


def test_a_board_of_four_layers() -> None:
    """Conductivities of laminate and copper as in Sarvar et al. 1990 and Graebner & Azar 1997 (R), sums by hand (C)."""
    copper = 4 * 0.035
    along = along_layers([(copper, 398), (BOARD - copper, 1.059)])
    through = through_layers([(copper, 398), (BOARD - copper, 0.343)])
    assert along == pytest.approx(35.79, abs=5e-3)
    assert through == pytest.approx(0.3759, abs=5e-5)
    # "About 100" is the ratio that Graebner & Azar 1997 give for such boards (R).
    assert 90 < along / through < 110


@given(st.lists(st.tuples(SOME, SOME), min_size=1, max_size=6))
def test_layers_conduct_at_least_as_well_along_as_through(layers: list[tuple[float, float]]) -> None:
    """Wiener 1912: the harmonic mean never exceeds the arithmetic one; both lie between the least and the greatest."""
    along, through = along_layers(layers), through_layers(layers)
    slack = 1 + 1e-9
    assert min(k for _, k in layers) <= through * slack
    assert through <= along * slack
    assert along <= max(k for _, k in layers) * slack
