"""What the site's page on Python says: signatures, docstrings and examples, from the source of the public names."""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

# By what a reader is after; each name is the module that offers it and the name itself.
GROUPS = {
    "Comparing": ("archdiff.compare", "archdiff.check", "archdiff.Result", "archdiff.Comparison"),
    "Records and notes": ("archdiff.Record", "archdiff.record.Element", "archdiff.Notes", "archdiff.notes.Comment"),
    "What goes with what": (
        "archdiff.alignment.Pair",
        "archdiff.alignment.Seat",
        "archdiff.alignment.Verdict",
        "archdiff.alignment.Agreement",
        "archdiff.alignment.HostPair",
        "archdiff.alignment.Partition",
        "archdiff.alignment.Move",
        "archdiff.paths.PathPair",
    ),
    "Numbers": (
        "archdiff.figures.FigureResult",
        "archdiff.figures.Figure",
        "archdiff.figures.Measure",
        "archdiff.figures.Outcome",
        "archdiff.quantities.Bounds",
    ),
    "What follows, and what is open": (
        "archdiff.headlines.Headline",
        "archdiff.headlines.Consequence",
        "archdiff.knockons.Chain",
        "archdiff.knockons.Link",
        "archdiff.unknowns.Unknown",
        "archdiff.unknowns.LookAt",
    ),
    "Problems": (
        "archdiff.Problem",
        "archdiff.ArchdiffError",
        "archdiff.FaultyInputError",
        "archdiff.EnvironmentTroubleError",
    ),
}
_SECTION = re.compile(r"(Args|Returns|Raises):")
_ITEM = re.compile(r"(\w+): (.*)")
_COMMENT = re.compile(r"(?<=\S)  # (?!noqa|type:)(.*?)(?:  # noqa.*)?$")


@dataclass(frozen=True)
class Docstring:
    """A docstring taken apart: its prose, what it says of arguments, result and errors, and its example."""

    prose: str
    sections: dict[str, list[tuple[str, str]]]  # by heading, (name, words); the name of a result is ''
    example: str


@dataclass(frozen=True)
class Entry:
    """One public name, or one member of a public class."""

    name: str
    signature: str
    doc: Docstring
    fields: tuple[tuple[str, str, str], ...] = ()  # name, type or value, meaning
    members: tuple[Entry, ...] = ()


def api() -> dict[str, list[Entry]]:
    """Every public name by the heading it stands under."""
    return {heading: [_entry(name) for name in names] for heading, names in GROUPS.items()}


def _entry(dotted: str) -> Entry:
    module, _, name = dotted.rpartition(".")
    source = textwrap.dedent(inspect.getsource(getattr(import_module(module), name)))
    (node,) = ast.parse(source).body
    if isinstance(node, ast.FunctionDef):
        return Entry(dotted, _signature(node), docstring(node))
    if not isinstance(node, ast.ClassDef):
        raise TypeError(f"{dotted} is neither a function nor a class")
    fields = tuple(_fields(node, source.splitlines()))
    members = tuple(_member(item) for item in node.body if isinstance(item, ast.FunctionDef) and item.name[0] != "_")
    return Entry(dotted, "", docstring(node), fields, members)


def _member(node: ast.FunctionDef) -> Entry:
    is_property = any(ast.unparse(mark) in ("property", "cached_property") for mark in node.decorator_list)
    returns = f": {ast.unparse(node.returns)}" if node.returns else ""
    return Entry(node.name, returns if is_property else _signature(node), docstring(node))


def _signature(node: ast.FunctionDef) -> str:
    """The signature as written, but for `self` and `cls`."""
    arguments = re.sub(r"^(self|cls)(, )?", "", ast.unparse(node.args))
    return f"({arguments})" + (f" -> {ast.unparse(node.returns)}" if node.returns else "")


def _fields(node: ast.ClassDef, lines: list[str]) -> Iterator[tuple[str, str, str]]:
    """Fields and values with the comments behind them, which say what they mean."""
    for item in node.body:
        comment = _COMMENT.search(lines[item.lineno - 1])
        said = comment[1] if comment else ""
        if isinstance(item, ast.AnnAssign) and isinstance(item.target, ast.Name) and item.target.id[0] != "_":
            yield item.target.id, ast.unparse(item.annotation), said
        elif isinstance(item, ast.Assign):
            yield ast.unparse(item.targets[0]), ast.unparse(item.value), said


def docstring(node: ast.FunctionDef | ast.ClassDef) -> Docstring:
    """The docstring of a function or class; LookupError where it has none."""
    text = ast.get_docstring(node)
    if text is None:
        raise LookupError(f"{node.name} has no docstring")
    prose: list[str] = []
    sections: dict[str, list[tuple[str, str]]] = {}
    examples: list[str] = []
    for block in re.split(r"\n\n+", text):
        first, *rest = block.splitlines()
        if heading := _SECTION.fullmatch(first):
            sections[heading[1]] = list(_items(rest, named=heading[1] != "Returns"))
        else:
            (examples if first.startswith(">>>") else prose).append(block)
    return Docstring("\n\n".join(prose), sections, "\n\n".join(examples))


def _items(lines: Iterable[str], *, named: bool) -> Iterator[tuple[str, str]]:
    """The entries of a section; a line that is indented further belongs to the entry above it."""
    entries = re.split(r"\n(?! )", textwrap.dedent("\n".join(lines)))
    for entry in (" ".join(entry.split()) for entry in entries):
        item = _ITEM.fullmatch(entry) if named else None
        yield (item[1], item[2]) if item else ("", entry)
