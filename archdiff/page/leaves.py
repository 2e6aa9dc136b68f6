"""The drawings as files of their own: stand-alone SVG, and DOT text of what is a graph."""

from __future__ import annotations

import re
from importlib import resources
from typing import TYPE_CHECKING

from archdiff.page.diagrams.blocks import draw
from archdiff.page.diagrams.scene_from_comparison import scene_of
from archdiff.page.diagrams.symbols import with_symbols
from archdiff.page.graphs import STYLE, signal_map, supply_tree
from archdiff.page.text import clean

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.comparison import Comparison

_GRAPHS = {"supply": supply_tree, "signals": signal_map}
_LINK = re.compile(r"<a\b[^>]*>(<title>)?")
_SIZE = re.compile(r' style="max-width:\d+px"\s+viewBox="([-\d.]+ [-\d.]+) ([\d.]+) ([\d.]+)"')
# Of the page's ink only what a drawing that stands alone needs; light paper, as it may be printed or pasted anywhere.
_ALONE = "svg{background:var(--paper);color:var(--ink)}"
_GRAPH_STYLE = "svg{background:#fff;color:#000}" + STYLE
_AS_LARGE = r' viewBox="\1 \2 \3" width="\2pt" height="\3pt"'


def leaves(comparison: Comparison) -> Mapping[str, str]:
    """File name to text: 'blocks-left.svg', 'supply-right.dot' ...; only what there is something to draw of."""
    return dict(_leaves(comparison))


def _leaves(comparison: Comparison) -> Iterator[tuple[str, str]]:
    scene = scene_of(comparison)
    if scene.blocks or scene.edge:
        drawing = draw(scene, prefix="blocks")
        for side, picture in (("left", drawing.left), ("right", drawing.right)):
            yield f"blocks-{side}.svg", _alone(with_symbols(picture), _style())
    for name, make in _GRAPHS.items():
        for side, record in (("left", comparison.left), ("right", comparison.right)):
            graph = make(record, f"{name}-{side}-")
            if graph is not None:
                yield f"{name}-{side}.dot", f"// archdiff: {clean(graph.title)}\n{graph.dot}"
            if graph is not None and graph.svg:
                yield f"{name}-{side}.svg", _alone(_SIZE.sub(_AS_LARGE, graph.svg), _GRAPH_STYLE)


def _alone(svg: str, style: str) -> str:
    """The picture as a document: its own style, and no links, as what they lead to is in the page."""
    still = _LINK.sub(lambda found: '<g role="img"><title>' if found[1] else "<g>", svg)
    still = still.replace("</a>", "</g>")
    at = still.index(">") + 1
    head = '<?xml version="1.0" encoding="UTF-8"?>\n<!-- archdiff -->\n'
    return clean(f"{head}{still[:at]}<style>{style}</style>{still[at:]}\n")


def _style() -> str:
    text = resources.files("archdiff.page").joinpath("diagrams/diagram.css").read_text("utf-8")
    light = re.sub(r"@media \(prefers-color-scheme: dark\) \{.*?\n\}\n", "", text, flags=re.DOTALL)
    return re.sub(r"\s*\n\s*", "", re.sub(r"/\*.*?\*/", "", light, flags=re.DOTALL)) + _ALONE
