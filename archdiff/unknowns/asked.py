"""What is asked for, in words: the thing by its label, the fact by its title in the record's schema."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from archdiff.record import sections
from archdiff.record.schema import load_schema
from archdiff.unknowns import ways

if TYPE_CHECKING:
    from archdiff.record import Record

_STAGE = re.compile(r"(?P<path>\S+) stage (?P<place>\d+)")
_NAMED = re.compile(r".* \((?P<id>\S+)\)")  # an open verdict names its thing by label and id
_ACTION = re.compile(r"opening (?P<place>\d+)")
_SIDES = {"bottom": "underside", "top": "top side"}
# Phrases of the figures that a reader off the bench would not understand, and what is meant.
_PHRASES = (
    (re.compile(r"placements (top|bottom)(.*)"), "how many parts are placed on its {}{}"),
    (re.compile(r"size of every part placed on its (top|bottom)(.*)"), "size of every part on its {}{}"),
    (re.compile(r"at of each(.*)"), "position of each{}"),
    (re.compile(r"not known(.*)"), "whether there is one{}"),
    (re.compile(r"function(.*)"), "what it is for{}"),
    (re.compile(r"means(.*)"), "what it is{}"),
    (re.compile(r"repair, (.*)"), "{}"),
    (re.compile(r"in"), "which piece holds it"),
    (re.compile(r"on"), "which board carries it"),
    (re.compile(r"facing"), "which way it faces"),
    (re.compile(r"fed_by"), "what feeds it"),
    (re.compile(r"made_by"), "what makes it"),
    (re.compile(r"separated_by"), "what keeps its light from its neighbours"),
)


@dataclass(frozen=True, slots=True)
class Thing:
    """What is looked at: its label, and its id in the record where it has one that says more than the label."""

    label: str
    id: str = ""

    def __str__(self) -> str:
        return f"{self.label} ({self.id})" if self.id else self.label


@dataclass(frozen=True, slots=True)
class Asked:
    """One fact of one thing that is not stated: what it is called, and how it is found out."""

    thing: Thing
    what: str
    how: str
    under: str = ""  # what the thing lies under, where that is in the way


def asked(record: Record, about: str) -> Asked:
    """The fact that a figure or a verdict lacks, 'v5: efficiency', as a thing, a fact in words, and a look."""
    address, _, fact = about.rpartition(": ")
    named = _NAMED.fullmatch(address)
    if named and named["id"] in record.elements:
        address = named["id"]
    path, thing = _addressed(record, address)
    what, how = _fact(path, fact)
    element = record.elements.get(address)
    cover = record.elements.get(element.text("hidden_under")) if element is not None else None
    in_the_way = cover is not None and how not in ways.NOT_AT_THE_THING
    return Asked(thing, what, how, f"the {in_a_sentence(cover.label)}" if cover is not None and in_the_way else "")


def thing_of(record: Record, name: str) -> Thing:
    """The thing with that id."""
    element = record.elements.get(name)
    if element is None:
        return Thing(_up(name))
    if element.label != element.id:
        return Thing(_up(element.label), element.id if element.label.casefold() != element.id.casefold() else "")
    return Thing(str(_things(tuple(element.section.split(".")))["title"]), element.id)


def _addressed(record: Record, address: str) -> tuple[tuple[str, ...], Thing]:
    """Where in the schema the facts of an address are described, and what to call the thing."""
    element = record.elements.get(address)
    if element is not None:
        return tuple(element.section.split(".")), thing_of(record, address)
    if (stage := _STAGE.fullmatch(address)) and stage["path"] in record.elements:
        return ("paths", "through"), _stage(record, stage["path"], int(stage["place"]))
    if action := _ACTION.fullmatch(address):
        return ("opening",), Thing(f"Action {action['place']} of the opening")
    if address == "product":
        return ("product",), Thing("Whole product")
    titles = {section.name: section.title for section in sections()}
    return tuple(address.split(".")), Thing(titles.get(address, _up(address) or "Whole product"))


def _stage(record: Record, path: str, place: int) -> Thing:
    stages = record.elements[path].facts.get("through", ())
    what = str(stages[place - 1].get("what", "")) if place <= len(stages) else ""
    named = f": {thing_of(record, what).label}" if what else ""
    return Thing(f"{_up(record.elements[path].label)}, stage {place}{named}", path)


def _fact(path: tuple[str, ...], fact: str) -> tuple[str, str]:
    """A fact in words, and how it is found out."""
    found = _described(path, fact)
    words = next((said for pattern, form in _PHRASES if (said := _put(pattern, form, fact))), "")
    if found is not None:
        return words or _low(found["title"]), _how(fact, found)
    first, _, rest = fact.partition(" ")
    outer, inner = _described(path, first), _described((*path, first), rest)
    if not words and outer is not None and inner is not None:  # 'supplied_with efficiency'
        return f"{_low(outer['title'])}: {_low(inner['title'])}", _how(first, outer)
    way = next((way for begin, way in ways.BY_PHRASE if begin in (words[: len(begin)], fact[: len(begin)])), "")
    return words or fact, way or _how(fact, {})


def _put(pattern: re.Pattern[str], form: str, fact: str) -> str:
    match = pattern.fullmatch(fact)
    return form.format(*(_SIDES.get(group, group) for group in match.groups())) if match else ""


def _up(label: str) -> str:
    return label[:1].upper() + label[1:]


def in_a_sentence(label: str) -> str:
    """A label within a sentence: 'radio can'; one that begins with several capitals keeps them."""
    return _low(label) if label[1:2].islower() else label


def _low(title: str) -> str:
    return title[:1].lower() + title[1:]


def _how(name: str, about: dict[str, Any]) -> str:
    if name in ways.BY_PROPERTY:
        return ways.BY_PROPERTY[name]
    if about.get("x-quantity") in ways.BY_DIMENSION:
        return ways.BY_DIMENSION[about["x-quantity"]]
    if "x-refers-to" in about:
        return ways.LINK
    return ways.BY_DIMENSION["number"] if about.get("type") == "integer" else ways.LOOK_CLOSELY


@cache
def _described(path: tuple[str, ...], fact: str) -> dict[str, Any] | None:
    """What the record's schema says of a property of the things at that place; None where it has none."""
    about = _things(path).get("properties", {}).get(fact)
    if about is None:
        return None
    # A property that has no title of its own is called as in the record, not as the quantity that it is.
    return {**_resolved(about), "title": about.get("title", fact.replace("_", " "))}


@cache
def _things(path: tuple[str, ...]) -> dict[str, Any]:
    """What the record's schema says of one of the things at that place; empty where it has none."""
    node = _resolved(load_schema("record"))
    for step in path:
        if step not in node.get("properties", {}):
            return {}
        node = _entry(_resolved(node["properties"][step]))
    return node


def _entry(node: dict[str, Any]) -> dict[str, Any]:
    """One thing of a map of things or of a list of them, else the node itself."""
    inner = node.get("additionalProperties") or node.get("items")
    return _resolved(inner) if isinstance(inner, dict) else node


def _resolved(node: dict[str, Any]) -> dict[str, Any]:
    """A part of the schema with what it refers to under it; its own words go before those of the definition."""
    found: dict[str, Any] = {}
    for part in (*node.get("allOf", ()), node):
        if "$ref" in part:
            found |= _resolved(load_schema("record")["definitions"][part["$ref"].rsplit("/", 1)[1]])
    return found | {key: value for key, value in node.items() if key not in ("$ref", "allOf")}
