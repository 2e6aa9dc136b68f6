"""The stages of a path, each with what is known of it: its element or its words, means, material, facing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from archdiff.alignment.seats import content
from archdiff.alignment.verdict import weakest, words
from archdiff.record import UNKNOWN_PURPOSE, as_bounds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

AMOUNTS = ("thickness", "length", "width", "diameter", "area", "volume", "conductivity", "resistance", "parallel")
# What a body has, whichever way it is crossed; an element's own length or area need not be the one along the path.
_OF_THE_BODY = frozenset({"thickness"})
_OF_HEAT = frozenset({"conductivity"})
_FACING = ("facing", "faces")
_NO_CONTENT = frozenset({"what", "note", "evidence", "sure", "means"})
_DOUBTFUL = ("inferred", "guessed")


@dataclass(frozen=True, eq=False)
class Stage:
    """One stage of a path; `place` counts from 1. `thing` is the element it names, where it names one.

    `means` is that of the stage, else of the element, else what the vocabulary makes of the words; `role` is what
    such a means is drawn as (pad, plate, seal, case ...). Each is '' where nothing is known of it.
    """

    path: Element
    place: int
    facts: Mapping[str, Any]
    thing: Element | None
    means: str
    role: str

    @property
    def label(self) -> str:
        """What to call it: the element's name, of one without a name its means, else the words as written."""
        if self.thing is not None:
            named = self.thing.label != self.thing.function or not self.means
            return self.thing.label if named else self.means
        return str(self.facts.get("what") or self.means or "stage not named")

    @cached_property
    def words(self) -> frozenset[str]:
        """The words of a stage that names no element; none for one that does, as names are no evidence."""
        return frozenset() if self.thing is not None else words(str(self.facts.get("what", "")))

    @cached_property
    def functions(self) -> tuple[str, ...]:
        """What its element is there for; none where that is not known."""
        return known_functions(self.thing)

    @cached_property
    def material(self) -> str:
        """What it is made of, by the stage or else by the element."""
        return self._text("material")

    @cached_property
    def facing(self) -> str:
        """Which way it points, by the stage or else by the element."""
        return next((found for name in _FACING if (found := self._text(name))), "")

    def amount(self, name: str) -> Any:
        """A quantity as stated, of the stage or, for what its body has, of the element; None where neither says.

        Of a stage with a length along the path the wall's thickness says nothing: a duct, a hole, a lead. How well a
        body conducts heat matters to the paths of heat alone.
        """
        stated = self.facts.get(name)
        if stated is None and self.thing is not None and self._is_crossed(name):
            return self.thing.facts.get(name)
        return stated

    def _is_crossed(self, name: str) -> bool:
        if name in _OF_HEAT:
            return self.path.facts.get("kind") == "heat"
        return name in _OF_THE_BODY and "length" not in self.facts

    def bounds(self, name: str) -> Bounds | None:
        """The same as bounds."""
        return as_bounds(self.amount(name))

    @property
    def doubtful(self) -> bool:
        """Whether this very stage is only inferred or guessed."""
        return self.facts.get("sure") in _DOUBTFUL

    @property
    def sure(self) -> str:
        """How it is known: the weaker of what the stage and its path say."""
        return weakest(self.path.sure, str(self.facts.get("sure", "")))

    @cached_property
    def key(self) -> str:
        """All that is known of it as one text, without ids, names and place in the file."""
        facts = [(name, str(value)) for name, value in self.facts.items() if name not in _NO_CONTENT]
        own = content(self.thing) if self.thing is not None else " ".join(sorted(self.words))
        return f"{own}|{self.means}|{sorted(facts)}"

    def _text(self, name: str) -> str:
        value = self.facts.get(name)
        if value is None and self.thing is not None:
            return self.thing.text(name)
        return "" if value is None else str(value)


def stages_of(record: Record, path: Element) -> tuple[Stage, ...]:
    """The stages in the order in which energy or matter takes them; none where the path states none."""
    return tuple(_stage(record, path, n, facts) for n, facts in enumerate(path.facts.get("through", ()), start=1))


def known_functions(thing: Element | None) -> tuple[str, ...]:
    """The functions of an element; none where there is no element or its purpose is not known."""
    if thing is None or UNKNOWN_PURPOSE in thing.functions:
        return ()
    return thing.functions


def is_board(thing: Element) -> bool:
    """Whether an element is a circuit board, which is there for what it carries."""
    return thing.section == "boards"


def is_doubtful(path: Element) -> bool:
    """Whether the path as a whole is only inferred or guessed."""
    return path.sure in _DOUBTFUL


def _stage(record: Record, path: Element, place: int, facts: Mapping[str, Any]) -> Stage:
    what = str(facts.get("what", ""))
    thing = record.elements.get(what)
    means = str(facts.get("means") or "")
    if not means:
        term = None if thing is not None else record.vocabulary.means_term(what)
        means = thing.means if thing is not None else (term.name if term else "")
    known = record.means_term(means) if means else None
    role = known.drawn_as if known is not None and known.drawn_as != "other" else ""
    return Stage(path, place, facts, thing, means, role)
