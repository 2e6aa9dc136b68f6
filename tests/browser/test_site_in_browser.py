"""The web site in a real browser: accessible, no wider than the window, valid; its gallery pages are tested as pages."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.browser.conftest import Opener
from tests.browser.test_print_and_markup import markup_faults

pytestmark = pytest.mark.browser
TOP = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site_pages(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The pages of the site itself."""
    out = tmp_path_factory.mktemp("site")
    subprocess.run([sys.executable, str(TOP / "site" / "build.py"), "--out", str(out)], check=True, capture_output=True)
    return sorted(out.glob("*.html"))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_breach_of_wcag_on_the_site(page: Opener, site_pages: list[Path], scheme: str) -> None:
    for path in site_pages:
        opened = page(path, 1280, 800, scheme)
        opened.load_axe()
        assert opened.check("breaches") == [], path.name


def test_the_site_never_scrolls_sideways(page: Opener, site_pages: list[Path]) -> None:
    assert len(site_pages) > 4
    for path in site_pages:
        for width in (360, 1280):
            assert page(path, width).check("sidewaysScroll") == [], (path.name, width)


def test_the_markup_of_the_site_is_valid(modules: Path, site_pages: list[Path]) -> None:
    for path in site_pages:
        assert markup_faults(modules, path) == [], path.name
