"""Points and weights of two published repairability indices, from their table.

Points run from 1 to 5; where something is not known, they lie between the points that it may have.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.quantities import Bounds, across
from archdiff.quantities.bounds import total
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.tables import Row

ANY_POINTS = Bounds(None, 1.0, 5.0)


def rows(group: str) -> dict[str, Row]:
    """The rows of one group, 'part' or 'parameter' or ..., by the words behind the colon, in the table's order."""
    before = f"{group}: "
    table = read_table("repair_index").rows
    return {key.removeprefix(before): row for key, row in table.items() if key.startswith(before)}


def points(group: str, name: str) -> float:
    """The points of a row: ('fastener', 'reusable') gives 5."""
    return rows(group)[name].number("points")


def points_of_nothing() -> float:
    """The points for a part that the product has not got."""
    return read_table("repair_index").rows["none there"].number("points")


def points_of_depth(steps: Bounds) -> Bounds:
    """Points for the steps to a part: the more steps, the fewer points."""
    limits = [(row.number("at_most"), row.number("points")) for row in rows("depth").values()]
    return across(lambda number: next(given for limit, given in limits if number <= limit), steps)


def points_of_updates(years: float) -> float:
    """Points for how many years updates are promised for."""
    return next(row.number("points") for row in rows("updates").values() if years >= row.number("years"))


def lowest(each: Iterable[Bounds]) -> Bounds:
    """The lowest of several points: what counts where there is more than one. ValueError for none."""
    found = list(each)
    low, high = min(one.low for one in found), min(one.high for one in found)
    return Bounds(low if low == high else None, low, high)


def either(each: Iterable[Bounds]) -> Bounds:
    """Points that are one of these, it is not known which. ValueError for none."""
    found = list(each)
    low, high = min(one.low for one in found), max(one.high for one in found)
    return Bounds(low if low == high else None, low, high)


def weighted(group: str, each: Mapping[str, Bounds]) -> Bounds:
    """The sum of weight x points over a group of rows. KeyError where one of them has no points."""
    return total(each[name] * row.number("weight") for name, row in rows(group).items())


def classes(index: Bounds) -> tuple[str, ...]:
    """Every class that an index may be of, the best first."""
    limits = [(name, row.number("at_least")) for name, row in rows("class").items()]
    tops = [float("inf"), *(limit for _, limit in limits)]
    spare = 1e-9  # sums of hundredths that meet a limit are that limit
    return tuple(
        name
        for (name, limit), top in zip(limits, tops, strict=False)
        if index.high + spare >= limit and index.low + spare < top
    )
