"""Which host carries which function on the two sides, and the least set of moves between the two."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from math import comb
from typing import TYPE_CHECKING

from archdiff.alignment.hosts import is_placed, least_moves
from archdiff.alignment.seats import carriers_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment.model import Alignment, Pair, Seat
    from archdiff.record import Record


@dataclass(frozen=True, slots=True, eq=False)
class Move:
    """Paired functions that lie on hosts that do not correspond: moving them would turn left into right.

    >>> all(move.pairs for move in result.comparison.partition.moves)
    True
    """

    pairs: tuple[Pair, ...]
    left_host: str
    right_host: str
    text: str  # where they lie on the two sides, in plain words
    into: str = ""  # the left host to move them to, which corresponds to `right_host`; '' for one of their own
    way: str = ""  # from where to where in the left product: 'from the front board to the main board'


@dataclass(frozen=True, slots=True, eq=False)
class Partition:
    """The overlap table of left hosts by right hosts over paired seats whose place is known on both sides.

    >>> partition = result.comparison.partition
    >>> partition.distance == sum(len(move.pairs) for move in partition.moves)
    True
    """

    left_hosts: tuple[str, ...]
    right_hosts: tuple[str, ...]
    table: dict[tuple[str, str], tuple[Pair, ...]] = field(default_factory=dict)
    matched: dict[str, str] = field(default_factory=dict)  # left host to right host, by best assignment
    distance: int = 0  # least number of paired seats to move, given the hosts that the notes tie
    moves: tuple[Move, ...] = ()
    ari: float | None = None  # adjusted Rand index; None where fewer than two seats are placed
    unplaced: tuple[Pair, ...] = ()  # complete pairs whose host is not known on a side
    untied: int | None = None  # `distance` as it would be without the hosts that the notes tie, where it is another

    @property
    def placed(self) -> int:
        """How many pairs the table holds."""
        return sum(len(pairs) for pairs in self.table.values())


def partition_of(alignment: Alignment, left: Record, right: Record) -> Partition:
    """The partition of an alignment.

    Counted are complete pairs whose seats lie on exactly one known host each; what joins hosts lies on none, and
    a site that was left empty does nothing.
    Every pair weighs 1, however many things it stands for. Hosts correspond as in the alignment, which chose
    them so that `distance` is least: the partition distance of Almudevar & Field 1999 and Gusfield 2002, a board
    never standing for a piece of the enclosure. Where the notes tie hosts it is the distance under these ties.
    """
    table: dict[tuple[str, str], list[Pair]] = {}
    carriers = carriers_of(left), carriers_of(right)
    unplaced: list[Pair] = []
    for pair in alignment.pairs:
        if pair.left is None or pair.right is None or _joins(pair.left) or _joins(pair.right):
            continue
        if not (pair.left.first.populated and pair.right.first.populated):
            continue
        if is_placed(pair.left) and is_placed(pair.right):
            table.setdefault((pair.left.hosts[0], pair.right.hosts[0]), []).append(pair)
        elif not (_is_host(pair.left, carriers[0]) and _is_host(pair.right, carriers[1])):
            unplaced.append(pair)
    hosts = [_in_order(record, {key[side] for key in table}) for side, record in ((0, left), (1, right))]
    matched = {a: b for a, b in alignment.host_of.items() if a in hosts[0] and b in hosts[1]}
    counts = {key: len(pairs) for key, pairs in table.items()}
    kept = {key: tuple(pairs) for key, pairs in table.items()}
    into = {b: a for a, b in matched.items()}
    moves = [_move(key, kept[key], left, right, into.get(key[1], "")) for key in kept if matched.get(key[0]) != key[1]]
    moves.sort(key=lambda move: (-len(move.pairs), hosts[0].index(move.left_host), hosts[1].index(move.right_host)))
    distance = _left_over(counts, matched)
    untied = _left_over(counts, least_moves({k: n for k, n in counts.items() if _may_match(k, left, right)}))
    return Partition(
        hosts[0],
        hosts[1],
        kept,
        matched,
        distance,
        tuple(moves),
        adjusted_rand(counts),
        tuple(unplaced),
        untied if untied < distance else None,
    )


def adjusted_rand(table: Mapping[tuple[str, str], int]) -> float | None:
    """The adjusted Rand index of an overlap table, 1 for equal partitions, about 0 for chance; None below two.

    Hubert & Arabie 1985, J. Classification 2:193-218. Two partitions that are both trivial in the same way
    (one group, or only single seats) are equal: 1.
    """
    total = sum(table.values())
    if total < 2:  # noqa: PLR2004 - one seat makes no pair of seats
        return None
    rows: Counter[str] = Counter()
    columns: Counter[str] = Counter()
    for (a, b), count in table.items():
        rows[a] += count
        columns[b] += count
    together = sum(comb(count, 2) for count in table.values())
    in_rows, in_columns = (sum(comb(count, 2) for count in part.values()) for part in (rows, columns))
    chance = in_rows * in_columns / comb(total, 2)
    most = (in_rows + in_columns) / 2
    return 1.0 if most == chance else (together - chance) / (most - chance)


def _left_over(counts: Mapping[tuple[str, str], int], matched: Mapping[str, str]) -> int:
    """How many seats lie outside of corresponding hosts."""
    return sum(counts.values()) - sum(counts.get(pair, 0) for pair in matched.items())


def _may_match(hosts: tuple[str, str], left: Record, right: Record) -> bool:
    return left.hosts[hosts[0]].section == right.hosts[hosts[1]].section


def _joins(seat: Seat) -> bool:
    return "between" in seat.first.facts


def _is_host(seat: Seat, carriers: frozenset[str]) -> bool:
    """A piece that carries others and sits in nothing is a host itself; it has no place that could be lacking."""
    return not seat.hosts and seat.first.id in carriers


def _in_order(record: Record, names: set[str]) -> tuple[str, ...]:
    return tuple(name for name in record.hosts if name in names)


def _move(key: tuple[str, str], pairs: tuple[Pair, ...], left: Record, right: Record, into: str) -> Move:
    what = ", ".join(dict.fromkeys(pair.function for pair in pairs))
    places = f"{_on(left, key[0])} in {left.name}, {_on(right, key[1])} in {right.name}"
    kind = "board" if right.hosts[key[1]].section == "boards" else "piece"
    target = (
        f"the {_called(left, into)}" if into else f"a {kind} of their own, in {right.name} the {_called(right, key[1])}"
    )
    return Move(pairs, key[0], key[1], f"{what}: {places}", into, f"from the {_called(left, key[0])} to {target}")


def _on(record: Record, name: str) -> str:
    """'on the front board', 'in the upper shell'."""
    return f"{'on' if record.hosts[name].section == 'boards' else 'in'} the {_called(record, name)}"


def _called(record: Record, name: str) -> str:
    """'front board': a label within a sentence; one that begins with several capitals keeps them."""
    label = record.hosts[name].label
    return label[0].lower() + label[1:] if label[1:2].islower() else label
