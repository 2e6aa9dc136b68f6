"""What a seat is joined to: typed neighbours, signatures before anything is paired, and keys by content.

A link is stated by one element and holds for both ends. Ends that are no seats (supply rails) count as a sign
only: 'fed by a rail of 3.3 V'.
"""

from __future__ import annotations

import hashlib
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.seats import content
from archdiff.alignment.tables import code

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from archdiff.alignment.model import Seat
    from archdiff.alignment.tables import Ints, Tables
    from archdiff.record import Element, Record

    Keys = NDArray[np.uint64]
    Link = tuple[str, str, str]

_EVEN = frozenset({"joined_to"})  # relations that hold in both directions alike
_CARRIED = "lives in"
ROUNDS = 3
TIE_BITS = 31


@dataclass(slots=True)
class Links:
    """All links of both sides, sorted by source, kind, sign and target, and the signature of each seat."""

    kinds: list[str]
    source: Ints
    kind: Ints
    sign: Ints  # what the target is, by a number: its function, or the voltage of a supply rail
    target: Ints  # -1 where the target is no seat
    start: Ints  # links of seat s are start[s] .. start[s + 1]
    signature: Ints  # code of the set of (kind, sign); -1 where no link is stated


def links_of(tables: Tables, left: Iterable[Link], right: Iterable[Link]) -> Links:
    """The links of both sides between seats, from what the elements state."""
    t = tables
    found = _Found([], [], [], [])
    sides = ((0, t.n_left, t.records[0], left), (t.n_left, t.size, t.records[1], right))
    for first, last, record, links in sides:
        homes = _homes(t.seats, first, last)
        for index in range(first, last):
            inside = t.seats[index].embedded_in
            carrier = homes.get(inside) if inside else None
            if carrier is not None and carrier != index:
                found.add(index, _CARRIED, carrier)
        signs: dict[str, str] = {}
        for link in links:
            _add(found, signs, record, homes, link)
    return _sorted(t, found)


@dataclass(slots=True)
class _Found:
    """Links as they are found, one entry each; `target` is -1 and `sign` a text where the target is no seat."""

    source: list[int]
    kind: list[str]
    target: list[int]
    sign: list[str]

    def add(self, source: int, kind: str, target: int, sign: str = "") -> None:
        self.source.append(source)
        self.kind.append(kind)
        self.target.append(target)
        self.sign.append(sign)


def _homes(seats: list[Seat], first: int, last: int) -> dict[str, int]:
    """For each element id the seat of its main function."""
    homes: dict[str, int] = {}
    for index in range(first, last):
        for member in seats[index].members:
            if member.function == seats[index].function or member.id not in homes:
                homes[member.id] = index
    return homes


def _add(found: _Found, signs: dict[str, str], record: Record, homes: dict[str, int], link: Link) -> None:
    """Take up a link from both its ends; `signs` keeps what ends that are no seats are."""
    relation, source, target = link
    a, b = homes.get(source), homes.get(target)
    if a is not None and b is not None:
        if a != b:
            found.add(a, relation, b)
            found.add(b, relation if relation in _EVEN else f"~{relation}", a)
        return
    seat, end = (b, source) if a is None else (a, target)
    if seat is None or end in record.hosts:
        return
    if end not in signs:
        signs[end] = _sign(record, end)
    # What a rail says it feeds is what an element says of being fed.
    back = "fed_by" if relation == "feeds" else relation if relation in _EVEN else f"~{relation}"
    found.add(seat, back if a is None else relation, -1, signs[end])


def _sign(record: Record, element_id: str) -> str:
    element = record.elements[element_id]
    voltage = element.bounds("voltage")
    level = "" if voltage is None or voltage.best is None else f" {round(voltage.best * 5) / 5:g}"
    return f"{element.section}{level}"


def _sorted(tables: Tables, found: _Found) -> Links:
    """Each link once, in order. What the targets are is numbered by its text, so that no side comes first."""
    kinds = sorted({*found.kind})
    number = {kind: index for index, kind in enumerate(kinds)}
    kind = np.array([number[name] for name in found.kind], dtype=np.int64)
    source, target = (np.array(ends, dtype=np.int64) for ends in (found.source, found.target))
    what = tables.functions + code(found.sign)
    what[target >= 0] = tables.function[target[target >= 0]]
    sign = np.unique(kind * (int(what.max(initial=0)) + 1) + what, return_inverse=True)[1]
    order = np.lexsort((target, sign, kind, source))
    rows = np.stack((source, kind, sign, target))[:, order]
    differs = np.ones(len(order), dtype=bool)
    differs[1:] = (rows[:, 1:] != rows[:, :-1]).any(axis=0)
    source, kind, sign, target = rows[:, differs]
    start = np.searchsorted(source, np.arange(tables.size + 1))
    return Links(kinds, source, kind, sign, target, start, _signatures(source, sign, tables.size))


