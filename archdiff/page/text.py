"""Text from records and notes made fit to stand in a page: nothing in it can act."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from markupsafe import Markup

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

_UNFIT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]")
_SAFE_LINKS = frozenset({"http", "https", "mailto"})
_HEADING = re.compile(r"<(/?)h([1-6])>")
_NOT_PLAIN = re.compile(r"[^A-Za-z0-9 ]")
_NOT_IN_NAMES = re.compile(r"[^a-z0-9]+")


def clean(text: object) -> str:
    """As text without control and direction characters, lone surrogates and U+FFFE/FFFF (replaced by U+FFFD)."""
    return _UNFIT.sub("\N{REPLACEMENT CHARACTER}", str(text))


def css_string(text: str) -> str:
    """Text as a string of CSS, for `content`: whatever could end it or mean something there stands as its number."""
    return '"' + _NOT_PLAIN.sub(lambda sign: f"\\{ord(sign[0]):x} ", clean(text)) + '"'


def slug(text: str) -> str:
    """Text as part of an anchor: lower-case letters, digits and hyphens; 'x' where nothing is left."""
    return _NOT_IN_NAMES.sub("-", text.lower()).strip("-") or "x"


def markdown(text: str) -> Markup:
    """The analyst's Markdown as HTML: no raw HTML, no pictures, links only to https, http and mailto."""
    html = _renderer().render(clean(text))
    # Headings of a comment rank below those of the section it stands in.
    return Markup(_HEADING.sub(lambda found: f"<{found[1]}p>", html))  # noqa: S704 - the renderer escapes everything


def _is_safe(url: str) -> bool:
    return urlsplit(url).scheme.lower() in _SAFE_LINKS or url.startswith("#")


@cache
def _renderer() -> MarkdownIt:
    from markdown_it import MarkdownIt

    renderer = MarkdownIt("commonmark", {"html": False}).disable("image")
    renderer.validateLink = _is_safe  # type: ignore[method-assign]
    return renderer
