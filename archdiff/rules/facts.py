"""What the rules share: stated facts as numbers, numbers as words, and the walk over everything stated."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from archdiff.quantities import Bounds, Size
from archdiff.record import as_bounds
from archdiff.record.plan import Plan, record_plan

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from archdiff.record import Element, Record

Path = tuple[str | int, ...]
_WHOLE = 1e3  # from here on no decimals are shown
# Several rules go over the same walk; it lives as long as its record.
_walked: WeakKeyDictionary[Record, tuple[tuple[Path, Plan, Any], ...]] = WeakKeyDictionary()


def number(facts: Mapping[str, Any], *names: str) -> Bounds | None:
    """The quantity or number at `names`, one step a name; None where it is not stated."""
    value: Any = facts
    for name in names:
        value = value.get(name) if isinstance(value, Mapping) else None
    return as_bounds(value)


def size_of(facts: Mapping[str, Any], name: str = "size") -> Size | None:
    """The size stated under `name`; None where there is none."""
    value = facts.get(name)
    return value if isinstance(value, Size) else None


def shown(bounds: Bounds, unit: str = "") -> str:
    """A computed number in words: '12 mm', '10..14 mm', 'at least 3 mm'."""
    low, high = _digits(bounds.low), _digits(bounds.high)
    if math.isinf(bounds.high):
        text = f"at least {low}"
    elif math.isinf(bounds.low):
        text = f"at most {high}"
    else:
        text = low if bounds.is_exact else f"{low}..{high}"
    return f"{text} {unit}".rstrip()


def _digits(value: float) -> str:
    return f"{value:.0f}" if _WHOLE <= abs(value) < math.inf else f"{value:.4g}"


def near(name: str, known: Iterable[str], otherwise: str) -> str:
    """A hint that names the nearest known word, else `otherwise`."""
    folded = {word.casefold(): word for word in known}
    found = difflib.get_close_matches(name.casefold(), folded, n=1, cutoff=0.6)
    return f"did you mean '{folded[found[0]]}'?" if found else otherwise


def space_diagonal(record: Record) -> float | None:
    """The longest straight line that fits in the product's envelope, in mm; None where it is not stated.

    Nothing stiff that is longer fits, however it lies.
    """
    envelope = size_of(record.product, "envelope")
    if envelope is None or envelope.height is None:
        return None
    if envelope.is_round:
        return math.hypot(envelope.width.high, envelope.height.high)
    return math.hypot(envelope.width.high, envelope.depth.high, envelope.height.high)


def ids(value: Any) -> tuple[str, ...]:
    """A reference or a list of references as a tuple; empty for anything else."""
    if isinstance(value, str):
        return (value,)
    return tuple(item for item in value if isinstance(item, str)) if isinstance(value, list | tuple) else ()


def board_of(record: Record, element: Element) -> str:
    """The one board that carries it, '' where there is none, more than one, or it is not known."""
    boards = [host for host in element.hosts if host in record.hosts and record.hosts[host].section == "boards"]
    return boards[0] if len(boards) == 1 == len(element.hosts) else ""


def leaves(record: Record) -> Sequence[tuple[Path, Plan, Any]]:
    """(path, plan, value as written) of every reference and term in the record's data."""
    if record not in _walked:
        _walked[record] = tuple(_leaves(record.document.data, record_plan(), ()))
    return _walked[record]


def _leaves(value: Any, plan: Plan, path: Path) -> Iterator[tuple[Path, Plan, Any]]:
    if isinstance(value, dict):
        for key, item in value.items():
            inner = plan.properties.get(key) or plan.entries
            if inner is not None:
                yield from _leaves(item, inner, (*path, key))
    elif isinstance(value, list):
        if plan.items is not None:
            for index, item in enumerate(value):
                yield from _leaves(item, plan.items, (*path, index))
    elif plan.refers_to or plan.term:
        yield path, plan, value


@lru_cache(maxsize=2)  # several rules walk the same record, one after the other
def stated(record: Record) -> Sequence[tuple[Path, Any]]:
    """(path, value) of every fact in the record, down to single quantities and sizes."""
    return tuple(_all_stated(record))


def _all_stated(record: Record) -> Iterator[tuple[Path, Any]]:
    for element in record.elements.values():
        yield from _stated(element.facts, element.path)
    for path, facts in ((("product",), record.product), (("opening",), record.opening), (("power",), record.power)):
        yield from _stated(facts, path)


def _stated(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    if isinstance(value, Mapping):
        for key, item in value.items():
            yield from _stated(item, (*path, key))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _stated(item, (*path, index))
    else:
        yield path, value
