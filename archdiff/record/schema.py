"""The shape check: data against one of the JSON Schemas, with every fault at its line and column.

A quick validator says yes or no; only when it says no is the slower one asked for the words.
"""

from __future__ import annotations

import difflib
import json
from functools import cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jsonschema_rs

if TYPE_CHECKING:
    from collections.abc import Iterator

    from jsonschema.exceptions import ValidationError

    from archdiff.problems import Problem
    from archdiff.record.text import Document


@cache
def load_schema(name: str) -> dict[str, Any]:
    """The JSON Schema called `record`, `notes` or `comparison`, from the wheel or the checkout."""
    inside = resources.files("archdiff").joinpath("schema", f"{name}.schema.json")
    if inside.is_file():
        text = inside.read_text("utf-8")
    else:
        text = (Path(__file__).parents[2] / "schema" / f"{name}.schema.json").read_text("utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


@cache
def _quick(name: str) -> Any:
    return jsonschema_rs.Draft7Validator(load_schema(name))


def shape_problems(document: Document, schema: str) -> list[Problem]:
    """All places where the document's data does not have the shape that the schema asks for."""
    return [problem for fault in _faults(document, schema) for problem in _say(document, fault)]


def cut_faulty(document: Document, schema: str) -> bool:
    """Take what has the wrong shape out of the data, so that the rest can still be checked for sense.

    False where so much is wrong that the rest would be misread: a whole element, or a section.
    """
    for fault in list(_faults(document, schema)):
        path = list(fault.absolute_path)
        if fault.validator == "additionalProperties":
            paths = [[*path, name] for name in _unknown(fault)]
        else:
            paths = [] if fault.validator in ("required", "propertyNames") and path else [path]
        if not all(_cut(document.data, path) for path in paths):
            return False
    return True


def _cut(data: Any, path: list[Any]) -> bool:
    """Delete one property of an element; of a list, the whole list, since the places of its items are counted."""
    while any(isinstance(step, int) for step in path):
        path = path[:-1]
    known_depth = 3  # section, element, property
    if len(path) < known_depth and path != ["opening"]:
        return False
    for step in path[:-1]:
        data = data.get(step, {})
    data.pop(path[-1], None)
    return True


def _faults(document: Document, schema: str) -> Iterator[ValidationError]:
    if _quick(schema).is_valid(document.data):
        return
    from jsonschema import Draft7Validator

    for error in Draft7Validator(load_schema(schema)).iter_errors(document.data):
        yield from _leaves(error)


def _leaves(error: ValidationError) -> Iterator[ValidationError]:
    """The deepest faults: of a choice, those of the branch that was most nearly met."""
    if not error.context:
        yield error
        return
    branches: dict[Any, list[ValidationError]] = {}
    for child in error.context:
        branches.setdefault(child.schema_path[0], []).append(child)
    deepest = max(branches.values(), key=lambda faults: (max(len(f.path) for f in faults), -len(faults)))
    if all(len(fault.path) == 0 for fault in deepest):
        yield error
        return
    for child in deepest:
        yield from _leaves(child)


def _say(document: Document, error: ValidationError) -> Iterator[Problem]:
    path = list(error.absolute_path)
    kind = error.validator
    if kind == "additionalProperties" and isinstance(error.instance, dict):
        yield from _unknown_keys(document, error, path)
    elif kind == "propertyNames":
        pass  # its context says more
    elif kind == "required":
        name = _missing(error)
        yield document.problem(path, "missing-entry", f"'{name}' is missing here", _add_hint(error, name))
    elif kind in {"enum", "const"}:
        yield document.problem(path, "not-one-of", f"{_shown(error.instance)} is not allowed here", _choices(error))
    elif kind == "pattern" and "propertyNames" in list(error.absolute_schema_path):
        hint = "use letters, digits, _ . and - only, beginning with a letter, digit or _"
        yield document.problem(
            [*path, str(error.instance)], "bad-id", f"{_shown(error.instance)} is no id", hint, key=True
        )
    else:
        yield document.problem(path, "wrong-shape", _plain_words(error), _example(error))


def _unknown_keys(document: Document, error: ValidationError, path: list[Any]) -> Iterator[Problem]:
    about: Any = error.schema
    inside: Any = error.instance
    known = list(about.get("properties", {}))
    for name in inside:
        if name in known:
            continue
        near = difflib.get_close_matches(str(name), known, n=1, cutoff=0.6)
        hint = f"did you mean '{near[0]}'?" if near else "known here: " + ", ".join(known)
        if inside[name] is None and not near:
            # In a mapping on one line 'note: left, and right' ends at the comma and makes 'and right' a key.
            hint = "if this belongs to the text before it, put that text in quotes: a comma ends it here"
        message = f"'{name}' is not known in {_where(path)}"
        yield document.problem([*path, name], "unknown-entry", message, hint, key=True)


def _missing(error: ValidationError) -> str:
    """Which one this fault is about: the library tells each missing name on its own, in its message only."""
    wanted: Any = error.validator_value
    inside: Any = error.instance
    missing = [str(name) for name in wanted if name not in inside]
    return next((name for name in missing if error.message.startswith(repr(name))), missing[0])


def _unknown(error: ValidationError) -> list[str]:
    about: Any = error.schema
    inside: Any = error.instance
    return [name for name in inside if name not in about.get("properties", {})]


def _where(path: list[Any]) -> str:
    return "the record" if not path else "'" + " → ".join(str(step) for step in path) + "'"


def _add_hint(error: ValidationError, name: str) -> str:
    schema: Any = error.schema
    about = schema.get("properties", {}).get(name, {})
    if "$ref" in about:
        about = {}
    described = about.get("description", "")
    return f"add '{name}: …'. {described}".strip()


def _choices(error: ValidationError) -> str:
    values = error.validator_value if isinstance(error.validator_value, list) else [error.validator_value]
    words = [str(value) for value in values]
    near = difflib.get_close_matches(str(error.instance), words, n=1, cutoff=0.6)
    listed = "write one of: " + ", ".join(words[:20])
    return f"did you mean '{near[0]}'? {listed}" if near else listed


def _plain_words(error: ValidationError) -> str:
    if error.validator == "type":
        about: Any = error.schema
        if "x-quantity" in about and isinstance(error.instance, int | float):
            return f"{error.instance} has no unit"
        wanted: Any = error.validator_value
        names = [wanted] if isinstance(wanted, str) else list(wanted)
        return f"{_shown(error.instance)} is not {' or '.join(_TYPES[name] for name in names)}"
    if error.validator == "anyOf":
        return f"{_shown(error.instance)} is not of a form that is allowed here"
    if error.validator in {"minLength", "minItems", "minProperties"} and not error.instance:
        return "this is empty"
    message: str = error.message
    return message


_TYPES = {
    "object": "a mapping (name: value)",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "nothing",
}


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) < 60 else text[:57] + "…"  # noqa: PLR2004 - what fits a line


def _example(error: ValidationError) -> str:
    examples = error.schema.get("examples", []) if isinstance(error.schema, dict) else []
    if not examples:
        return "see the schema's description of this entry"
    return "write for example: " + json.dumps(examples[0], ensure_ascii=False)
