"""Which board is which, which enclosure piece is which: the assignment that leaves the fewest seats to move."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.assignment import best_assignment
from archdiff.alignment.links import TIE_BITS, hash_of
from archdiff.alignment.model import Agreement, HostGroup, HostPair
from archdiff.alignment.verdict import words_agree
from archdiff.record.silence import Silence, Silent

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from numpy.typing import NDArray

    from archdiff.alignment.model import Seat
    from archdiff.notes import Match
    from archdiff.record import Element, Record

Overlap = Counter[tuple[str, str]]
_SHARE, _LEAST = 0.6, 2  # a board is part of a group when most of what is paired on it, and two seats, lie there


def known_hosts(record: Record, ignored: Iterable[str]) -> dict[str, Element]:
    """Boards and pieces that take part."""
    left_out = set(ignored)
    return {name: element for name, element in record.hosts.items() if name not in left_out}


def overlap_of(pairs: Iterable[tuple[Seat, Seat]]) -> Overlap:
    """How many paired seats lie on each left host and right host; seats on none or on several count nowhere."""
    return Counter((left.hosts[0], right.hosts[0]) for left, right in pairs if is_placed(left) and is_placed(right))


def is_placed(seat: Seat) -> bool:
    """Whether a seat lies on exactly one host, all of it, and does not join things."""
    whole = len(seat.hosts) == 1 and (len(seat.members) == 1 or all(member.hosts for member in seat.members))
    return whole and "between" not in seat.first.facts


def least_moves(overlap: Mapping[tuple[str, str], int]) -> dict[str, str]:
    """Left hosts to right hosts such that the fewest seats lie outside of corresponding hosts.

    The partition distance of Almudevar & Field 1999 and Gusfield 2002 is the number of seats that are left.
    """
    table: dict[str, dict[str, int]] = {}
    for (left, right), count in overlap.items():
        table.setdefault(left, {})[right] = count
    return best_assignment(table)


def host_pairs(
    left: Mapping[str, Element],
    right: Mapping[str, Element],
    overlap: Overlap,
    sites: Overlap,
    pieces: set[tuple[str, str]],
    tied: Iterable[Match],
    keys: tuple[Mapping[str, int], Mapping[str, int]],
) -> dict[str, str]:
    """Left hosts to the right hosts that correspond. `pieces` are hosts that are paired as seats themselves.

    What the notes tie is kept; else the shared seats decide (`overlap`), what hosts are like where these leave it
    open (`sites` left empty on both among it), and last the `keys` by content of either side, which mean nothing
    but are the same whatever the order of the files.
    """
    fixed = _fixed(left, right, overlap, tied)
    taken = set(fixed.values())
    table: dict[str, dict[str, int]] = {}
    for a, b in _maybe(left, right, overlap, sites, pieces):
        if a.id in fixed or b.id in taken or a.section != b.section:
            continue
        shared = overlap[a.id, b.id]
        like = _like(a, b, sites[a.id, b.id], paired=(a.id, b.id) in pieces)
        if shared or like > 0:
            tie = hash_of(keys[0][a.id] + keys[1][b.id])
            table.setdefault(a.id, {})[b.id] = (((shared << 30) + like) << TIE_BITS) + tie
    found = fixed | best_assignment(table)
    return found | _last_ones(left, right, found)


def _fixed(
    left: Mapping[str, Element], right: Mapping[str, Element], overlap: Overlap, tied: Iterable[Match]
) -> dict[str, str]:
    fixed: dict[str, str] = {}
    for match in tied:
        rows = {a: {b: overlap[a, b] + 1 for b in match.right if b in right} for a in match.left if a in left}
        fixed |= best_assignment(rows)
    return fixed


def _maybe(
    left: Mapping[str, Element],
    right: Mapping[str, Element],
    overlap: Overlap,
    sites: Overlap,
    pieces: set[tuple[str, str]],
) -> Iterator[tuple[Element, Element]]:
    """Pairs of hosts that share anything, in the order of the files."""
    by_function: dict[str, list[str]] = {}
    for b in right.values():
        if b.function:
            by_function.setdefault(b.function, []).append(b.id)
    partners: dict[str, set[str]] = {a.id: {*by_function.get(a.function, ())} for a in left.values()}
    for one, two in (*overlap, *sites, *pieces):
        if one in partners:
            partners[one].add(two)
    number = {name: index for index, name in enumerate(right)}
    for a in left.values():
        for name in sorted(partners[a.id] & right.keys(), key=number.__getitem__):
            yield a, right[name]


def _like(a: Element, b: Element, sites: int, *, paired: bool) -> int:
    """A whole number below 2^30 that says how like two hosts are by themselves; 0 for no sign of likeness.

    `sites` is how many sites that were left empty lie on both: they do nothing and so count for little.
    """
    score = (1 << 28 if paired else 0) + (min(sites, 100) << 21)
    if a.function and a.function == b.function:
        score += 1 << 20
    if score:
        for name in ("material", "process", "facing"):
            score += (1 << 10) * (words_agree(a.text(name), b.text(name)) is Agreement.SAME and bool(a.text(name)))
        score += _size_like(a, b)
    return score


def _size_like(a: Element, b: Element) -> int:
    one, two = a.size("outline") or a.size(), b.size("outline") or b.size()
    if one is None or two is None:
        return 0
    low, high = sorted((one.area.low, two.area.low))
    return round(1000 * low / high) if high else 0


def _last_ones(left: Mapping[str, Element], right: Mapping[str, Element], found: Mapping[str, str]) -> dict[str, str]:
    """The only board of each side, where nothing is known of what they carry."""
    last: dict[str, str] = {}
    taken = set(found.values())
    a = [e.id for e in left.values() if e.section == "boards"]
    b = [e.id for e in right.values() if e.section == "boards"]
    if len(a) == len(b) == 1 and a[0] not in found and b[0] not in taken:
        last[a[0]] = b[0]
    return last


def as_pairs(
    left: tuple[Record, Mapping[str, Element]],
    right: tuple[Record, Mapping[str, Element]],
    host_of: Mapping[str, str],
    overlap: Overlap,
) -> tuple[HostPair, ...]:
    """Every host exactly once, paired or alone, boards first."""
    pairs = [HostPair(a, b, left[1][a].section == "boards", overlap[a, b]) for a, b in host_of.items()]
    taken = set(host_of.values())
    alone = (
        [element for name, element in left[1].items() if name not in host_of],
        [element for name, element in right[1].items() if name not in taken],
    )
    for element in alone[0]:
        silent = _silent(right[0], element, alone[1])
        pairs.append(HostPair(element.id, None, element.section == "boards", silent=silent))
    for element in alone[1]:
        silent = _silent(left[0], element, alone[0])
        pairs.append(HostPair(None, element.id, element.section == "boards", silent=silent))
    return tuple(
        sorted(pairs, key=lambda pair: (not pair.is_board, pair.left is None or pair.right is None, -pair.shared))
    )


def _silent(other: Record, element: Element, spare: Iterable[Element]) -> Silent:
    """What may be said of a host that the other product does not seem to have.

    A host of the other product that is left over as well (`spare`) may correspond: hosts go together by what was
    listed on them, and not all of it may have been.
    """
    may_be = next((host.id for host in spare if host.section == element.section), "")
    if may_be:
        return Silent(
            Silence.NOT_LOOKED_AT, f"too little is known of both to say whether {may_be} corresponds", may_be=may_be
        )
    what = "boards" if element.section == "boards" else "pieces of the enclosure"
    if other.coverage.is_whole(element.section):
        return Silent(Silence.NOT_THERE, f"all {what} were looked at and none corresponds")
    return Silent(Silence.NOT_LOOKED_AT, f"not all {what} were looked at; one may correspond")


def host_groups(
    left: Mapping[str, Element], right: Mapping[str, Element], overlap: Overlap, tied: Iterable[Match]
) -> tuple[HostGroup, ...]:
    """Boards that carry on one side what several carry on the other: a suggestion to confirm, or tied by the notes."""
    groups = {(m.left, m.right) for m in tied if max(len(m.left), len(m.right)) > 1}
    named = {name for group in groups for part in group for name in part}
    merged = _gathered(left, right, overlap)
    split = _gathered(right, left, Counter({(b, a): n for (a, b), n in overlap.items()}))
    groups |= {(several, (one,)) for one, several in merged.items() if named.isdisjoint({one, *several})}
    groups |= {((one,), several) for one, several in split.items() if named.isdisjoint({one, *several})}
    return tuple(HostGroup(*group) for group in sorted(groups))


def _gathered(many: Mapping[str, Element], one: Mapping[str, Element], overlap: Overlap) -> dict[str, tuple[str, ...]]:
    """For each board of one side the boards of the other whose seats mostly lie on it, where these are several."""
    totals: Counter[str] = Counter()
    for (a, _), count in overlap.items():
        totals[a] += count
    found: dict[str, list[str]] = {}
    for (a, b), count in overlap.items():
        boards = a in many and b in one and many[a].section == one[b].section == "boards"
        if boards and count >= max(_LEAST, _SHARE * totals[a]):
            found.setdefault(b, []).append(a)
    return {b: tuple(sorted(names)) for b, names in found.items() if len(names) > 1}


def host_table(seats: list[Seat], hosts: Mapping[str, Element]) -> NDArray[np.int64]:
    """A row a seat with the numbers of its hosts in the order of `hosts`, padded with -1."""
    number = {name: index for index, name in enumerate(hosts)}
    rows = [[number[name] for name in seat.hosts if name in number] for seat in seats]
    width = max(map(len, rows), default=0) or 1
    table = np.full((len(rows), width), -1, dtype=np.int64)
    for index, row in enumerate(rows):
        table[index, : len(row)] = row
    return table
