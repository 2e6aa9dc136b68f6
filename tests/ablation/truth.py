"""What the whole record of a product says: the yardstick for what is said of the poorer one."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from archdiff.record import sections

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.record import Element, Record

EMBEDDED = "inside another part"


class Truth:
    """Answers about one whole record."""

    def __init__(self, record: Record) -> None:
        self.record = record
        self.at_all: Counter[str] = Counter()
        self.own: Counter[str] = Counter()
        self.by_means: Counter[tuple[str, str]] = Counter()
        self.sites: Counter[str] = Counter()
        for element in record.elements.values():
            self._take(element)

    def _take(self, element: Element) -> None:
        for function in element.functions:
            if not element.populated:
                self.sites[function] += element.count
                continue
            self.at_all[function] += element.count
            means = self.means(element.id, function)
            self.by_means[function, means] += element.count
            if means != EMBEDDED:
                self.own[function] += element.count

    def knows(self, element: str, function: str) -> bool:
        """Whether that element is there and does that."""
        return element in self.record.elements and function in self.record.elements[element].functions

    def means(self, name: str, function: str) -> str:
        """By what an element does one of its functions."""
        element = self.record.elements[name]
        if element.function != function or self.record.has_trait(element, "embedded"):
            return EMBEDDED
        return element.means

    def stages(self, path: str) -> list[tuple[str, Mapping[str, Any]]]:
        """(what is there for what, facts) of each stage of a path: an element's main function, else the words."""
        through = self.record.elements[path].facts.get("through", ())
        return [(self._stage_does(str(stage["what"])), stage) for stage in through]

    def _stage_does(self, what: str) -> str:
        element = self.record.elements.get(what)
        if element is None:
            return " ".join(sorted(what.casefold().split()))
        return element.function or f"a thing under {element.section}"

    def stage_fact(self, stage: Mapping[str, Any], fact: str) -> str:
        """A fact of a stage, or else of its element; '' where neither states it."""
        element = self.record.elements.get(str(stage["what"]))
        own = stage.get(fact)
        if own is None and element is not None:
            own = element.means if fact == "means" else element.facts.get(fact)
        return "" if own is None else str(own)

    def of_kind(self, kind: str) -> int:
        """How many paths of a kind there are."""
        return sum(path.facts.get("kind") == kind for path in self.record.section("paths"))

    def like(self, name: str, function: str) -> list[Element]:
        """All elements that do a function by the same means on the same hosts as this one."""
        one = self.record.elements[name]
        return [
            other
            for other in self.record.section(one.section)
            if other.function == function and (other.means, other.hosts) == (one.means, one.hosts)
        ]

    def fact(self, name: str, fact: str) -> Any:
        """A fact of an element as the page writes its name."""
        return self.record.elements[name].facts.get(fact.replace(" ", "_"))


def functions_in(data: dict[str, Any]) -> set[str]:
    """Every function that anything in the data of a record is said to do."""
    found: set[str] = set()
    for section in sections():
        table: Any = data
        for step in section.path:
            table = table.get(step, {})
        for facts in table.values():
            found |= {facts.get("function", section.default_function), *facts.get("also", ())}
    return found
