"""Builds the static web site: python site/build.py --out FOLDER.

Everything on it comes from this project: the pages under `site/pages/`, the figures and the vocabulary from the
package itself, the gallery from the examples. No framework, no script, no outside resource.
"""

from __future__ import annotations

import argparse
import re
import sys
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

from api import api
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markdown_it import MarkdownIt
from markupsafe import Markup

from archdiff import __version__
from archdiff.cautions import all_cautions
from archdiff.cli.examples import Example, example_in, examples_folder
from archdiff.figures import all_figures, families
from archdiff.page import render_page
from archdiff.page.build_sketch import sketches
from archdiff.page.diagrams.marks import TITLES
from archdiff.page.glyphs import side_sign, sign_sheet
from archdiff.page.render import STYLES
from archdiff.page.text import slug
from archdiff.pipeline import compare_files
from archdiff.tables import all_tables
from archdiff.vocabulary import load_vocabulary
from archdiff.vocabulary.glossary import glossary
from archdiff.wording import names, sure_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison

HERE = Path(__file__).parent
PACKAGE = HERE.parent / "archdiff" / "page"
# In the order of the navigation: file, title in the navigation.
PAGES = (
    ("index.html", "archdiff"),
    ("recording.html", "Recording"),
    ("reading.html", "Reading"),
    ("figures.html", "Figures"),
    ("vocabulary.html", "Vocabulary"),
    ("glossary.html", "Glossary"),
    ("python.html", "Python"),
    ("gallery.html", "Gallery"),
)
_HEADING = re.compile(r"<h([23])>(.*?)</h\1>")
_TAG = re.compile(r"<[^>]+>")


@dataclass(frozen=True)
class Shown:
    """An example of the gallery: its comparison, where its page stands, and its own words."""

    comparison: Comparison
    page: str
    words: Markup


def build(out: Path) -> list[Path]:
    """Write the whole site below `out`; returns the files written. Files of an earlier run are replaced."""
    written: list[Path] = []

    def write(name: str, text: str) -> None:
        path = out / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
        written.append(path)

    shown = [_shown(example_in(folder)) for folder in _example_folders()]
    for one in shown:
        write(one.page, render_page(one.comparison))
    write("site.css", _style())
    environment = _environment()
    for (name, title), view in zip(PAGES, _views(shown), strict=True):
        template = environment.get_template(name if (HERE / "look" / name).is_file() else "text.html")
        write(name, template.render({"title": title, "here": name, **view}))
    return written


def _example_folders() -> list[Path]:
    return sorted(path.parent for path in examples_folder().glob("*/notes.yaml"))


def _shown(example: Example) -> Shown:
    comparison = compare_files(example.left, example.right, example.notes)
    words = (example.folder / "README.md").read_text("utf-8")
    return Shown(comparison, f"examples/{example.folder.name}.html", _markdown(words, below=2))


def _views(shown: list[Shown]) -> Iterator[dict[str, Any]]:
    yield {"main": shown[0], "headlines": shown[0].comparison.headlines, "body": _page("index")}
    yield {"body": _page("recording")}
    yield {"body": _page("reading"), "cautions": all_cautions()}
    yield {"families": [(family, [f for f in all_figures() if f.family == family.id]) for family in families()],
           "tables": all_tables()}  # fmt: skip
    yield _vocabulary()
    yield {"groups": {group: list(words) for group, words in groupby(glossary().values(), lambda word: word.group)}}
    yield {"body": _page("python"), "groups": api(), "markdown": _markdown, "inline": _inline}
    yield {"shown": shown}


def _vocabulary() -> dict[str, Any]:
    vocabulary = load_vocabulary()
    groups: dict[str, dict[str, list[Any]]] = {}
    for kind, terms in (("functions", vocabulary.functions), ("means", vocabulary.means)):
        for term in sorted(terms.values(), key=lambda term: term.name):
            groups.setdefault(term.subsystem or "any", {"functions": [], "means": []})[kind].append(term)
    return {"groups": dict(sorted(groups.items()))}


def _page(name: str) -> Markup:
    text = (HERE / "pages" / f"{name}.md").read_text("utf-8")
    return _markdown(text.replace("{verdicts}", _verdicts()))


def _verdicts() -> str:
    """The verdicts as a table in Markdown, from the glossary."""
    rows = (f"| {title} | {glossary()[title].meaning} |" for title in TITLES.values())
    return "\n".join(["| word | what it says |", "|---|---|", *rows])


def _markdown(text: str, *, below: int = 0) -> Markup:
    """Markdown as HTML, every heading with an address; `below` lowers the headings by so many ranks."""
    html = MarkdownIt("commonmark", {"html": False}).enable("table").render(text)
    if below:
        html = re.sub(r"<(/?)h([1-4])>", lambda found: f"<{found[1]}h{int(found[2]) + below}>", html)
    html = _HEADING.sub(
        lambda found: f'<h{found[1]} id="{slug(_TAG.sub("", found[2]))}">{found[2]}</h{found[1]}>', html
    )
    # Wide tables scroll by themselves, so that the page does not; the keyboard reaches them.
    html = html.replace("<table>", '<div class="scroll" role="group" aria-label="Table" tabindex="0"><table>')
    html = html.replace("<pre>", '<pre tabindex="0">')
    return Markup(html.replace("</table>", "</table></div>"))  # noqa: S704 - our own files, raw HTML is off


def _inline(text: str) -> Markup:
    """One line of Markdown, without a paragraph round it."""
    return Markup(MarkdownIt("commonmark", {"html": False}).renderInline(text))  # noqa: S704 - as above


def _style() -> str:
    package = "".join((PACKAGE / name).read_text("utf-8") for name in STYLES)
    return package + (HERE / "look" / "site.css").read_text("utf-8")


def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(HERE / "look"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals |= {
        "pages": PAGES,
        "version": __version__,
        "signs": sign_sheet(),
        "side_sign": side_sign,
        "names": names,
        "sketches": lambda comparison: sketches(comparison.left, comparison.right),
        "sure_words": sure_words,
        "slug": slug,
    }
    return environment


def main() -> None:
    """Build the site and say where it is."""
    parser = argparse.ArgumentParser(description="Build the static web site.")
    parser.add_argument("--out", type=Path, default=Path("out/site"), help="folder to write to (default: out/site)")
    out = parser.parse_args().out
    written = build(out)
    sys.stdout.write(f"{len(written)} files; begin at {out / 'index.html'}\n")


if __name__ == "__main__":
    main()
