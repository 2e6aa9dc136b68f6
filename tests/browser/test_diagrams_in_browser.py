"""The diagrams as the browser draws them: readable words in their places, and partners that light up."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.real_browser import Page

pytestmark = pytest.mark.browser
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
