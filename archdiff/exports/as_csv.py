"""The pairs as CSV (RFC 4180) that opens in a spreadsheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.spreadsheet import as_csv

if TYPE_CHECKING:
    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison

NAME = "csv"
_COLUMNS = (
    "subsystem", "function", "verdict", "left", "right", "left means", "right means", "left host", "right host",
    "changes", "confidence", "sure", "why nothing on the other side",
)  # fmt: skip


def write(comparison: Comparison) -> str:
    """CSV text with a heading row; one row a pair."""
    return as_csv(_COLUMNS, map(_row, comparison.pairs))


def _row(pair: Pair) -> list[str]:
    sides = (pair.left, pair.right)
    return [
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
