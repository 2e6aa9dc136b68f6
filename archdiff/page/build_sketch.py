"""A sketch of each build for the first screen: its boards to one scale, and the ways that join them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from archdiff.page import build_column, build_rows
from archdiff.page.build_shapes import LINE, SIZE, WIDTH, Sketch, links_of, shapes_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from archdiff.page.build_shapes import Label, Link, Shape, Way
    from archdiff.page.diagrams.geometry import Rect
    from archdiff.record import Record

    Layout = Callable[[Sequence[Shape], Sequence[Link], float], Sketch]


def sketches(left: Record, right: Record) -> tuple[Markup, Markup]:
    """Both builds at one scale and laid out alike, as SVG; '' for a product without boards."""
    records = (left, right)
    laid = _laid(records, build_rows.scale_of, build_rows.in_rows)
    if not all(build_rows.is_clear(sketch) for sketch in laid if sketch is not None):
        laid = _laid(records, build_column.scale_of, build_column.in_a_column)
    made = [
        "" if sketch is None else _drawn(record, sketch, side)
        for record, sketch, side in zip(records, laid, ("left", "right"), strict=True)
    ]
    return Markup(made[0]), Markup(made[1])  # noqa: S704 - record text is escaped


def _laid(
    records: Sequence[Record], scale_of: Callable[[Sequence[Shape]], float], layout: Layout
) -> list[Sketch | None]:
    shapes = [shapes_of(record) for record in records]
    scale = min((scale_of(side) for side in shapes if side), default=1.0)
    return [
        layout(side, links_of(record), scale) if side else None for record, side in zip(records, shapes, strict=True)
    ]


def _drawn(record: Record, sketch: Sketch, side: str) -> str:
    labels = {shape.board.id: shape.board.label for shape, _ in sketch.boards}
    # Lines first, so that they end at the boards' edges.
    parts = [*(_way(way, labels) for way in sketch.ways), *(_board(*board, side) for board in sketch.boards)]
    parts += [*(_label(label) for label in sketch.labels), *(_number(way) for way in sketch.ways)]
    said = ", ".join(
        f"{shape.name} {shape.board.text('outline') or 'of a size not recorded'}" for shape, _ in sketch.boards
    )
    return (
        f'<svg class="build {side}" role="img" aria-label="{escape(f"{record.name}: {said}")}" '
        f'viewBox="0 0 {WIDTH:g} {sketch.height:g}" width="{WIDTH:g}" height="{sketch.height:g}">{"".join(parts)}</svg>'
    )


def _way(way: Way, labels: dict[str, str]) -> str:
    d = "L".join(f"{x:.1f} {y:.1f}" for x, y in way.points)
    many = "not all ways recorded" if way.link.words == "?" else f"{way.link.words} ways"
    tip = f"{' and '.join(labels[name] for name in way.link.ends)}: {many}"
    return f'<path class="build-link" d="M{d}" stroke-width="{way.wide:.1f}"><title>{escape(tip)}</title></path>'


def _number(way: Way) -> str:
    if way.number is None:
        return ""
    x, y = way.number
    return f'<text class="build-ways" x="{x:.1f}" y="{y + SIZE * 0.36:.1f}">{way.link.words}</text>'


def _board(shape: Shape, box: Rect, side: str) -> str:
    kind = f"build-board {side}{'' if shape.is_known else ' not-known'}"
    if shape.is_round:
        return f'<circle class="{kind}" cx="{box.cx:.1f}" cy="{box.cy:.1f}" r="{box.width / 2:.1f}"/>'
    edges = f'x="{box.x0:.1f}" y="{box.y0:.1f}" width="{box.width:.1f}" height="{box.height:.1f}"'
    return f'<rect class="{kind}" {edges}/>'


def _label(label: Label) -> str:
    return (
        f'<text class="build-name" x="{label.x:.1f}" y="{label.foot:.1f}">{escape(label.name)}</text>'
        f'<text class="build-size" x="{label.x:.1f}" y="{label.foot + LINE:.1f}">{escape(label.size)}</text>'
    )
