"""What pulls boards towards one another and towards the sides of the enclosure, before they are arranged."""

import itertools
import math
from collections import Counter
from dataclasses import dataclass

from archdiff.page.diagrams.scene import Edge, Link, Scene

JOIN = "join"
_TIE_WEIGHT = 1.0
_SHARED_ITEM = 1.5


def weight(link: Link) -> float:
    """How strongly a link pulls: log2 of ways + 1, summed over the sides that have it."""
    if link.kind != JOIN:
        return _TIE_WEIGHT
    return sum(math.log2((face.ways or 1) + 1) for face in link.faces if face is not None)


@dataclass(frozen=True, slots=True)
class Bonds:
    """Pulls by block index.

    `between` maps index pairs (low, high) to weights (of links, and of enclosure items tied to both), `sides` holds
    (index, edge, weight) for every tie to an enclosure item, `joined` counts the links that end on a board.
    """

    between: dict[tuple[int, int], float]
    sides: tuple[tuple[int, Edge, float], ...]
    joined: Counter[int]


def bonds_of(scene: Scene) -> Bonds:
    """The bonds of a scene."""
    index = {block.key: place for place, block in enumerate(scene.blocks)}
    edges = {item.slot.key: item.edge for item in scene.edge}
    between: dict[tuple[int, int], float] = {}
    sides: list[tuple[int, Edge, float]] = []
    joined: Counter[int] = Counter()
    tied: dict[str, list[int]] = {}
    for link in scene.links:
        boards = [index[end] for end in link.ends if end in index]
        joined.update(boards)
        if len(set(boards)) > 1:
            pair = (min(boards), max(boards))
            between[pair] = between.get(pair, 0.0) + weight(link)
        for end in link.ends:
            if boards and end not in index:
                tied.setdefault(end, []).append(boards[0])
        sides += [(boards[0], edges[end], weight(link)) for end in link.ends if boards and end not in index]
    for boards in tied.values():
        for pair in itertools.combinations(sorted(set(boards)), 2):
            between[pair] = between.get(pair, 0.0) + _SHARED_ITEM
    return Bonds(between, tuple(sides), joined)
