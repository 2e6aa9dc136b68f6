"""The page on paper, and its markup before the judge of the HTML standard."""

import json
import re
import subprocess
from pathlib import Path

import pytest

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
