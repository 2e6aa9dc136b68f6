"""Structure: the design structure matrix in numbers, as far as the record states what is tied to what.

What a thing sits on, is joined to and is fed by is stated thing by thing, and hardly anyone traces it all. So every
figure says how far its bounds hold when there are more links, and more things, than the record lists.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, listed, number, open_above, told
from archdiff.figures.facts.matrix_facts import by_host, links_in_use, look, purpose_of
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.structure import IN_USE, OF_THE_BUILD, THINGS
from archdiff.structure.complexity import (
    complexity,
    energy,
    greatest_complexity,
    greatest_energy,
    least_complexity,
    least_energy,
)
from archdiff.structure.modules import HIGHEST, LOWEST, best_grouping, modularity, shares_within
from archdiff.structure.visibility import visibility_of

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("structure", "Structure", 45)
_ALIKE = "several alike under one entry are each linked as the entry says (own convention; no source)"
_BOTH_WAYS = (
    "what is joined depends on each other; a load depends on its supply, and what comes later on a path on what comes "
    "before it (own convention; no source)"
)
_EVEN = "every thing and every link weighs 1; the source leaves the weights to whoever knows the parts"
_MOST_FOR_VALUES, _MOST_FOR_SEARCH = 600, 1000  # entries; beyond them the sums take longer than all the rest


@figure(
    title="Things listed",
    order=10,
    meaning="How many boards, parts, controls, sensors and pieces are listed that can be tied to each other.",
    formula="count of what is listed, without links, joints and empty sites: rows of the matrix",
    source="count; common practice, no source",
)
def things_listed(record: Record) -> Measure:
    """Rows of the matrix, entries that stand for several counted as such."""
    ledger = Ledger(record)
    whole = ledger.whole(*THINGS)
    things = listed(record, *THINGS)
    words = f"{len(things)} entries stand for {number(things)} things"
    return ledger.measure(open_above(number(things), whole=whole), words)


@figure(
    title="Linked pairs of things",
    order=20,
    meaning="How many pairs of things are tied: one sits on, is joined to, fed by, fastened to or next to the other.",
    formula="count of pairs with one relation or more, in either direction",
    source="count; common practice, no source",
)
def linked_pairs(record: Record) -> Measure:
    """Pairs of things with a mark in any layer of the build; a lower bound unless all was traced."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    links = known.matrix.linked()
    parts = {
        layer.value: open_above(known.matrix.linked([layer]), whole=known.links)
        for layer in OF_THE_BUILD
        if known.matrix.marks[layer]
    }
    how = "; ".join(f"{name} {told(part)}" for name, part in parts.items())
    words = f"{how}; pairs tied in several ways counted once: {links}"
    return known.ledger.measure(open_above(links, whole=known.links), words, parts)


@figure(
    title="Links per thing",
    order=30,
    meaning="How many linked pairs there are for each thing; simple assemblies have about two or three.",
    formula="linked pairs / things, each pair counted once",
    source="interactions per element: Whitney 2004, Physical limits to modularity (MIT ESD working paper); from memory",
)
def links_per_thing(record: Record) -> Measure:
    """Linked pairs for each thing: a lower bound where all things are known, nothing where some may be missing."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    links, size = known.matrix.linked(), known.matrix.size
    how = f"{links} / {size} = {links / size:.4g}" + ("" if known.things else " of what is listed")
    return known.ledger.measure(open_above(links / size, whole=known.links) if known.things else None, how)


@figure(
    title="Filled share of the matrix",
    order=40,
    meaning="Share of all pairs of things that are tied to each other directly.",
    formula="2 x linked pairs / (n (n - 1))",
    source="density of a graph without direction: any textbook of graph theory",
)
def filled_share(record: Record) -> Measure:
    """Share, 0 to 1; with all things known it can only be more."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    size = known.matrix.size
    if size < 2:  # noqa: PLR2004 - one thing makes no pair
        return known.nothing("fewer than two things")
    links, most = known.matrix.linked(), size * (size - 1) / 2
    how = f"{links} of {most:g} pairs of what is listed"
    return known.ledger.measure(known.between(links / most, 0.0, 1.0, falls=False), how)


