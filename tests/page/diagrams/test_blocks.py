"""The two SVG texts: safe, repeatable, and readable without eyes."""

import re
import xml.etree.ElementTree as ET

import pytest

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.scene import (
    Block,
    BoardFace,
    Edge,
    EdgeItem,
    Face,
    Link,
    LinkFace,
    Mark,
    Scene,
    Slot,
    State,
)
from archdiff.page.diagrams.symbols import with_symbols

NS = "{http://www.w3.org/2000/svg}"
HOSTILE = [
    "<script>alert(1)</script>\"'&]]>",
    "\x00\x07\x1b[31m\ud800\uffff\u202etext",
    "W" * 400,
    "無線通信と温度湿度センサー" * 6,
    "👩🏽‍🔬🔋🔋🔋 lab 🔋",
    "&amp;lt;b&gt; %s {0} url(#x)",
    "",
]


def _hostile_scene(text: str) -> Scene:
    face = Face(text, text, mark=Mark.ONLY, badge=text[:3], href="#ok", tip=text, shape=text)
    ghost = Face(text, text, State.NOT_LOOKED_AT, tip=text)
    board = BoardFace(text, text)
    label = LinkFace(text, 9, tip=text)
    slot = Slot(f"s{text}", face, ghost)
    return Scene(
        text,
        text,
        (Block(f"a{text}", board, board, (slot,)), Block("b", board, BoardFace(text, state=State.NOT_THERE))),
        (EdgeItem(Slot("e", face, ghost), Edge.TOP),),
        (Link(f"j{text}", (f"a{text}", "b"), label, label), Link("t", ("e", "b"), label, label, "tie")),
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_stays_text(text: str, faults) -> None:
    keys_are_ids = text.isprintable()
    scene = _hostile_scene(text) if keys_are_ids else _hostile_scene(Face(text).title)
    drawing = draw(scene, prefix="p")
    for svg in (drawing.left, drawing.right):
        svg.encode("utf-8")
        root = ET.fromstring(svg)
        tags = {element.tag.removeprefix(NS) for element in root.iter()}
        assert tags <= {"svg", "title", "desc", "defs", "pattern", "rect", "path", "g", "text", "a", "circle", "use"}
        assert not re.search("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff\u202e]", svg)
        assert faults(scene, svg) == []


def test_control_signs_never_reach_a_face() -> None:
    assert Face("a\x00b\ud800\u202ec\n d").title == "a b c d"


@pytest.mark.parametrize(
    "href", ["javascript:alert(1)", " javascript:x", "data:text/html,x", "//elsewhere", "JaVaScRiPt:x"]
)
def test_addresses_a_page_may_not_lead_to_are_dropped(href: str) -> None:
    face = Face("Host", href=href)
    board = BoardFace("Board", href=href)
    label = LinkFace("wires", 4, href=href)
    blocks = (Block("a", board, board, (Slot("s", face, face),)), Block("b", board, board))
    drawing = draw(Scene("a", "b", blocks, (), (Link("j", ("a", "b"), label, label),)), prefix="p")
    assert "<a" not in drawing.left
    assert all(re.match("#[im]-", address) for address in re.findall(r'href="([^"]*)"', drawing.left))


def test_same_scene_same_text(monitors) -> None:
    assert draw(monitors, prefix="p") == draw(monitors, prefix="p")


def test_ids_begin_with_the_prefix_and_are_used(monitors) -> None:
    drawing = draw(monitors, prefix="pair7")
    ids = re.findall(r' id="([^"]*)"', drawing.left + drawing.right)
    assert len(ids) == len(set(ids)) > 0
    assert all(each.startswith("pair7-") for each in ids)
    for used in re.findall(r"url\(#([^)]*)\)", drawing.left + drawing.right):
        assert used in ids


@pytest.mark.parametrize("prefix", ["", "7up", 'a"b', "a b", "é"])
def test_a_prefix_that_can_not_begin_an_id_is_refused(monitors, prefix: str) -> None:
    with pytest.raises(ValueError, match="begin an id"):
        draw(monitors, prefix=prefix)


def test_no_colour_is_written_into_the_drawing(monitors) -> None:
    drawing = draw(monitors, prefix="p")
    for svg in (drawing.left, drawing.right):
        assert "style=" not in svg
        assert not re.search(r'(?:fill|stroke|color)="(?!none|url\(#)', svg)


def test_every_drawn_thing_says_what_it_is(monitors) -> None:
    root = ET.fromstring(draw(monitors, prefix="p").right)
    labels = {e.text for e in root.iter(f"{NS}title")}
    assert "Host processing. system on chip, 7 x 7 mm. done differently" in labels
    assert "no sound alert. not there" in labels
    assert "on Sensor board. placed elsewhere" not in labels
    assert "reset: not known. not looked at far enough to say" in labels
    assert root.get("role") == "group"
    named = {e.get("id"): e.text for e in root if e.get("id")}
    assert named[root.get("aria-labelledby")] == "Birch air monitor"
    assert "at the same place as in the diagram of Alder air monitor" in (named[root.get("aria-describedby")] or "")


def test_links_carry_their_label_and_the_rest_is_an_image(monitors) -> None:
    root = ET.fromstring(draw(monitors, prefix="p").left)
    anchors = list(root.iter(f"{NS}a"))
    assert {a.get("href") for a in anchors} == {"#host", "#main"}
    images = [group for group in root.iter(f"{NS}g") if group.get("role") == "img"]
    assert images
    for each in (*anchors, *images):
        assert each[0].tag == f"{NS}title"  # what names it comes first
        assert each[0].text


def test_what_a_drawing_uses_stands_in_its_symbols(monitors) -> None:
    drawing = draw(monitors, prefix="p")
    used = set(re.findall(r'<use [^>]*href="#([^"]*)"', drawing.left + drawing.right + str(drawing.legend)))
    assert {"i-chip", "m-different", "m-only"} <= used
    assert used == set(re.findall(r' id="([^"]*)"', drawing.symbols))


def test_a_drawing_with_its_symbols_needs_nothing_else(monitors) -> None:
    svg = draw(monitors, prefix="p").left
    alone = with_symbols(svg)
    assert "<use" not in alone
    ET.fromstring(alone)
    places = re.findall(r'<use [^>]*href="#i-\w+" x="([\d.]+)" y="([\d.]+)"', svg)
    assert re.findall(r'<g class="icon" transform="translate\(([\d.]+) ([\d.]+)\)"><path d="M', alone) == places
    assert places
    assert svg.count('<use class="mark"') == alone.count('<g class="mark"') > 0


def _classes(svg: str, key: str) -> list[str]:
    root = ET.fromstring(svg)
    return [g.get("class", "") for g in root.iter(f"{NS}g") if g.get("data-key") == key]


def test_not_looked_at_never_looks_like_not_there(monitors) -> None:
    right = draw(monitors, prefix="p").right
    (unseen,), (absent,) = _classes(right, "reset"), _classes(right, "buzzer")
    assert unseen.split() == ["tile", "mark-unknown", "on-edge", "ghost", "not-looked-at"]
    assert absent.split() == ["tile", "mark-only", "ghost", "not-there"]


def test_a_ghost_board_still_tells_what_it_does_not_cover(monitors) -> None:
    right = draw(monitors, prefix="p").right
    assert _classes(right, "sensor") == ["board mark-only ghost not-there"]
    assert _classes(right, "humidity@sensor") == ["tile mark-elsewhere ghost elsewhere"]


def test_a_board_not_looked_at_does_not_hide_a_part_known_to_be_absent() -> None:
    here = BoardFace("Board")
    unseen = BoardFace("front board: not looked at", state=State.NOT_LOOKED_AT)
    absent = Slot("x", Face("Lamp"), Face("no lamp", state=State.NOT_THERE))
    silent = Slot("y", Face("Key"), Face("key: not looked at", state=State.NOT_LOOKED_AT))
    right = draw(Scene("a", "b", (Block("b", here, unseen, (absent, silent)),)), prefix="p").right
    assert _classes(right, "x")
    assert not _classes(right, "y")


def test_a_link_of_one_side_is_drawn_on_that_side_only(monitors) -> None:
    drawing = draw(monitors, prefix="p")
    assert _classes(drawing.left, "ribbon")
    assert not _classes(drawing.right, "ribbon")


def test_a_hidden_face_leaves_its_place_empty() -> None:
    board = BoardFace("Board")
    slot = Slot("x", Face("Lamp"), Face("Lamp", hidden=True))
    drawing = draw(Scene("a", "b", (Block("b", board, board, (slot,)),)), prefix="p")
    assert _classes(drawing.left, "x")
    assert not _classes(drawing.right, "x")


def test_what_does_not_fit_is_in_the_tip() -> None:
    board = BoardFace("Board")
    long = "Measurement of the charge that is left in the cell " * 4
    svg = draw(Scene("a", "b", (Block("b", board, board, (Slot("x", Face(long), Face(long)),)),)), prefix="p").left
    assert "…" in svg
    assert long.strip() in svg


def test_scenes_that_contradict_themselves_are_refused() -> None:
    board = BoardFace("Board")
    block = Block("a", board, board)
    with pytest.raises(ValueError, match="neither a block nor an edge item"):
        Scene("a", "b", (block,), (), (Link("j", ("a", "nowhere"), None, None),))
    with pytest.raises(ValueError, match="share"):
        Scene("a", "b", (block, block))
