"""The web site: built whole from the project's own files, every link leads somewhere, nothing comes from outside."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urldefrag

import pytest

from archdiff.figures import all_figures
from archdiff.page.text import slug
from archdiff.vocabulary import load_vocabulary
from archdiff.vocabulary.glossary import glossary
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Mapping

TOP = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built site."""
    out = tmp_path_factory.mktemp("site")
    words = [sys.executable, str(TOP / "site" / "build.py"), "--out", str(out)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return out


@pytest.fixture(scope="module")
def pages(site: Path) -> Mapping[str, Page]:
    """Every page by its path below the site."""
    return {str(path.relative_to(site)): Page(path.read_text("utf-8")) for path in sorted(site.rglob("*.html"))}


def test_every_link_leads_to_a_file_and_a_place(site: Path, pages: Mapping[str, Page]) -> None:
    ids = {name: set(page.values("id")) for name, page in pages.items()}
    checked = 0
    for name, page in pages.items():
        for link in page.values("href"):
            target, place = urldefrag(link)
            if link.startswith(("https://", "mailto:")):
                continue
            file = (site / name).parent / target if target else site / name
            assert file.is_file(), (name, link)
            where = str(file.resolve().relative_to(site.resolve()))
            assert not place or where not in ids or place in ids[where], (name, link)
            checked += 1
    assert checked > 200


def test_nothing_is_asked_of_another_place(site: Path, pages: Mapping[str, Page]) -> None:
    for name, page in pages.items():
        assert all(source.startswith("data:") for source in page.values("src")), name
    assert not re.search(r"url\((?!#|\"data:|data:)", (site / "site.css").read_text("utf-8"))


def test_ids_are_used_once_a_page(pages: Mapping[str, Page]) -> None:
    for name, page in pages.items():
        assert not [i for i, times in Counter(page.values("id")).items() if times > 1], name


def test_every_figure_and_every_term_is_there(site: Path, pages: Mapping[str, Page]) -> None:
    assert {f"figure-{figure.id}" for figure in all_figures()} <= set(pages["figures.html"].values("id"))
    text = (site / "vocabulary.html").read_text("utf-8")
    vocabulary = load_vocabulary()
    for name in (*vocabulary.functions, *vocabulary.means):
        assert f"<dt>{name}</dt>" in text, name
    assert {f"word-{slug(name)}" for name in glossary()} <= set(pages["glossary.html"].values("id"))


def test_each_example_has_its_page_in_the_gallery(pages: Mapping[str, Page]) -> None:
    folders = [path.parent.name for path in (TOP / "examples").glob("*/notes.yaml")]
    assert folders
    for folder in folders:
        assert f"examples/{folder}.html" in pages
        assert f"examples/{folder}.html" in pages["gallery.html"].values("href")