@figure(
    title="Linked pairs of subsystems",
    order=50,
    meaning="How many pairs of subsystems have things tied to each other: how far the jobs reach into one another.",
    formula="count of pairs of different subsystems with one linked pair of things or more",
    source="count; common practice, no source",
)
def linked_subsystems(record: Record) -> Measure:
    """Pairs of subsystems that are linked, of all that the vocabulary could make; boards belong to none."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    things = [record.elements[name] for name in known.matrix.ids]
    purposes = [purpose_of(known.ledger, thing) if thing.section != "boards" else None for thing in things]
    named = [term.subsystem if term else "" for term in purposes]
    sure = known.links and all(name or e.section == "boards" for name, e in zip(named, things, strict=True))
    many = known.matrix.counts
    counts: Counter[tuple[str, ...]] = Counter()
    for a, b in known.matrix.pairs():
        counts[tuple(sorted((named[a], named[b])))] += many[a] * many[b]
    linked = {pair: count for pair, count in counts.items() if all(pair) and pair[0] != pair[1]}
    number = len(record.vocabulary.subsystems)
    most = number * (number - 1) // 2
    how = f"{len(linked)} of {most}; most between {_most_linked(linked)}" if linked else f"none of {most}"
    bounds = Bounds.exact(len(linked)) if sure else Bounds(None, len(linked), most)
    return known.ledger.measure(bounds, how)


@figure(
    title="Propagation cost",
    order=60,
    meaning="Share of the product that a thing depends on in use, directly or through others, on average.",
    formula="marks of the visibility matrix / n squared, each thing seeing itself; signals, supply and paths",
    source="MacCormack, Rusnak & Baldwin 2006, Management Science 52:1015-1030; from memory, recomputed with networkx",
    preferred="lower: a change stays near where it is made",
)
def propagation_cost(record: Record) -> Measure:
    """Share, 0 to 1; a further link never lowers it, a further thing may."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    size = known.matrix.size
    known.ledger.assume(_BOTH_WAYS)
    known.ledger.assume(_ALIKE)
    seen = visibility_of(known.matrix.depends_on(IN_USE), known.matrix.counts)
    how = f"{seen.total} / {size} squared = {seen.propagation_cost:.4g}" + (
        "" if known.links else " of what is recorded"
    )
    return known.ledger.measure(known.between(seen.propagation_cost, 0.0, 1.0, falls=False), how)


@figure(
    title="Core share",
    order=70,
    meaning="Share of the things in the largest group in which each depends on every other in use.",
    formula="things of the largest cyclic group / n; beside it control (sees it), shared (seen by it) and periphery",
    source="Baldwin, MacCormack & Rusnak 2014, Research Policy 43:1381-1397; read, recomputed with networkx",
)
def core_share(record: Record) -> Measure:
    """Share, 0 to 1, of the core; the other three roles are told with it, and bounded only where all is known."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    size = known.matrix.size
    known.ledger.assume(_BOTH_WAYS)
    known.ledger.assume(_ALIKE)
    seen = visibility_of(known.matrix.depends_on(IN_USE), known.matrix.counts)
    tally: Counter[str] = Counter()
    for role, count in zip(seen.roles(), known.matrix.counts, strict=True):
        tally[role.value] += count
    how = ", ".join(f"{role} {count}" for role, count in tally.most_common()) + f" of {size}"
    parts = {role: Bounds.exact(count) for role, count in tally.items()} if known.links else {}
    bounds = known.between(tally["core"] / size, 0.0, 1.0, falls=False)
    return known.ledger.measure(bounds, how + ("" if known.links else " recorded"), parts)


@figure(
    title="Modularity of the boards' cut",
    order=80,
    meaning="How far the links in use stay on one board or piece, beyond chance: 0 no more than by chance.",
    formula="sum over boards and pieces of links within / m - (degree / 2m) squared; signals, supply and paths",
    source="Newman & Girvan 2004, Physical Review E 69:026113; recomputed with networkx",
)
def modularity_of_cut(record: Record) -> Measure:
    """Modularity of the grouping of things by what carries them; from -1/2 to less than 1."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    shares = shares_within(links_in_use(known.matrix), by_host(known))
    if shares is None:
        return known.nothing("no signal, supply or path link is recorded")
    known.ledger.assume(_ALIKE)
    within, chance = shares
    how = f"{within:.4g} of {known.matrix.linked(IN_USE)} links in use lie within, {chance:.4g} would by chance"
    words = how + ("" if known.links else ", as recorded")
    return known.ledger.measure(known.between(within - chance, LOWEST, HIGHEST), words)


