"""Which boards hang together through which links, and what parts them: plain graphs, without records.

A link is the set of boards that it joins, two or more. What all hangs on is found with one walk in depth over
boards and links together (articulation points: Hopcroft & Tarjan 1973, Algorithm 447, Communications of the ACM
16:372-378).
"""

from __future__ import annotations

from collections import defaultdict, deque
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    Node = str | int  # a board by its id, a link by its place in the list
    Links = Sequence[frozenset[str]]


def single_points(links: Links) -> tuple[set[str], set[int]]:
    """The boards and the links (by place in the list) whose loss leaves boards apart that were joined."""
    neighbours = _neighbours(links)
    found: set[Node] = set()
    seen: dict[Node, int] = {}
    for root in neighbours:
        if root not in seen:
            found.update(_parting(root, neighbours, seen))
    return {node for node in found if isinstance(node, str)}, {node for node in found if isinstance(node, int)}


def distances(start: str, links: Links) -> dict[str, int]:
    """The least number of links between a board and each board that can be reached from it, itself at 0."""
    neighbours = _neighbours(links)
    found: dict[Node, int] = {start: 0}
    waiting: deque[Node] = deque([start])
    while waiting:
        node = waiting.popleft()
        for other in neighbours.get(node, ()):
            if other not in found:
                found[other] = found[node] + isinstance(other, str)
                waiting.append(other)
    return {node: far for node, far in found.items() if isinstance(node, str)}


def _neighbours(links: Links) -> dict[Node, list[Node]]:
    found: dict[Node, list[Node]] = defaultdict(list)
    for place, boards in enumerate(links):
        for board in sorted(boards) if len(boards) > 1 else ():
            found[board].append(place)
            found[place].append(board)
    return dict(found)


def _parting(root: Node, neighbours: dict[Node, list[Node]], seen: dict[Node, int]) -> Iterator[Node]:
    """The articulation points of the part that holds `root`; `seen` numbers the nodes as they are reached."""
    seen[root] = len(seen)
    lowest = {root: seen[root]}
    branches = 0
    path: list[tuple[Node, Node | None, Iterator[Node]]] = [(root, None, iter(neighbours[root]))]
    while path:
        node, parent, rest = path[-1]
        other = next(rest, None)
        if other is None:
            path.pop()
            if parent is not None:
                lowest[parent] = min(lowest[parent], lowest[node])
                if parent != root and lowest[node] >= seen[parent]:
                    yield parent
        elif other not in seen:
            branches += node == root
            seen[other] = lowest[other] = len(seen)
            path.append((other, node, iter(neighbours[other])))
        elif other != parent:
            lowest[node] = min(lowest[node], seen[other])
    if branches > 1:
        yield root
