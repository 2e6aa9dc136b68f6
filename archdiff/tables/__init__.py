"""Published constants as YAML, each value with its source and how it was checked.

A table is a file of this folder:

    title: what it holds
    sources:
      sarvar: {name: "Sarvar et al. 1990, ...", edition: "1990"}
    rows:
      glass-epoxy laminate: {through: 0.343, along: 1.059, source: sarvar, checked: read, "on": 2026-03-10}

`checked` is one of `CHECKED`, `"on"` the date of that check; it is quoted, as YAML 1.1 takes a bare `on` for true.
Every other key of a row is a value: a number, a [low, high] pair, or text; its unit stands in the table's `units`.
No number of physics stands in code.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

CHECKED = ("read", "read second-hand", "recomputed", "from memory", "definition")
_ABOUT_ROWS = ("source", "checked", "on", "note")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its key, its values, and where they come from in words: 'Sarvar et al. 1990; read'."""

    key: str
    values: Mapping[str, Any]
    cited: str

    def number(self, name: str) -> float:
        """A value that is a single number; KeyError where the row has none, TypeError where it is no number."""
        value = self.values[name]
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise TypeError(f"{self.key}: {name} is {value!r}, not a number")
        return float(value)

    def span(self, name: str) -> tuple[float, float]:
        """A value as (lowest, highest): a single number gives it twice."""
        value = self.values[name]
        if isinstance(value, list):
            low, high = value
            return float(low), float(high)
        return self.number(name), self.number(name)


@dataclass(frozen=True, slots=True)
class Table:
    """A published table: rows by key, in the order of the file."""

    title: str
    units: Mapping[str, str]
    rows: Mapping[str, Row]


@cache
def read_table(name: str) -> Table:
    """The table `name`, read once.

    KeyError where a row names no listed source, ValueError where it says no known way of checking.
    """
    import yaml

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the one written in C, where the library has it
    data = yaml.load((files(__name__) / f"{name}.yaml").read_text("utf-8"), Loader=loader)  # noqa: S506 - both are safe
    sources = data["sources"]
    rows = {str(key): _row(str(key), row, sources) for key, row in data["rows"].items()}
    return Table(data["title"], data.get("units", {}), rows)


@cache
def all_tables() -> Mapping[str, Table]:
    """Every table by the name of its file, in alphabetical order."""
    names = sorted(f.name.removesuffix(".yaml") for f in files(__name__).iterdir() if f.name.endswith(".yaml"))
    # The kinds of quantity are definitions of the record's format, not published values.
    return {name: read_table(name) for name in names if name != "quantities"}


def _row(key: str, row: Mapping[str, Any], sources: Mapping[str, Any]) -> Row:
    if row["checked"] not in CHECKED:
        raise ValueError(f"{key}: checked is {row['checked']!r}, not one of {', '.join(CHECKED)}")
    values = {name: value for name, value in row.items() if name not in _ABOUT_ROWS}
    return Row(key, values, f"{sources[row['source']]['name']}; {row['checked']}")
