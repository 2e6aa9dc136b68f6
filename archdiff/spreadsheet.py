"""Rows as CSV (RFC 4180) that opens in a spreadsheet and runs nothing there."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def as_csv(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    r"""Rows as CSV text with a heading row.

    >>> as_csv(["part", "note"], [["U1", "=1+1"]])
    "part,note\r\nU1,'=1+1\r\n"
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(columns)
    writer.writerows([_inert(cell) for cell in row] for row in rows)
    return out.getvalue()


def _inert(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula (OWASP, CSV injection): a quote in front of = + - @ tab CR.

    A plain negative number stays one.
    """
    return "'" + cell if cell and cell[0] in "=+-@\t\r" and not _is_number(cell) else cell


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return cell[0] != "\t"
