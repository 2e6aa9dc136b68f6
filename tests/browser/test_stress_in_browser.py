"""A large pair of products in a real browser: the page opens without trouble, can be used, and fits a phone."""

from pathlib import Path

import pytest

from archdiff.page.render import render_page
from archdiff.pipeline import compare_files
from tests.browser.conftest import Opener
from tests.page.records.stress import written

pytestmark = pytest.mark.browser
WORDS = ("text.tile-", "text.board-", "text.pill-", "text.badge", "text.product")
"""The words of the block diagrams, as the checks call them."""
BOXES = (
    "[...document.querySelectorAll('.drawing .scroll')].map((box) => "
    "({ inner: box.scrollWidth, outer: box.clientWidth, how: getComputedStyle(box).overflowX }))"
)


@pytest.fixture(scope="module")
def stress(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page of twelve boards and four hundred parts a side."""
    folder = tmp_path_factory.mktemp("stress")
    page = folder / "page.html"
    page.write_text(render_page(compare_files(*written(folder))), "utf-8")
    return page


def test_it_opens_with_both_drawings_and_without_trouble(page: Opener, stress: Path) -> None:
    opened = page(stress)
    assert len(opened.check("diagrams")) == 2
    assert opened.trouble() == []
    assert opened.check("repeatedIds") == []


def test_words_stay_in_their_places(page: Opener, stress: Path) -> None:
    opened = page(stress)
    for name in ("spilledText", "collidingText"):
        assert [fault for fault in opened.check(name) if any(word in fault for word in WORDS)] == []


@pytest.mark.parametrize("side", ["left", "right"])
def test_focus_lights_the_partner_on_the_other_side(page: Opener, stress: Path, side: str) -> None:
    opened = page(stress)
    names = opened.check("sharedNames", side)
    assert len(names) > 100
    for name in names[:: len(names) // 12]:
        answer = opened.check("lighting", side, name)
        assert answer["own"], name
        assert answer["during"] == answer["partners"] != [], name
        assert answer["after"] == [], name


@pytest.mark.parametrize("width", [360, 390, 820, 1280])
def test_the_page_never_scrolls_sideways(page: Opener, stress: Path, width: int) -> None:
    assert page(stress, width).check("sidewaysScroll") == []


def test_on_a_phone_the_drawings_scroll_in_their_boxes(page: Opener, stress: Path) -> None:
    boxes = page(stress, 360).evaluate(BOXES)
    assert len(boxes) == 2
    for box in boxes:
        assert box["how"] == "auto"
        assert box["inner"] > box["outer"]


def test_a_tile_tells_its_row_below_the_drawings(page: Opener, stress: Path) -> None:
    opened = page(stress)
    opened.evaluate("document.querySelector('.archdiff-diagram a[href^=\"#pair-\"]').focus()")
    assert opened.evaluate(
        "!document.getElementById('pointed').hidden && document.getElementById('pointed').textContent"
    )