@figure(
    title="Modularity of the best grouping found",
    order=90,
    meaning="How far the links in use could stay within groups, if things were grouped by nothing but their links.",
    formula="the same sum, greatest over the groupings that a search by single moves and merges found",
    source="Newman & Girvan 2004; search as in Blondel et al. 2008; the best there is was not proved to be found",
)
def modularity_found(record: Record) -> Measure:
    """The greatest modularity found, never below that of the boards' cut; at least 0 for any product."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    links, cut_by_host = links_in_use(known.matrix), by_host(known)
    cut = modularity(links, cut_by_host)
    if cut is None:
        return known.nothing("no signal, supply or path link is recorded")
    known.ledger.assume(_ALIKE)
    if len(links) > _MOST_FOR_SEARCH:
        low = max(cut, 0.0) if known.links else 0.0
        return known.ledger.measure(Bounds.unknown(low, HIGHEST), f"not searched: more than {_MOST_FOR_SEARCH} entries")
    groups = best_grouping(links, [cut_by_host])
    value = modularity(links, groups) or 0.0
    sizes = sorted(Counter(g for g, near in zip(groups, links, strict=True) if near).values(), reverse=True)
    how = f"{value:.4g} with groups of {', '.join(map(str, sizes))} entries; boards and pieces reach {cut:.4g}"
    return known.ledger.measure(known.between(value, 0.0, HIGHEST), how)


@figure(
    title="Structural complexity",
    order=100,
    meaning="One number for how many things there are, how many links, and how much these run across each other.",
    formula="C1 + C2 C3: things + 2 x linked pairs x (sum of singular values of the matrix of links) / n",
    source="Sinha & de Weck 2013, ASME DETC2013-12013; recomputed with numpy",
    preferred="lower, for the same functions: less to design, make and test",
)
def structural_complexity(record: Record) -> Measure:
    """Complexity with all weights 1; where links may be missing, bounded by what no graph of that size passes."""
    known = look(record)
    if known.why_not:
        return known.nothing()
    size, links = known.matrix.size, known.matrix.linked()
    known.ledger.assume(_EVEN)
    known.ledger.assume(_ALIKE)
    low = least_complexity(size, links, more=not known.things)
    high = greatest_complexity(size) if known.things else math.inf
    if len(known.matrix.ids) > _MOST_FOR_VALUES:
        if known.links:
            low, high = (complexity(size, links, e) for e in (least_energy(links), greatest_energy(size, links)))
        how = f"more than {_MOST_FOR_VALUES} entries: only the limits that no structure of that size passes"
        return known.ledger.measure(Bounds.unknown(low, high), how)
    sum_of_values = energy(known.matrix.pairs(), known.matrix.counts)
    value = complexity(size, links, sum_of_values)
    how = f"{size} + 2 x {links} x {sum_of_values:.5g} / {size} = {value:.4g}"
    return known.ledger.measure(known.between(value, low, high), how + ("" if known.links else " as recorded"))


def _most_linked(linked: dict[tuple[str, ...], int]) -> str:
    most = max(linked.values())
    pairs = sorted(f"{a} and {b}" for (a, b), count in linked.items() if count == most)
    return f"{'; '.join(pairs)} ({most} pairs of things{' each' if len(pairs) > 1 else ''})"
