"""From a comparison to one self-contained HTML page."""

from __future__ import annotations

import re
from functools import cache
from importlib import metadata, resources
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from archdiff import wording
from archdiff.page import anchors, glyphs
from archdiff.page.comments import comments_on, homeless
from archdiff.page.policy import policy
from archdiff.page.shelf import Section, all_sections, zone_letter
from archdiff.page.text import clean, css_string
from archdiff.quantities import NOT_KNOWN, plain
from archdiff.wording import names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.comparison import Comparison

# Later files have the last word: the page gives the diagrams its own colours, and paper its own layout.
STYLES = ("diagrams/diagram.css", "page.css", "sections.css", "paper.css")
_ID = re.compile(r'\sid="([^"]+)"')
_LINK_INTO_PAGE = re.compile(r'\s(?:xlink:)?href="#([^"]*)"')


def render_page(comparison: Comparison) -> str:
    """The whole page: no outside resource, nothing in the records can act, readable with scripts off."""
    environment = _environment()
    script, style = _asset("page.js"), _short("".join(_asset(name) for name in STYLES))
    shared = _shared(comparison)
    shown = list(_filled(environment, comparison, shared))
    html = environment.get_template("page.html").render(
        shared,
        sections=shown,
        policy=policy(script),
        script=Markup(script),  # noqa: S704 - our own file
        style=Markup(style),  # noqa: S704 - our own file
        signs=glyphs.sign_sheet(),
        homeless=homeless(comparison, _homes(comparison, shown)),
    )
    return clean(_without_dead_links(html))


def _filled(environment: Environment, comparison: Comparison, shared: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Every section that has something to say, with its zone letter and its HTML."""
    said = [(section, view) for section in all_sections() if (view := section.view(comparison)) is not None]
    # A comment on 'power' stands in the section of that name where there is one, not with the subsystem as well.
    shared = {**shared, "shown": {section.name.replace("_", " ") for section, _ in said}}
    for index, (section, view) in enumerate(said):
        zone = zone_letter(index)
        body = environment.get_template(section.template).render({**shared, **view})
        yield {
            "section": section,
            "zone": zone,
            "comments": comments_on(comparison, section.name),
            "html": Markup(body),  # noqa: S704 - rendered with autoescape
        }


def _homes(comparison: Comparison, shown: list[dict[str, Any]]) -> list[str]:
    sections: list[Section] = [entry["section"] for entry in shown]
    return [*(section.name for section in sections), *(pair.subsystem for pair in comparison.pairs)]


def _shared(comparison: Comparison) -> dict[str, Any]:
    """What every template may use."""
    return {
        "comparison": comparison,
        "version": _version(),
        "names": names(comparison),
        "left": names(comparison)[0],
        "right": names(comparison)[1],
        "pair_anchor": lambda pair: anchors.pair_anchor(comparison, pair),
    }


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("archdiff.page", ""),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=lambda value: "" if value is None else value,
    )
    environment.globals |= {
        "words": wording,
        "plain": plain,
        "NOT_KNOWN": NOT_KNOWN,
        "anchors": anchors,
        "css_string": css_string,
        "side_sign": glyphs.side_sign,
        "verdict_sign": glyphs.verdict_sign,
        "coverage_sign": glyphs.coverage_sign,
    }
    return environment


@cache
def _asset(name: str) -> str:
    return resources.files("archdiff.page").joinpath(name).read_text("utf-8")


@cache
def _short(style: str) -> str:
    """The style without comments and needless blanks."""
    bare = re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)
    return re.sub(r"\s*\n\s*", "\n", re.sub(r"\s*([{};,])\s*", r"\1", bare)).strip()


def _version() -> str:
    try:
        return metadata.version("archdiff")
    except metadata.PackageNotFoundError:
        return "from a checkout"


def _without_dead_links(html: str) -> str:
    """Links into the page that lead nowhere become plain text: a link that does nothing is a small lie."""
    known = set(_ID.findall(html))
    return _LINK_INTO_PAGE.sub(lambda found: found[0] if found[1] in known else "", html)
