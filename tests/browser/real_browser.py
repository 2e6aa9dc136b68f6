"""A real browser for the tests: opens pages, asks them questions, prints them."""

import json
import shutil
import subprocess
import threading
from pathlib import Path
from typing import Any, Self

PROGRAMS = ("chromium", "chromium-browser", "google-chrome", "chrome")
PATIENCE_SECONDS = 120
"""After this long without an answer the browser is stopped and the waiting test fails."""
HERE = Path(__file__).parent


def browser_program() -> str | None:
    """The first browser on the PATH that can be driven."""
    return next((found for name in PROGRAMS if (found := shutil.which(name))), None)


class Browser:
    """One running browser behind the bridge."""

    def __init__(self, modules: Path, program: str) -> None:
        node = shutil.which("node")
        assert node
        command = [node, str(HERE / "bridge.mjs"), str(modules), program]
        self._bridge = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
        )
        tools, checks = ((HERE / name).read_text(encoding="utf-8") for name in ("painted.js", "checks.js"))
        self.checks = f"({checks})({tools})"
        self.axe = (modules / "axe-core" / "axe.min.js").read_text(encoding="utf-8")

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._bridge.communicate(timeout=PATIENCE_SECONDS)

    def ask(self, action: str, **rest: object) -> Any:
        """The bridge's answer to one request; what went wrong there is raised here."""
        stdin, stdout = self._bridge.stdin, self._bridge.stdout
        assert stdin
        assert stdout
        watchdog = threading.Timer(PATIENCE_SECONDS, self._bridge.kill)
        watchdog.start()
        try:
            stdin.write(json.dumps({"action": action, **rest}) + "\n")
            stdin.flush()
            line = stdout.readline()
        finally:
            watchdog.cancel()
        if not line:
            raise AssertionError(f"the browser stopped without an answer to {action!r}")
        answer = json.loads(line)
        if "error" in answer:
            raise AssertionError(f"{action}: {answer['error']}")
        return answer["value"]

    def open(self, path: Path, width: int, height: int, scheme: str, *, scripts: bool = True) -> "Page":
        """The file at `path` in a fresh browser context: a window of `width` by `height` px, `light` or `dark`."""
        shape = {"width": width, "height": height, "scheme": scheme, "scripts": scripts}
        return Page(self, self.ask("open", address=path.as_uri(), **shape))


class Page:
    """One open page."""

    def __init__(self, browser: Browser, number: int) -> None:
        self._browser = browser
        self._number = number

    def evaluate(self, code: str) -> Any:
        """What `code` comes to in the page; asked through the debugger, so it works with the page's scripts off."""
        return self._ask("evaluate", code=code)

    def check(self, name: str, *arguments: object) -> Any:
        """The answer of one of the functions in checks.js."""
        return self.evaluate(f"{self._browser.checks}.{name}({', '.join(map(json.dumps, arguments))})")

    def unfold(self) -> Self:
        """The page with all open that is folded: what is folded away no check would see."""
        self.evaluate("document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")
        return self

    def load_axe(self) -> None:
        """Make axe-core's functions known in the page."""
        self.evaluate(self._browser.axe + ";undefined")

    def requests(self) -> list[str]:
        """Every address asked for so far, the page's own included."""
        return list(self._ask("seen")["requests"])

    def trouble(self) -> list[str]:
        """Errors and warnings on the console, uncaught errors and breaches of the page's own security policy."""
        return list(self._ask("seen")["trouble"])

    def press(self, key: str) -> None:
        """Press a key on whatever has the focus."""
        self._ask("press", key=key)

    def click(self, what: str) -> None:
        """Click what a CSS selector names, as a reader with a mouse does: it must be there, in sight and uncovered."""
        self._ask("click", what=what)

    def point_at(self, what: str) -> None:
        """Move the mouse onto what a CSS selector names."""
        self._ask("hover", what=what)

    def write(self, what: str, text: str) -> None:
        """Write into the field that a CSS selector names."""
        self._ask("fill", what=what, text=text)

    def choose(self, what: str, value: str) -> None:
        """Choose an option of the list that a CSS selector names."""
        self._ask("choose", what=what, value=value)

    def as_printed(self) -> None:
        """Show the page with its print styles."""
        self._ask("media", media="print")

    def pdf(self, sheet: str, to: Path) -> bytes:
        """The page printed on a `sheet` ("A4", "Letter"), also kept at `to`."""
        self._ask("pdf", format=sheet, to=str(to))
        return to.read_bytes()

    def picture(self, to: Path) -> None:
        """A picture of the whole page, for the eye of whoever reads a failure."""
        self._ask("picture", to=str(to))

    def close(self) -> None:
        """Close the page and forget its context."""
        self._ask("close")

    def _ask(self, action: str, **rest: object) -> Any:
        return self._browser.ask(action, page=self._number, **rest)
