"""YAML text to plain data, with the line and column of every key and value.

The C parser's events are turned into data here, since that is four times quicker than the library's own
loader and the only way to have positions and to see repeated keys. Scalars follow the YAML 1.2 core schema
(yaml.org/spec/1.2.2, section 10.3.2): `on` and `no` are text, not truth values, and `8:1` is text, not 481.
A number that would lose something on the way (`0603`, `1.50`) stays text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NoReturn

import yaml

from archdiff.problems import Problem

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_DEEPEST = 40
_READER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # quick where PyYAML was built with its C parser

Key = str | int


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file; line and column count from 1."""

    line: int
    column: int


@dataclass(slots=True)
class Document:
    """One YAML file as plain data (dicts, lists, text, int, float, bool, None) and where everything stands."""

    file: str
    data: Any = None
    problems: list[Problem] = field(default_factory=list)
    _keys: dict[int, dict[Key, Spot]] = field(default_factory=dict)
    _values: dict[int, dict[Key, Spot]] = field(default_factory=dict)
    # Values that were read but not kept; the tables above know containers by id(), which must not be reused.
    _dropped: list[Any] = field(default_factory=list)

    def spot(self, path: Sequence[Key], *, key: bool = False) -> Spot:
        """Where the value at `path` stands, or its key; the nearest thing around it where it does not exist."""
        node, found = self.data, Spot(1, 1)
        for depth, step in enumerate(path):
            last = depth == len(path) - 1
            table = self._keys if key and last and isinstance(node, dict) else self._values
            spot = table.get(id(node), {}).get(step)
            if spot is None:
                break
            found, node = spot, node[step]
        return found

    def problem(self, path: Sequence[Key], rule: str, message: str, hint: str = "", **more: Any) -> Problem:
        """A problem of this file at `path`; `key=True` points at the key; `severity` as in Problem."""
        spot = self.spot(path, key=more.pop("key", False))
        return Problem(self.file, spot.line, spot.column, rule, message, hint, **more)


def parse_text(text: str, file: str) -> Document:
    """Read YAML text. Faults of the text itself are in the result's `problems`; `data` is what could be read."""
    document = Document(file)
    if (bad := _forbidden(text)) is not None:
        spot = end_of(text[:bad])
        shown = f"U+{ord(text[bad]):04X}"
        hint = "delete it, or save the file again as UTF-8 text"
        message = f"the character {shown} is not allowed in YAML"
        document.problems.append(Problem(file, spot.line, spot.column, "not-yaml", message, hint))
        return document
    try:
        _Builder(document).run(_events(text))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        # The C parser counts a line too many where the text ends too early.
        end = end_of(text)
        known = mark is not None and mark.line < end.line
        line, column = (mark.line + 1, mark.column + 1) if mark and known else (end.line, end.column)
        what = " ".join(part for part in (error.context, error.problem) if part)
        hint = "check indentation, brackets, colons and quotes here and in the line above"
        document.problems.append(Problem(file, line, column, "not-yaml", what, hint))
    except _StopReadingError:
        pass
    return document


_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")  # as the parser counts lines


def end_of(text: str) -> Spot:
    """The place right behind a text that begins a file."""
    lines = _BREAK.split(text.removeprefix("\ufeff"))
    return Spot(len(lines), len(lines[-1]) + 1)


def _events(text: str) -> Iterator[Any]:
    parser = _READER(text)
    try:
        while parser.check_event():
            yield parser.get_event()
    finally:
        parser.dispose()


_FORBIDDEN = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def _forbidden(text: str) -> int | None:
    match = _FORBIDDEN.search(text, 1 if text.startswith("\ufeff") else 0)
    return match.start() if match else None


_WORDS: dict[str, bool | None] = dict.fromkeys(("null", "Null", "NULL", "~", ""))
_WORDS |= dict.fromkeys(("true", "True", "TRUE"), True) | dict.fromkeys(("false", "False", "FALSE"), False)
_INTEGER = re.compile(r"-?(?:0|[1-9]\d{0,17})")
_DECIMAL = re.compile(r"-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?")


