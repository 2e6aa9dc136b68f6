"""How well and how fast products are aligned: python benchmarks/alignment.py [--quick].

Prints the tables of benchmarks/README.md and writes benchmarks/results/alignment.json. Every row of the file is
one pair of products: setting, links, n, seed, f1, moves_found, seconds, and for some the same of a rival. Under
`calibration`: by setting, kind (paired or alone) and range of confidence the count, the mean said, and the share right.
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import time
from collections import Counter, defaultdict
from dataclasses import dataclass, field, replace
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

import numpy as np  # noqa: E402

from archdiff.alignment import align  # noqa: E402
from benchmarks.measure import groups_of, judged_alone, judged_pairs, kinds_of_pairs, moves_found, score_of  # noqa: E402
from benchmarks.products import EASY, HARD, NORMAL, REPORTING_SEEDS, Setting, pair_of  # noqa: E402
from benchmarks.rivals import by_attributes, by_deepdiff  # noqa: E402
from benchmarks.whole import whole  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchmarks.measure import Group
    from benchmarks.products import ProductPair

    Rival = Callable[[ProductPair], list[Group]]

SETTINGS = (EASY, NORMAL, HARD, replace(NORMAL, links=False))
SIZES = (50, 100, 300, 1000)
WHOLE_SIZES = (100, 1000, 10_000)
SPEED_SIZES = (100, 300, 1000, 3000, 10_000, 30_000)
# Fewer seeds where a pair takes long; all elsewhere.
SEEDS = {1000: 5}
# Seeds of the rival that is too slow for all of them.
DEEPDIFF_SEEDS = {50: 3, 100: 3, 300: 1}
BINS = (0.0, 0.5, 0.8, 0.9, 0.97, 1.0)
Judged = dict[tuple[str, str], list[tuple[float, bool]]]  # by setting, and 'paired' or 'alone': (confidence, right)


@dataclass
class Results:
    """All rows, and what was said of every pair and every seat left alone."""

    rows: list[dict[str, Any]]
    judged: Judged
    mistakes: dict[tuple[str, int], Counter[str]] = field(default_factory=lambda: defaultdict(Counter))


def run(seeds: range, sizes: tuple[int, ...]) -> Results:
    """Every setting, size and seed; rivals on the same pairs."""
    results = Results([], defaultdict(list))
    for setting in SETTINGS:
        for n in sizes:
            for seed in seeds[: SEEDS.get(n)]:
                results.rows.extend(_one(setting, n, seed, results))
            print(_summary(results.rows, setting, n), flush=True)
    return results


def _one(setting: Setting, n: int, seed: int, results: Results) -> Iterator[dict[str, Any]]:
    pair = pair_of(n, setting, seed)
    left, right = pair.records()
    start = time.perf_counter()
    alignment = align(left, right)
    seconds = time.perf_counter() - start
    name = setting.name if setting.links else f"{setting.name}, no links"
    results.judged[name, "paired"] += judged_pairs(pair, alignment)
    results.judged[name, "alone"] += judged_alone(pair, alignment)
    results.mistakes[name, n] += kinds_of_pairs(pair, groups_of(alignment))
    row = {
        "setting": setting.name,
        "links": setting.links,
        "n": n,
        "seed": seed,
        "f1": round(score_of(pair, groups_of(alignment)).f1, 4),
        "moves_found": round(moves_found(pair, alignment), 4),
        "seconds": round(seconds, 4),
        "rival": "",
        "rival_seconds": None,
        "rival_f1": None,
    }
    yield {**row, **_rival("attributes within the function, optimal assignment", by_attributes, pair)}
    if setting == NORMAL and seed < DEEPDIFF_SEEDS.get(n, 0):
        yield {**row, **_rival("deepdiff, tuned", by_deepdiff, pair)}


def _rival(name: str, way: Rival, pair: ProductPair) -> dict[str, Any]:
    start = time.perf_counter()
    groups = way(pair)
    seconds = time.perf_counter() - start
    return {"rival": name, "rival_seconds": round(seconds, 4), "rival_f1": round(score_of(pair, groups).f1, 4)}


def _of(rows: list[dict[str, Any]], setting: Setting, n: int) -> list[dict[str, Any]]:
    return [r for r in rows if (r["setting"], r["links"], r["n"]) == (setting.name, setting.links, n)]


def _summary(rows: list[dict[str, Any]], setting: Setting, n: int) -> str:
    ours = list({row["seed"]: row for row in _of(rows, setting, n)}.values())
    f1 = [row["f1"] for row in ours]
    text = f"{setting.name:7}{'' if setting.links else ' no links':9} {n:6}  F1 {statistics.mean(f1):.3f}"
    text += f"  lowest of {len(f1)} {min(f1):.3f}  moves {statistics.mean(r['moves_found'] for r in ours):.2f}"
    text += f"  {1000 * statistics.median(r['seconds'] for r in ours):7.1f} ms"
    rivals: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for row in _of(rows, setting, n):
        rivals[row["rival"]].append(row)
    for name, found in rivals.items():
        text += f"  | {name} {statistics.mean(r['rival_f1'] for r in found):.3f}"
        text += f" in {1000 * statistics.median(r['rival_seconds'] for r in found):.0f} ms"
    return text


def speed(sizes: tuple[int, ...]) -> tuple[list[dict[str, Any]], float]:
    """The best of three runs a size in processor time, and the exponent of growth (slope in the log-log plane)."""
    found = []
    for n in sizes:
        left, right = pair_of(n, NORMAL, 0).records()
        times = []
        for _ in range(3):
            start = time.process_time()
            align(left, right)
            times.append(time.process_time() - start)
        found.append({"n": n, "seconds": round(min(times), 4)})
        print(f"{n:7} a side: {min(times):7.3f} s", flush=True)
    logs = np.log([[row["n"], row["seconds"]] for row in found])
    return found, float(np.polyfit(logs[:, 0], logs[:, 1], 1)[0])


def calibration(judged: Judged) -> list[dict[str, Any]]:
    """For each setting, kind and range of confidence: how many, their mean confidence, and the share that is right."""
    table = []
    for (setting, kind), entries in judged.items():
        for low, high in pairwise(BINS):
            inside = [(c, good) for c, good in entries if low <= c < high or (high == 1.0 and c == 1.0)]
            if inside:
                said, right = (statistics.mean(float(entry[k]) for entry in inside) for k in (0, 1))
                share = {"said": round(said, 3), "right": round(right, 3)}
                table.append({"setting": setting, "kind": kind, "from": low, "to": high, "count": len(inside), **share})
    return table


def main() -> None:
    """Run everything, print it and write the file."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--no-rivals", action="store_true", help="leave out the slow rival")
    parser.add_argument("--quick", action="store_true", help="three seeds and small sizes only; writes no file")
    said = parser.parse_args()
    quick = said.quick
    if said.no_rivals:
        DEEPDIFF_SEEDS.clear()
    results = run(REPORTING_SEEDS[:3] if quick else REPORTING_SEEDS, SIZES[:2] if quick else SIZES)
    mistaken = [{"setting": name, "n": n, **dict(kinds)} for (name, n), kinds in results.mistakes.items()]
    for row in mistaken:
        print(
            "pairs made, {setting} at {n}: ".format(**row), {k: v for k, v in row.items() if k not in ("setting", "n")}
        )
    table = calibration(results.judged)
    for row in table:
        text = f"{row['setting']:16} {row['kind']:6} confidence {row['from']:.2f}..{row['to']:.2f}: {row['count']:6}"
        print(f"{text}, said {row['said']:.3f}, right {row['right']:.3f}")
    times, exponent = speed(SPEED_SIZES[:3] if quick else SPEED_SIZES)
    print(f"growth exponent {exponent:.2f}")
    runs = [whole(n) for n in WHOLE_SIZES[: 1 if quick else None]]
    for run_of in runs:
        print("whole comparison of {n} a side: {seconds} s, reading the files alone {loading_alone} s".format(**run_of))
    if not quick:
        found = {
            "rows": results.rows,
            "mistakes": mistaken,
            "calibration": table,
            "speed": times,
            "growth_exponent": round(exponent, 3),
            "whole_comparison": runs,
        }
        (HERE / "results").mkdir(exist_ok=True)
        (HERE / "results" / "alignment.json").write_text(json.dumps(found, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
