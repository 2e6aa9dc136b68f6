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
    """The comments that name an element of the pair."""
    left = pair.left.ids if pair.left else ()
    right = pair.right.ids if pair.right else ()
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if comment.left in left or comment.right in right
    )


def comments_on_element(comparison: Comparison, side: str, name: str) -> tuple[Markup, ...]:
    """The comments on an element that no pair holds (a board, a path): others stand with their pair."""
    held = {one for pair in comparison.pairs for seat in pair.seats for one in seat.ids}
    return tuple(
        markdown(comment.text)
        for comment in comparison.notes.comments
        if (comment.left if side == "left" else comment.right) == name and name not in held
    )


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
