"""The best way to lay two rows of things side by side without changing the order of either.

Global sequence alignment by dynamic programming: Needleman & Wunsch 1970, J. Mol. Biol. 48:443-453. The worth of
laying two things together and the cost of leaving one alone are the caller's; whole numbers of any length, so that
nothing is lost to rounding.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

Matches = list[tuple[int, int]]


def best_alignment(worth: Sequence[Sequence[int]], columns: int, alone: int) -> Matches:
    """The pairs (row, column), rising in both, with the greatest sum.

    `worth[i][j]` counts where i and j are laid together, `alone` for every row and column that is left alone. Of
    equally good ones the pairs come as early as they can.
    """
    best = _table(worth, columns, alone)
    matches: Matches = []
    i, j = len(worth), columns
    while i or j:
        if i and best[i][j] == best[i - 1][j] + alone:
            i -= 1
        elif j and best[i][j] == best[i][j - 1] + alone:
            j -= 1
        else:
            i, j = i - 1, j - 1
            matches.append((i, j))
    return matches[::-1]


def sum_of(matches: Matches, worth: Sequence[Sequence[int]], columns: int, alone: int) -> int:
    """What an alignment comes to."""
    left_over = len(worth) + columns - 2 * len(matches)
    return sum(worth[i][j] for i, j in matches) + alone * left_over


def _table(worth: Sequence[Sequence[int]], columns: int, alone: int) -> list[list[int]]:
    """The best sum of the first i rows with the first j columns."""
    best = [[alone * j for j in range(columns + 1)]]
    for i, row in enumerate(worth):
        above, line = best[i], [alone * (i + 1)]
        for j, value in enumerate(row):
            line.append(max(above[j] + value, above[j + 1] + alone, line[j] + alone))
        best.append(line)
    return best
