"""How long a page takes to be made and to be opened, and how large it is: python benchmarks/page.py [--quick].

For invented pairs of growing size (`tests/page/records/stress.py`): reading and comparing, drawing, rendering (which
draws once more), the bytes of the page, and the time that headless Chromium takes to load it. Prints a table and
writes benchmarks/results/page.json; `--quick` takes the smallest pair alone and writes nothing. Without Chromium or
Node.js the loading times are left out.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import time
from contextlib import nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

import pytest  # noqa: E402

from archdiff.page.diagrams.blocks import draw  # noqa: E402
from archdiff.page.diagrams.scene_from_comparison import scene_of  # noqa: E402
from archdiff.page.render import render_page  # noqa: E402
from archdiff.pipeline import compare_files  # noqa: E402
from tests.browser.real_browser import Browser, browser_program  # noqa: E402
from tests.editor.node_packages import node_modules  # noqa: E402
from tests.page.records.stress import written  # noqa: E402

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

SIZES = ((3, 30), (6, 100), (12, 400))
"""Boards and parts a side."""
RUNS = 3
_LOADED = "performance.getEntriesByType('navigation')[0].loadEventEnd / 1000"


def measured(boards: int, parts: int, browser: Browser | None) -> dict[str, Any]:
    """One row: the best of some runs each, in seconds of the clock."""
    with TemporaryDirectory() as folder:
        files = written(Path(folder), boards, parts)
        compared = _best(lambda: compare_files(*files))
        comparison = compare_files(*files)
        scene = scene_of(comparison)
        html = render_page(comparison)
        page = Path(folder, "page.html")
        page.write_text(html, "utf-8")
        row = {
            "boards": boards,
            "parts": parts,
            "compare": compared,
            "draw": _best(lambda: draw(scene, prefix="blocks")),
            "render": _best(lambda: render_page(comparison)),
            "bytes": len(html.encode()),
        }
        return row | (_loading(browser, page) if browser else {})


def _loading(browser: Browser, page: Path) -> dict[str, Any]:
    """Until the load event as the page itself counts it, and the elements of the page."""
    seconds, elements = [], 0
    for _ in range(RUNS):
        opened = browser.open(page, 1280, 800, "light")
        seconds.append(float(opened.evaluate(_LOADED)))
        elements = int(opened.evaluate("document.querySelectorAll('*').length"))
        opened.close()
    return {"load": round(min(seconds), 3), "elements": elements}


def _best(work: Callable[[], object]) -> float:
    taken = []
    for _ in range(RUNS):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return round(min(taken), 3)


def _browser() -> AbstractContextManager[Browser | None]:
    program = browser_program()
    if program is None:
        return nullcontext()
    try:
        return Browser(node_modules(HERE.parent / "tests" / "browser"), program)
    except pytest.skip.Exception as lacking:
        print(f"no loading times: {lacking}", file=sys.stderr)
        return nullcontext()


def main() -> None:
    """Measure, print, and keep the rows."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--quick", action="store_true", help="the smallest pair alone, nothing written")
    quick = parser.parse_args().quick
    with _browser() as browser:
        rows = [measured(*size, browser) for size in (SIZES[:1] if quick else SIZES)]
    names = list(rows[-1])
    print(*(f"{name:>9}" for name in names))
    for row in rows:
        print(*(f"{row.get(name, ''):>9}" for name in names))
    if not quick:
        kept = {"load_average_at_the_end": [round(each, 1) for each in os.getloadavg()], "rows": rows}
        (HERE / "results" / "page.json").write_text(json.dumps(kept, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
