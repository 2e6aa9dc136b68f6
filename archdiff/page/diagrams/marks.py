"""The verdict of a pair as a small geometric glyph, for the tiles and for the page's tables."""

from typing import Final

from archdiff.page.diagrams.scene import Mark

_LINE: Final = 'class="mark-line" fill="none" stroke-width="1.4" stroke-linecap="round"'
_GLYPHS: Final[dict[Mark, str]] = {
    Mark.ALIKE: f'<path d="M2.5 4.4h7M2.5 7.8h7" {_LINE}/>',
    Mark.DIFFERENT: (
        f'<circle cx="6" cy="6" r="4.2" {_LINE}/><path class="mark-fill" d="M6 1.8a4.2 4.2 0 0 0 0 8.4z"/>'
    ),
    Mark.ELSEWHERE: f'<path d="M5.4 3.4H1.6v7h7V6.8M5.2 6.9L10.4 1.7M7.2 1.4h3.4v3.4" {_LINE}/>',
    Mark.BOTH: (
        f'<path d="M5 2.8a4.1 4.1 0 1 0 4.1 4.1M6.3 5.6L10.7 1.2M7.9 1h3v3" {_LINE}/>'
        '<path class="mark-fill" d="M5 2.8a4.1 4.1 0 0 0 0 8.2z"/>'
    ),
    Mark.ONLY: '<path class="mark-fill" d="M6 .8L11.2 6 6 11.2 .8 6z"/>',
    Mark.SEPARATE_ONLY: f'<path d="M6 1.6L10.4 6 6 10.4 1.6 6z" {_LINE}/>',
    Mark.UNKNOWN: (
        '<circle cx="6" cy="6" r="5" class="mark-line" fill="none" stroke-width="1.1" stroke-dasharray="1.9 1.24"/>'
        '<path class="mark-line" fill="none" stroke-width="1.2" stroke-linecap="round" stroke-linejoin="round" '
        'd="M4.5 4.9a1.5 1.5 0 1 1 2.3 1.2q-.8.5-.8 1.1"/><circle class="mark-fill" cx="6" cy="8.7" r=".75"/>'
    ),
}

WORDS: Final[dict[Mark, str]] = {
    Mark.ALIKE: "alike",
    Mark.DIFFERENT: "done differently",
    Mark.ELSEWHERE: "placed elsewhere",
    Mark.BOTH: "done differently and placed elsewhere",
    Mark.ONLY: "only in this product",
    Mark.SEPARATE_ONLY: "a separate part only in this product",
    Mark.UNKNOWN: "not known",
}
"""What each verdict is called where it is spoken or written out."""

TITLES: Final[dict[Mark, str]] = WORDS | {Mark.ONLY: "only in …", Mark.SEPARATE_ONLY: "separate part only in …"}
"""What a legend and the glossary call each verdict, the product's name left open."""


def glyph(mark: Mark) -> str:
    """The strokes of a verdict on a field of 12 by 12 px; coloured by the classes `mark-line` and `mark-fill`."""
    return _GLYPHS[mark]


def mark_svg(mark: Mark) -> str:
    """A verdict as an SVG image of its own, named for screen readers, to stand in running text or a table."""
    return (
        f'<svg class="mark mark-{mark.value}" viewBox="0 0 12 12" width="12" height="12" role="img" '
        f'aria-label="{WORDS[mark]}">{glyph(mark)}</svg>'
    )
