"""Figures of the openings in metal shields: the result over all shields, and which facts it hangs on.

A fact is noted as used only where the result would be another without it: beside a radio whose clock nobody knows,
it does not matter that a resistor has none.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, Ledger
from archdiff.figures.facts.radio_facts import greatest
from archdiff.figures.facts.slot_facts import NONE, SOME, Scene, Slots, Source
from archdiff.record import Truth
from archdiff.record.gaps import gaps_in

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Record

    Outcome = tuple[Bounds | None, dict[str, Bounds], bool]  # value, each shield's own, whether there is none surely


@dataclass(frozen=True, slots=True)
class SlotFigure:
    """A figure of shields and frequencies.

    `value`, and its sum in `words`, are of one shield at one frequency in Hz; `pick` says which shield's value is told.
    `counted` is whether the number of openings matters, `fastest` whether only the highest frequency is shown.
    """

    value: Callable[[Slots, Bounds], Bounds]
    words: Callable[[Slots, Bounds], str]
    pick: Callable[..., Bounds | None]
    counted: bool = True
    fastest: bool = False


@dataclass(frozen=True, slots=True)
class _Fact:
    """A fact, whether it is known, and the scene without it; of several elements of which the same is known."""

    subjects: tuple[str, ...]
    name: str
    known: bool
    without: Scene


def slot_measure(
    record: Record, scene: Scene, figure: SlotFigure, *, assumed: tuple[str, ...] = (), besides: str = ""
) -> Measure:
    """The figure over all shields at the highest frequency that there may be, and each shield's own."""
    ledger = Ledger(record)
    value, parts, none_there = _outcome(scene, figure)
    _note(ledger, scene, figure)
    if none_there:
        ledger.moot()
    if _no_metal(scene):
        return ledger.measure(None, "no metal shield recorded")
    if _closed(value):
        return ledger.measure(None, "no opening in a metal shield recorded")
    if _no_source(scene):
        return ledger.measure(None, f"{scene.kind}: none recorded{besides}")
    for statement in assumed:
        ledger.assume(statement)
    how = "; ".join(f"{name}: {figure.words(*pair)}" for name, pair in _shown(scene, figure)) or "not all stated"
    return ledger.measure(value, how + besides, {name: part for name, part in parts.items() if _tells(part)})


def _no_metal(scene: Scene) -> bool:
    return all(slots.metal is Truth.NO for slots in scene.shields.values())


def _closed(value: Bounds | None) -> bool:
    """Whether nothing leaks at all, as there is no opening."""
    return value is not None and value.low == math.inf


def _no_source(scene: Scene) -> bool:
    return bool(scene.kind) and all(source.counts is Truth.NO for source in scene.sources.values())


def _none_there(scene: Scene, value: Bounds | None) -> bool:
    """Whether there surely is no shield, opening or frequency to ask of: all was looked at."""
    if _no_metal(scene) or _closed(value):
        return scene.all_shields
    return _no_source(scene) and scene.all_sources


def _outcome(scene: Scene, figure: SlotFigure) -> Outcome:
    highest: Bounds | None = ANY
    if scene.fact:
        counting = ((s.counts, s.hertz) for s in scene.sources.values() if s.counts is not Truth.NO)
        highest = greatest(counting, whole=scene.all_sources)
    parts = {name: figure.value(*pair) for name, pair in _shown(scene, figure)}
    value = None
    if highest is not None:
        metal = [slots for slots in scene.shields.values() if slots.metal is not Truth.NO]
        value = figure.pick(((s.metal, figure.value(s, highest)) for s in metal), whole=scene.all_shields)
    return value, parts, _none_there(scene, value)


def _shown(scene: Scene, figure: SlotFigure) -> Iterator[tuple[str, tuple[Slots, Bounds]]]:
    """Each shield known to be metal, at each frequency known to count, by their names."""
    stated = {s.words: s.hertz for s in scene.sources.values() if s.counts is Truth.YES and s.hertz is not None}
    if figure.fastest:
        stated = dict(sorted(stated.items(), key=lambda item: (item[1].high, item[0]))[-1:])
    for name, slots in scene.shields.items():
        if slots.metal is Truth.YES and not scene.fact:
            yield name, (slots, ANY)
        elif slots.metal is Truth.YES:
            yield from ((f"{name} at {words}", (slots, hertz)) for words, hertz in stated.items())


def _note(ledger: Ledger, scene: Scene, figure: SlotFigure) -> None:
    """Note what is lacking, and each fact without which the outcome would be another."""
    outcome = _outcome(scene, figure)
    metal = any(slots.metal is not Truth.NO for slots in scene.shields.values())
    for fact in (*_facts_of_shields(scene, figure), *(_facts_of_sources(scene) if metal else ())):
        if not fact.known or _outcome(fact.without, figure) != outcome:
            for subject in fact.subjects:
                ledger.note(subject, fact.name, known=fact.known)
    _note_coverage(ledger, "shields", needed=_outcome(replace(scene, all_shields=False), figure) != outcome)
    if metal and scene.section:
        _note_coverage(ledger, scene.section, needed=_outcome(replace(scene, all_sources=False), figure) != outcome)


def _note_coverage(ledger: Ledger, section: str, *, needed: bool) -> None:
    gaps = gaps_in(ledger.record, section)
    for gap in gaps:
        ledger.lack(gap.where, gap.how)
    if needed and not gaps:
        ledger.use(section, "coverage")


def _facts_of_shields(scene: Scene, figure: SlotFigure) -> Iterator[_Fact]:
    for name, slots in scene.shields.items():

        def fact(what: str, other: Slots, *, known: bool = True, name: str = name) -> _Fact:
            return _Fact((name,), what, known, replace(scene, shields={**scene.shields, name: other}))

        yield fact("means", replace(slots, metal=Truth.UNKNOWN), known=slots.metal is not Truth.UNKNOWN)
        if slots.metal is Truth.NO:
            continue
        if slots.count == NONE:
            yield fact("openings", replace(slots, length=None, count=SOME))
            continue
        stated = slots.length is not None
        yield fact("largest_opening", replace(slots, length=None), known=stated)
        if figure.counted or not stated:
            yield fact("openings", replace(slots, count=SOME), known=slots.count != SOME)


def _facts_of_sources(scene: Scene) -> Iterator[_Fact]:
    alike: dict[Source, list[str]] = {}
    for name, source in scene.sources.items():
        alike.setdefault(source, []).append(name)
    # Of those alike, two stand for all: the outcome tells them from one, and not from more.
    few = {name: s for s, names in alike.items() if s.counts is not Truth.NO for name in names[:2]}
    for source, names in alike.items():

        def fact(what: str, other: Source, *, known: bool, names: list[str] = names) -> _Fact:
            return _Fact(tuple(names), what, known, replace(scene, sources={**few, names[0]: other}))

        yield fact("means", replace(source, counts=Truth.UNKNOWN), known=source.counts is not Truth.UNKNOWN)
        if source.counts is not Truth.NO:
            yield fact(scene.fact, replace(source, hertz=None), known=source.hertz is not None)


def _tells(part: Bounds) -> bool:
    return part != ANY and part.low < math.inf
