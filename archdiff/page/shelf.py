"""The shelf of the page's sections: every NAME.py with its NAME.html in `sections/` is one section."""

from __future__ import annotations

import importlib
import pkgutil
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from archdiff.page import sections as shelf
from archdiff.page.anchors import section_anchor

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from archdiff.comparison import Comparison

# ISO 5457 numbers the zones of a drawing sheet with capitals and leaves out I and O.
_ZONES = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Section:
    """One section of the page: its name, heading, short name in the contents, place, and what fills it."""

    name: str
    title: str
    short: str
    order: int
    view: Callable[[Comparison], Mapping[str, Any] | None]

    @property
    def anchor(self) -> str:
        """The id of its heading's region."""
        return section_anchor(self.name)

    @property
    def template(self) -> str:
        """The template beside the module."""
        return f"sections/{self.name}.html"


@cache
def all_sections() -> tuple[Section, ...]:
    """Every section on the shelf by its declared place; ValueError where two claim the same one."""
    found = [_load(module.name) for module in pkgutil.iter_modules(shelf.__path__) if not module.name.startswith("_")]
    found.sort(key=lambda section: section.order)
    for one, next_one in pairwise(found):
        if one.order == next_one.order:
            raise ValueError(f"sections {one.name} and {next_one.name} both claim place {one.order}")
    return tuple(found)


def zone_letter(index: int) -> str:
    """The zone letter of the section at that place: A, B, up to Z without I and O, then AA, AB."""
    more, last = divmod(index, len(_ZONES))
    return (_ZONES[more - 1] if more else "") + _ZONES[last]


def _load(name: str) -> Section:
    module = importlib.import_module(f"{shelf.__name__}.{name}")
    return Section(name, module.TITLE, getattr(module, "SHORT", module.TITLE), module.ORDER, module.view)
