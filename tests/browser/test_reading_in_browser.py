"""What a reader does with the page: follow a headline, sift, find, look at evidence, point at a tile, turn the sheet."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.real_browser import Page

pytestmark = pytest.mark.browser
IN_SIGHT = (
    "(id) => { const box = document.getElementById(id).getBoundingClientRect();"
    " return box.height > 0 && box.top < innerHeight && box.bottom > 0; }"
)
SHOWN_ROWS = "[...document.querySelectorAll('tr[data-verdict]')].filter((row) => row.checkVisibility())"


def test_a_headline_leads_to_its_difference(page: Opener, example: Path) -> None:
    opened = page(example)
    count = opened.evaluate("document.querySelectorAll('.headlines > li > a').length")
    assert 3 <= count <= 5
    for number in range(1, count + 1):
        _leads_into_sight(opened, f".headlines li:nth-child({number}) > a")


def test_what_goes_with_a_headline_leads_to_its_chain_or_figure(page: Opener, example: Path) -> None:
    opened = page(example)
    lines = opened.evaluate(
        "[...document.querySelectorAll('.headlines > li')].map((li) => li.querySelectorAll('.then').length)"
    )
    assert sum(lines) > 3
    for number, under in enumerate(lines, 1):
        for place in range(under):
            _leads_into_sight(opened, f".headlines li:nth-child({number}) > .then:nth-of-type({place + 2}) a")


def _leads_into_sight(opened: Page, link: str) -> None:
    opened.evaluate("scrollTo(0, 0)")
    target = opened.evaluate(f"document.querySelector('{link}').hash.slice(1)")
    opened.click(link)
    assert opened.evaluate(f"({IN_SIGHT})({target!r})"), target


def test_differences_are_sifted_by_verdict_and_ground(page: Opener, example: Path) -> None:
    opened = page(example)
    for sieve, fact in (("verdict", "verdict"), ("sure", "sure")):
        values = opened.evaluate(
            f"[...document.querySelectorAll('[data-filter={sieve}] option')].map((o) => o.value).filter(Boolean)"
        )
        assert values
        for value in values:
            opened.choose(f"[data-filter={sieve}]", value)
            stated = opened.evaluate(f"{SHOWN_ROWS}.map((row) => row.dataset.{fact}.split(' '))")
            assert stated, (sieve, value)
            assert all(value in words for words in stated), (sieve, value, stated)
            said = opened.evaluate("document.querySelector('#filters output').textContent")
            assert said.split()[0] == str(len(stated))
        opened.choose(f"[data-filter={sieve}]", "")


def test_what_is_looked_for_is_found_and_reached(page: Opener, example: Path) -> None:
    opened = page(example)
    opened.write("#find", "host PROCESSING")
    hits = opened.evaluate("[...document.querySelectorAll('#found a')].map((link) => link.textContent)")
    assert any("host processing" in hit.lower() for hit in hits), hits
    target = opened.evaluate("document.querySelector('#found a').hash.slice(1)")
    opened.press("ArrowDown")
    opened.press("Enter")
    assert opened.evaluate(f"({IN_SIGHT})({target!r})")
    opened.write("#find", "no such thing anywhere")
    assert opened.evaluate("document.getElementById('found-count').textContent") == "nothing found"
    assert opened.evaluate("document.getElementById('found').hidden")


def test_a_folded_section_opens_for_a_link_into_it(page: Opener, example: Path) -> None:
    opened = page(example)
    assert opened.evaluate(f"{SHOWN_ROWS}.length") > 0
    opened.click("#differences summary h2")
    assert opened.evaluate(f"{SHOWN_ROWS}.length") == 0
    opened.evaluate("scrollTo(0, 0)")
    rows = "document.querySelector('.headlines a[href^=\"#pair-\"]').hash.slice(1)"
    target = opened.evaluate(rows)
    opened.click('.headlines a[href^="#pair-"]')
    assert opened.evaluate(f"({IN_SIGHT})({target!r})")


def test_a_phone_begins_with_the_first_sections_and_unfolds_the_rest_on_the_way(page: Opener, example: Path) -> None:
    opened = page(example, 390, 844)
    folds = "[...document.querySelectorAll('.fold')].map((fold) => fold.open)"
    begun = opened.evaluate(folds)
    assert begun == [True] * 3 + [False] * (len(begun) - 3)
    target = opened.evaluate("document.querySelector('.headlines a[href^=\"#pair-\"]').hash.slice(1)")
    opened.click('.headlines a[href^="#pair-"]')
    assert opened.evaluate(f"({IN_SIGHT})({target!r})")
    assert opened.evaluate(folds).count(True) == 4
    assert all(page(example, 390, 844, scripts=False).evaluate(folds))


def test_a_picture_opens_large_and_closes(page: Opener, example: Path) -> None:
    opened = page(example)
    assert opened.evaluate("document.querySelectorAll('img.opens').length") > 0
    small = opened.evaluate("document.querySelector('img.opens').getBoundingClientRect().width")
    opened.click("button.enlarge")
    assert opened.evaluate("document.getElementById('large').open")
    assert opened.evaluate("document.querySelector('#large img').getBoundingClientRect().width") > small
    assert opened.evaluate("document.querySelector('#large img').alt")
    opened.press("Escape")
    assert not opened.evaluate("document.getElementById('large').open")
    assert opened.evaluate("document.activeElement.className") == "enlarge"


def test_a_tile_pointed_at_shows_its_partner_and_what_is_said_of_the_two(page: Opener, example: Path) -> None:
    opened = page(example)
    tile = ".drawing.left a[href='#pair-host-processing']"
    for reach in ("point", "focus"):
        opened.evaluate("document.getElementById('pointed').hidden = true")
        if reach == "point":
            opened.point_at(tile)
        else:
            opened.evaluate(f'document.querySelector("{tile}").focus()')
        sides = opened.evaluate("[...document.querySelectorAll('.lit')].map((t) => t.closest('figure').className)")
        assert {"drawing left", "drawing right"} <= set(sides)
        said = opened.evaluate("document.getElementById('pointed').textContent.toLowerCase()")
        assert "host processing" in said
        assert opened.evaluate("document.querySelectorAll('#pointed .rests a').length") > 0


def test_the_sheet_turns_dark_and_stays_so(page: Opener, example: Path) -> None:
    opened = page(example)
    ground = "getComputedStyle(document.body).backgroundColor"
    light = opened.evaluate(ground)
    opened.click("#theme")
    dark = opened.evaluate(ground)
    assert dark != light
    opened.click("#theme")
    assert opened.evaluate(ground) == light
