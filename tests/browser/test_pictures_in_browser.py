"""Pictures and prints of every example for the eye of whoever looks at a run; only that they show something is asserted."""

from pathlib import Path

import pytest
from PIL import Image

from tests.browser.conftest import Opener

pytestmark = pytest.mark.browser
KEPT = Path(__file__).parent / ".work" / "pictures"
"""Where they are kept, newest run only; not checked in."""
FEWEST_TONES = 50  # of a page with text and drawings; a blank one has one


@pytest.mark.parametrize(
    ("width", "scheme"), [(390, "light"), (820, "light"), (1440, "light"), (390, "dark"), (1440, "dark")]
)
def test_a_picture_is_kept(page: Opener, example: Path, width: int, scheme: str) -> None:
    KEPT.mkdir(parents=True, exist_ok=True)
    file = KEPT / f"{example.stem}-{width}-{scheme}.png"
    page(example, width, scheme=scheme).picture(file)
    with Image.open(file) as picture:
        assert picture.width == width
        top = picture.crop((0, 0, width, 1200)).convert("L")
    assert len(top.getcolors(256) or ()) > FEWEST_TONES


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
def test_a_print_is_kept(page: Opener, example: Path, sheet: str) -> None:
    KEPT.mkdir(parents=True, exist_ok=True)
    assert page(example).pdf(sheet, KEPT / f"{example.stem}-{sheet}.pdf").startswith(b"%PDF-")
