"""Text of records and notes can do nothing in a page, whatever it is."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from archdiff.notes import Comment, Notes
from archdiff.page import render_page
from archdiff.page.pictures import picture_of
from archdiff.page.text import clean, markdown
from tests.page.conftest import RECORDS, record_of, tiny_png
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from archdiff.comparison import Comparison

EVIL = "<script>alert(1)</script><img src=x onerror=alert(1)>\"'&{{ 7*7 }}</section><!--"
IN_YAML = EVIL.replace("'", "''")


@pytest.fixture
def hostile(make: Callable[..., Comparison]) -> str:
    text = (RECORDS / "veska-one.yaml").read_text("utf-8")
    for word in (
        "Main board",
        "Controller",
        "Veska One",
        "foot",
        "main board from above",
        "the inlet may be live",
        "pad",
    ):
        text = re.sub(rf": {word}(?=[,}}])", lambda _, word=word: f": '{word} {IN_YAML}'", text)
    left = record_of(text, "hostile.yaml")
    notes = Notes(EVIL, EVIL, EVIL, EVIL, comments=(Comment(EVIL, on="partition"), Comment(EVIL, left="U1")))
    return render_page(make(left=left, notes=notes))


def test_hostile_text_makes_no_tag(hostile: str, comparison: Comparison) -> None:
    page, plain = Page(hostile), Page(render_page(comparison))
    assert page.faults == []
    assert len(page.scripts) == 1
    assert page.scripts == plain.scripts
    assert "alert(1)" in page.text
    assert [name for _, attributes in page.tags for name in attributes if name.startswith("on")] == []
    assert not any(a.get("src") == "x" for _, a in page.tags)
    assert "{{ 7*7 }}" in page.text


@pytest.mark.parametrize(
    ("text", "wanted", "unwanted"),
    [
        ("**b** <b>raw</b>", "&lt;b&gt;raw", "<b>"),
        ("[x](javascript:alert(1))", "[x](javascript:alert(1))", "href"),
        ("[x](data:text/html,hi)", "x", "href"),
        ("[x](JaVaScRiPt:alert(1))", "x", "href"),
        ("[x](//elsewhere.example)", "x", "href"),
        ("![x](https://e.example/a.png)", "x", "<img"),
        ("[x](https://e.example/a)", 'href="https://e.example/a"', "<script"),
        ("[x](mailto:a@e.example)", 'href="mailto:a@e.example"', "<script"),
        ("# loud", "<p>loud</p>", "<h1"),
        ("<!-- c -->", "&lt;!--", "<!--"),
    ],
)
def test_markdown_is_inert(text: str, wanted: str, unwanted: str) -> None:
    html = markdown(text)
    assert wanted in html
    assert unwanted not in html


@pytest.mark.parametrize("sign", ["\x00", "\x08", "\x1b", "\x7f", "\x9b", "\ufffe", "\uffff", "\u202e", "\ud800"])
def test_control_signs_are_replaced(sign: str) -> None:
    assert clean(f"a{sign}b") == "a\ufffdb"


def test_control_signs_never_reach_the_page(make: Callable[..., Comparison]) -> None:
    html = render_page(make(notes=Notes(title="a\x00b\x1bc\ufffed")))
    assert not set("\x00\x1b\ufffe") & set(html)
    assert "a\ufffdb\ufffdc\ufffdd" in html


def test_line_ends_and_tabs_stay() -> None:
    assert clean("a\n\tb") == "a\n\tb"


def test_a_record_cannot_carry_other_files_away(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "secret.png").write_bytes(tiny_png())
    (inside / "notes.txt").write_text("secret")
    (inside / "fine.png").write_bytes(tiny_png())
    (inside / "link.png").symlink_to(tmp_path / "secret.png")
    assert not picture_of(inside, "../secret.png").data
    assert not picture_of(inside, str(tmp_path / "secret.png")).data
    assert not picture_of(inside, "link.png").data
    assert not picture_of(inside, "notes.txt").data
    assert picture_of(inside, "fine.png").data.startswith("data:image/png;base64,")
    assert "not beside" in picture_of(inside, "gone.png").why
