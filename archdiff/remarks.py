"""Where each of the analyst's comments belongs: to a section, a subsystem, a pair, an element, or the whole."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.notes import Comment


def remarks_on(comparison: Comparison, name: str) -> tuple[Comment, ...]:
    """The comments on a section or subsystem of that name; spelling with '-', '_' or blanks is the same."""
    wanted = _plain(name)
    return tuple(c for c in comparison.notes.comments if not _names_element(c) and _plain(c.on) == wanted)


def remarks_on_pair(comparison: Comparison, pair: Pair) -> tuple[Comment, ...]:
    """The comments that name an element of the pair, each with the one pair that it fits best."""
    return tuple(c for c in comparison.notes.comments if _names_element(c) and _best_pair(comparison, c) is pair)


def remarks_on_elements(comparison: Comparison) -> tuple[Comment, ...]:
    """The comments on elements that no pair holds (a board, a path): others stand with their pair."""
    return tuple(c for c in comparison.notes.comments if _names_element(c) and _best_pair(comparison, c) is None)


def remarks_without_home(comparison: Comparison, homes: Iterable[str]) -> tuple[Comment, ...]:
    """Comments that speak of the whole, or of something that none of these homes is named after: none may be lost."""
    known = {_plain(home) for home in homes}
    return tuple(c for c in comparison.notes.comments if not _names_element(c) and _plain(c.on) not in known)


@lru_cache(maxsize=1024)
def _best_pair(comparison: Comparison, comment: Comment) -> Pair | None:
    """The pair with most of the named elements in it, by their main function where they have several."""

    def fits(pair: Pair) -> tuple[int, int]:
        named = [
            seat
            for seat, name in ((pair.left, comment.left), (pair.right, comment.right))
            if seat is not None and name in seat.ids
        ]
        return len(named), sum(seat.function == seat.first.function for seat in named)

    best = max(comparison.pairs, key=fits, default=None)
    return best if best is not None and fits(best)[0] else None


def _names_element(comment: Comment) -> bool:
    return bool(comment.left or comment.right)


def _plain(name: str) -> str:
    return name.lower().replace("_", " ").replace("-", " ").strip()
