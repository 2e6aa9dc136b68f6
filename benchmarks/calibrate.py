"""Fits the logistic that turns a pair's margin into a confidence, on the tuning seeds: python benchmarks/calibrate.py.

The two numbers it prints stand as SLOPE and OFFSET in archdiff/alignment/rounds.py.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from sklearn.linear_model import LogisticRegression

from archdiff.alignment import align
from archdiff.alignment.rounds import OFFSET, SLOPE
from benchmarks.measure import judged_pairs
from benchmarks.products import HARD, NORMAL, TUNING_SEEDS, pair_of


def main() -> None:
    """Fit and print."""
    margins, right = [], []
    for setting in (NORMAL, HARD):
        for n in (100, 300):
            for seed in TUNING_SEEDS[:10]:
                pair = pair_of(n, setting, seed)
                for confidence, good in judged_pairs(pair, align(*pair.records())):
                    inside = min(max(confidence, 1e-12), 1 - 1e-12)
                    margins.append([(math.log(inside / (1 - inside)) - OFFSET) / SLOPE])
                    right.append(good)
    fit = LogisticRegression(C=1e6).fit(margins, right)
    print(f"SLOPE, OFFSET = {fit.coef_[0][0]:.2f}, {fit.intercept_[0]:.2f}   ({len(right)} pairs)")


if __name__ == "__main__":
    main()
