"""Facts that differ within a pair, as written on both sides. A fact that one side does not state is no difference."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from archdiff.alignment.model import Change
from archdiff.alignment.seats import NAMING, describing
from archdiff.alignment.verdict import words
from archdiff.quantities import Bounds, Quantity, Size
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.record import Element

# Stated for all things of an entry together; any other fact is that of each of them.
_TOGETHER = frozenset({"current", "mass", "power", "price"})
_NOT_TOLD = frozenset({"hidden_under", "populated", *(NAMING - {"price"})})


def changes_of(left: Sequence[Element], right: Sequence[Element]) -> list[Change]:
    """The describing facts that all members of both seats state and that cannot be the same, sorted by name."""
    found: list[Change] = []
    told = _told(left[0].section, right[0].section)
    for name in sorted([name for name in left[0].facts if name in right[0].facts and name in told]):
        a, b = (_of_all(name, members) for members in (left, right))
        if a == b or a is None or b is None:
            continue
        if isinstance(a, dict) or isinstance(b, dict) or _holds_mappings(a) or _holds_mappings(b):
            found.extend(_nested(name, a, b))
        elif differs(a, b):
            found.append(Change(_words(name), written(name, left), written(name, right)))
    return found


def _of_all(name: str, members: Sequence[Element]) -> Any:
    """What all members of a seat say alike; what is stated for an entry together holds of no seat of several."""
    values = [member.facts.get(name) for member in members]
    if name in _TOGETHER and len(members) > 1:
        return None
    return values[0] if all(value == values[0] for value in values) else None


def written(name: str, members: Sequence[Element]) -> str:
    """The fact as written of the first member, and of how many it is: '66 mW together', '13 mW each of 3 entries'."""
    text = shown(members[0].facts[name])
    if name not in _TOGETHER:
        return text
    return f"{text} each of {len(members)} entries" if len(members) > 1 else text + " together" * (members[0].count > 1)


@cache
def _told(*sections: str) -> frozenset[str]:
    return frozenset.intersection(*(describing(name) for name in sections)) - _NOT_TOLD | {"price"}


def differs(left: Any, right: Any) -> bool:
    """Whether two stated values cannot be the same.

    Quantities and sizes differ when their bounds do not overlap, money of two currencies never, texts when
    neither holds all words of the other, lists when they hold other things.
    """
    if left is None or right is None:
        return False
    if isinstance(left, Size) and isinstance(right, Size):
        return _sizes_differ(left, right)
    if isinstance(left, bool) or isinstance(right, bool):
        return bool(left != right)
    a, b = as_bounds(left), as_bounds(right)
    if a is not None and b is not None:
        return not a.overlaps(b) and _currency(left) == _currency(right)
    if isinstance(left, tuple) and isinstance(right, tuple):
        return {str(item).casefold() for item in left} != {str(item).casefold() for item in right}
    one, two = words(str(left)), words(str(right))
    return not (one <= two or two <= one)


def _currency(value: Any) -> str:
    return value.currency if isinstance(value, Quantity) else ""


def _sizes_differ(left: Size, right: Size) -> bool:
    """Blind to which way round width and depth were written."""
    straight = left.width.overlaps(right.width) and left.depth.overlaps(right.depth)
    turned = left.width.overlaps(right.depth) and left.depth.overlaps(right.width)
    high = left.height is None or right.height is None or left.height.overlaps(right.height)
    return not ((straight or turned) and high)


def _holds_mappings(value: Any) -> bool:
    return isinstance(value, tuple) and any(isinstance(item, dict) for item in value)


def _nested(name: str, left: Any, right: Any) -> Iterator[Change]:
    """Differences inside a mapping or a list of mappings, each with the way to it: 'port length'."""
    from deepdiff import DeepDiff  # slow to import, and few facts are nested

    # By itself the library tells mappings that have little in common as a whole.
    tree = DeepDiff(_as_text(left), _as_text(right), view="tree", threshold_to_diff_deeper=0)
    for kind in ("values_changed", "type_changes"):
        for level in tree.get(kind, ()):
            path = level.path(output_format="list")
            a, b = _at(left, path), _at(right, path)
            if differs(a, b):
                yield Change(" ".join(_words(str(step)) for step in (name, *path)), shown(a), shown(b))


def _as_text(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _as_text(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_as_text(item) for item in value]
    return str(value)


def _at(value: Any, path: list[Any]) -> Any:
    for step in path:
        value = value[step]
    return value


def shown(value: Any) -> str:
    """A stated value as written."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(str(item) for item in value)
    return str(value)


def _words(name: str) -> str:
    return name.replace("_", " ")


def how_many(left: Bounds, right: Bounds) -> Change | None:
    """The counts of both sides where they cannot be the same; a count without upper bound is 'n or more seen'."""
    if left.overlaps(right):
        return None
    return Change("how many", count_in_words(left), count_in_words(right))


def count_in_words(count: Bounds) -> str:
    """'4', or '3 or more seen'."""
    return f"{count.low:g}" if count.is_exact else f"{count.low:g} or more seen"
