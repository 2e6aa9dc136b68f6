"""The schemas hold what they promise: editors complete from them and hover over them."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft7Validator

from archdiff.quantities import DIMENSIONS
from archdiff.record.plan import Plan, record_plan, sections
from archdiff.record.schema import load_schema

if TYPE_CHECKING:
    from collections.abc import Iterator

SCHEMAS = ("record", "notes")


@cache
def _schema(name: str) -> dict[str, Any]:
    return load_schema(name)


def subschemas(node: Any, path: str = "#") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every place of a schema that is itself a schema, with its address."""
    if not isinstance(node, dict):
        return
    yield path, node
    for word in ("properties", "definitions", "patternProperties"):
        for name, inner in node.get(word, {}).items():
            yield from subschemas(inner, f"{path}/{word}/{name}")
    for word in ("additionalProperties", "items", "propertyNames", "not"):
        yield from subschemas(node.get(word), f"{path}/{word}")
    for word in ("anyOf", "allOf", "oneOf"):
        for index, inner in enumerate(node.get(word, ())):
            yield from subschemas(inner, f"{path}/{word}/{index}")


def found(name: str, node: dict[str, Any], word: str) -> Any:
    """What a property says of itself, or by what it refers to."""
    if word in node:
        return node[word]
    for part in (node, *node.get("allOf", ())):
        if "$ref" in part:
            return found(name, _schema(name)["definitions"][part["$ref"].rsplit("/", 1)[1]], word)
    return None


def properties(name: str) -> list[tuple[str, dict[str, Any]]]:
    return [
        (f"{path}/{key}", inner)
        for path, node in subschemas(_schema(name))
        for key, inner in node.get("properties", {}).items()
    ]


@pytest.mark.parametrize("name", SCHEMAS)
def test_it_is_a_schema(name: str) -> None:
    Draft7Validator.check_schema(_schema(name))
    assert _schema(name)["$schema"] == "http://json-schema.org/draft-07/schema#"


@pytest.mark.parametrize("name", SCHEMAS)
@pytest.mark.parametrize("word", ["title", "description", "examples"])
def test_every_property_says_what_it_is(name: str, word: str) -> None:
    silent = [path for path, node in properties(name) if not found(name, node, word)]
    assert not silent


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_mapping_is_closed(name: str) -> None:
    def is_open(node: dict[str, Any]) -> bool:
        return node.get("type") == "object" and node.get("additionalProperties", True) is True

    assert [path for path, node in subschemas(_schema(name)) if is_open(node)] == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_example_is_one(name: str) -> None:
    whole = _schema(name)
    checked, wrong = 0, []
    for path, node in subschemas(whole):
        validator = Draft7Validator({**node, "definitions": whole.get("definitions", {})})
        for example in node.get("examples", ()):
            checked += 1
            wrong += [(path, example, error.message) for error in validator.iter_errors(example)]
    assert not wrong
    assert checked > 20


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_reference_leads_somewhere(name: str) -> None:
    used = {node["$ref"].rsplit("/", 1)[1] for _, node in subschemas(_schema(name)) if "$ref" in node}
    defined = set(_schema(name).get("definitions", {}))
    assert used <= defined


def test_every_kind_of_quantity_is_one_that_quantities_knows() -> None:
    kinds = {node["x-quantity"] for _, node in subschemas(_schema("record")) if "x-quantity" in node}
    assert kinds <= {*DIMENSIONS, "size"}
    assert {"length", "power", "size", "money"} <= kinds


def test_examples_of_quantities_can_be_read() -> None:
    from archdiff.quantities import parse_quantity, parse_size  # noqa: PLC0415, RUF100

    read = 0
    for _, node in subschemas(_schema("record")):
        kind = node.get("x-quantity")
        for example in node.get("examples", ()) if kind else ():
            found_again = parse_size(example) if kind == "size" else parse_quantity(str(example), str(kind))
            assert str(found_again) == str(example)
            read += 1
    assert read > 30


def test_every_reference_is_to_a_section_that_there_is() -> None:
    names = {section.name for section in sections()} | {"evidence", "*"}
    wanted = {kind for _, node in subschemas(_schema("record")) for kind in node.get("x-refers-to", ())}
    assert wanted <= names
    assert {"boards", "enclosure", "evidence", "*"} <= wanted


# ---- the plan that is made from it


def test_the_plan_knows_what_stands_where() -> None:
    parts = record_plan().properties["parts"].entries
    assert parts is not None
    assert parts.properties["power"].quantity == "power"
    assert parts.properties["size"].quantity == "size"
    assert parts.properties["on"].refers_to == ("boards",)
    assert parts.properties["in"].refers_to == ("enclosure",)
    assert parts.properties["function"].term == "function"
    assert parts.properties["means"].term == "means"
    also, at = parts.properties["also"].items, parts.properties["at"].items
    assert also is not None
    assert also.term == "function"
    assert at is not None
    assert at.quantity == "length"
    assert parts.properties["marking"].is_text


def test_the_plan_has_a_place_for_every_property_of_the_schema() -> None:
    schema = _schema("record")

    def compare(about: dict[str, Any], plan: Plan, path: str, depth: int = 0) -> Iterator[str]:
        for part in (about, *about.get("allOf", ()), *about.get("anyOf", ())):
            if "$ref" in part:
                yield from compare(schema["definitions"][part["$ref"].rsplit("/", 1)[1]], plan, path, depth)
            if part.get("x-quantity", plan.quantity) != plan.quantity:
                yield f"{path} is a {part['x-quantity']}"
            for key, inner in part.get("properties", {}).items():
                if key not in plan.properties:
                    yield f"{path}/{key} is missing"
                elif depth < 12:
                    yield from compare(inner, plan.properties[key], f"{path}/{key}", depth + 1)
            if isinstance(part.get("items"), dict):
                assert plan.items is not None, path
                yield from compare(part["items"], plan.items, f"{path}[]", depth + 1)

    assert not list(compare(schema, record_plan(), ""))


def test_sections_come_in_the_order_of_the_schema_with_their_defaults() -> None:
    by_name = {section.name: section for section in sections()}
    assert list(by_name)[:2] == ["boards", "parts"]
    assert by_name["power.rails"].path == ("power", "rails")
    assert by_name["power.rails"].covered_by == "power"
    assert by_name["joints"].default_function == "fastening"
    assert by_name["parts"].default_function == "purpose not known"
    assert not by_name["boards"].holds_seats
    assert by_name["parts"].holds_seats
