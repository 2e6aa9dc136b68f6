"""Where each of the analyst's comments stands: in the section, subsystem or element row that it speaks of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.page.text import markdown

if TYPE_CHECKING:
    from collections.abc import Iterable

    from markupsafe import Markup

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.notes import Comment


def comments_on(comparison: Comparison, name: str) -> tuple[Markup, ...]:
    """The comments on a section or subsystem of that name; spelling with '-', '_' or blanks is the same."""
    wanted = _plain(name)
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if not _names_element(comment) and _plain(comment.on) == wanted
    )


def comments_on_pair(comparison: Comparison, pair: Pair) -> tuple[Markup, ...]:
    """The comments that name an element of the pair, each with the one pair that it fits best."""
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if _names_element(comment) and _best_pair(comparison, comment) is pair
    )


def comments_on_element(comparison: Comparison, side: str, name: str) -> tuple[Markup, ...]:
    """The comments on an element that no pair holds (a board, a path): others stand with their pair."""
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if (comment.left or comment.right) == name
        and side == ("left" if comment.left else "right")
        and _best_pair(comparison, comment) is None
    )


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


def homeless(comparison: Comparison, homes: Iterable[str]) -> tuple[Markup, ...]:
    """Comments that speak of the whole, or of something the page does not show: none may be lost."""
    known = {_plain(home) for home in homes}
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if not _names_element(comment) and _plain(comment.on) not in known
    )


def _names_element(comment: Comment) -> bool:
    return bool(comment.left or comment.right)


def _plain(name: str) -> str:
    return name.lower().replace("_", " ").replace("-", " ").strip()
