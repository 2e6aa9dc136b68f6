"""The examples in docstrings run as they stand, in the folder of an example pair."""

from __future__ import annotations

import doctest
import pkgutil
import shutil
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import pytest

import archdiff

TOP = Path(__file__).parents[2]


def _with_examples() -> list[str]:
    names = [found.name for found in pkgutil.walk_packages(archdiff.__path__, "archdiff.")]
    sources = {name: find_spec(name) for name in ["archdiff", *names]}
    return [n for n, spec in sources.items() if spec and spec.origin and ">>>" in Path(spec.origin).read_text("utf-8")]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(TOP / "examples" / "bike-lights", tmp_path_factory.mktemp("pair") / "bike-lights"))


@pytest.fixture(scope="module")
def result(folder: Path) -> archdiff.Result:
    names = ("gloffin-ember.yaml", "plinsk-wink.yaml", "notes.yaml")
    left, right, notes = (folder / name for name in names)
    return archdiff.compare(left, right, notes)


@pytest.mark.parametrize("name", _with_examples())
def test_examples_in_docstrings_run(
    name: str, folder: Path, result: archdiff.Result, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every example may use `archdiff`, and `result`: the comparison of the pair in the folder."""
    monkeypatch.chdir(folder)
    given = {"archdiff": archdiff, "result": result}
    done = doctest.testmod(import_module(name), extraglobs=given, optionflags=doctest.ELLIPSIS)
    assert done.attempted
    assert not done.failed
