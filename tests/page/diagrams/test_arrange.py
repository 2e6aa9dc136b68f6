"""The rows of boards: all arrangements for few boards, a climb for many."""

import itertools
import math
from dataclasses import replace

import pytest

from archdiff.page.diagrams.arrange import Judge, _climb, _every, arrange
from archdiff.page.diagrams.boards import columns_for
from archdiff.page.diagrams.bonds import bonds_of, weight
from archdiff.page.diagrams.drafting import draft
from archdiff.page.diagrams.scene import Block, BoardFace, Edge, EdgeItem, Face, Link, LinkFace, Scene, Slot

BOARD = BoardFace("Board", "40 x 30 mm")
FACE = Face("Host processing", "system on chip, 7 x 7 mm")


def _scene(sizes: list[int], pairs: list[tuple[int, int, int]]) -> Scene:
    blocks = tuple(
        Block(f"b{n}", BOARD, BOARD, tuple(Slot(f"s{n}.{m}", FACE, FACE) for m in range(size)))
        for n, size in enumerate(sizes)
    )
    links = []
    for n, (a, b, ways) in enumerate(pairs):
        label = LinkFace("wires", ways)
        links.append(Link(f"j{n}", (f"b{a}", f"b{b}"), label, label))
    return Scene("a", "b", blocks, (), tuple(links))


# The number of ways to put n things into ordered rows with an order inside each row is n! * 2^(n-1),
# sequence A002866 of the On-Line Encyclopedia of Integer Sequences: 1, 4, 24, 192, 1920; from memory, recomputed.
@pytest.mark.parametrize(("count", "ways"), [(1, 1), (2, 4), (3, 24), (4, 192), (5, 1920)])
def test_every_arrangement_is_tried_once(count: int, ways: int) -> None:
    found = list(_every(count))
    assert len(found) == len(set(found)) == ways == math.factorial(count) * 2 ** (count - 1)
    assert all(sorted(itertools.chain(*rows)) == list(range(count)) for rows in found)


def test_the_climb_never_ends_worse_than_it_began_and_seldom_far_from_the_best() -> None:
    scene = _scene([9, 4, 6, 2, 3], [(0, 4, 24), (1, 3, 10), (2, 4, 4), (0, 2, 40)])
    judge = Judge(draft(scene, 1.0).planner, bonds_of(scene))
    best = judge.cost(arrange(5, judge))
    climbed = judge.cost(_climb(5, judge))
    assert best <= climbed <= judge.cost(tuple((n,) for n in range(5)))
    assert climbed <= 1.1 * best


def test_boards_joined_by_many_ways_become_neighbours() -> None:
    scene = _scene([9, 9, 9, 9], [(0, 3, 60)])
    rows = draft(scene, 1.0).rows
    row_of = {index: number for number, row in enumerate(rows) for index in row}
    assert abs(row_of[0] - row_of[3]) <= 1


def test_a_board_with_an_antenna_rises_to_the_top() -> None:
    scene = _scene([18, 18, 18], [(0, 1, 20), (1, 2, 20)])
    tie = LinkFace("tie")
    scene = replace(
        scene,
        edge=(EdgeItem(Slot("antenna", FACE, FACE), Edge.TOP),),
        links=(*scene.links, Link("t", ("antenna", "b2"), tie, tie, "tie")),
    )
    assert 2 in draft(scene, 1.0).rows[0]


def test_a_link_pulls_with_the_logarithm_of_its_ways_on_each_side() -> None:
    label = LinkFace("wires", 7)
    assert weight(Link("j", ("a", "b"), label, None)) == pytest.approx(3.0)
    assert weight(Link("j", ("a", "b"), label, label)) == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("count", "most", "columns"), [(4, 3, 2), (5, 3, 3), (7, 3, 3), (1, 3, 1), (0, 3, 1), (2, 3, 2)]
)
def test_columns_leave_few_places_empty(count: int, most: int, columns: int) -> None:
    assert columns_for(count, most) == columns
