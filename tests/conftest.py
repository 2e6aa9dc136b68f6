"""What several test folders share: records from text, and the examples compared once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.cli.examples import example_in
from archdiff.pipeline import compare_files
from archdiff.record.build import build_record
from archdiff.record.schema import shape_problems
from archdiff.record.text import parse_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

EXAMPLES = Path(__file__).parents[1] / "examples"
HEAD = "archdiff: 1\nproduct: {name: Tarvo, kind: test object}\n"


@pytest.fixture
def record_of() -> Callable[[str], Record]:
    """A record from YAML text (head added); fails where the text has faults of shape, quantity or term."""

    def make(text: str, file: str = "record.yaml") -> Record:
        whole = text if text.startswith("archdiff:") else HEAD + text
        document = parse_text(whole, file)
        assert not document.problems, document.problems
        assert not (found := shape_problems(document, "record")), found
        record, problems = build_record(document)
        assert not problems, problems
        return record

    return make


def _example(name: str, *, turned: bool = False) -> Comparison:
    pair = example_in(EXAMPLES / name)
    return compare_files(pair.right, pair.left) if turned else compare_files(pair.left, pair.right, pair.notes)


@pytest.fixture(scope="session")
def air_monitors() -> Comparison:
    return _example("air-monitors")


@pytest.fixture(scope="session")
def bike_lights() -> Comparison:
    return _example("bike-lights")
