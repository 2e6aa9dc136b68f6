"""The pairs as CSV (RFC 4180) that opens in a spreadsheet."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

NAME = "csv"
_COLUMNS = (
    "subsystem", "function", "verdict", "left", "right", "left means", "right means", "left host", "right host",
    "changes", "confidence", "sure", "why nothing on the other side",
)  # fmt: skip


def write(comparison: Comparison) -> str:
    """CSV text with a heading row; one row a pair."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(_COLUMNS)
    for pair in comparison.pairs:
        sides = (pair.left, pair.right)
        row = [
            pair.subsystem,
            pair.function,
            pair.verdict.value,
            *(" ".join(seat.ids) if seat else "" for seat in sides),
            *(seat.means if seat else "" for seat in sides),
            *(" ".join(seat.hosts) if seat else "" for seat in sides),
            "; ".join(f"{c.what}: {c.left} / {c.right}" for c in pair.changes),
            f"{pair.confidence:.3f}",
            pair.sure,
            f"{pair.silent.silence.value}: {pair.silent.why}" if pair.silent else "",
        ]
        writer.writerow([_inert(cell) for cell in row])
    return out.getvalue()


def _inert(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula (OWASP, CSV injection): a quote in front of = + - @ tab CR."""
    return "'" + cell if cell[:1] in "=+-@\t\r" and cell else cell
