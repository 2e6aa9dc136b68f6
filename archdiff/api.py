"""For Python programs and notebooks: the commands of the command line as functions."""

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
    """A finished comparison. A notebook shows it as Markdown.

    >>> result.comparison.left.name, result.comparison.right.name
    ('Gloffin Ember', 'Plinsk Wink')
    """

    comparison: Comparison  # all that was found, to look into
    inputs: tuple[Path, ...]  # the files it was read from; `save` never writes over them

    def html(self) -> str:
        """The comparison page.

        Returns:
            One HTML document that needs no other file.

        >>> result.html().splitlines()[0]
        '<!DOCTYPE html>'
        """
        from archdiff.page import render_page

        return render_page(self.comparison)

    def data(self) -> dict[str, Any]:
        """The comparison as plain data: dicts, lists, texts and numbers.

        Returns:
            What `schema/comparison.schema.json` describes.

        >>> result.data()["left"]
        'Gloffin Ember'
        """
        from archdiff.exports.as_json import as_data

        return as_data(self.comparison)

    def text(self, form: str) -> str:
        """The comparison in one of the text forms.

        Args:
            form: "json", "markdown", "csv" (the pairs) or "figures" (the figures as CSV).

        Returns:
            The text, as `save` would write it.

        Raises:
            KeyError: there is no such form.

        >>> result.text("csv").split(",")[:3]
        ['subsystem', 'function', 'verdict']
        """
        from archdiff.exports import export

        return export(self.comparison, form)

    def save(self, file: str | Path, *, overwrite: bool = False) -> Path:
        """Write the form that the file name's ending asks for.

        Args:
            file: a path that ends in .html, .json, .md or .csv.
            overwrite: also replace a file that archdiff did not write.

        Returns:
            The path written.

        Raises:
            ValueError: the ending is none of these.
            EnvironmentTroubleError: the file is an input, was not written by archdiff, or cannot be written.

        >>> result.save("page.txt")
        Traceback (most recent call last):
        ...
        ValueError: page.txt: the ending must be one of .html, .json, .md, .csv
        """
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
    """Compare two records.

    Args:
        left: the record file of the product shown on the left.
        right: the record file of the other product.
        notes: the analyst's notes on this pair, where there are some.

    Returns:
        The finished comparison.

    Raises:
        FaultyInputError: a file has faults; `problems` holds those of all files.
        EnvironmentTroubleError: a file cannot be read.

    >>> archdiff.compare("gloffin-ember.yaml", "plinsk-wink.yaml").comparison.title
    'Gloffin Ember and Plinsk Wink'
    """
    files = tuple(Path(file) for file in (left, right, notes) if file is not None)
    return Result(compare_files(left, right, notes), files)


def check(*files: str | Path) -> list[Problem]:
    """Check records, or notes against the two records that they name.

    Args:
        files: record or notes files.

    Returns:
        All faults and warnings, sorted by file and place; empty where there are none.

    Raises:
        EnvironmentTroubleError: a file cannot be read.

    >>> archdiff.check("gloffin-ember.yaml", "notes.yaml")
    []
    """
    return sorted(problem for file in files for problem in check_input(file))
