"""The page on paper, and its markup before the judge of the HTML standard."""

import io
import json
import re
import subprocess
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.browser.conftest import Opener, StandIn
from tests.editor.node_packages import program

pytestmark = pytest.mark.browser
POINTS = 72 / 25.4
SHEETS = {
    "A4": (210 * POINTS, 297 * POINTS),  # ISO 216
    "Letter": (8.5 * 72, 11 * 72),  # ANSI/ASME Y14.1, size A
}
MARGIN = 2 * 0.4 * 96
"""What Chromium leaves blank at the sides of a printed sheet when the page says nothing: 0.4 in each, in CSS px."""


@pytest.mark.parametrize("sheet", SHEETS)
def test_prints_on(page: Opener, example: Path, tmp_path: Path, sheet: str) -> None:
    printed = page(example).pdf(sheet, tmp_path / "page.pdf")
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", printed)
    assert printed.startswith(b"%PDF-")
    assert len(boxes) > 1
    for width, height in boxes:
        assert (float(width), float(height)) == pytest.approx(SHEETS[sheet], abs=1)


@pytest.mark.parametrize("sheet", SHEETS)
def test_printed_page_fits_the_sheet(page: Opener, example: Path, sheet: str) -> None:
    width = int(SHEETS[sheet][0] / 72 * 96 - MARGIN)
    opened = page(example, width)
    opened.as_printed()
    assert opened.check("sidewaysScroll") == []


def sheets_of(printed: bytes) -> list[str]:
    """The words on every sheet of a PDF."""
    return [sheet.extract_text() for sheet in PdfReader(io.BytesIO(printed)).pages]


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_drawings_stand_on_one_sheet_with_their_heading(
    page: Opener, example: Path, tmp_path: Path, sheet: str
) -> None:
    opened = page(example)
    sheets = sheets_of(opened.pdf(sheet, tmp_path / "page.pdf"))
    # No sheet for the title alone: all the sentences stand on the first one, too.
    first = " ".join(sheets[0].split())
    for begin in opened.evaluate(
        "[...document.querySelectorAll('.headlines a')].map((a) => a.textContent.slice(0, 20))"
    ):
        assert begin.strip() in first
    (drawn,) = [words for words in sheets if "Block diagrams, matched" in words]
    assert drawn.lower().replace("\n", " ").count("host processing") >= 2  # once a drawing
    assert "done differently" in drawn  # and the legend


def test_how_things_were_worked_out_is_printed_where_asked_for(page: Opener, example: Path, tmp_path: Path) -> None:
    opened = page(example)
    plain = sheets_of(opened.pdf("A4", tmp_path / "plain.pdf"))
    assert not [words for words in plain if "Formula" in words]
    assert [words for words in plain if "left out on paper" in words]
    opened.click("#print-workings")
    whole = sheets_of(opened.pdf("A4", tmp_path / "whole.pdf"))
    assert len(whole) > len(plain)
    assert sum(words.count("Formula") for words in whole) > 100
    assert not [words for words in whole if "left out on paper" in words]
    # Counted for whoever reads the build's artefacts; a page that nobody would print is a fault.
    assert len(plain) < 80


# A property the checker has not learnt yet: CSS Fill and Stroke 3 and SVG 2, section 13.8; every browser knows it.
UNKNOWN_TO_CHECKER = "CSS: “paint-order”: Property “paint-order” doesn't exist."
QUIET = ("--errors-only", "--exit-zero-always", "--format", "json")


def markup_faults(modules: Path, path: Path) -> list[str]:
    """What the Nu HTML checker finds: errors only, each with its line."""
    jar = modules / "vnu-jar" / "build" / "dist" / "vnu.jar"
    command = [program("java"), "-Xss4m", "-jar", str(jar), *QUIET, str(path)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=180, check=True)
    found = [fault for fault in json.loads(done.stderr)["messages"] if fault["message"] != UNKNOWN_TO_CHECKER]
    return [f"{fault.get('lastLine')}: {fault['message']}" for fault in found]


def test_markup_is_valid(modules: Path, example: Path) -> None:
    assert markup_faults(modules, example) == []


def test_invalid_markup_is_found(modules: Path, stand_in: StandIn) -> None:
    assert any("Duplicate ID" in fault for fault in markup_faults(modules, stand_in("faulty")))
