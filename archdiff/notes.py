"""The analyst's notes on a pair of products: comments, and corrections of the pairing."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.problems import EnvironmentTroubleError
from archdiff.record import Document, Record, read_document

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from archdiff.problems import Problem

_SIDES = ("left", "right")


@dataclass(frozen=True, slots=True)
class Match:
    """Elements (or hosts) of the left and of the right product that the analyst ties or forbids."""

    left: tuple[str, ...]
    right: tuple[str, ...]
    because: str = ""


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment on a page section or subsystem, or on an element of one side or of both.

    >>> archdiff.notes.Comment("Why **two**?", left="light").right
    ''
    """

    text: str  # Markdown
    on: str = ""  # section or subsystem
    left: str = ""  # id of an element
    right: str = ""  # id of an element


@dataclass(frozen=True, slots=True)
class Notes:
    """Everything a notes file says; empty where there is none.

    >>> result.comparison.notes.by
    'L. Orrin'
    """

    title: str = ""
    headline: str = ""
    by: str = ""
    date: str = ""
    tie: tuple[Match, ...] = ()  # to be paired
    never: tuple[Match, ...] = ()  # not to be paired
    same_board: tuple[Match, ...] = ()  # boards and enclosure pieces that correspond
    ignore_left: frozenset[str] = frozenset()  # ids left out of the pairing
    ignore_right: frozenset[str] = frozenset()
    comments: tuple[Comment, ...] = ()
    weights: Mapping[str, float] = field(default_factory=dict)  # of subsystems in the choice of headlines
    document: Document | None = field(default=None, compare=False, repr=False)  # where they were read from

    def mirrored(self) -> Notes:
        """The same notes with left and right exchanged."""
        turned: dict[str, Any] = {
            kind: tuple(Match(match.right, match.left, match.because) for match in getattr(self, kind))
            for kind in ("tie", "never", "same_board")
        }
        comments = tuple(Comment(c.text, c.on, c.right, c.left) for c in self.comments)
        return replace(self, comments=comments, ignore_left=self.ignore_right, ignore_right=self.ignore_left, **turned)


def read_notes(file: str | Path, left: Record, right: Record) -> tuple[Notes, list[Problem]]:
    """Read a notes file and hold it against both records; faults are in the list."""
    document = read_document(file, "notes")
    if document.problems:
        return Notes(), document.problems
    problems = [*_other_records(document, left, right)]
    if not problems:  # else every id would be reported as unknown
        problems = [*_dangling(document, left, right), *_contradictions(document)]
    data: Mapping[str, Any] = document.data
    said: dict[str, Any] = {name: str(data.get(name, "")) for name in ("title", "headline", "by", "date")}
    said |= {name: _matches(data.get(name, ())) for name in ("tie", "never", "same_board")}
    said |= {f"ignore_{side}": frozenset(_ids(data.get("ignore", {}).get(side, ()))) for side in _SIDES}
    comments = tuple(Comment(**{k: str(v) for k, v in entry.items()}) for entry in data.get("comments", ()))
    notes = Notes(**said, comments=comments, weights=data.get("weights", {}), document=document)
    return notes, problems


def notes_problems(file: str | Path, read: Callable[[Path], tuple[Record | None, list[Problem]]]) -> list[Problem]:
    """What is wrong with a notes file, and with its ids where `read` can read the records that it names."""
    document = read_document(file, "notes")
    if document.problems or not all(side in document.data for side in _SIDES):
        return document.problems
    records: list[Record] = []
    for side in _SIDES:
        name = str(document.data[side])
        record = _readable(read, Path(file).parent / name)
        if record is None:
            message = f"the {side} record '{name}' is not there or cannot be read, so no id here could be checked"
            return [document.problem((side,), "no-such-record", message, "state its path from the folder of the notes")]
        records.append(record)
    return read_notes(file, *records)[1]


def _readable(read: Callable[[Path], tuple[Record | None, list[Problem]]], file: Path) -> Record | None:
    try:
        return read(file)[0]
    except EnvironmentTroubleError:
        return None


def _other_records(document: Document, left: Record, right: Record) -> Iterator[Problem]:
    """The notes name their records, and these are others: most often the two were given the other way round."""
    for side, record in (("left", left), ("right", right)):
        wanted, given = document.data.get(side), Path(record.file).name
        if wanted is not None and wanted != given:
            message = f"these notes take {wanted} as the {side} record, and {given} was given"
            yield document.problem((side,), "other-record", message, "give the records in the order of the notes")


def _ids(value: Any) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(str(item) for item in value)


def _matches(entries: Any) -> tuple[Match, ...]:
    return tuple(Match(_ids(e["left"]), _ids(e["right"]), str(e.get("because", ""))) for e in entries)


def _named(data: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str, str]]:
    """(path, side, id) of every element that the notes name."""
    for section in ("tie", "never", "same_board", "comments"):
        for index, entry in enumerate(data.get(section, ())):
            for side in _SIDES:
                for name in _ids(entry.get(side, ())):
                    yield (section, index, side), side, name
    for side in _SIDES:
        for name in _ids(data.get("ignore", {}).get(side, ())):
            yield ("ignore", side), side, name


def _dangling(document: Document, left: Record, right: Record) -> Iterator[Problem]:
    import difflib

    records = {"left": left, "right": right}
    for path, side, name in _named(document.data):
        record = records[side]
        hosts_only = path[0] == "same_board"
        if name not in (record.hosts if hosts_only else record.elements):
            near = difflib.get_close_matches(name, record.elements, n=1)
            kind = "board or enclosure piece" if hosts_only else "element"
            message = f"{record.name} ({record.file}) has no {kind} '{name}'"
            hint = f"did you mean '{near[0]}'?" if near else "name an id of that record"
            yield document.problem(path, "no-such-element", message, hint)


def _contradictions(document: Document) -> Iterator[Problem]:
    """Ties that other entries forbid, or that pull one element two ways: both places are named."""
    yield from _tied_and_forbidden(document)
    for side in _SIDES:
        yield from _tied_twice(document, side)
        yield from _tied_and_ignored(document, side)


def _tied_and_forbidden(document: Document) -> Iterator[Problem]:
    tied = {pair: index for index, match in _numbered(document, "tie") for pair in product(match.left, match.right)}
    for index, match in _numbered(document, "never"):
        for pair in product(match.left, match.right):
            if pair in tied:
                line = document.spot(("tie", tied[pair])).line
                message = f"{pair[0]} and {pair[1]} are never to be paired here, and tied in line {line}"
                yield document.problem(("never", index), "contradiction", message, "delete one of the two")


def _tied_twice(document: Document, side: str) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for index, match in _numbered(document, "tie"):
        for name in getattr(match, side):
            if name in first:
                line = document.spot(("tie", first[name])).line
                message = f"{name} is tied here and already in line {line}"
                hint = "tie each element once; several ids may stand in one list"
                yield document.problem(("tie", index, side), "contradiction", message, hint)
            first.setdefault(name, index)


def _tied_and_ignored(document: Document, side: str) -> Iterator[Problem]:
    ignored = set(_ids(document.data.get("ignore", {}).get(side, ())))
    line = document.spot(("ignore", side)).line
    for index, match in _numbered(document, "tie"):
        for name in ignored.intersection(getattr(match, side)):
            message = f"{name} is tied here and left out in line {line}"
            yield document.problem(("tie", index, side), "contradiction", message, "delete one of the two")


def _numbered(document: Document, section: str) -> Iterator[tuple[int, Match]]:
    return enumerate(_matches(document.data.get(section, ())))
