"""Reading a record or notes from a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from archdiff.problems import EnvironmentTroubleError, Problem
from archdiff.record.build import build_record
from archdiff.record.schema import cut_faulty, shape_problems
from archdiff.record.text import Document, end_of, parse_text

if TYPE_CHECKING:
    from archdiff.record.model import Record

_LARGEST = 64 * 1024 * 1024


OTHER_FORMAT = "other-format"
_MARKS = {"record": "archdiff", "notes": "archdiff_notes"}
_CALLED = {"record": "one product's record", "notes": "notes on a comparison"}


def read_document(file: str | Path, schema: str) -> Document:
    """Read a YAML file and check its shape; all faults are in the result's `problems`.

    Raises EnvironmentTroubleError where the file cannot be read at all.
    """
    document = _text_of(file)
    if document.data is None and not document.problems:
        hint = f"see the {schema} format in the README, or copy one of the examples"
        document.problems.append(Problem(str(file), 1, 1, "empty", "there is nothing in this file", hint))
    elif (other := _of_other_format(document, schema)) is not None:
        document.problems.append(other)
    elif not any(problem.rule == "not-yaml" for problem in document.problems):
        document.problems += shape_problems(document, schema)
    return document


def _of_other_format(document: Document, schema: str) -> Problem | None:
    """Whether notes were given for a record, or a record for notes: one word about that helps more than ten faults."""
    data = document.data if isinstance(document.data, dict) else {}
    for kind, mark in _MARKS.items():
        if kind != schema and mark in data and _MARKS.get(schema, mark) not in data:
            hint = "a record goes before notes: archdiff compare LEFT.yaml RIGHT.yaml --notes NOTES.yaml"
            return document.problem((mark,), OTHER_FORMAT, f"this is a file of {_CALLED[kind]}", hint, key=True)
    return None


def read_record(file: str | Path) -> tuple[Record | None, list[Problem]]:
    """Read one record: the model and all problems of its text, shape, quantities and terms.

    With faults of shape the model holds what is left when they are cut out, so that it can still be checked for
    sense; it is None where too little is left for that.
    """
    document = read_document(file, "record")
    problems = document.problems
    if any(problem.rule in ("not-yaml", "empty", "two-documents", "too-deep", OTHER_FORMAT) for problem in problems):
        return None, problems
    if problems and not cut_faulty(document, "record"):
        return None, problems
    record, more = build_record(document)
    return record, [*problems, *more]


def _text_of(file: str | Path) -> Document:
    path = Path(file)
    try:
        if path.stat().st_size > _LARGEST:
            raise EnvironmentTroubleError(f"{file}: larger than {_LARGEST // 2**20} MiB; is this a record?")
        raw = path.read_bytes()
    except OSError as error:
        raise EnvironmentTroubleError(f"{file}: {error.strerror or error}") from error
    try:
        text = raw.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        spot = end_of(raw[: error.start].decode("utf-8"))
        message, hint = "this is not UTF-8 text", "save the file as UTF-8"
        problem = Problem(str(file), spot.line, spot.column, "not-yaml", message, hint)
        return Document(str(file), problems=[problem])
    return parse_text(text, str(file))
