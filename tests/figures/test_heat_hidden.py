"""A product of which everything about heat is known, with facts and whole paths hidden: bounds only ever widen."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING, Any

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import all_figures
from archdiff.record import Document, Record
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from archdiff.figures import Measure
    from archdiff.quantities import Bounds

FIGURES = {f.id: f.of_product for f in all_figures() if f.family == "heat" and f.of_product is not None}
WHOLE: dict[str, Any] = yaml.safe_load("""
archdiff: 1
coverage: {boards: whole, paths: whole, enclosure: whole}
product: {name: Tarvo, kind: test object, envelope: 76 x 51 x 25 mm}
boards:
  main: {outline: 50 x 25 mm, thickness: 1.6 mm, layers: 4, copper: 35 um, material: FR-4}
  sub: {outline: 20 x 10 mm, thickness: 1 mm, layers: 2, copper: 18 um, material: FR-4}
parts: {U1: {power: 1.2 W}, U2: {power: 0.6 W}, pad: {size: 10 x 10 x 2 mm, material: gap pad}}
power: {in_use: 2 W}
enclosure:
  shell: {size: 76 x 12 x 51 mm, thickness: 2 mm, area: 80 cm2, emissivity: 0.9, conductivity: 0.2 W/m/K, material: ABS}
  lid: {size: 76 x 12 x 51 mm, thickness: 2 mm, area: 60 cm2, emissivity: 0.88, conductivity: 0.2 W/m/K, material: ABS}
paths:
  chip: {kind: heat, from: U1, to: air, facing: up, power: 1.0 W, ambient: 25 degC, through: [{what: package, resistance: 3 K/W},
    {what: pad}, {what: strip, length: 25 mm, area: 20 mm2, conductivity: 200 W/m/K}, {what: shell, area: 3000 mm2}]}
  coil: {kind: heat, from: U2, to: air, facing: front, power: 0.4 W, ambient: 22 degC, through: [{what: pad}, {what: shell, area: 2500 mm2}]}
  rim: {kind: heat, from: U2, to: air, facing: left, power: 0.1 W, ambient: 25 degC, through: [{what: lid, area: 2500 mm2, thickness: 1 mm}]}
  inner: {kind: heat, from: U2, to: lid, power: 0.1 W, ambient: 25 degC, through: [{what: foam, resistance: 2..3 K/W}]}
""")
Hiding = tuple[str, ...]
HIDINGS: list[Hiding] = [
    ("product", "envelope"),
    ("power", "in_use"),
    *(("coverage", section) for section in WHOLE["coverage"]),
    *(("path", name) for name in WHOLE["paths"]),
    *(
        (section, name, fact)
        for section in ("boards", "parts", "enclosure", "paths")
        for name, facts in WHOLE[section].items()
        for fact in facts
    ),
]


def hide(data: dict[str, Any], hiding: Hiding) -> None:
    if hiding[0] == "coverage":
        data["coverage"][hiding[1]] = "part"
    elif hiding[0] == "path":
        data["paths"].pop(hiding[1], None)
        data["coverage"]["paths"] = "part"
    else:
        holder = data
        for step in hiding[:-1]:
            holder = holder.get(step, {})
        holder.pop(hiding[-1], None)


def without(hidden: list[Hiding]) -> Record:
    data = deepcopy(WHOLE)
    for hiding in hidden:
        hide(data, hiding)
    record, problems = build_record(Document("made", data))
    assert not problems, problems
    return record


def holds(outer: Bounds | None, inner: Bounds | None) -> bool:
    if outer is None or inner is None:
        return outer is None
    spare = 1e-7 * max(1.0, abs(inner.low))
    return outer.low <= inner.low + spare and inner.high <= outer.high + spare


@settings(deadline=None, max_examples=150)
@given(st.lists(st.sampled_from(HIDINGS), max_size=6, unique=True), st.integers(0, 6))
def test_hiding_facts_and_paths_only_widens(hidden: list[Hiding], kept: int) -> None:
    richer, poorer = without(hidden[:kept]), without(hidden)
    for name, compute in FIGURES.items():
        some: Measure = compute(richer)
        least: Measure = compute(poorer)
        assert holds(least.bounds, some.bounds), (name, hidden, some, least)
        for part in some.parts.keys() & least.parts.keys():
            assert holds(least.parts[part], some.parts[part]), (name, part, hidden)


def test_with_all_facts_every_figure_is_bounded_on_both_sides() -> None:
    record = without([])
    for name, compute in FIGURES.items():
        bounds = compute(record).bounds
        # Only the path that ends inside is not known to its end.
        assert bounds is not None, name
        assert bounds.is_known or name == "source-rise", name