def _plain_value(text: str) -> Any:
    if text in _WORDS:
        return _WORDS[text]
    if text[0] in "-0123456789":
        if _INTEGER.fullmatch(text):
            return int(text)
        if _DECIMAL.fullmatch(text) and repr(float(text)) == text:
            return float(text)
    return text


class _StopReadingError(Exception):
    """Nothing sensible can be read behind this point."""


_MISSING: Any = object()


class _Builder:
    """Turns parser events into data, one open container at a time."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.open: list[Any] = []
        self.keys: list[Any] = []  # for each open mapping the key whose value comes next

    def run(self, events: Iterator[Any]) -> None:
        documents = 0
        for event in events:
            kind = type(event)
            if kind is yaml.ScalarEvent:
                self.scalar(event)
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                self.start({} if kind is yaml.MappingStartEvent else [], event)
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                self.open.pop()
                self.keys.pop()
            elif kind is yaml.AliasEvent:
                self.alias(event)
            elif kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    self.stop(event, "two-documents", "a second document starts here", "keep one per file")

    def alias(self, event: Any) -> None:
        if self.key_comes:
            self.stop(event, "not-yaml", "an alias (*name) cannot be a key", "use a short name as key")
        self.fault(event, "alias", "aliases (*name) are not supported here", "write the value out")
        self.place(None, event)

    @property
    def key_comes(self) -> bool:
        """Whether the next thing in the text is the key of an open mapping."""
        return bool(self.open) and isinstance(self.open[-1], dict) and self.keys[-1] is _MISSING

    def scalar(self, event: Any) -> None:
        self.anything_odd(event)
        if self.key_comes:
            self.key(event)
            return
        plain = event.implicit[0] and event.style in (None, "")
        self.place(_plain_value(event.value) if plain else event.value, event)

    def key(self, event: Any) -> None:
        table, name = self.open[-1], event.value
        spots = self.document._keys.setdefault(id(table), {})  # noqa: SLF001 - the builder fills the document
        if name in spots:
            first = spots[name]
            message = f"'{name}' stands twice in this mapping (first in line {first.line})"
            self.fault(event, "repeated-key", message, "rename or delete one of the two")
            self.keys[-1] = (name, "repeated")
            return
        spots[name] = _spot(event)
        self.keys[-1] = name

    def start(self, container: Any, event: Any) -> None:
        self.anything_odd(event)
        if self.key_comes:
            self.stop(event, "not-yaml", "a list or mapping cannot be a key", "use a short name as key")
        if len(self.open) >= _DEEPEST:
            self.stop(event, "too-deep", f"more than {_DEEPEST} levels of nesting", "flatten the data")
        self.place(container, event)
        self.open.append(container)
        self.keys.append(_MISSING)

    def place(self, value: Any, event: Any) -> None:
        if not self.open:
            self.document.data = value
            return
        container = self.open[-1]
        if isinstance(container, list):
            key: Any = len(container)
            container.append(value)
        else:
            key, self.keys[-1] = self.keys[-1], _MISSING
            if isinstance(key, tuple):  # the second of two same keys: read on, keep the first
                self.document._dropped.append(value)  # noqa: SLF001
                return
            container[key] = value
        self.document._values.setdefault(id(container), {})[key] = _spot(event)  # noqa: SLF001

    def anything_odd(self, event: Any) -> None:
        if event.tag is not None and event.tag != "!":
            self.fault(event, "tag", f"the tag {event.tag} is not supported", "delete it")
        if event.anchor is not None:
            self.fault(event, "alias", f"anchors (&{event.anchor}) are not supported here", "delete it")

    def fault(self, event: Any, rule: str, message: str, hint: str) -> None:
        spot = _spot(event)
        problem = Problem(self.document.file, spot.line, spot.column, rule, message, hint)
        self.document.problems.append(problem)

    def stop(self, event: Any, rule: str, message: str, hint: str) -> NoReturn:
        self.fault(event, rule, message, hint)
        raise _StopReadingError


def _spot(event: Any) -> Spot:
    mark = event.start_mark
    return Spot(mark.line + 1, mark.column + 1)
