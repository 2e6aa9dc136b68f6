"""The seats of both sides as columns of numbers, left seats first, so that many pairs are weighed at once.

Both sides share one index and one coding, and nothing here knows which side is which: that makes the aligner
symmetric. Ids, names and markings are not taken up at all.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from archdiff.alignment.seats import NAMING, describing
from archdiff.quantities import Quantity, Size

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from archdiff.alignment.model import Seat
    from archdiff.record import Record

    Ints = NDArray[np.int64]
    Floats = NDArray[np.float64]

MISSING = -1


@dataclass(slots=True)
class Column:
    """One fact of all seats: a code for each text (MISSING where not stated), or the logarithm of a number."""

    name: str
    codes: Ints
    logs: Floats | None = None  # NaN where not stated


@dataclass(slots=True)
class Tables:
    """Everything that pairs of seats are weighed by."""

    records: tuple[Record, Record]
    seats: list[Seat]
    n_left: int
    function: Ints
    subsystem: Ints
    unknown: NDArray[np.bool_]  # purpose not known
    embedded: NDArray[np.bool_]
    empty: NDArray[np.bool_]  # a site that is not populated
    means: Column
    section: Column  # where it is listed; of what lives in another element, where that one is
    columns: list[Column]  # sorted by name

    @property
    def size(self) -> int:
        """Number of seats on both sides."""
        return len(self.seats)

    def record_of(self, index: int) -> Record:
        """The record that the seat of that index comes from."""
        return self.records[0 if index < self.n_left else 1]

    def left_counts(self) -> Ints:
        """Seats per function on the left."""
        return np.bincount(self.function[: self.n_left], minlength=self.functions)

    def right_counts(self) -> Ints:
        """Seats per function on the right."""
        return np.bincount(self.function[self.n_left :], minlength=self.functions)

    @property
    def functions(self) -> int:
        """Number of distinct functions."""
        return int(self.function.max(initial=-1)) + 1


def code(texts: Iterable[str]) -> Ints:
    """A number for each text, equal for equal texts and in their order; MISSING for ''."""
    listed = list(texts)
    known = {text: index for index, text in enumerate(sorted({*listed} - {""}))}
    return np.array([known.get(text, MISSING) for text in listed], dtype=np.int64)


def distinct(numbers: Ints) -> Ints:
    """Each number once, sorted; several times as quick as numpy's own for millions, which hashes first."""
    ordered = np.sort(numbers)
    differs = np.ones(len(ordered), dtype=bool)
    differs[1:] = ordered[1:] != ordered[:-1]
    return ordered[differs]


def tables_of(left: Record, right: Record, left_seats: list[Seat], right_seats: list[Seat]) -> Tables:
    """The columns of two sides."""
    seats = [*left_seats, *right_seats]
    n_left = len(left_seats)
    records = [left] * n_left + [right] * len(right_seats)
    function = code(seat.function for seat in seats)
    inside = np.array([_is_embedded(r, s) for r, s in zip(records, seats, strict=True)], dtype=bool)
    return Tables(
        (left, right),
        seats,
        n_left,
        function,
        subsystem=code(_subsystem(left, right, seat.function) for seat in seats),
        unknown=np.array([_is_unknown(r, s) for r, s in zip(records, seats, strict=True)], dtype=bool),
        embedded=inside,
        empty=np.array([not seat.first.populated for seat in seats], dtype=bool),
        means=Column("means", code("" if lives else s.means for s, lives in zip(seats, inside, strict=True))),
        section=Column("section", code(seat.section for seat in seats)),
        columns=_columns(seats, inside),
    )


def _subsystem(left: Record, right: Record, function: str) -> str:
    return left.subsystem(function) or right.subsystem(function)


def _is_embedded(record: Record, seat: Seat) -> bool:
    term = record.means_term(seat.means) if seat.means else None
    return bool(seat.embedded_in) or (term is not None and "embedded" in term.traits)


def _is_unknown(record: Record, seat: Seat) -> bool:
    term = record.function_term(seat.function)
    return term is not None and term.unknown


def _columns(seats: list[Seat], inside: NDArray[np.bool_]) -> list[Column]:
    texts: dict[str, dict[int, str]] = defaultdict(dict)
    numbers: dict[str, dict[int, float]] = defaultdict(dict)
    for index, seat in enumerate(seats):
        if inside[index]:
            continue  # the facts are those of the element it lives in
        kept = describing(seat.section)
        for name, value in seat.first.facts.items():
            if name in kept and name not in NAMING:
                _sort_in(index, name, value, texts, numbers)
    return [_column(name, len(seats), texts.get(name), numbers.get(name)) for name in sorted({*texts, *numbers})]


def _sort_in(index: int, name: str, value: Any, texts: Any, numbers: Any) -> None:
    if isinstance(value, Quantity):
        number: float | None = value.best
    elif isinstance(value, Size):
        number = _area(value)
    elif isinstance(value, bool) or not isinstance(value, int | float):
        number = None
        if isinstance(value, str | bool):
            texts[name][index] = str(value).casefold()
        elif isinstance(value, tuple) and (jobs := jobs_of(value)):
            texts[name][index] = jobs
    else:
        number = value
    if number is not None and number > 0 and math.isfinite(number):
        numbers[name][index] = math.log(number)


def jobs_of(openings: tuple[Any, ...]) -> str:
    """What the vents and holes of a piece are for: it tells more of the piece than its colour. '' where not stated."""
    jobs = {str(item["function"]) for item in openings if isinstance(item, Mapping) and "function" in item}
    return ", ".join(sorted(jobs))


def _area(size: Size) -> float:
    """The likeliest area in mm2, else the least; without the bounds around it, which take most of the time."""
    a, b = size.width, size.width if size.is_round else size.depth
    one, two = (side.low if side.best is None else side.best for side in (a, b))
    return one * two * (math.pi / 4 if size.is_round else 1)


def _column(name: str, size: int, texts: dict[int, str] | None, numbers: dict[int, float] | None) -> Column:
    logs = None
    codes = np.full(size, MISSING, dtype=np.int64)
    if numbers:
        logs = np.full(size, np.nan)
        at = np.fromiter(numbers.keys(), dtype=np.int64)
        logs[at] = np.fromiter(numbers.values(), dtype=np.float64)
        codes[at] = np.unique(np.round(logs[at] / _BIN), return_inverse=True)[1]
    if texts:
        at = np.fromiter(texts.keys(), dtype=np.int64)
        codes[at] = code(texts.values()) + (codes.max(initial=-1) + 1)
    return Column(name, codes, logs)


_BIN = 0.02  # numbers within 2 % of each other are taken as the same reading
