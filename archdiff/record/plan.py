"""What the record's schema says of every property, made quick to walk.

The schema is the one place that says which property is a quantity and of what kind (`x-quantity`), which is
a reference and to what (`x-refers-to`), which is a term of the vocabulary, and which sections hold seats.
A new property or section is therefore an edit of the schema and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Any

from archdiff.record.schema import load_schema


@dataclass(slots=True)
class Plan:
    """What one place of the data holds: exactly one of the kinds below, or nothing that needs care."""

    quantity: str = ""  # dimension, or "size"
    refers_to: tuple[str, ...] = ()
    term: str = ""  # "function" or "means"
    is_text: bool = False
    properties: dict[str, Plan] = field(default_factory=dict)
    entries: Plan | None = None  # of a map keyed by free names
    items: Plan | None = None  # of a list


@dataclass(frozen=True, slots=True)
class Section:
    """One section of the record that holds elements keyed by id."""

    name: str  # as in coverage and in Element.section: "parts", "power.entry"
    title: str
    path: tuple[str, ...]
    plan: Plan
    default_function: str
    holds_seats: bool

    @property
    def covered_by(self) -> str:
        """The name under which `coverage` speaks of it."""
        return self.path[0]


@cache
def record_plan() -> Plan:
    """The plan of a whole record."""
    schema = load_schema("record")
    return _compile(schema, schema["definitions"], {})


@cache
def sections() -> tuple[Section, ...]:
    """Every section that holds elements, in the order of the schema."""
    schema = load_schema("record")
    found: list[Section] = []
    for name, about in schema["properties"].items():
        resolved = schema["definitions"][about["$ref"].rsplit("/", 1)[1]] if "$ref" in about else about
        if "x-seats" in resolved:
            found.append(_section((name,), resolved))
        for inner, described in resolved.get("properties", {}).items():
            if "x-seats" in described:
                found.append(_section((name, inner), described))
    return tuple(found)


def section(name: str) -> Section:
    """The section of that name; KeyError where there is none."""
    return next(known for known in sections() if known.name == name)


def _section(path: tuple[str, ...], about: dict[str, Any]) -> Section:
    plan = record_plan()
    for step in path:
        plan = plan.properties[step]
    if plan.entries is None:
        raise KeyError(path)
    default = about.get("x-default-function", "")
    return Section(".".join(path), about["title"], path, plan.entries, default, about["x-seats"])


def _compile(about: dict[str, Any], definitions: dict[str, Any], done: dict[str, Plan]) -> Plan:
    for part in (about, *about.get("allOf", ())):
        if "$ref" in part:
            name = part["$ref"].rsplit("/", 1)[1]
            if name not in done:
                done[name] = Plan()
                made = _compile(definitions[name], definitions, done)
                for slot in Plan.__slots__:
                    setattr(done[name], slot, getattr(made, slot))
                if name in ("function", "means"):
                    done[name].term = name
            return done[name]
    plan = Plan(about.get("x-quantity", ""), tuple(about.get("x-refers-to", ())))
    plan.is_text = about.get("type") == ["string", "number"] and not plan.quantity
    plan.properties = {name: _compile(inner, definitions, done) for name, inner in about.get("properties", {}).items()}
    if isinstance(about.get("additionalProperties"), dict):
        plan.entries = _compile(about["additionalProperties"], definitions, done)
    if "items" in about:
        plan.items = _compile(about["items"], definitions, done)
    for branch in about.get("anyOf", ()):
        inner = _compile(branch, definitions, done)
        plan.properties |= inner.properties
        plan.entries = plan.entries or inner.entries
    return plan
