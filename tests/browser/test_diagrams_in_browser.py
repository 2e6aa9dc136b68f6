"""The diagrams as the browser draws them: readable words in their places, and partners that light up."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.real_browser import Page

pytestmark = pytest.mark.browser
SMALLEST = """(() => {
  const svgs = [...document.querySelectorAll("svg.archdiff-diagram")];
  const texts = svgs.flatMap((svg) => {
    const { a, b } = svg.getScreenCTM();
    return [...svg.querySelectorAll("text")].map((text) => ({
      said: text.textContent.trim(),
      size: parseFloat(getComputedStyle(text).fontSize) * Math.hypot(a, b),
      high: text.getBoundingClientRect().height,
    }));
  });
  const box = (svg) => svg.getBoundingClientRect();
  const scrolls = svgs.map((svg) => svg.parentElement.scrollWidth > svg.parentElement.clientWidth);
  return { texts, beside: Math.abs(box(svgs[0]).top - box(svgs[1]).top) < 1, scrolls };
})()"""
"""Every word in the block diagrams with its type size and line height on the screen in px."""
SHEETS = [("light", False), ("dark", False), ("light", True), ("dark", True)]
"""What the system asks for, and whether the reader has then turned the sheet round with the page's own button."""


def _opened(page: Opener, path: Path, scheme: str, *, turned: bool) -> Page:
    opened = page(path, scheme=scheme)
    if turned:
        opened.evaluate("document.getElementById('theme').click()")
    opened.load_axe()
    return opened


@pytest.mark.parametrize(("scheme", "turned"), SHEETS)
def test_words_stand_out(page: Opener, example: Path, scheme: str, turned: bool) -> None:  # noqa: FBT001
    """WCAG 2.2, 1.4.3: at least 4.5:1; axe-core itself leaves words in drawings undecided."""
    answer = _opened(page, example, scheme, turned=turned).check("faintText", 4.5)
    assert answer["looked"] > 30
    assert answer["faint"] == []


@pytest.mark.parametrize(("scheme", "turned"), SHEETS)
def test_ghosts_stand_out(page: Opener, example: Path, scheme: str, turned: bool) -> None:  # noqa: FBT001
    """WCAG 2.2, 1.4.11: at least 3:1, since a ghost's outline is what says that something is not there."""
    answer = _opened(page, example, scheme, turned=turned).check("faintGhosts", 3)
    assert answer["looked"] > 0
    assert answer["faint"] == []


@pytest.mark.parametrize("width", [390, 1280])
def test_words_stay_inside(page: Opener, example: Path, width: int) -> None:
    assert page(example, width).check("spilledText") == []


def test_words_do_not_collide(page: Opener, example: Path) -> None:
    assert page(example).check("collidingText") == []


def test_nothing_is_drawn_over_words(page: Opener, example: Path) -> None:
    opened = page(example)
    opened.load_axe()
    assert opened.check("coveredText") == []


@pytest.mark.parametrize("side", ["left", "right"])
def test_focus_shows_and_lights_the_partners_alone(page: Opener, example: Path, side: str) -> None:
    opened = page(example)
    names = opened.check("sharedNames", side)
    assert names
    answers = {name: opened.check("lighting", side, name) for name in names}
    assert [name for name, answer in answers.items() if not answer["own"]] == []
    assert [name for name, answer in answers.items() if answer["during"] != answer["partners"]] == []
    assert [name for name, answer in answers.items() if answer["after"]] == []
    assert all(answer["partners"] for answer in answers.values())


@pytest.mark.parametrize("width", [1280, 1440, 390])
def test_the_smallest_words_can_be_read(page: Opener, example: Path, width: int) -> None:
    """At least 9 px on the screen, side by side where there is room; what must be cut short is the exception."""
    answer = page(example, width).evaluate(SMALLEST)
    assert len(answer["texts"]) > 30
    assert [text for text in answer["texts"] if text["size"] < 9 or text["high"] < 9] == []
    assert answer["beside"] is (width > 1000)
    assert answer["scrolls"] == [width < 1000] * 2
    cut = [text["said"] for text in answer["texts"] if text["said"].endswith("…")]
    assert len(cut) * 50 <= len(answer["texts"]), cut


def test_the_page_itself_stays_put_on_a_phone(page: Opener, example: Path) -> None:
    assert page(example, 360).check("sidewaysScroll") == []


def test_the_legend_stands_above_the_drawings_with_every_sample_in_sight(page: Opener, example: Path) -> None:
    opened = page(example)
    samples = "[...document.querySelectorAll('.drawing-legend svg')].map((svg) => svg.getBoundingClientRect())"
    legend = opened.evaluate(f"{samples}.map((box) => [box.width, box.height, box.bottom + scrollY])")
    top = opened.evaluate("document.querySelector('.archdiff-diagram').getBoundingClientRect().top + scrollY")
    assert len(legend) > 8
    assert all(width >= 12 and height >= 12 and bottom < top for width, height, bottom in legend)


def test_on_paper_the_legend_is_large_enough_to_read(page: Opener, example: Path) -> None:
    """7 pt is a size that small print is set in; common practice, no source."""
    opened = page(example, 760)
    opened.as_printed()
    sizes = opened.evaluate(
        "[...document.querySelectorAll('.drawing-legend li')].map((li) => parseFloat(getComputedStyle(li).fontSize))"
    )
    assert min(sizes) * 72 / 96 >= 7
