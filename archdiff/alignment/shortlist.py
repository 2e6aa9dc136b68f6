"""Which pairs of seats are weighed at all: the likeliest few of each seat within its function.

Nothing here is quadratic in the product: small functions are weighed whole, in large ones a seat meets only
those that lie near it in one of several orders (a sorted neighbourhood: Hernandez & Stolfo 1995, SIGMOD).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.tables import distinct

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from archdiff.alignment.likeness import Likeness
    from archdiff.alignment.links import Keys, Links
    from archdiff.alignment.tables import Floats, Ints, Tables

TOP = 6
_WHOLE = 150 * 150  # pairs of one function up to which all are weighed
_WINDOW = 8
_CHUNK = 400_000
_HIGHEST = 40.0  # nats; what scores more counts as this


def all_pairs(tables: Tables, links: Links, ranked: Keys) -> Iterator[tuple[Ints, Ints]]:
    """All pairs worth weighing, function by function, purposes that are not known left out."""
    known = ~tables.unknown
    left = _by_function(tables, np.flatnonzero(known[: tables.n_left]))
    right = _by_function(tables, np.flatnonzero(known[tables.n_left :]) + tables.n_left)
    gathered: list[tuple[Ints, Ints]] = []
    waiting = 0
    for function in sorted(left.keys() & right.keys()):
        a, b = left[function], right[function]
        pairs = _every(a, b) if len(a) * len(b) <= _WHOLE else _near(tables, links, ranked, a, b)
        gathered.append(pairs)
        waiting += len(pairs[0])
        if waiting > _CHUNK:
            yield _joined(gathered)
            gathered, waiting = [], 0
    if gathered:
        yield _joined(gathered)


def _by_function(tables: Tables, indices: Ints) -> dict[int, Ints]:
    function = tables.function[indices]
    order = np.argsort(function, kind="stable")
    names, first = np.unique(function[order], return_index=True)
    return dict(zip(names.tolist(), np.split(indices[order], first[1:]), strict=True)) if len(names) else {}


def _every(a: Ints, b: Ints) -> tuple[Ints, Ints]:
    return np.repeat(a, len(b)), np.tile(b, len(a))


def _joined(parts: Iterable[tuple[Ints, Ints]]) -> tuple[Ints, Ints]:
    left, right = zip(*parts, strict=True)
    return np.concatenate(left), np.concatenate(right)


def _near(tables: Tables, links: Links, ranked: Keys, a: Ints, b: Ints) -> tuple[Ints, Ints]:
    """Pairs that lie near each other when the function's seats are sorted by one thing or another."""
    columns = sorted(tables.columns, key=lambda column: -np.count_nonzero(column.codes[a] >= 0))[:4]
    sorts: list[tuple[Floats | Ints, Ints]] = [
        (links.signature, tables.means.codes),
        (tables.means.codes, links.signature),
    ]
    values = (column.codes if column.logs is None else np.nan_to_num(column.logs) for column in columns)
    sorts += [(value, links.signature) for value in values]
    found = []
    for major, minor in sorts:
        place = _places(np.concatenate([a, b]), (ranked, minor, major))
        at_a, at_b = place[: len(a)], place[len(a) :]
        found.append(_window(a, b, at_a, at_b))
        right, left = _window(b, a, at_b, at_a)
        found.append((left, right))
    i, j = _joined(found)
    return tuple(np.divmod(distinct(i * tables.size + j), tables.size))  # type: ignore[return-value]


def _places(indices: Ints, keys: tuple[Floats | Ints | Keys, ...]) -> Ints:
    """The place of each seat in a sort; equal for seats that are equal in all keys, whatever their side."""
    sorted_by = [key[indices] for key in keys]
    order = np.lexsort(sorted_by)
    new = np.zeros(len(indices), dtype=bool)
    for key in sorted_by:
        new[1:] |= key[order][1:] != key[order][:-1]
    places = np.empty(len(indices), dtype=np.int64)
    places[order] = np.cumsum(new)
    return places


def _window(a: Ints, b: Ints, at_a: Ints, at_b: Ints) -> tuple[Ints, Ints]:
    """For each of a the nearest of b on both sides in the order of places."""
    order = np.argsort(at_b, kind="stable")
    middle = np.searchsorted(at_b[order], at_a)
    offsets = np.arange(-_WINDOW, _WINDOW + 1)
    spots = (middle[:, None] + offsets).ravel()
    inside = (spots >= 0) & (spots < len(b))
    return np.repeat(a, len(offsets))[inside], b[order[spots[inside]]]


def shortlist(tables: Tables, likeness: Likeness, links: Links, ranked: Keys) -> tuple[Ints, Ints]:
    """The TOP likeliest partners of every seat of either side, as pairs of indices."""
    kept = []
    for i, j in all_pairs(tables, links, ranked):
        score = likeness.total(i, j) + likeness.signs(i, j)
        order = _order(score, ranked[i] + ranked[j])
        keep = _top(i, order) | _top(j, order)
        kept.append((i[keep], j[keep]))
    return _joined(kept) if kept else (np.zeros(0, np.int64), np.zeros(0, np.int64))


def _order(score: Floats, jitter: Keys) -> Ints:
    """A whole number of 48 bits that falls with the score, in steps of 2^-18 nats, and ends in bits of the jitter."""
    step = np.clip((_HIGHEST - score) * (1 << 18), 0, (1 << 24) - 1).astype(np.int64)
    return (step << 24) + (jitter >> np.uint64(40)).astype(np.int64)


def _top(group: Ints, order: Ints) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether an entry is among the TOP of its group. One sort of one number is what makes this quick."""
    group = group - group.min(initial=0)
    fits = group.max(initial=0) < 1 << 15
    at = np.argsort((group << 48) + order) if fits else np.lexsort((order, group))
    sorted_group = group[at]
    first = np.searchsorted(sorted_group, sorted_group)
    keep = np.zeros(len(group), dtype=bool)
    keep[at] = np.arange(len(group)) - first < TOP
    return keep
