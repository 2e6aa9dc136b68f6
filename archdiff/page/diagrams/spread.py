"""Spreading things along a line: close to where each wants to be, none nearer to its neighbour than allowed."""

from collections.abc import Sequence
from itertools import pairwise

from archdiff.page.diagrams.geometry import PITCH, up

_AIR = 8.0


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Middles on the pitch for things of `sizes` px that want to stand at `wanted`, in the order given.

    Least squares under the order and the distances (pool adjacent violators), then moved into `low..high`; what does
    not fit runs over `high`.
    """
    if not wanted:
        return []
    offsets = [0.0]
    for before, after in pairwise(sizes):
        offsets.append(offsets[-1] + up((before + after) / 2 + _AIR))
    eased = _pooled([want - offset for want, offset in zip(wanted, offsets, strict=True)])
    first, last = up(low + sizes[0] / 2), high - sizes[-1] / 2 - offsets[-1]
    return [max(first, min(round(each / PITCH) * PITCH, last // PITCH * PITCH)) + offset
            for each, offset in zip(eased, offsets, strict=True)]  # fmt: skip


def _pooled(values: list[float]) -> list[float]:
    """The closest never-falling sequence in the sense of least squares."""
    pools: list[tuple[float, int]] = []
    for value in values:
        mean, count = value, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    return [mean for mean, count in pools for _ in range(count)]


class Berths:
    """What is already taken along a board edge or a row of board edges, in px."""

    def __init__(self) -> None:
        self._taken: list[tuple[float, float]] = []

    def free(self, at: float, half: float) -> bool:
        """Whether `at - half .. at + half` meets nothing taken."""
        return all(at + half <= low or high <= at - half for low, high in self._taken)

    def take(self, at: float, half: float) -> None:
        """Mark `at - half .. at + half` as taken."""
        self._taken.append((at - half, at + half))


def candidates(wanted: float, low: float, high: float) -> list[float]:
    """The places on the pitch within `low..high`, the one nearest to `wanted` first."""
    count = int((high - up(low)) // PITCH) + 1
    return sorted((up(low) + PITCH * i for i in range(max(0, count))), key=lambda at: (abs(at - wanted), at))
