"""How wide a line of text will be, without asking a browser, and how to break it to fit.

The advance widths are those of the Helvetica family in Adobe's Core 14 font metrics (thousandths of the type size);
Arial, Liberation Sans and Arimo were drawn to the same widths.  Whatever the table lacks is taken wide on purpose.
"""

import re
import unicodedata
from functools import lru_cache

_PRINTABLE = "".join(chr(code) for code in range(32, 127))
_REGULAR = dict(zip(_PRINTABLE, (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
), strict=True))  # fmt: skip
_BOLD = dict(zip(_PRINTABLE, (
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
), strict=True))  # fmt: skip
_SIGNS = {"\u00d7": 584, "±": 584, "°": 400, "·": 333, "…": 1000, "\u2013": 556, "—": 1000, "µ": 611, "μ": 611,
          "≥": 584, "≤": 584, "Ω": 810, "²": 333, "³": 333, "\u2019": 278, "\u2018": 278, "“": 500, "”": 500, "ß": 611,
          "\u00a0": 278}  # fmt: skip
_UNKNOWN = 1000
_WIDE = 1050
_EMOJI = 1400
_FIRST_EMOJI = 0x1F000

ELLIPSIS = "…"
_CJK = "\u2e80-\u9fff\uac00-\ud7af\uf900-\ufaff\uff00-\uffef"
_PIECES = re.compile(rf" +|[{_CJK}]|[^ {_CJK}/-]+(?:-(?=\d)[^ {_CJK}/-]+)*[-/]*|[-/]+")
_UNITS = "x|mm|cm|m|V|mV|A|mA|Ah|mAh|W|mW|Wh|kB|MB|GB|Mbit|Hz|kHz|MHz|GHz|in|g|%|K|°C|ways?|pins?|layers?|channels?"
_KEPT_TOGETHER = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?:\b|$|\s))|(?<=\d x) (?=\d)|(?<=\u00d7) (?=\d)")
_GLUE = "\u00a0"


@lru_cache(maxsize=4096)
def _advance(char: str, *, bold: bool) -> int:
    table = _BOLD if bold else _REGULAR
    if char in table:
        return table[char]
    if char in _SIGNS:
        return _SIGNS[char]
    if unicodedata.category(char) in {"Mn", "Me", "Cf"}:
        return 0
    if ord(char) >= _FIRST_EMOJI:
        return _EMOJI
    if unicodedata.east_asian_width(char) in {"W", "F"}:
        return _WIDE
    base = unicodedata.normalize("NFD", char)[0]
    return table.get(base, _UNKNOWN)


@lru_cache(maxsize=32768)
def width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of `text` in px when set at `size` px; errs wide, never narrow, for signs outside the table."""
    return sum(_advance(char, bold=bold) for char in text) * size / 1000


def shorten(text: str, size: float, limit: float, *, bold: bool = False) -> str:
    """`text` when it fits `limit` px, else its longest beginning that fits with an ellipsis behind it."""
    if width(text, size, bold=bold) <= limit:
        return text
    return _head(text, size, limit - width(ELLIPSIS, size, bold=bold), bold=bold).rstrip() + ELLIPSIS


def _head(text: str, size: float, limit: float, *, bold: bool) -> str:
    room, end = limit * 1000 / size, 0
    for char in text:
        room -= _advance(char, bold=bold)
        if room < 0:
            break
        end += 1
    return text[:end]


def wrap(text: str, size: float, limits: tuple[float, ...], *, bold: bool = False) -> tuple[tuple[str, ...], bool]:
    """Break `text` into at most `len(limits)` lines, line i at most `limits[i]` px wide.

    Breaks at blanks (but not between a number and its unit), after slashes, after hyphens that no digit follows,
    between CJK signs, and inside a word only when the word alone is too long. Returns the lines and whether all of the
    text is in them; when not, the last line ends in an ellipsis.
    """
    lines: list[str] = []
    rest = _KEPT_TOGETHER.sub(_GLUE, text.strip())
    while rest and len(lines) < len(limits):
        limit = limits[len(lines)]
        last = len(lines) == len(limits) - 1
        line, rest_after = (rest, "") if width(rest, size, bold=bold) <= limit else _break(rest, size, limit, bold=bold)
        if last and rest_after:
            return (*lines, shorten(rest, size, limit, bold=bold)), False
        lines.append(line)
        rest = rest_after
    return tuple(lines), True


def _break(text: str, size: float, limit: float, *, bold: bool) -> tuple[str, str]:
    """The first line of `text` that fits, and what is left over; always takes at least one sign."""
    end = 0
    for piece in _PIECES.finditer(text):
        if width(text[: piece.end()].rstrip(), size, bold=bold) > limit:
            break
        end = piece.end()
    if not text[:end].strip():
        end = max(1, len(_head(text, size, limit, bold=bold)))
    return text[:end].rstrip(), text[end:].lstrip()
