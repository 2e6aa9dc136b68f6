"""A record as the rest of archdiff sees it."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from archdiff.quantities import Bounds, Quantity, Size

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.record.coverage import Coverage
    from archdiff.record.text import Document
    from archdiff.vocabulary import FunctionTerm, MeansTerm, Vocabulary

Path = tuple[str | int, ...]
UNKNOWN_PURPOSE = "purpose not known"
# What one element says of another, beside what carries it.
_RELATIONS = (
    "joined_to",
    "fed_by",
    "between",
    "covers",
    "serves",
    "sits_in",
    "laid_through",
    "feeds",
    "made_by",
    "from",
)


@dataclass(frozen=True, slots=True, eq=False)
class Element:
    """Anything in a record that has an id.

    `facts` holds every property as stated: quantities as Quantity, sizes as Size, lists as tuples, the rest as
    text, numbers, truth values and mappings. `functions` begins with the main one; `functions` and `means` are
    the vocabulary's own terms where it knows them, else the words as written.

    >>> chip = result.comparison.left.elements["IC1"]
    >>> chip.function, chip.means, chip.hosts
    ('host processing', 'microcontroller', ('control',))
    """

    id: str
    section: str
    path: Path
    facts: Mapping[str, Any]
    functions: tuple[str, ...] = ()
    means: str = ""
    hosts: tuple[str, ...] = ()

    @property
    def function(self) -> str:
        """The main function, or '' where it has none."""
        return self.functions[0] if self.functions else ""

    @property
    def label(self) -> str:
        """What to call it: its name; else, what carries others, its id, and anything else its function."""
        carries = self.section in ("boards", "enclosure")
        return str(self.facts.get("name") or (self.id if carries else self.function) or self.id)

    @property
    def count(self) -> int:
        """How many alike this one entry stands for."""
        return int(self.facts.get("count", 1))

    @property
    def populated(self) -> bool:
        """False for a site that is laid out but left empty."""
        return self.facts.get("populated") is not False

    @property
    def sure(self) -> str:
        """How it is known: measured, read, seen, inferred or guessed; '' where not said."""
        return str(self.facts.get("sure", ""))

    @property
    def evidence(self) -> tuple[str, ...]:
        """Ids of the evidence it rests on."""
        return tuple(self.facts.get("evidence", ()))

    def text(self, name: str) -> str:
        """The fact `name` as written, '' where it is not stated."""
        value = self.facts.get(name)
        return "" if value is None else str(value)

    def bounds(self, name: str) -> Bounds | None:
        """The quantity or number `name` in the unit that records are kept in; None where it is not stated."""
        return as_bounds(self.facts.get(name))

    def size(self, name: str = "size") -> Size | None:
        """The size `name`; None where it is not stated."""
        value = self.facts.get(name)
        return value if isinstance(value, Size) else None

    def texts(self, name: str) -> tuple[str, ...]:
        """The texts or ids of the list `name`; empty where it is not stated."""
        return tuple(str(item) for item in self.facts.get(name, ()))

    @property
    def at(self) -> tuple[Bounds, Bounds] | None:
        """Position on its host in mm; None where it is not stated."""
        value = self.facts.get("at")
        if not isinstance(value, tuple) or len(value) != 2:  # noqa: PLR2004 - across and up
            return None
        across, up = as_bounds(value[0]), as_bounds(value[1])
        return None if across is None or up is None else (across, up)


def as_bounds(value: Any) -> Bounds | None:
    """A stated quantity or number as bounds; None for anything else."""
    if isinstance(value, Quantity):
        return value.bounds
    if isinstance(value, int | float) and not isinstance(value, bool):
        return Bounds.exact(float(value))
    return None


@dataclass(frozen=True, slots=True)
class Absence:
    """A function stated not to be there; `separate` where it is only not there as a part of its own."""

    function: str
    separate: bool
    embedded_in: str
    on: str
    because: str
    sure: str
    evidence: tuple[str, ...]
    path: Path


@dataclass(eq=False)
class Record:
    """One product as found on the bench.

    >>> record = result.comparison.left
    >>> [board.id for board in record.boards]
    ['light', 'control']
    >>> record.elements["IC1"].bounds("pins")
    Bounds(best=16.0, low=16.0, high=16.0)
    """

    document: Document
    vocabulary: Vocabulary
    coverage: Coverage
    product: Mapping[str, Any]
    elements: Mapping[str, Element]
    absences: tuple[Absence, ...] = ()
    opening: tuple[Mapping[str, Any], ...] = ()
    evidence: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    decisions: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    questions: tuple[Mapping[str, Any], ...] = ()
    power: Mapping[str, Any] = field(default_factory=dict)
    _sections: dict[str, tuple[Element, ...]] = field(default_factory=dict)

    @property
    def file(self) -> str:
        """The file it was read from, as the caller named it."""
        return self.document.file

    @property
    def name(self) -> str:
        """The product's name."""
        return str(self.product["name"])

    def section(self, name: str) -> tuple[Element, ...]:
        """The elements of the section `name`, such as 'parts' or 'power.entry', in the order of the file."""
        if not self._sections:
            gathered: dict[str, list[Element]] = {}
            for element in self.elements.values():
                gathered.setdefault(element.section, []).append(element)
            self._sections = {key: tuple(found) for key, found in gathered.items()}
        return self._sections.get(name, ())

    @property
    def boards(self) -> tuple[Element, ...]:
        """The circuit boards."""
        return self.section("boards")

    @cached_property
    def hosts(self) -> Mapping[str, Element]:
        """Boards and enclosure pieces by id: what can carry something."""
        return {element.id: element for name in ("boards", "enclosure") for element in self.section(name)}

    @cached_property
    def carried(self) -> Mapping[str, tuple[Element, ...]]:
        """What lies on one host and no other, by that host's id, in the order of the file."""
        gathered: dict[str, list[Element]] = {}
        for element in self.elements.values():
            if len(element.hosts) == 1:
                gathered.setdefault(element.hosts[0], []).append(element)
        return {host: tuple(found) for host, found in gathered.items()}

    def function_term(self, function: str) -> FunctionTerm | None:
        """The vocabulary's entry for a `function`; None for a function it does not know."""
        return self.vocabulary.functions.get(function)

    def means_term(self, means: str) -> MeansTerm | None:
        """The vocabulary's entry for a `means`; None for one that it does not know."""
        return self.vocabulary.means.get(means)

    def has_trait(self, element: Element, trait: str) -> bool:
        """Whether the means of `element` has that `trait` in the vocabulary."""
        term = self.means_term(element.means)
        return term is not None and trait in term.traits

    def subsystem(self, function: str) -> str:
        """The subsystem a `function` belongs to, '' for a function that the vocabulary does not know."""
        term = self.function_term(function)
        return term.subsystem if term else ""

    def links(self, element: Element) -> Iterator[tuple[str, str]]:
        """(relation, id) of every element that `element` names: joined to, fed by, covers, between ..."""
        for relation in _RELATIONS:
            value = element.facts.get(relation)
            for name in value if isinstance(value, tuple) else (value,):
                if isinstance(name, str) and name in self.elements:
                    yield relation, name
