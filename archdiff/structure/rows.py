"""Two matrices in one order: a row for each pair of the alignment, the same on both sides, subsystem by subsystem."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from archdiff.record.silence import Silence
from archdiff.structure.relations import THINGS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from archdiff.alignment import Alignment, HostPair, Pair, Seat
    from archdiff.record import Record
    from archdiff.record.silence import Silent
    from archdiff.structure.matrix import Layer, Mark, Matrix

BOARDS = "boards"  # the group that boards stand in: they carry what every subsystem is made of


class Presence(StrEnum):
    """What a row says of one side."""

    THERE = "there"
    INSIDE = "no part of its own"
    NONE = "none found"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Row:
    """One row, and column, of both matrices; `ids` and `presence` of the left side and of the right one."""

    label: str
    group: str  # subsystem, BOARDS, or '' where the purpose is not known
    ids: tuple[tuple[str, ...], tuple[str, ...]]
    presence: tuple[Presence, Presence]


@dataclass(frozen=True, slots=True)
class Tie:
    """What ties one row to another on one side: how many pairs of things, and for each layer what makes it."""

    pairs: int
    makers: Mapping[Layer, tuple[str, ...]]


def rows_of(alignment: Alignment, left: Record, right: Record) -> tuple[Row, ...]:
    """A row for each pair of boards and each pair of things, in the order of the alignment, boards first.

    What has no seat, because its purpose is not stated or the notes leave it out, stands at the end.
    """
    boards = [_of_boards(hosts, left, right) for hosts in alignment.hosts if hosts.is_board]
    linked = _done_by_links(alignment.pairs)
    things = [row for pair in alignment.pairs if (row := _of_pair(pair, linked)) is not None]
    shown = [{name for row in (*boards, *things) for name in row.ids[side]} for side in (0, 1)]
    rest = [row for side, record in enumerate((left, right)) for row in _left_over(record, side, shown[side])]
    return tuple(row for row in (*boards, *things, *rest) if any(row.ids))


def by_function(rows: Iterable[Row]) -> tuple[Row, ...]:
    """One row for all things of a function; boards stay apart."""
    return _folded(rows, lambda row: (row.group, row.label, row.ids if row.group == BOARDS else ()), lambda r: r.label)


def by_group(rows: Iterable[Row]) -> tuple[Row, ...]:
    """One row a subsystem, and one for all boards."""
    return _folded(rows, lambda row: (row.group,), lambda row: row.group or "purpose not known")


def ties(matrix: Matrix, rows: Sequence[Row], side: int) -> dict[Mark, Tie]:
    """The marks of one side between rows, and within one that holds several things; the row depends on the column."""
    place = {name: at for at, row in enumerate(rows) for name in row.ids[side]}
    at = [place.get(name, -1) for name in matrix.ids]
    pairs: dict[Mark, set[Mark]] = {}
    makers: dict[Mark, dict[Layer, dict[str, None]]] = {}
    for layer, marks in matrix.marks.items():
        for (row, column), maker in marks.items():
            mark = at[row], at[column]
            if min(mark) >= 0:
                pairs.setdefault(mark, set()).add((min(row, column), max(row, column)))
                makers.setdefault(mark, {}).setdefault(layer, {})[maker] = None
    return {
        mark: Tie(
            sum(matrix.counts[a] * matrix.counts[b] for a, b in found),
            {layer: tuple(name for name in names if name) for layer, names in makers[mark].items()},
        )
        for mark, found in sorted(pairs.items())
    }


def linked_counts(matrix: Matrix, rows: Sequence[Row], side: int) -> dict[Mark, int]:
    """How many pairs of things the build ties between two rows, or within one; the lower place first."""
    place = {name: at for at, row in enumerate(rows) for name in row.ids[side]}
    counts: dict[Mark, int] = {}
    for a, b in matrix.pairs():
        ends = sorted((place.get(matrix.ids[a], -1), place.get(matrix.ids[b], -1)))
        if ends[0] >= 0:
            mark = ends[0], ends[1]
            counts[mark] = counts.get(mark, 0) + matrix.counts[a] * matrix.counts[b]
    return counts


def _of_boards(hosts: HostPair, left: Record, right: Record) -> Row:
    names = (hosts.left, hosts.right)
    labels = [r.elements[n].label for n, r in zip(names, (left, right), strict=True) if n is not None]
    ids = tuple((name,) if name is not None else () for name in names)
    presence = tuple(Presence.THERE if name is not None else _presence(hosts.silent) for name in names)
    return Row(" / ".join(dict.fromkeys(labels)), BOARDS, (ids[0], ids[1]), (presence[0], presence[1]))


def _done_by_links(pairs: Iterable[Pair]) -> set[tuple[int, str]]:
    """(side, function) of all that links and joints do there: of a connector that is missing a link may do the job."""
    return {
        (side, seat.function)
        for pair in pairs
        for side, seat in enumerate((pair.left, pair.right))
        if seat is not None and seat.section not in THINGS
    }


def _of_pair(pair: Pair, linked: set[tuple[int, str]]) -> Row | None:
    """None for what is no thing: links and joints, and functions that live inside others on every side."""
    seats = (pair.left, pair.right)
    owns = tuple(_own_ids(seat) for seat in seats)
    if not any(owns):
        return None
    inside = [
        (seat is not None and seat.embedded_in) or (side, pair.function) in linked for side, seat in enumerate(seats)
    ]
    presence = tuple(
        Presence.THERE if own else Presence.INSIDE if within else _presence(pair.silent)
        for own, within in zip(owns, inside, strict=True)
    )
    return Row(pair.function, pair.subsystem, (owns[0], owns[1]), (presence[0], presence[1]))


def _own_ids(seat: Seat | None) -> tuple[str, ...]:
    if seat is None or seat.embedded_in or seat.section not in THINGS:
        return ()
    return tuple(member.id for member in seat.members if member.populated)


def _presence(silent: Silent | None) -> Presence:
    if silent is None or not silent.silence.is_known:
        return Presence.UNKNOWN
    return Presence.NONE if silent.silence is Silence.NOT_THERE else Presence.INSIDE


def _left_over(record: Record, side: int, shown: set[str]) -> Iterator[Row]:
    for section in THINGS:
        for thing in record.section(section):
            if thing.populated and thing.id not in shown:
                group = BOARDS if section == BOARDS else record.subsystem(thing.function)
                if side == 0:
                    yield Row(thing.label, group, ((thing.id,), ()), (Presence.THERE, Presence.UNKNOWN))
                else:
                    yield Row(thing.label, group, ((), (thing.id,)), (Presence.UNKNOWN, Presence.THERE))


def _folded(rows: Iterable[Row], key: Callable[[Row], object], label: Callable[[Row], str]) -> tuple[Row, ...]:
    folded: dict[object, list[Row]] = {}
    for row in rows:
        folded.setdefault(key(row), []).append(row)
    return tuple(_one(label(found[0]), found) for found in folded.values())


def _one(label: str, rows: Sequence[Row]) -> Row:
    ids = tuple(tuple(name for row in rows for name in row.ids[side]) for side in (0, 1))
    presence = tuple(_together([row.presence[side] for row in rows]) for side in (0, 1))
    return Row(label, rows[0].group, (ids[0], ids[1]), (presence[0], presence[1]))


def _together(found: Sequence[Presence]) -> Presence:
    """Of several rows: there where any is; else not known before anything that is known."""
    order = (Presence.THERE, Presence.UNKNOWN, Presence.INSIDE, Presence.NONE)
    return min(found, key=order.index)
