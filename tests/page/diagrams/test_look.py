"""Glyphs, icons and the stylesheet: own strokes, words for the ear, contrast enough to read."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from archdiff.page.diagrams import blocks
from archdiff.page.diagrams.boards import HEAD_SIZE, NOTE_SIZE
from archdiff.page.diagrams.icons import icon, shapes
from archdiff.page.diagrams.marks import WORDS, mark_svg
from archdiff.page.diagrams.pills import PILL_SIZE
from archdiff.page.diagrams.scene import Mark
from archdiff.page.diagrams.tiles import BADGE_SIZE, DETAIL_SIZE, TITLE_SIZE
from tests.page.diagrams.conftest import LETTERING

CSS = Path(blocks.__file__).with_name("diagram.css").read_text(encoding="utf-8")
THEMES = dict(
    zip(
        ("light", "dark", "print"),
        (dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", part)) for part in re.split(r"@media", CSS)[:3]),
        strict=True,
    )
)


@pytest.mark.parametrize("mark", Mark)
def test_every_verdict_has_a_glyph_with_a_name(mark: Mark) -> None:
    root = ET.fromstring(mark_svg(mark))
    assert root.get("aria-label") == WORDS[mark]
    assert root.get("role") == "img"
    assert len(root) >= 1


def test_no_two_verdicts_look_or_sound_alike() -> None:
    assert len({mark_svg(mark) for mark in Mark}) == len(set(WORDS.values())) == len(Mark)


def test_every_icon_is_drawn_inside_its_field() -> None:
    for shape in shapes():
        d = ET.fromstring(icon(shape)).get("d") or ""
        starts = re.findall(r"M(-?[\d.]+) ?(-?\.?[\d.]+)", d)
        assert starts, shape
        assert all(0 <= float(x) <= 12 and 0 <= float(y) <= 12 for x, y in starts), shape
    assert icon("a word nobody knows") == icon("other")


def _luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2."""
    channels = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def _contrast(a: str, b: str) -> float:
    high, low = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_published_values() -> None:
    # WCAG 2.2 gives 21:1 for black on white; #767676 on white is the well-known last grey above 4.5:1 (4.54).
    assert _contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert _contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


SIZES = {
    "tile-title": TITLE_SIZE, "tile-detail": DETAIL_SIZE, "tile-phrase": DETAIL_SIZE, "badge": BADGE_SIZE,
    "board-title": HEAD_SIZE, "board-detail": NOTE_SIZE, "board-phrase": HEAD_SIZE, "pill-text": PILL_SIZE,
}  # fmt: skip


@pytest.mark.parametrize("name", SIZES)
def test_words_are_set_at_the_size_they_were_measured_at(name: str) -> None:
    assert LETTERING[name][0] == SIZES[name] >= 9


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("ground", ["paper", "sheet", "soft-left", "soft-right"])
@pytest.mark.parametrize("words", ["ink", "faint"])
def test_words_can_be_read_on_every_ground(theme: str, ground: str, words: str) -> None:
    assert _contrast(THEMES[theme][words], THEMES[theme][ground]) >= 4.5


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("side", ["left", "right"])
def test_badges_can_be_read(theme: str, side: str) -> None:
    assert _contrast(THEMES[theme][side], THEMES[theme]["paper"]) >= 4.5


def test_every_class_the_painter_uses_is_styled(monitors) -> None:
    drawing = blocks.draw(monitors, prefix="p")
    used = {name for each in re.findall(r'class="([^"]*)"', drawing.left + drawing.right) for name in each.split()}
    styled = set(re.findall(r"\.([a-z][\w-]*)", CSS))
    structural = {
        "board",
        "tile",
        "net",
        "connectors",
        "pill",
        "mark",
        "drawn",
        "elsewhere",
        "not-there",
        "flexible",
    }
    assert {name for name in used - styled - structural if not name.startswith("mark-")} == set()
