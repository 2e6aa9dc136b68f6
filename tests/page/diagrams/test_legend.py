"""The legend beside the drawings: what it shows is in the drawings, what is in the drawings it shows, words from one source."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.marks import TITLES
from archdiff.page.diagrams.scene import Block, BoardFace, Face, Mark, Scene, Slot
from archdiff.page.render import render_page
from archdiff.vocabulary.glossary import glossary

NS = "{http://www.w3.org/2000/svg}"
BOARD = BoardFace("Board")


def _words(scene: Scene) -> str:
    return " | ".join(words for _, words in draw(scene, prefix="p").legend)


def test_a_plain_scene_needs_no_legend() -> None:
    scene = Scene("a", "b", (Block("b", BOARD, BOARD, (Slot("s", Face("Lamp"), Face("Lamp")),)),))
    drawing = draw(scene, prefix="p")
    assert drawing.legend == ()
    assert drawing.marks == (Mark.ALIKE,)


def test_every_stroke_of_the_drawings_has_its_line(monitors) -> None:
    words = _words(monitors)
    for stroke in ("tinted", "hatched end", "dashed", "dotted", "numbered", "on the outline", "dotted line", "pill"):
        assert stroke in words, stroke
    assert "several of them" not in words, "no tile of this scene stands for several"


def test_not_looked_at_is_never_explained_as_not_there(monitors) -> None:
    dashed, dotted = (
        next(words for _, words in draw(monitors, prefix="p").legend if words.startswith(start))
        for start in ("dashed:", "dotted:")
    )
    assert "not looked at" in dotted
    assert "looked" not in dashed


def test_the_verdicts_are_those_that_stand_in_the_drawings(monitors) -> None:
    drawing = draw(monitors, prefix="p")
    shown = set()
    for svg in (drawing.left, drawing.right):
        for group in ET.fromstring(svg).iter(f"{NS}g"):
            if any(child.get("class") == "mark" for child in group):
                shown |= {name.removeprefix("mark-") for name in group.get("class", "").split() if "mark-" in name}
    assert {mark.value for mark in drawing.marks} == shown


def test_samples_use_the_strokes_and_the_hatching_of_the_drawings(monitors) -> None:
    drawing = draw(monitors, prefix="p")
    used = set(re.findall(r'class="([^"]*)"', drawing.left + drawing.right))
    names = {name for each in used for name in each.split()}
    ids = set(re.findall(r' id="([^"]*)"', drawing.left + drawing.right))
    for sample, words in drawing.legend:
        root = ET.fromstring(sample)
        assert root.get("aria-hidden") == "true"
        classes = {name for e in root.iter() for name in e.get("class", "").split()}
        assert classes - names <= {"diagram-sample", "mark-alike", "flexible", "connectors", "join"}, words
        assert set(re.findall(r"url\(#([^)]*)\)", sample)) <= ids
        assert not re.search(r' (?:id|data-key)="', sample)


def test_page_names_each_verdict_once_and_explains_it_once(comparison) -> None:
    html = render_page(comparison)
    diagrams, method = (
        html.split(f'<section id="{name}"')[1].split("</section>")[0] for name in ("diagrams", "method")
    )
    for title in TITLES.values():
        meaning = glossary()[title].meaning
        assert meaning in method
        assert meaning not in diagrams
        assert title in method
    assert 'class="drawing-legend' in diagrams
    assert "done differently" in diagrams
