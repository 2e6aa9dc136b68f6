"""A page is something people send to each other: how heavy it may get."""

import re
from pathlib import Path

import pytest

from archdiff.cli.examples import example_in
from archdiff.page import render_page
from archdiff.pipeline import compare_files

EXAMPLES = sorted(path.parent for path in (Path(__file__).parents[2] / "examples").glob("*/notes.yaml"))
MOST = 1_000_000  # bytes, photos aside


@pytest.mark.parametrize("folder", EXAMPLES, ids=lambda folder: folder.name)
def test_an_example_stays_below_a_megabyte_without_photos(folder: Path) -> None:
    example = example_in(folder)
    page = render_page(compare_files(example.left, example.right, example.notes))
    bare, photos = re.subn(r'src="data:image/[^"]+"', "", page)
    assert photos
    assert "data:image/" not in bare
    assert len(bare.encode()) < MOST
