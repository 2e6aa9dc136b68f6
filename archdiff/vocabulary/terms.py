"""The entries of the vocabulary."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Subsystem:
    """A family of functions. `name` is the word in records, `title` the word on a page."""

    name: str
    title: str
    meaning: str


@dataclass(frozen=True, slots=True)
class FunctionTerm:
    """What an element is there to do.

    `subsystem` is '' only for a purpose that is not known. `found_in` are the sections of a record in which
    the function may be written down: only when all of them were wholly looked at may it be called absent, and
    where it `may_be_embedded` in another element not even then. `unknown` stands for any function whatever.
    """

    name: str
    meaning: str
    synonyms: tuple[str, ...]
    subsystem: str
    found_in: tuple[str, ...]
    may_be_embedded: bool = False
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class MeansTerm:
    """By what a function is done.

    `subsystem` is the usual home, '' where there is none; the function decides. `letter` is the class letter
    of the reference designator (IEEE 315), '' where there is none. `drawn_as` names a drawing and `traits`
    say what code may branch on; both come from the fixed sets at the top of `terms.yaml`.
    """

    name: str
    meaning: str
    synonyms: tuple[str, ...]
    subsystem: str
    letter: str
    drawn_as: str
    traits: frozenset[str]
