"""The analyst's comments as HTML, for the section, subsystem or element row that they speak of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.page.text import markdown
from archdiff.remarks import remarks_on, remarks_on_elements, remarks_on_pair, remarks_without_home

if TYPE_CHECKING:
    from collections.abc import Iterable

    from markupsafe import Markup

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison


def comments_on(comparison: Comparison, name: str) -> tuple[Markup, ...]:
    """The comments on a section or subsystem of that name."""
    return tuple(markdown(comment.text) for comment in remarks_on(comparison, name))


def comments_on_pair(comparison: Comparison, pair: Pair) -> tuple[Markup, ...]:
    """The comments on the elements of a pair."""
    return tuple(markdown(comment.text) for comment in remarks_on_pair(comparison, pair))


def comments_on_element(comparison: Comparison, side: str, name: str) -> tuple[Markup, ...]:
    """The comments on an element that no pair holds: others stand with their pair."""
    return tuple(
        markdown(comment.text)
        for comment in remarks_on_elements(comparison)
        if (comment.left or comment.right) == name and side == ("left" if comment.left else "right")
    )


def homeless(comparison: Comparison, homes: Iterable[str]) -> tuple[tuple[str, Markup], ...]:
    """(what it speaks of, '' for the whole; the comment) of each comment that has none of these homes."""
    return tuple((comment.on, markdown(comment.text)) for comment in remarks_without_home(comparison, homes))
