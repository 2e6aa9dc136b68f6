"""The page as a reader opens it: quiet, self-contained, no wider than the window, and whole without scripts."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener, StandIn

pytestmark = pytest.mark.browser
WIDTHS = [360, 390, 820, 1280]


def test_asks_for_nothing_beside_itself(page: Opener, example: Path) -> None:
    assert page(example).requests() == [example.as_uri()]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_console_stays_silent(page: Opener, example: Path, scheme: str) -> None:
    assert page(example, scheme=scheme).trouble() == []


@pytest.mark.parametrize("width", WIDTHS)
def test_never_scrolls_sideways(page: Opener, example: Path, width: int) -> None:
    opened = page(example, width)
    assert opened.check("sidewaysScroll") == []
    opened.unfold()
    assert opened.check("sidewaysScroll") == []


def test_ids_are_unique(page: Opener, example: Path) -> None:
    assert page(example).check("repeatedIds") == []


@pytest.mark.parametrize("width", [390, 1280])
def test_links_into_the_page_bring_their_target_into_sight(page: Opener, example: Path, width: int) -> None:
    opened = page(example, width)
    assert opened.check("inPageLinks") > 10
    assert opened.check("lostLinks") == []


def test_whole_without_scripts(page: Opener, example: Path) -> None:
    with_scripts, without = page(example), page(example, scripts=False)
    headings = with_scripts.check("headings")
    assert len(headings) > 5
    assert without.check("headings") == headings
    diagrams = with_scripts.check("diagrams")
    assert len(diagrams) >= 2
    assert without.check("diagrams") == diagrams


def test_no_script_runs_where_scripts_are_off(page: Opener, stand_in: StandIn) -> None:
    """The check above would be empty if the switch did nothing."""
    cry = "something went wrong"
    assert cry in page(stand_in("faulty")).trouble()
    assert cry not in page(stand_in("faulty"), scripts=False).trouble()
