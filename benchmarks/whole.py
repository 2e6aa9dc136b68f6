"""How long a whole comparison takes, from two files to one: against the time that reading the two files alone takes.

Both in one run: `archdiff compare LEFT RIGHT --json FILE` in a fresh process, and the YAML library's own quick
loader (CSafeLoader) on the same two files in this one.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

import yaml

from benchmarks.products import NORMAL, pair_of

if TYPE_CHECKING:
    from collections.abc import Callable


class _Plain(yaml.CSafeDumper):
    """Writes everything out: records may not refer to an earlier place."""

    def ignore_aliases(self, data: Any) -> bool:
        del data
        return True


def whole(n: int, runs: int = 3) -> dict[str, Any]:
    """The best of some runs a size, in seconds of the clock."""
    with TemporaryDirectory() as folder:
        pair = pair_of(n, NORMAL, 0)
        files = [Path(folder, name) for name in ("left.yaml", "right.yaml")]
        for file, data in zip(files, (pair.left_data, pair.right_data), strict=True):
            file.write_text(yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True), "utf-8")
        made = Path(folder, "comparison.json")
        words = [sys.executable, "-m", "archdiff", "compare", *map(str, files), "--json", str(made)]
        load, compare = [], []
        for _ in range(runs):
            load.append(_seconds(lambda: [_load(file) for file in files]))
            compare.append(_seconds(lambda: subprocess.run(words, check=True, capture_output=True)))  # noqa: S603 - our own program
    return {"n": n, "seconds": round(min(compare), 3), "loading_alone": round(min(load), 3)}


def _load(file: Path) -> Any:
    return yaml.load(file.read_text("utf-8"), Loader=yaml.CSafeLoader)


def _seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start
