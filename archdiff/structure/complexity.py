"""Structural complexity of a product: how many things, how many links, and how the links are laid.

Sinha & de Weck 2013, "Structural complexity quantification for engineered complex systems and implications on
system architecture and design" (ASME DETC2013-12013): C = C1 + C2 C3, with C1 the sum over things, C2 the sum over
links and C3 = E / n. E is the sum of the singular values of the matrix of links, a graph's energy where every link
weighs 1 and holds both ways.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def energy(pairs: Iterable[tuple[int, int]], counts: Sequence[int]) -> float:
    """The sum of the singular values of the matrix of links between things, entries standing for `counts` each.

    Things under one entry are alike in their links and have none among each other, so the matrix of entries with the
    weights sqrt(counts[a] counts[b]) has the same singular values but for zeros.
    """
    import numpy as np

    matrix = np.zeros((len(counts), len(counts)))
    for a, b in pairs:
        matrix[a, b] = matrix[b, a] = math.sqrt(counts[a] * counts[b])
    return float(np.abs(np.linalg.eigvalsh(matrix)).sum()) if counts else 0.0


def complexity(things: float, links: float, graph_energy: float) -> float:
    """C1 + C2 C3 with all weights 1 and every link counted in both directions; 0 for no things."""
    return things + 2 * links * graph_energy / things if things else 0.0


def least_energy(links: float) -> float:
    """No graph with so many links has a lower energy: 2 sqrt(m) (Caporossi et al. 1999)."""
    return 2 * math.sqrt(links)


def greatest_energy(things: float, links: float) -> float:
    """No graph with so many things and links has a greater energy: sqrt(2 m n) (McClelland 1971)."""
    return math.sqrt(2 * links * things)


def least_complexity(things: float, links: float, *, more: bool) -> float:
    """The lowest complexity of so many things with at least so many links; `more` where there may be further things.

    n + 4 m^1.5 / n rises with m, and falls with n up to 2 m^0.75.
    """
    fewest = max(things, 2 * links**0.75) if more else things
    return complexity(fewest, links, least_energy(links))


def greatest_complexity(things: float) -> float:
    """The limit that no complexity of exactly so many things passes."""
    links = things * (things - 1) / 2
    return complexity(things, links, greatest_energy(things, links))
