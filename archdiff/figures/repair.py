"""Ease of repair: two published indices, as far as the record has what they ask."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.figures.counting import Ledger, told
from archdiff.figures.facts.index_points import (
    ANY_POINTS,
    classes,
    lowest,
    points_of_nothing,
    points_of_updates,
    rows,
    weighted,
)
from archdiff.figures.facts.part_points import SCALES, PartPoints
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.quantities.bounds import total
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("repair", "Ease of repair", 112)
_SCOPE = "made for smartphones and slate tablets, no more than informative for anything else"
_OF = "on the scale for telephones and tablets"
_NEAR = 1e-9
_WAY = (
    "the recorded order is the way to each part, until the last step that says it comes off, be it with what carries "
    "it (own reading of annex IV 5): a shorter way would score higher, having to part it further lower"
)
_OWN = "fasteners are those that hold the part itself (annex IV 5 as quoted in public texts; read second-hand)"
_DESTROYED = "a fastener that cannot be undone without damage scores as the lowest kind does (own reading)"


@figure(
    title="Repairability index, (EU) 2023/1669",
    order=10,
    meaning=f"How easily it can be repaired, from 1 to 5, by an index {_SCOPE}; an estimate, not a declaration.",
    formula="0.25 x depth + 0.15 x (fasteners + tools + spare parts + software updates + repair information)",
    source="(EU) 2023/1669, annex IV 5 (weights, points and classes read; rules for parts not there and for updates "
    "second-hand)",
    preferred="higher, where the product is to be repaired",
)
def repairability_index(record: Record) -> Measure:
    """Index by parameter; each input that is lacking leaves its points anywhere from 1 to 5."""
    ledger = Ledger(record)
    repair = record.product.get("repair") or {}
    if not ledger.note("product", "repair", known=bool(repair)):
        return ledger.measure(None, "nothing is stated of which element is which part, of spare parts and updates")
    scores, told_of_parts = _scores_of_parts(ledger, repair)
    scores |= _scores_stated(ledger, repair)
    index = weighted("parameter", scores)
    for statement in _assumed():
        ledger.assume(statement)
    how = f"{'; '.join(told_of_parts)}; {_sum_in_words(scores)} = {told(index)}"
    if index.low <= ANY_POINTS.low + _NEAR and index.high >= ANY_POINTS.high - _NEAR:
        return ledger.measure(None, how, scores)
    return ledger.measure(index, how, scores, f"{_class_in_words(classes(index))} {_OF}")


@figure(
    title="Repairability index, French sheet",
    order=20,
    meaning="What the maker's own marks on the sheet of the French repairability index add up to, out of 10.",
    formula="sum of five criteria of 20 / 10, the first two made of marks out of 10",
    source="Code de l'environnement, R541-214 (read); weights within two criteria from a published declaration sheet",
    preferred="higher, where the product is to be repaired",
)
def french_index(record: Record) -> Measure:
    """Index by criterion; a mark that is not stated may be anything from none to full."""
    ledger = Ledger(record)
    repair = record.product.get("repair") or {}
    sheet = repair.get("french_sheet") or {}
    if not ledger.note("product", "repair", known=bool(sheet)):
        return ledger.measure(None, "no marks of such a sheet are stated")
    criteria: dict[str, Bounds] = {}
    for name, row in rows("sheet").items():
        mark = _mark(ledger, sheet, name, row.number("out_of"))
        criterion = str(row.values["criterion"])
        criteria[criterion] = criteria.get(criterion, Bounds.exact(0.0)) + mark * row.number("weight")
        ledger.assume(f"weights of the marks: {row.cited}")
    index = total(criteria.values()) * (1 / read_table("repair_index").rows["sheet, sum over"].number("out_of"))
    terms = " + ".join(f"{name} {told(mark)}" for name, mark in criteria.items())
    return ledger.measure(index, f"({terms}) / 10 = {told(index)}", criteria)


def _scores_of_parts(ledger: Ledger, repair: Mapping[str, Any]) -> tuple[dict[str, Bounds], list[str]]:
    by_part: dict[str, dict[str, Bounds]] = {}
    said = []
    points = PartPoints(ledger, repair)
    for part in rows("part"):
        playing = repair.get("plays", {}).get(part)
        by_part[part] = _of_part(ledger, points, part, playing)
        said.append(f"{part.replace('_', ' ')} {_part_in_words(points, playing, by_part[part])}")
    scores = {scale: weighted("part", {part: each[scale] for part, each in by_part.items()}) for scale in SCALES}
    return scores, said


def _of_part(ledger: Ledger, points: PartPoints, part: str, playing: Sequence[str] | None) -> dict[str, Bounds]:
    """Points by scale; of several elements the lowest counts, and of a part that is not there the highest."""
    if playing is None:
        ledger.lack("product", f"repair, which element is the {part.replace('_', ' ')}")
        return dict.fromkeys(SCALES, ANY_POINTS)
    if not playing:
        return dict.fromkeys(SCALES, Bounds.exact(points_of_nothing()))
    each = [points.of(name) for name in playing]
    return {scale: lowest(found[scale] for found in each) for scale in SCALES}


def _scores_stated(ledger: Ledger, repair: Mapping[str, Any]) -> dict[str, Bounds]:
    years = repair.get("update_years")
    stated = {
        "spare parts": repair.get("spare_parts_points"),
        "software updates": None if years is None else points_of_updates(years),
        "repair information": repair.get("information_points"),
    }
    for name, value in stated.items():
        if value is None:
            ledger.lack("product", f"repair, {name}")
    return {name: ANY_POINTS if value is None else Bounds.exact(float(value)) for name, value in stated.items()}


def _mark(ledger: Ledger, sheet: Mapping[str, Any], name: str, most: float) -> Bounds:
    mark = sheet.get(name)
    if mark is None:
        ledger.lack("product", f"repair, mark of the French sheet for {name.replace('_', ' ')}")
        return Bounds(None, 0.0, most)
    return Bounds.exact(float(mark))


def _assumed() -> tuple[str, ...]:
    table = read_table("repair_index").rows
    return (
        f"weights and points: {table['parameter: tools'].cited}",
        f"a part not there scores highest, of several the lowest counts: {table['none there'].cited}",
        f"points for years of updates: {table['updates: 7 years'].cited}",
        _WAY,
        _OWN,
        _DESTROYED,
    )


def _part_in_words(points: PartPoints, playing: Sequence[str] | None, found: Mapping[str, Bounds]) -> str:
    if playing is None:
        return "not stated"
    if not playing:
        return "none there, as the record states"
    steps = ", ".join(f"{name} {'not taken off' if (n := points.steps(name)) is None else n}" for name in playing)
    return f"(steps: {steps}) " + " / ".join(told(found[scale]) for scale in SCALES)


def _sum_in_words(scores: Mapping[str, Bounds]) -> str:
    return " + ".join(
        f"{row.number('weight'):g} x {name} {told(scores[name])}" for name, row in rows("parameter").items()
    )


def _class_in_words(found: Sequence[str]) -> str:
    return f"class {found[0]}" if len(found) == 1 else f"class {found[0]} to {found[-1]}"
