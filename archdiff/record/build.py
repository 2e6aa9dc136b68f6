"""From plain data to the model: quantities read, terms brought to the vocabulary's own, hosts found."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.quantities import QuantityError, parse_quantity, parse_size
from archdiff.record.coverage import Coverage
from archdiff.record.model import UNKNOWN_PURPOSE, Absence, Element, Path, Record
from archdiff.record.plan import Plan, Section, record_plan, sections
from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.problems import Problem
    from archdiff.record.text import Document
    from archdiff.vocabulary import Vocabulary


def build_record(document: Document) -> tuple[Record, list[Problem]]:
    """The model of a document that has the right shape, with the problems of its quantities and terms."""
    return _Build(document).record()


class _Build:
    def __init__(self, document: Document) -> None:
        self.document = document
        self.data: Mapping[str, Any] = document.data
        self.plan = record_plan()
        self.problems: list[Problem] = []
        self.vocabulary = self.own_vocabulary()

    def own_vocabulary(self) -> Vocabulary:
        vocabulary = load_vocabulary()
        if "terms" not in self.data:
            return vocabulary
        try:
            return vocabulary.with_terms(self.data["terms"])
        except ValueError as error:
            named = [
                ("terms", kind, name)
                for kind, terms in self.data["terms"].items()
                for name in terms
                if f"'{name}'" in str(error)
            ]
            hint = "give the term a name of its own, and traits and sections that the vocabulary knows"
            path = named[0] if named else ("terms",)
            self.problems.append(self.document.problem(path, "bad-term", str(error), hint, key=True))
            return vocabulary

    def record(self) -> tuple[Record, list[Problem]]:
        elements: dict[str, Element] = {}
        for section in sections():
            for element in self.section_elements(section):
                if element.id in elements:
                    other = elements[element.id].section
                    message = f"the id '{element.id}' is already used under {other}"
                    hint = "ids are unique in the whole record: rename one of the two"
                    self.problems.append(self.document.problem(element.path, "id-used-twice", message, hint, key=True))
                else:
                    elements[element.id] = element
        record = Record(
            self.document,
            self.vocabulary,
            Coverage(self.data.get("coverage", {}), frozenset(name for name in self.data if self.data[name])),
            self.facts("product"),
            _with_hosts(elements),
            absences=tuple(self.absence(i, entry) for i, entry in enumerate(self.facts("absent") or ())),
            opening=self.facts("opening") or (),
            evidence=self.facts("evidence") or {},
            decisions=self.facts("decisions") or {},
            questions=self.facts("questions") or (),
            power={k: v for k, v in (self.facts("power") or {}).items() if k in ("standby", "in_use")},
        )
        return record, self.problems

    def facts(self, name: str) -> Any:
        if name not in self.data:
            return None
        return self.value(self.data[name], self.plan.properties[name], (name,))

    def section_elements(self, section: Section) -> list[Element]:
        table: Any = self.data
        for step in section.path:
            table = (table or {}).get(step)
        return [self.element(section, key, entry) for key, entry in (table or {}).items()]

    def element(self, section: Section, key: str, entry: Mapping[str, Any]) -> Element:
        path: Path = (*section.path, key)
        facts = self.value(entry, section.plan, path)
        main = facts.get("function") or section.default_function
        functions = tuple(dict.fromkeys((*((main,) if main else ()), *facts.get("also", ()))))
        return Element(key, section.name, path, facts, functions, facts.get("means", ""))

    def value(self, value: Any, plan: Plan, path: Path) -> Any:
        if isinstance(value, dict):
            inner = plan.properties
            # In the schema's order, so that nothing later can depend on the order in the file.
            keys = [key for key in inner if key in value] if inner and plan.entries is None else value
            return {key: self.value(value[key], inner.get(key) or plan.entries or _PLAIN, (*path, key)) for key in keys}
        if isinstance(value, list):
            items = plan.items or _PLAIN
            return tuple(self.value(item, items, (*path, i)) for i, item in enumerate(value))
        if plan.quantity:
            return self.quantity(str(value), plan.quantity, path)
        if plan.term:
            return self.term(str(value), plan.term)
        return str(value) if plan.is_text else value

    def quantity(self, text: str, dimension: str, path: Path) -> Any:
        try:
            return parse_size(text) if dimension == "size" else parse_quantity(text, dimension)
        except QuantityError as error:
            self.problems.append(self.document.problem(path, "not-a-quantity", str(error), error.hint))
            return None

    def term(self, text: str, kind: str) -> str:
        known = self.vocabulary.function(text) if kind == "function" else self.vocabulary.means_term(text)
        return known.name if known else text

    def absence(self, index: int, entry: Mapping[str, Any]) -> Absence:
        separate = "as" in entry or "embedded_in" in entry
        words = {name: str(entry.get(name, "")) for name in ("embedded_in", "on", "because", "sure")}
        function = str(entry.get("function") or UNKNOWN_PURPOSE)
        return Absence(function, separate, **words, evidence=tuple(entry.get("evidence", ())), path=("absent", index))


_PLAIN = Plan()


def _with_hosts(elements: dict[str, Element]) -> dict[str, Element]:
    """The same elements, each with the boards or pieces that carry it."""
    return {
        key: Element(e.id, e.section, e.path, e.facts, e.functions, e.means, _hosts_of(e, elements))
        for key, e in elements.items()
    }


def _hosts_of(element: Element, elements: Mapping[str, Element], depth: int = 0) -> tuple[str, ...]:
    if element.section in ("boards", "enclosure") and depth:
        return (element.id,)
    between = element.facts.get("between")
    if between:
        ends = [elements[end] for end in between if end in elements]
        found = [host for end in ends for host in (_hosts_of(end, elements, depth + 1) if depth < 8 else ())]  # noqa: PLR2004 - a loop of references ends here
        return tuple(dict.fromkeys(found))
    for name in ("on", "in"):
        host = element.facts.get(name)
        if isinstance(host, str) and host in elements:
            return (host,)
    seat = element.facts.get("sits_in")
    if isinstance(seat, str) and seat in elements and depth < 8:  # noqa: PLR2004
        return _hosts_of(elements[seat], elements, depth + 1)
    return ()
