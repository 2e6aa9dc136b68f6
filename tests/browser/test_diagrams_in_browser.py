"""The diagrams as the browser draws them: readable words in their places, and partners that light up."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener

pytestmark = pytest.mark.browser
SCHEMES = ["light", "dark"]


@pytest.mark.parametrize("scheme", SCHEMES)
def test_words_stand_out(page: Opener, example: Path, scheme: str) -> None:
    """WCAG 2.2, 1.4.3: at least 4.5:1; axe-core itself leaves words in drawings undecided."""
    opened = page(example, scheme=scheme)
    opened.load_axe()
    answer = opened.check("faintText", 4.5)
    assert answer["looked"] > 30
    assert answer["faint"] == []


@pytest.mark.parametrize("scheme", SCHEMES)
def test_ghosts_stand_out(page: Opener, example: Path, scheme: str) -> None:
    """WCAG 2.2, 1.4.11: at least 3:1, since a ghost's outline is what says that something is not there."""
    opened = page(example, scheme=scheme)
    opened.load_axe()
    answer = opened.check("faintGhosts", 3)
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
def test_focus_lights_the_partner(page: Opener, example: Path, side: str) -> None:
    opened = page(example)
    keys = opened.check("sharedKeys", side)
    assert keys
    for key in keys:
        assert opened.check("lighting", side, key) == {"during": [key], "after": []}
