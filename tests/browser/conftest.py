"""A real browser and the pages of the examples, for every test of this folder."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from archdiff.cli.examples import example_in
from tests.browser.real_browser import PROGRAMS, Browser, Page, browser_program
from tests.editor.node_packages import cannot_run, node_modules

HERE = Path(__file__).parent
EXAMPLES = sorted(path.parent for path in (HERE.parents[1] / "examples").glob("*/notes.yaml"))
Opener = Callable[..., Page]
StandIn = Callable[[str], Path]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test that asks for `example` runs on the page of every example."""
    if "example" in metafunc.fixturenames:
        metafunc.parametrize("example", EXAMPLES, ids=lambda folder: folder.name, indirect=True, scope="session")


@pytest.fixture(scope="session")
def modules() -> Path:
    """The npm packages of this folder."""
    return node_modules(HERE)


@pytest.fixture(scope="session")
def browser(modules: Path) -> Iterator[Browser]:
    """One browser for the whole run; every page gets a context of its own in it."""
    program = browser_program()
    if program is None:
        cannot_run(f"no browser on this machine (looked for {', '.join(PROGRAMS)})")
    with Browser(modules, program) as running:
        yield running


@pytest.fixture
def page(browser: Browser) -> Iterator[Opener]:
    """Opens `page(path, width, height, scheme)`; what was opened is closed when the test ends."""
    opened: list[Page] = []

    def open_page(
        path: Path, width: int = 1280, height: int = 800, scheme: str = "light", *, scripts: bool = True
    ) -> Page:
        opened.append(browser.open(path, width, height, scheme, scripts=scripts))
        return opened[-1]

    yield open_page
    for each in opened:
        each.close()


@pytest.fixture(scope="session")
def example(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page of one example pair, written by the command line as a user would."""
    pair = example_in(request.param)
    target = tmp_path_factory.mktemp("page") / f"{pair.folder.name}.html"
    words = ["compare", str(pair.left), str(pair.right), "--notes", str(pair.notes), "-o", str(target)]
    done = subprocess.run([sys.executable, "-m", "archdiff", *words], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return target


@pytest.fixture
def stand_in() -> StandIn:
    """The path of a small page of this folder, by its name."""
    return lambda name: HERE / "stand_ins" / f"{name}.html"
