"""Aligning two records: from seats through rounds to pairs with verdicts and reasons."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from archdiff.alignment.context import HostFit, LinkFit, Matching
from archdiff.alignment.hosts import host_table, known_hosts
from archdiff.alignment.judge import judged
from archdiff.alignment.leftover import last_ones, second_pairs
from archdiff.alignment.likeness import Likeness
from archdiff.alignment.links import host_keys_of, keys_of, links_of, ranks_of
from archdiff.alignment.rounds import Candidates, Engine
from archdiff.alignment.seats import Marks, all_links, seats_of
from archdiff.alignment.shortlist import shortlist
from archdiff.alignment.tables import tables_of
from archdiff.collector import collector_held
from archdiff.notes import Notes

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment.links import Keys, Links
    from archdiff.alignment.model import Alignment, Seat
    from archdiff.alignment.tables import Ints, Tables
    from archdiff.record import Element, Record


@dataclass(slots=True)
class Run:
    """One run of the aligner and what it came to."""

    notes: Notes
    tables: Tables
    links: Links
    hosts: tuple[Mapping[str, Element], Mapping[str, Element]]
    host_rows: Ints  # hosts of each seat, numbered from 0 on each side
    host_keys: tuple[dict[str, int], dict[str, int]]
    keys: Keys
    ranked: Keys
    engine: Engine
    counts: tuple[Ints, Ints]
    matching: Matching = field(init=False)
    found: Candidates = field(init=False)
    score: Ints = field(init=False)
    chosen: Ints = field(init=False)

    def host_label(self, seat: int, name: str) -> str:
        """What to call a host of a seat."""
        element = self.hosts[0 if seat < self.tables.n_left else 1].get(name)
        return element.label if element else name


def align(left: Record, right: Record, notes: Notes = Notes()) -> Alignment:  # noqa: B008 - Notes is frozen
    """Pair the seats and the hosts of two records.

    Symmetric: with sides exchanged the result is mirrored. Blind to ids, names, markings and the order of the
    files, except that of several interchangeable things the first is paired with the first. What the notes tie,
    forbid or leave out holds, and influences all the rest.
    """
    with collector_held():
        run = _prepared(left, right, notes)
        _pair(run)
        return judged(run)


def _prepared(left: Record, right: Record, notes: Notes) -> Run:
    links = (all_links(left), all_links(right))
    marks = (
        Marks.of(notes.tie, notes.never, notes.ignore_left, "left"),
        Marks.of(notes.tie, notes.never, notes.ignore_right, "right"),
    )
    tables = tables_of(left, right, seats_of(left, marks[0], links[0]), seats_of(right, marks[1], links[1]))
    bonds = links_of(tables, *links)
    hosts = (known_hosts(left, notes.ignore_left), known_hosts(right, notes.ignore_right))
    rows = _host_rows(tables, hosts)
    apart = _set_apart(rows, tables.n_left, len(hosts[0]))
    keys = keys_of(tables, bonds, apart)
    elements = [*hosts[0].values(), *hosts[1].values()]
    of_hosts = host_keys_of(keys, apart, elements).tolist()
    names = (dict(zip(hosts[0], of_hosts, strict=False)), dict(zip(hosts[1], of_hosts[len(hosts[0]) :], strict=True)))
    ranked = ranks_of(keys, tables.n_left)
    likeness = Likeness(tables, bonds.signature)
    fit = HostFit(tables, rows, (len(hosts[0]), len(hosts[1])), _tied_hosts(hosts, notes))
    forced, never = _orders(tables, notes)
    engine = Engine(tables, likeness, fit, LinkFit(tables, bonds), keys, ranked, forced, never)
    counts = (tables.left_counts(), tables.right_counts())
    return Run(notes, tables, bonds, hosts, rows, names, keys, ranked, engine, counts)


def _host_rows(tables: Tables, hosts: tuple[Mapping[str, Element], Mapping[str, Element]]) -> Ints:
    left = host_table(tables.seats[: tables.n_left], hosts[0])
    right = host_table(tables.seats[tables.n_left :], hosts[1])
    rows = np.full((tables.size, max(left.shape[1], right.shape[1])), -1, dtype=np.int64)
    rows[: tables.n_left, : left.shape[1]] = left
    rows[tables.n_left :, : right.shape[1]] = right
    return rows


def _set_apart(rows: Ints, n_left: int, n_hosts: int) -> Ints:
    """The hosts of both sides in one numbering."""
    apart = rows.copy()
    apart[n_left:][apart[n_left:] >= 0] += n_hosts
    return apart


def _tied_hosts(hosts: tuple[Mapping[str, Element], Mapping[str, Element]], notes: Notes) -> list[tuple[int, int]]:
    numbers = [{name: index for index, name in enumerate(side)} for side in hosts]
    pairs = [(a, b) for match in notes.same_board for a in match.left for b in match.right]
    return [(numbers[0][a], numbers[1][b]) for a, b in pairs if a in numbers[0] and b in numbers[1]]


def _orders(tables: Tables, notes: Notes) -> tuple[dict[int, int], set[tuple[int, int]]]:
    """What the notes tie and forbid, as indices of seats."""
    sides = ({}, {})  # type: tuple[dict[str, list[int]], dict[str, list[int]]]
    for index, seat in enumerate(tables.seats):
        for name in seat.ids:
            sides[index >= tables.n_left].setdefault(name, []).append(index)
    forced: dict[int, int] = {}
    for match in (*notes.same_board, *notes.tie):
        lefts = dict.fromkeys(s for name in match.left for s in sides[0].get(name, ()))
        rights = dict.fromkeys(s for name in match.right for s in sides[1].get(name, ()))
        of_hosts = match in notes.same_board  # a piece that carries things may also do something itself
        forced |= _tied_seats(tables.seats, list(lefts), list(rights), only_shared=of_hosts)
    never = {
        (a, b)
        for match in notes.never
        for left in match.left
        for right in match.right
        for a in sides[0].get(left, ())
        for b in sides[1].get(right, ())
    }
    return forced, never


def _tied_seats(seats: list[Seat], lefts: list[int], rights: list[int], *, only_shared: bool) -> dict[int, int]:
    """Seats of tied elements by the functions that both have; where they share none, their main ones if so wanted."""
    by_function = {seats[b].function: b for b in reversed(rights)}
    shared = {a: by_function[seats[a].function] for a in reversed(lefts) if seats[a].function in by_function}
    shared = {a: b for b, a in {b: a for a, b in shared.items()}.items()}
    return shared or ({lefts[0]: rights[0]} if lefts and rights and not only_shared else {})


def _pair(run: Run) -> None:
    """The first rounds within functions, the second pass for what is left, and the best set at the end."""
    engine = run.engine
    found = engine.candidates(*shortlist(run.tables, engine.likeness, run.links, run.ranked))
    matching = engine.settle(found)
    engine.hosts.learn(matching)
    more = second_pairs(run.tables, run.links, run.host_rows, engine.hosts.alike(), matching)
    found = engine.candidates(np.concatenate([found.i, more[0]]), np.concatenate([found.j, more[1]]))
    matching = engine.settle(found, matching)
    score = engine.score(found, matching)
    matching = engine.matching(found, score, engine.best(found, score))
    found.last = last_ones(run.tables, found, matching)
    score = engine.score(found, matching)
    run.found, run.chosen = found, engine.best(found, score)
    run.matching = engine.matching(found, score, run.chosen)
    run.score = engine.score(found, run.matching)
