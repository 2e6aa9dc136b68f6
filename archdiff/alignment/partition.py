"""Which host carries which function on the two sides, and the least set of moves between the two."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from archdiff.alignment.model import Alignment, Pair
    from archdiff.record import Record


@dataclass(frozen=True, slots=True, eq=False)
class Move:
    """Paired functions that lie on hosts that do not correspond: moving them would turn left into right."""

    pairs: tuple[Pair, ...]
    left_host: str
    right_host: str
    text: str  # in plain words


@dataclass(frozen=True, slots=True, eq=False)
class Partition:
    """The overlap table of left hosts by right hosts over paired seats whose place is known on both sides."""

    left_hosts: tuple[str, ...]
    right_hosts: tuple[str, ...]
    table: dict[tuple[str, str], tuple[Pair, ...]] = field(default_factory=dict)
    matched: dict[str, str] = field(default_factory=dict)  # left host to right host, by best assignment
    distance: int = 0  # least number of paired seats to move
    moves: tuple[Move, ...] = ()
    ari: float | None = None  # adjusted Rand index; None where fewer than two seats are placed
    unplaced: tuple[Pair, ...] = ()  # complete pairs whose host is not known on a side

    @property
    def placed(self) -> int:
        """How many pairs the table holds."""
        return sum(len(pairs) for pairs in self.table.values())


def partition_of(alignment: Alignment, left: Record, right: Record) -> Partition:
    """The partition of an alignment."""
    raise NotImplementedError
