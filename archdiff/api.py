"""What a Python program or a notebook uses: the same job as the command line."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from archdiff.files import write_all
from archdiff.pipeline import check_input, compare_files

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.problems import Problem


@dataclass(frozen=True, slots=True, eq=False)
class Result:
    """A finished comparison: `comparison` to look into, and the forms in which it can be written."""

    comparison: Comparison
    inputs: tuple[Path, ...]

    def html(self) -> str:
        """The whole page as one HTML text."""
        from archdiff.page import render_page

        return render_page(self.comparison)

    def data(self) -> dict[str, Any]:
        """The comparison as plain data, as `schema/comparison.schema.json` describes it."""
        from archdiff.exports.as_json import as_data

        return as_data(self.comparison)

    def text(self, form: str) -> str:
        """The comparison as 'json', 'markdown', 'csv' (pairs) or 'figures' (CSV); KeyError for another form."""
        from archdiff.exports import export

        return export(self.comparison, form)

    def save(self, file: str | Path, *, overwrite: bool = False) -> Path:
        """Write by the file's ending: .html, .json, .md or .csv. Raises as `archdiff.files.write_all` does."""
        path = Path(file)
        form = _FORMS.get(path.suffix.lower())
        if form is None:
            raise ValueError(f"{path}: the ending must be one of {', '.join(_FORMS)}")
        write_all({path: self.html() if form == "html" else self.text(form)}, self.inputs, overwrite=overwrite)
        return path

    def __repr__(self) -> str:
        c = self.comparison
        return f"<archdiff result: {c.left.name} and {c.right.name}, {len(c.pairs)} pairs>"

    def _repr_markdown_(self) -> str:
        """What a notebook shows for it."""
        return self.text("markdown")


_FORMS = {".html": "html", ".json": "json", ".md": "markdown", ".csv": "csv"}


def compare(left: str | Path, right: str | Path, notes: str | Path | None = None) -> Result:
    """Compare two record files, with the analyst's notes where there are some.

    Raises FaultyInputError, which holds every fault of all files, and EnvironmentTroubleError where a file
    cannot be read.
    """
    files = tuple(Path(file) for file in (left, right, notes) if file is not None)
    return Result(compare_files(left, right, notes), files)


def check(*files: str | Path) -> list[Problem]:
    """All problems of the named records, sorted by place; empty where there is nothing to say."""
    return sorted(problem for file in files for problem in check_input(file))
