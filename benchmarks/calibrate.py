"""Fits the logistics that turn margins into confidences, on the tuning seeds: python benchmarks/calibrate.py.

The numbers it prints stand in archdiff/alignment/rounds.py.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from sklearn.linear_model import LogisticRegression

from archdiff.alignment import align
from archdiff.alignment.rounds import ALONE_OFFSET, ALONE_SLOPE, OFFSET, SLOPE
from benchmarks.measure import judged_alone, judged_pairs
from benchmarks.products import HARD, NORMAL, TUNING_SEEDS, pair_of


def main() -> None:
    """Fit and print."""
    paired: list[tuple[float, bool]] = []
    alone: list[tuple[float, bool]] = []
    for setting in (NORMAL, HARD):
        for n in (100, 300):
            for seed in TUNING_SEEDS[:10]:
                pair = pair_of(n, setting, seed)
                alignment = align(*pair.records())
                paired += judged_pairs(pair, alignment)
                alone += judged_alone(pair, alignment)
    print("SLOPE, OFFSET =", _fitted(paired, SLOPE, OFFSET))
    print("ALONE_SLOPE, ALONE_OFFSET =", _fitted(alone, ALONE_SLOPE, ALONE_OFFSET))


def _fitted(judged: list[tuple[float, bool]], slope: float, offset: float) -> str:
    """Slope and offset that fit, from confidences that were made with the given ones."""
    margins = []
    for confidence, _ in judged:
        inside = min(max(confidence, 1e-12), 1 - 1e-12)
        margins.append([(math.log(inside / (1 - inside)) - offset) / slope])
    fit = LogisticRegression(C=1e6).fit(margins, [good for _, good in judged])
    return f"{fit.coef_[0][0]:.2f}, {fit.intercept_[0]:.2f}   ({len(judged)} judged)"


if __name__ == "__main__":
    main()
