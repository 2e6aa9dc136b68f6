"""The look holds what it promises: contrast, no colour that judges, and sides told apart without colour."""

from __future__ import annotations

import colorsys
import re
from importlib import resources

import pytest

from archdiff.page import glyphs
from archdiff.page.render import STYLES

CSS = "".join(resources.files("archdiff.page").joinpath(name).read_text("utf-8") for name in STYLES[1:])
_BLOCKS = {
    "light": CSS[CSS.index(":root {") : CSS.index("@media (prefers-color-scheme: dark)")],
    "dark by the system": CSS[
        CSS.index("@media (prefers-color-scheme: dark)") : CSS.index(':root[data-sheet="dark"] {')
    ],
    "dark by choice": CSS[CSS.index(':root[data-sheet="dark"] {') : CSS.index("*, *::before")],
    "print": CSS[CSS.index("@media print") :],
}
GROUNDS = ("paper", "sheet", "soft-left", "soft-right")


def colours(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{3,6})", _BLOCKS[block]))


def channels(colour: str) -> tuple[float, float, float]:
    digits = colour.lstrip("#")
    digits = "".join(digit * 2 for digit in digits) if len(digits) == 3 else digits
    red, green, blue = (int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4))
    return red, green, blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio by WCAG 2.2, definitions of relative luminance and contrast ratio (recomputed)."""

    def luminance(colour: str) -> float:
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels(colour)]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_published_ends() -> None:
    # WCAG 2.2: black on white is 21:1, a colour on itself 1:1; #767676 on white is the well-known 4.54:1.
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#123456", "#123456") == pytest.approx(1)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("block", list(_BLOCKS))
@pytest.mark.parametrize("text", ["ink", "faint", "left", "right"])
def test_text_reaches_level_aa_on_every_ground(block: str, text: str) -> None:
    named = colours(block)
    assert min(contrast(named[text], named[ground]) for ground in GROUNDS) >= 4.5


@pytest.mark.parametrize("block", list(_BLOCKS))
def test_lines_that_mean_something_reach_three_to_one(block: str) -> None:
    named = colours(block)
    assert contrast(named["rule"], named["paper"]) >= 3


def test_both_ways_to_dark_are_the_same() -> None:
    assert colours("dark by the system") == colours("dark by choice")


@pytest.mark.parametrize("block", list(_BLOCKS))
def test_sides_are_blue_and_vermillion_never_red_and_green(block: str) -> None:
    hue = {side: colorsys.rgb_to_hls(*channels(colours(block)[side]))[0] * 360 for side in ("left", "right")}
    assert 195 <= hue["left"] <= 215  # Okabe-Ito blue #0072B2 has hue 202, sky blue #56B4E9 202
    assert 15 <= hue["right"] <= 30  # Okabe-Ito vermillion #D55E00 has hue 26


def test_sides_and_verdicts_have_shapes_of_their_own() -> None:
    sheet = str(glyphs.sign_sheet())
    shapes = re.findall(r'<symbol id="sign-([a-z-]+)" [^>]*>(.*?)</symbol>', sheet)
    drawn = [shape for _, shape in shapes]
    assert len(shapes) == 10
    assert len(set(drawn)) == len(drawn)
    assert glyphs.side_sign("left") != glyphs.side_sign("right")
    ring, square = (
        re.search(rule, CSS)
        for rule in (r"i\.sign \{[^}]*border-radius: 50%", r"i\.sign\.right \{[^}]*border-radius: 0")
    )
    assert ring
    assert square
    turns = dict(re.findall(r'<pattern id="hatch-(\w+)".*?rotate\((-?\d+)\)', sheet))
    assert turns["left"] != turns["right"]


def test_the_page_adapts_by_the_promised_queries() -> None:
    for query in ("prefers-color-scheme: dark", "@media print", "@page", ":focus-visible", "max-width: 760px"):
        assert query in CSS
