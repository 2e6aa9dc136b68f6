"""Icons and verdict glyphs, drawn once for all drawings of a page and used by name."""

import re
from collections.abc import Iterable

from archdiff.page.diagrams.icons import icon, known
from archdiff.page.diagrams.marks import glyph
from archdiff.page.diagrams.markup import number, tag
from archdiff.page.diagrams.scene import Mark

_USE = re.compile(
    r'<use(?: class="([\w-]+)")? href="#([im]-[\w-]+)"(?: x="([-\d.]+)" y="([-\d.]+)"| transform="([^"]*)")/>'
)
_NAME = re.compile(r'<use [^>]*href="#([im]-[\w-]+)"')


def use_icon(shape: str, x: float, y: float) -> str:
    """The icon of a drawn-as word with its upper left corner there."""
    return tag("use", href=f"#i-{known(shape)}", x=x, y=y)


def use_mark(mark: Mark, x: float, y: float, scale: float = 1.0) -> str:
    """The glyph of a verdict with its upper left corner there."""
    if scale == 1.0:
        return tag("use", class_="mark", href=f"#m-{mark.value}", x=x, y=y)
    at = f"translate({number(x)} {number(y)}) scale({number(scale)})"
    return tag("use", class_="mark", href=f"#m-{mark.value}", transform=at)


def symbols(drawings: Iterable[str]) -> str:
    """The definitions of all that the drawings use; has to stand once in their page."""
    names = sorted({name for drawing in drawings for name in _NAME.findall(drawing)})
    shapes = "".join(tag("g", _shape(name), id=name, class_=_class(name)) for name in names)
    return tag("svg", tag("defs", shapes), class_="sheet-of-signs", width=0, height=0, aria_hidden="true")


def with_symbols(drawing: str) -> str:
    """The drawing with each use replaced by the strokes themselves, so that it needs nothing outside itself."""
    return _USE.sub(_drawn, drawing)


def _drawn(used: re.Match[str]) -> str:
    name, target, x, y, transform = used.groups()
    return tag("g", _shape(target), class_=name or _class(target), transform=transform or f"translate({x} {y})")


def _shape(name: str) -> str:
    kind, _, word = name.partition("-")
    return icon(word) if kind == "i" else glyph(Mark(word))


def _class(name: str) -> str | None:
    return "icon" if name.startswith("i-") else None
