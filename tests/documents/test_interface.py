"""The page on the Python interface: every public name stands on it, and its docstring answers what a caller asks."""

from __future__ import annotations

import ast
import inspect
import sys
import textwrap
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import archdiff

if TYPE_CHECKING:
    from collections.abc import Iterator

sys.path.insert(0, str(Path(__file__).parents[2] / "site"))
import api as page  # the builder of the site imports it in the same way

ENTRIES = [entry for entries in page.api().values() for entry in entries]


def test_every_public_name_stands_on_the_page() -> None:
    assert {f"archdiff.{name}" for name in archdiff.__all__} <= {entry.name for entry in ENTRIES}


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.name)
def test_every_name_has_an_example(entry: page.Entry) -> None:
    assert entry.doc.example


def _functions() -> Iterator[object]:
    """(name, node, docstring taken apart) of every function and method on the page."""
    for entry in ENTRIES:
        module, _, name = entry.name.rpartition(".")
        tree = ast.parse(textwrap.dedent(inspect.getsource(getattr(import_module(module), name))))
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield pytest.param(node, page.docstring(node), id=f"{entry.name}.{node.name}")


FUNCTIONS = list(_functions())


@pytest.mark.parametrize(("node", "doc"), FUNCTIONS)
def test_every_parameter_is_explained(node: ast.FunctionDef, doc: page.Docstring) -> None:
    arguments = [*node.args.args, *node.args.kwonlyargs, *([node.args.vararg] if node.args.vararg else [])]
    explained = {name for name, _ in doc.sections.get("Args", [])}
    for name in {argument.arg for argument in arguments} - {"self", "cls"} - explained:
        assert f"`{name}`" in doc.prose, name


@pytest.mark.parametrize(("node", "doc"), FUNCTIONS)
def test_every_error_that_is_raised_is_named(node: ast.FunctionDef, doc: page.Docstring) -> None:
    named = {name for name, _ in doc.sections.get("Raises", [])}
    for raised in (inner.exc for inner in ast.walk(node) if isinstance(inner, ast.Raise)):
        assert isinstance(raised, ast.Call)
        name = ast.unparse(raised.func)
        assert name in named or name in doc.prose, name


def test_a_docstring_is_taken_apart() -> None:
    source = '''
def area(side: float, *, unit: str) -> float:
    """The area of a square.

    Some more words.

    Args:
        side: length of a side, which
            goes on here.
        unit: its unit.

    Returns:
        The area: a number.

    Raises:
        ValueError: no such unit.

    >>> area(2.0, unit="mm")
    4.0
    """
'''
    (node,) = ast.parse(source).body
    assert isinstance(node, ast.FunctionDef)
    doc = page.docstring(node)
    assert doc.prose == "The area of a square.\n\nSome more words."
    assert doc.sections == {
        "Args": [("side", "length of a side, which goes on here."), ("unit", "its unit.")],
        "Returns": [("", "The area: a number.")],
        "Raises": [("ValueError", "no such unit.")],
    }
    assert doc.example == '>>> area(2.0, unit="mm")\n4.0'
