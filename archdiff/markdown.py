"""Markdown from what others wrote: record text as plain words, the analyst's Markdown without raw HTML."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_CODE = re.compile(r"(`+)(?!`).*?(?<!`)\1(?!`)", re.DOTALL)
_TAG = re.compile(r"<(?=[A-Za-z/!?])(?!(?:https?://|mailto:))")


def inert(text: str) -> str:
    r"""Text as plain words on one line: CommonMark 0.31, section 2.4, lets all punctuation be escaped.

    >>> print(inert("2 * <b>"))
    2 \* \<b\>
    """
    return re.sub(r"([\\`*_{}\[\]<>#|!~&])", r"\\\1", re.sub(r"[ \t\r\n]+", " ", text)).strip()


def own_words(text: str) -> str:
    """Markdown as written, except that raw HTML outside of code is shown as text.

    >>> own_words("**so** <b>")
    '**so** &lt;b>'
    """
    kept, at = [], 0
    for code in _CODE.finditer(text):
        kept += [_TAG.sub("&lt;", text[at : code.start()]), code[0]]
        at = code.end()
    return "".join([*kept, _TAG.sub("&lt;", text[at:])]).strip()


def quote(text: str, about: str = "", indent: str = "") -> str:
    """The analyst's words as a block quotation, which tells them from what was computed."""
    lines = [f"**{inert(about)}**", ""] if about else []
    return "\n".join(f"{indent}> {line}".rstrip() for line in [*lines, *own_words(text).splitlines()])


def table(heads: Sequence[str], align: Sequence[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; the cells are Markdown, and `align` gives the rule of each column, '---' or '---:'."""
    return "\n".join(f"| {' | '.join(cells)} |" for cells in (heads, align, *rows))
