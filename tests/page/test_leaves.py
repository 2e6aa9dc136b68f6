"""The drawings as files of their own: whole documents, inert, and the same picture as in the page."""

from __future__ import annotations

import subprocess
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from archdiff.page.graphs import dot_program
from archdiff.page.leaves import leaves
from archdiff.pipeline import compare_files

if TYPE_CHECKING:
    from collections.abc import Mapping

EXAMPLES = Path(__file__).parents[2] / "examples"
_SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def files() -> Mapping[str, str]:
    folder = EXAMPLES / "air-monitors"
    return leaves(compare_files(folder / "vornip-three.yaml", folder / "mubrel-disc.yaml", folder / "notes.yaml"))


def test_both_sides_of_every_drawing_are_there(files: Mapping[str, str]) -> None:
    wanted = {f"{kind}-{side}" for kind in ("blocks", "supply", "signals") for side in ("left", "right")}
    assert {name.rsplit(".", 1)[0] for name in files} == wanted
    assert {name for name in files if name.endswith(".dot")} == {f"{n}.dot" for n in wanted if "blocks" not in n}


def test_each_svg_is_a_whole_document_that_leads_nowhere(files: Mapping[str, str]) -> None:
    for name, text in files.items():
        if name.endswith(".svg"):
            root = ET.fromstring(text)
            assert root.tag == f"{_SVG}svg"
            assert root.get("viewBox"), name
            assert root.get("width"), name
            assert root.find(f".//{_SVG}a") is None, name
            assert "href=" not in text.replace("xlink:href", "href="), name
            ids = Counter(e.get("id") for e in root.iter() if e.get("id"))
            assert not [i for i, times in ids.items() if times > 1], name
            assert root.find(f".//{_SVG}style") is not None, name


def test_what_each_tile_says_is_still_said(files: Mapping[str, str]) -> None:
    root = ET.fromstring(files["blocks-left.svg"])
    labels = [title.text or "" for image in root.iter(f"{_SVG}g") for title in image.findall(f"{_SVG}title")]
    assert any(label.startswith("Host processing") for label in labels)
    assert "Main board" in "".join(root.itertext())


def test_the_dot_text_is_what_the_graph_program_takes(files: Mapping[str, str]) -> None:
    program = dot_program()
    if program is None:
        pytest.skip("no dot program here")
    for name, text in files.items():
        if name.endswith(".dot"):
            assert text.startswith("// archdiff: ")
            done = subprocess.run([program, "-Kdot", "-Tsvg"], input=text, capture_output=True, text=True, check=True)
            assert "</svg>" in done.stdout, name


def test_a_bare_record_has_nothing_to_draw(tmp_path: Path) -> None:
    text = "archdiff: 1\nproduct: {name: A, kind: lamp}\ncoverage: {}\n"
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / name).write_text(text, "utf-8")
    assert leaves(compare_files(tmp_path / "a.yaml", tmp_path / "b.yaml")) == {}
