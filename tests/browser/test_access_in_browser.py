"""The page for readers of every kind: WCAG 2.2 at level AA, as far as axe-core can tell."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(390, 844), (1280, 800)])
def test_no_breach_of_wcag(page: Opener, example: Path, width: int, height: int, scheme: str) -> None:
    opened = page(example, width, height, scheme)
    opened.unfold()
    opened.load_axe()
    assert opened.check("breaches") == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_stand_out_on_the_sheet_turned_round(page: Opener, example: Path, scheme: str) -> None:
    opened = page(example, scheme=scheme)
    opened.unfold()
    opened.evaluate("document.getElementById('theme').click()")
    opened.load_axe()
    assert opened.check("breaches", "color-contrast") == []
