"""Exports: the comparison as data or text. One module an export; its `NAME` and `write` make it known."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.comparison import Comparison


@cache
def exports() -> Mapping[str, Callable[[Comparison], str]]:
    """Every export by name, each a function from a comparison to text."""
    modules = [import_module(f"{__name__}.{found.name}") for found in pkgutil.iter_modules(__path__)]
    return {module.NAME: module.write for module in sorted(modules, key=lambda module: str(module.NAME))}


def export(comparison: Comparison, name: str) -> str:
    """The comparison in the named form; KeyError where there is no such form."""
    return exports()[name](comparison)
