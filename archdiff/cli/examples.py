"""The example pairs: found in the wheel or the checkout, and copied to where the user can change them."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from archdiff.problems import EnvironmentTroubleError
from archdiff.record.text import parse_text

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Example:
    """One pair of records with its notes, in a folder."""

    folder: Path
    left: Path
    right: Path
    notes: Path


def examples_folder() -> Path:
    """Where the examples are: inside an installed package, or at the top of a checkout."""
    inside = Path(str(resources.files("archdiff"))) / "examples"
    folder = inside if inside.is_dir() else Path(__file__).parents[2] / "examples"
    if not folder.is_dir():
        raise EnvironmentTroubleError("the examples are not installed with this archdiff")
    return folder


def copy_examples(target: Path) -> Iterator[Example]:
    """Copy every example to `target`; a file that is already there is left as it is."""
    for folder in sorted(path for path in examples_folder().iterdir() if (path / "notes.yaml").is_file()):
        for source in sorted(path for path in folder.rglob("*") if path.is_file()):
            _copy(source, target / folder.name / source.relative_to(folder))
        yield example_in(target / folder.name)


def example_in(folder: Path) -> Example:
    """The pair in a folder, left and right as its `notes.yaml` names them."""
    names = parse_text((folder / "notes.yaml").read_text("utf-8"), str(folder / "notes.yaml")).data
    return Example(folder, folder / names["left"], folder / names["right"], folder / "notes.yaml")


def _copy(source: Path, target: Path) -> None:
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists():
            target.write_bytes(source.read_bytes())
    except OSError as error:
        raise EnvironmentTroubleError(f"{target}: cannot be written: {error.strerror or error}") from error
