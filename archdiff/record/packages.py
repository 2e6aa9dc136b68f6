"""How much board a body takes by its package or chip size code, where its own size is not stated."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from archdiff.quantities import Bounds
from archdiff.quantities.parse import ABOUT
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.record.model import Element
    from archdiff.tables import Row

_SYSTEMS = {"inch": "inch", "imperial": "inch", "metric": "metric"}
_OVER_LEADS = " over leads"


@dataclass(frozen=True, slots=True)
class Body:
    """Area of a body in mm2 as its package tells it, the facts that tell it, and the row it was taken from."""

    area: Bounds
    facts: tuple[str, ...]
    cited: str


@dataclass(frozen=True, slots=True)
class ChipCode:
    """A chip size code as written: its digits, 'inch' or 'metric' where that is said, and the rows it may stand for."""

    digits: str
    system: str
    rows: tuple[Row, ...]


def body_by_package(element: Element) -> Body | None:
    """The body that its package or chip size code stands for; None where that is no one size.

    Nominal sizes are taken as 'about': give or take a tenth each way. A leaded package takes at least its body and
    at most the span over its leads.
    """
    code = chip_code(element.text("package"))
    if code is not None:
        return _body(code.rows[0], code.rows[0], ("package",)) if len(code.rows) == 1 else None
    row, facts = package_row(element)
    if row is None:
        return None
    rows = read_table("packages").rows
    return _body(row, rows.get(row.key + _OVER_LEADS, row), facts)


@lru_cache(maxsize=4096)
def chip_code(package: str) -> ChipCode | None:
    """A chip size code out of a package's text: 'metric 1608', '0805', 'imperial 0402'; None where there is none."""
    words = [word.strip("(),.;") for word in package.casefold().split()]
    codes = [word for word in words if word in _digits()]
    if len(codes) != 1:
        return None
    system = next((_SYSTEMS[word] for word in words if word in _SYSTEMS), "")
    columns = (system,) if system else ("inch", "metric")
    rows = read_table("chip_codes").rows.values()
    found = tuple(row for row in rows if any(row.values.get(column) == codes[0] for column in columns))
    return ChipCode(codes[0], system, found) if found else None


def package_row(element: Element) -> tuple[Row | None, tuple[str, ...]]:
    """The row of a package's name, else of its name and number of terminals, and the facts that this takes."""
    rows = read_table("packages").rows
    name = "-".join(element.text("package").upper().split())
    pins = element.text("pins")
    for key, facts in ((name, ("package",)), (f"{name}-{pins}", ("package", "pins"))):
        row = rows.get(key)
        if row is not None and not _other_pitch(element, row):
            return row, facts
    return None, ()


def _other_pitch(element: Element, row: Row) -> bool:
    """Whether its pitch is stated and is not that of the row: then it is another size of the same name."""
    pitch = element.bounds("pitch")
    return pitch is not None and "pitch" in row.values and not (pitch.low <= row.number("pitch") <= pitch.high)


def _body(least: Row, most: Row, facts: tuple[str, ...]) -> Body:
    low, high = (_sides(row)[i] for i, row in enumerate((least, most)))
    best = None if least is not most else low
    area = Bounds(best, low * (1 - ABOUT) ** 2, high * (1 + ABOUT) ** 2)
    pitch = f" at a pitch of {least.number('pitch'):g} mm" if "pitch" in least.values else ""
    leads = "" if least is most else f"; leads: {most.cited}"
    return Body(area, facts, f"{least.key}{pitch}: {least.cited}{leads}")


def _sides(row: Row) -> tuple[float, float]:
    """Least and greatest nominal area in mm2."""
    (least, most), (low, high) = row.span("length"), row.span("width")
    return least * low, most * high


@cache
def _digits() -> frozenset[str]:
    rows = read_table("chip_codes").rows.values()
    return frozenset(str(row.values[column]) for row in rows for column in ("inch", "metric") if column in row.values)
