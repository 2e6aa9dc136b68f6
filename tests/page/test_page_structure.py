from __future__ import annotations

import base64
import hashlib
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.page import render_page
from archdiff.page.shelf import all_sections, zone_letter
from tests.page.reading import Page

if TYPE_CHECKING:
    from archdiff.comparison import Comparison


@pytest.fixture
def html(comparison: Comparison) -> str:
    return render_page(comparison)


@pytest.fixture
def page(html: str) -> Page:
    return Page(html)


def test_tags_balance(page: Page) -> None:
    assert page.faults == []


def test_ids_are_unique(page: Page) -> None:
    assert len(page.ids) == len(set(page.ids))


def test_every_link_into_the_page_finds_its_place(page: Page) -> None:
    targets = [href[1:] for href in page.values("href") if href.startswith("#")]
    assert len(targets) > 50
    assert set(targets) <= set(page.ids)


def test_no_link_had_to_be_dropped(page: Page) -> None:
    # A link that led nowhere would have lost its address; those of headlines and comparison rows must all live.
    assert [attributes for tag, attributes in page.tags if tag == "a" and "href" not in attributes] == []


def test_every_labelled_reference_exists(page: Page) -> None:
    named = [one for value in page.values("aria-labelledby") for one in value.split()]
    assert named
    assert set(named) <= set(page.ids)


def test_nothing_is_fetched(page: Page, html: str) -> None:
    assert all(source.startswith("data:") for source in page.values("src"))
    assert all(href.startswith(("#", "https://", "mailto:")) for href in page.values("href"))
    assert not {"link", "iframe", "object", "embed", "base", "form"} & {tag for tag, _ in page.tags}
    assert "@import" not in html
    assert re.findall(r"url\((?!#|&quot;#)", html) == []


def test_the_policy_names_the_hash_of_the_one_script(page: Page) -> None:
    policy = next(
        a["content"] for tag, a in page.tags if tag == "meta" and a.get("http-equiv") == "Content-Security-Policy"
    )
    assert len(page.scripts) == 1
    digest = base64.b64encode(hashlib.sha256(page.scripts[0].encode()).digest()).decode()
    assert f"script-src 'sha256-{digest}'" in policy
    assert "default-src 'none'" in policy
    assert "unsafe-eval" not in policy
    assert "script-src 'unsafe-inline'" not in policy


def test_no_event_attributes(page: Page) -> None:
    assert [name for _, attributes in page.tags for name in attributes if name.startswith("on")] == []


def test_headings_nest(page: Page) -> None:
    assert page.headings[0] == 1
    assert page.headings.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(page.headings, page.headings[1:], strict=False))


def test_every_section_of_the_shelf_stands_in_its_declared_order(page: Page) -> None:
    standing = [attributes["id"] for tag, attributes in page.tags if tag == "section"]
    assert standing == [section.anchor for section in all_sections()]
    modules = {f.stem for f in Path(sys.modules[all_sections.__module__].shelf.__file__).parent.glob("*.py")} - {
        "__init__"
    }
    assert {section.name for section in all_sections()} == modules


def test_the_contents_list_every_section(page: Page) -> None:
    hrefs = page.values("href")
    assert all(f"#{section.anchor}" in hrefs for section in all_sections())


def test_zone_letters_leave_out_i_and_o() -> None:
    letters = [zone_letter(index) for index in range(26)]
    assert letters[:9] == list("ABCDEFGHJ")
    assert letters[24:] == ["AA", "AB"]
    assert not {"I", "O"} & set(letters)


def test_every_table_head_has_a_scope(page: Page) -> None:
    heads = [attributes for tag, attributes in page.tags if tag == "th"]
    assert heads
    assert all(head.get("scope") in {"col", "row", "rowgroup"} for head in heads)


def test_every_picture_has_words(page: Page) -> None:
    pictures = [attributes for tag, attributes in page.tags if tag == "img"]
    assert len(pictures) == 1
    assert pictures[0]["alt"] == "main board from above"
    assert pictures[0]["src"].startswith("data:image/png;base64,")


def test_every_element_has_its_anchor(page: Page, comparison: Comparison) -> None:
    wanted = {f"left-{name}" for name in comparison.left.elements} | {
        f"right-{name}" for name in comparison.right.elements
    }
    assert wanted <= set(page.ids)


def test_the_language_and_the_landmarks_are_said(page: Page) -> None:
    tags = [tag for tag, _ in page.tags]
    assert ("html", {"lang": "en"}) in page.tags
    assert tags.count("main") == tags.count("nav") == 1
    assert {"header", "footer"} <= set(tags)


def test_two_renderings_are_the_same(comparison: Comparison) -> None:
    assert render_page(comparison) == render_page(comparison)


def test_the_script_is_small(page: Page) -> None:
    assert len(page.scripts[0].encode()) < 12_000
