"""Pictures of what is a graph and not a floor plan: who supplies whom, who talks to whom.

Graphviz draws them. Its `dot` comes from a pinned wheel; where that cannot run, from the system; where there is
none either, the graph's table stands alone with a plain note. Nothing from a record reaches Graphviz but as an
escaped label.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import sysconfig
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.record import Element, Record

_PROBE = "digraph { n1 -> n2 }"
_SECONDS = 20
STYLE = (
    ".graph{fill:none;stroke:currentColor;stroke-width:.8}.graph .edge polygon{fill:currentColor}"
    ".graph text{fill:currentColor;stroke:none;text-anchor:middle;font:10px Arial,'Liberation Sans',Arimo,sans-serif}"
    ".graph .edge text{font-size:9px}"
)
"""What all these pictures share; the page's own style says the same, a picture that stands alone brings it along."""
# In the order in which they are taken out; the filled head of an arrow is drawn so by STYLE.
_USUAL = (
    ' fill="none"', ' fill="currentColor"', ' stroke="currentColor"', ' stroke-width="0.8"',
    ' text-anchor="middle"', ' font-family="Arial"', ' font-size="10.00"', ' font-size="9.00"',
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Arrow:
    """From one thing to another, with what goes along it."""

    source: str
    target: str
    label: str = ""


@dataclass(frozen=True, slots=True)
class Graph:
    """A drawn graph: its DOT text, its picture ('' where no `dot` runs), and its arrows with readable ends."""

    title: str
    dot: str
    svg: str
    arrows: tuple[Arrow, ...]


def supply_tree(record: Record, prefix: str) -> Graph | None:
    """Entry and storage to rails to what they feed; None where the record states no supply."""
    return _graph(f"Supply of {record.name}", record, dict.fromkeys(_supplies(record)), prefix, "LR")


def signal_map(record: Record, prefix: str) -> Graph | None:
    """Who exchanges signals with whom, as far as the record states it; None where it states nothing."""
    pairs = {
        frozenset((element.id, other)): Arrow(element.id, other)
        for element in record.elements.values()
        for other in element.texts("joined_to")
        if other in record.elements and other != element.id
    }
    return _graph(f"Who talks to whom in {record.name}", record, pairs.values(), prefix, "LR", directed=False)


def _supplies(record: Record) -> Iterable[Arrow]:
    for rail in record.section("power.rails"):
        source, maker = rail.text("from"), rail.text("made_by")
        if source in record.elements:
            via = f"through {record.elements[maker].label}" if maker in record.elements else ""
            yield Arrow(source, rail.id, via)
        for load in rail.texts("feeds"):
            if load in record.elements:
                yield Arrow(rail.id, load)
    for element in record.elements.values():
        feeder = element.text("fed_by")
        if feeder in record.elements:
            yield Arrow(feeder, element.id)


def _graph(
    title: str, record: Record, arrows: Iterable[Arrow], prefix: str, direction: str, *, directed: bool = True
) -> Graph | None:
    listed = sorted(dict.fromkeys(arrows), key=lambda arrow: (arrow.source, arrow.target))
    if not listed:
        return None
    dot = _dot(record, listed, direction, directed=directed)
    readable = tuple(Arrow(_name(record, a.source), _name(record, a.target), a.label) for a in listed)
    return Graph(title, dot, _for_page(_render(dot), prefix, title), readable)


def _dot(record: Record, arrows: list[Arrow], direction: str, *, directed: bool) -> str:
    import graphviz

    graph = (graphviz.Digraph if directed else graphviz.Graph)()
    graph.attr("graph", rankdir=direction, bgcolor="transparent", nodesep="0.12", ranksep="0.45", margin="0.02")
    graph.attr("node", shape="box", fontname="Arial", fontsize="10", height="0.3", margin="0.09,0.04", penwidth="0.8")
    graph.attr("edge", fontname="Arial", fontsize="9", arrowsize="0.5", penwidth="0.8")
    names = dict.fromkeys(end for arrow in arrows for end in (arrow.source, arrow.target))
    node_of = {name: f"n{index}" for index, name in enumerate(names, 1)}
    for name, node in node_of.items():
        style = "bold" if record.elements[name].section.startswith("power.") else "solid"
        graph.node(node, _label(_name(record, name, detail=True)), style=style)
    for arrow in arrows:
        graph.edge(node_of[arrow.source], node_of[arrow.target], _label(arrow.label) if arrow.label else None)
    return str(graph.source)


def _name(record: Record, name: str, *, detail: bool = False) -> str:
    element: Element = record.elements[name]
    known = [element.text("voltage"), element.text("current")] if element.section.startswith("power.") else []
    more = ", ".join(fact for fact in known if fact)
    called = element.label if element.label != element.id or not element.function else element.function
    return f"{called}\n{more}" if detail and more else called


def _label(text: str) -> str:
    """Record text as an inert DOT label, never HTML-like: backslashes doubled, no control characters."""
    from graphviz import nohtml

    lines = [re.sub(r"[\x00-\x1f\x7f]", " ", line).replace("\\", "\\\\") for line in text.splitlines()]
    inert: str = nohtml("\\n".join(line.replace("&", "&amp;") for line in lines))
    return inert


@cache
def dot_program() -> str | None:
    """The `dot` program to use: that of the pinned wheel, else the system's; None where neither draws."""
    beside = [Path(sys.executable).parent, Path(sysconfig.get_path("scripts"))]
    candidates = [shutil.which("graphviz-pure", path=str(folder)) for folder in beside]
    return next(
        (c for c in (*candidates, shutil.which("graphviz-pure"), shutil.which("dot")) if c and _draws(c)),
        None,
    )


def _draws(program: str) -> bool:
    return "</svg>" in _run(program, _PROBE)


def _run(program: str, dot: str) -> str:
    try:
        done = subprocess.run(  # noqa: S603 - our own program, text on standard input
            [program, "-Kdot", "-Tsvg"],
            input=dot,
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=_SECONDS,
            check=True,
        )
    except (OSError, subprocess.SubprocessError):
        return ""
    return done.stdout


def _render(dot: str) -> str:
    program = dot_program()
    return _run(program, dot) if program else ""


def _for_page(svg: str, prefix: str, title: str) -> str:
    """The picture as it can stand in a page beside others: own ids, the page's ink, a name, no header."""
    if not svg:
        return ""
    body = re.sub(r"<!--.*?-->", "", svg[svg.index("<svg") :], flags=re.DOTALL)
    body = re.sub(r"<title>.*?</title>", "", body, flags=re.DOTALL)
    body = re.sub(r'\bid="', f'id="{prefix}', body)
    body = re.sub(r' (?:xml:space|xmlns:xlink)="[^"]*"', "", body)
    body = re.sub(r'\b(stroke|fill)="(?:black|#000000)"', r'\1="currentColor"', body)
    body = _slim(body)
    width = re.search(r'<svg width="(\d+)pt" height="\d+pt"', body)
    limit = f' style="max-width:{round(int(width[1]) * 4 / 3)}px"' if width else ""
    named = f'<svg class="graph" role="img" aria-label="{_attribute(title)}"{limit}'
    return re.sub(r'<svg width="\d+pt" height="\d+pt"', lambda _: named, body, count=1).strip()


def _slim(svg: str) -> str:
    """The same picture in fewer letters: what the style of all graphs says anyway is left out, tenths are enough."""
    for usual in _USUAL:
        svg = svg.replace(usual, "")
    numbers = re.compile(r"(-?\d+\.\d)\d+")
    svg = re.sub(r' (?:d|points|x|y)="[^"]*"', lambda found: numbers.sub(r"\1", found[0]), svg)
    return re.sub(r"\s*\n\s*", "\n", svg)


def _attribute(text: str) -> str:
    return text.replace("&", "&amp;").replace('"', "&quot;").replace("<", "&lt;")
