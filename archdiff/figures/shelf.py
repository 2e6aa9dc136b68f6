"""The shelf: how a function becomes a figure, and how all figures are found, put in order and computed.

A module of this folder that has a `FAMILY` is a family; every figure in it belongs to that family. The order
on the page comes from the declared `order` of family and figure, never from the order of imports.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import TYPE_CHECKING, Any, Unpack

from archdiff.figures.figure import Figure, FigureResult

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypedDict

    from archdiff.figures.figure import Measure, PairView
    from archdiff.record import Record

    class _Said(TypedDict, total=False):
        title: str
        unit: str
        order: int
        meaning: str
        formula: str
        source: str
        preferred: str
        glance: bool


_MUST_SAY = ("title", "order", "meaning", "formula", "source")


@dataclass(frozen=True, slots=True)
class Family:
    """Figures that belong together: id, the heading over them, and the place among the families."""

    id: str
    title: str
    order: int


def figure(**said: Unpack[_Said]) -> Callable[[Callable[[Record], Measure]], Figure]:
    """Make a function of one record a figure of the product; its id is the function's name with hyphens."""

    def make(compute: Callable[[Record], Measure]) -> Figure:
        return Figure(**_described(compute, said), of_product=compute)

    return make


def pair_figure(**said: Unpack[_Said]) -> Callable[[Callable[[PairView], Measure]], Figure]:
    """Make a function of both products and their alignment a figure of the pair."""

    def make(compute: Callable[[PairView], Measure]) -> Figure:
        return Figure(**_described(compute, said), of_pair=compute)

    return make


def _described(compute: Callable[..., Measure], said: _Said) -> dict[str, Any]:
    name: str = getattr(compute, "__name__", "")
    lacking = [word for word in _MUST_SAY if not said.get(word)]
    if lacking:
        raise TypeError(f"the figure {name} does not say its {', '.join(lacking)}")
    family: Family = compute.__globals__["FAMILY"]
    return {"unit": "", **said, "id": name.replace("_", "-"), "family": family.id}


@cache
def _shelf() -> tuple[tuple[Family, tuple[Figure, ...]], ...]:
    found: list[tuple[Family, tuple[Figure, ...]]] = []
    package = import_module("archdiff.figures")
    for info in iter_modules(package.__path__):
        module = import_module(f"archdiff.figures.{info.name}")
        family = getattr(module, "FAMILY", None)
        if isinstance(family, Family):
            own = (thing for thing in vars(module).values() if isinstance(thing, Figure))
            found.append((family, tuple(sorted(own, key=lambda f: (f.order, f.id)))))
    return tuple(sorted(found, key=lambda entry: (entry[0].order, entry[0].id)))


def families() -> tuple[Family, ...]:
    """All families in their declared order."""
    return tuple(family for family, _ in _shelf())


def all_figures() -> tuple[Figure, ...]:
    """All figures, family by family, each in its declared place."""
    return tuple(figure for _, figures in _shelf() for figure in figures)


def compute_figures(view: PairView) -> tuple[FigureResult, ...]:
    """Every figure of both products and of the pair, in the order of the shelf."""
    return tuple(_result(figure, view) for figure in all_figures())


def _result(figure: Figure, view: PairView) -> FigureResult:
    if figure.of_product is not None:
        return FigureResult(figure, figure.of_product(view.left), figure.of_product(view.right))
    if figure.of_pair is not None:
        return FigureResult(figure, pair=figure.of_pair(view))
    raise TypeError(f"the figure {figure.id} computes nothing")