def _signatures(source: Ints, sign: Ints, size: int) -> Ints:
    """Equal for seats with the same set of signs: the sum of their scattered numbers; -1 where there is none."""
    once = np.ones(len(source), dtype=bool)
    once[1:] = (source[1:] != source[:-1]) | (sign[1:] != sign[:-1])
    total = np.zeros(size, dtype=np.uint64)
    np.add.at(total, source[once], _mixed(sign[once].astype(np.uint64) + _ODD))
    signature = np.full(size, -1, dtype=np.int64)
    stated = np.unique(source)
    signature[stated] = np.unique(total[stated], return_inverse=True)[1]
    return signature


def keys_of(tables: Tables, links: Links, hosts: Ints) -> Keys:
    """A number for each seat that tells what it is and how it is bound up, whatever ids and order the file has.

    Seats with the same key on one side are interchangeable: colour refinement (Weisfeiler & Leman 1968) over
    links and hosts. `hosts` has a row a seat, padded with -1.
    """
    keys = np.array([_digest(_text(seat)) for seat in tables.seats], dtype=np.uint64)
    keys = _mixed(keys) + _mixed(links.signature.astype(np.uint64))
    kinds = np.array([zlib.crc32(kind.encode()) for kind in links.kinds], dtype=np.uint64)
    for _ in range(ROUNDS):
        around = np.zeros_like(keys)
        if len(links.source):
            there = np.where(links.target >= 0, keys[links.target], 0)
            np.add.at(around, links.source, _mixed(there + _mixed(kinds[links.kind])))
        keys = _mixed(keys * _ODD + around + _of_hosts(keys, hosts))
    return keys


def host_keys_of(keys: Keys, hosts: Ints, elements: Sequence[Element]) -> Keys:
    """A number for each host that tells what it is and what it carries; `hosts` numbers both sides in one row."""
    own = np.array([_digest(content(element)) for element in elements], dtype=np.uint64)
    return _mixed(own + _carried(keys, hosts, len(elements)))


def _carried(keys: Keys, hosts: Ints, count: int) -> Keys:
    on_host = np.zeros(count, dtype=np.uint64)
    for column in hosts.T:
        on = column >= 0
        np.add.at(on_host, column[on], _mixed(keys[on]))
    return on_host


def _of_hosts(keys: Keys, hosts: Ints) -> Keys:
    total = np.zeros_like(keys)
    on_host = _carried(keys, hosts, int(hosts.max(initial=-1)) + 1)
    for column in hosts.T:
        on = column >= 0
        total[on] += _mixed(on_host[column[on]] * _ODD)
    return total


def ranks_of(keys: Keys, n_left: int) -> Keys:
    """The keys made different for interchangeable seats of a side, by the order in which they stand."""
    ranked = keys.copy()
    for part in (ranked[:n_left], ranked[n_left:]):
        order = np.argsort(part, kind="stable")
        sorted_keys = part[order]
        first = np.searchsorted(sorted_keys, sorted_keys)
        part[order] = _mixed(sorted_keys + (np.arange(len(part)) - first).astype(np.uint64))
    return ranked


def tie_break(ranked: Keys, i: Ints, j: Ints) -> Ints:
    """A whole number below 2^TIE_BITS for each pair, the same with the sides exchanged, without any meaning."""
    return (_mixed(ranked[i] + ranked[j]) >> np.uint64(64 - TIE_BITS)).astype(np.int64)


def hash_of(key: int) -> int:
    """A whole number from 1 to 2^TIE_BITS - 1, scattered, for breaking ties between single things."""
    return max(_digest(str(key)) >> (64 - TIE_BITS), 1)


_ODD = np.uint64(0x9E3779B97F4A7C15)
_MULTIPLIER = np.uint64(0xFF51AFD7ED558CCD)
_SHIFT = np.uint64(33)


def _mixed(x: Keys) -> Keys:
    """Scatter the bits (the finaliser of a public-domain hash by A. Appleby)."""
    x = (x ^ (x >> _SHIFT)) * _MULTIPLIER
    return x ^ (x >> _SHIFT)


def _text(seat: Seat) -> str:
    return f"{content(seat.first)}|{seat.function}|{bool(seat.embedded_in)}|{seat.count}"


def _digest(text: str) -> int:
    return int.from_bytes(hashlib.blake2b(text.encode(), digest_size=8).digest(), "big")
