"""Elements of SVG as text: everything that comes from a scene is escaped here and nowhere else."""

import re
from html import escape

_SAFE_LINK = re.compile(r"(?:#|https?://|mailto:)", re.IGNORECASE)


def number(value: float) -> str:
    """A coordinate with at most two decimals and no needless zero."""
    return f"{value:.2f}".rstrip("0").rstrip(".") if value % 1 else str(int(value))


def tag(name: str, *children: str, **attributes: str | float | None) -> str:
    """An element; attribute names lose a trailing `_` and swap other `_` for `-`; None leaves an attribute out."""
    shown = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{number(value) if isinstance(value, int | float) else escape(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{shown}>{''.join(children)}</{name}>" if children else f"<{name}{shown}/>"


def text(words: str, **attributes: str | float | None) -> str:
    """A text element; its words are escaped. The line end keeps lines apart for those who hear them."""
    return tag("text", escape(words), **attributes) + "\n"


def title(words: str) -> str:
    """A title element, shown as a tip and read aloud."""
    return tag("title", escape(words))


def named(label: str, href: str, *parts: str, **attributes: str | float | None) -> str:
    """A group that `label` names for ear and pointer, inside a link; an image where the address leads nowhere."""
    if leads_somewhere(href):
        return tag("a", title(label), tag("g", *parts, **attributes), href=href)
    return tag("g", title(label), *parts, **attributes, role="img")


def leads_somewhere(href: str) -> bool:
    """Whether the address is one that a page may lead to: a place in the page, https, http or mail."""
    return _SAFE_LINK.match(href) is not None
