"""The legend beside the drawings: small samples drawn with the drawings' own strokes, each with what it means."""

from collections.abc import Iterator

from archdiff.page.diagrams.bonds import JOIN
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.markup import number, tag
from archdiff.page.diagrams.paint_tile import ROUND_BOARD, ROUND_EDGE, badge_box, tile_box, tile_classes
from archdiff.page.diagrams.paint_wire import connector
from archdiff.page.diagrams.pills import line_width
from archdiff.page.diagrams.scene import Edge, Face, Mark, Scene, State
from archdiff.page.diagrams.symbols import use_mark

Entry = tuple[str, str]
"""A sample as an SVG element, and what it means."""
_WIDE, _HIGH = 44.0, 22.0
_MIDDLE = _HIGH / 2
_TILE = Rect(3.0, 3.0, 40.0, 18.0)
_HALVES = Rect(3.0, 3.0, 20.0, 18.0), Rect(24.0, 3.0, 41.0, 18.0)
_ONE_SIDED = frozenset({Mark.ONLY, Mark.SEPARATE_ONLY})


def legend(scene: Scene, hatches: tuple[str, str]) -> tuple[Entry, ...]:
    """What the strokes found in the drawings of `scene` mean; `hatches` are the ids of both sides' hatchings."""
    return (*_of_tiles(scene, hatches), *_of_links(scene))


def _of_tiles(scene: Scene, hatches: tuple[str, str]) -> Iterator[Entry]:
    faces = [face for slot in scene.slots() for face in slot.faces if not face.hidden]
    states = {face.state for face in faces} | {board.state for block in scene.blocks for board in block.faces}
    marks = {face.mark for face in faces if not face.ghost}
    if marks - {Mark.ALIKE, Mark.UNKNOWN}:
        yield _halves(Mark.DIFFERENT, hatches), "tinted: differs from the other product"
    if marks & _ONE_SIDED:
        yield _halves(Mark.ONLY, hatches), "hatched end: a thing, or a part of its own, that the other product lacks"
    if states & {State.NOT_THERE, State.EMBEDDED}:
        yield _ghost(State.NOT_THERE), "dashed: known to have none, or no part of its own; its words say which"
    if State.NOT_LOOKED_AT in states:
        yield _ghost(State.NOT_LOOKED_AT), "dotted: not known, as not looked at far enough"
    if any(face.badge for face in faces):
        yield _numbered(), "numbered: placed elsewhere; the dashed place with the same number says on which board"
    if any(face.count > 1 for face in faces):
        yield _svg(_tile(Face("", count=2), _TILE)), "a sheet behind, and ×: several of them"  # noqa: RUF001
    if scene.edge:
        yield _on_outline(), "round, on the outline: met from outside, or borne by no board"


def _of_links(scene: Scene) -> Iterator[Entry]:
    joins = [face for link in scene.links if link.kind == JOIN for face in link.faces if face is not None]
    if len(scene.links) > sum(link.kind == JOIN for link in scene.links):
        yield _tie(), "dotted line: the board that bears it"
    if joins:
        yield _join(), "link between connectors, wider with more ways; its pill names the means"
    if any(face.flexible for face in joins):
        yield _ribbon(), "hollow line: the link is flexible"


def _halves(mark: Mark, hatches: tuple[str, str]) -> str:
    """A tile of each side."""
    face = Face("", mark=mark)
    return _svg(*(_tile(face, box, side=side, hatch=hatches[side]) for side, box in enumerate(_HALVES)))


def _ghost(state: State) -> str:
    if state is not State.NOT_LOOKED_AT:
        return _svg(_tile(Face("", state=state, mark=Mark.ONLY), _TILE))
    mark = use_mark(Mark.UNKNOWN, _TILE.x1 - 15, 4.5)
    return _svg(_tile(Face("", state=state, mark=Mark.UNKNOWN), _TILE, mark))


def _numbered() -> str:
    face, box = Face("", state=State.ELSEWHERE, mark=Mark.ELSEWHERE), Rect(20.0, 2.0, 42.0, 19.0)
    return _svg(_ink(badge_box("1", 9.0, _MIDDLE)), _tile(face, box, badge_box("1", box.cx, _MIDDLE)))


def _on_outline() -> str:
    line = tag("path", class_="enclosure", d=f"M0 {number(_MIDDLE)}H{number(_WIDE)}")
    box, face = Rect(8.0, 3.0, _WIDE - 8.0, _HIGH - 3.0), Face("")
    tile = tag("g", tile_box(face, box, ROUND_EDGE, ""), class_=tile_classes(face, on_edge=True))
    return _svg(_ink(line + tile))


def _tie() -> str:
    end = _WIDE - 6.0
    line = tag("path", class_="net-line", d=f"M4 {number(_MIDDLE)}H{number(end)}")
    dot = tag("circle", class_="net-dot", cx=end, cy=_MIDDLE, r=2)
    return _svg(_ink(tag("g", line, dot, class_="net tie")))


def _join() -> str:
    """Two links, of few and of many ways, between a pair of connectors."""
    lines = [
        tag("path", class_="net-line", d=f"M8 {number(y)}H{number(_WIDE - 8)}", stroke_width=line_width(ways))
        for y, ways in ((6.0, 2), (15.0, 40))
    ]
    ends = [connector(Rect(x - 4.0, 2.0, x + 4.0, _HIGH - 2.0), Edge.LEFT) for x in (5.0, _WIDE - 5.0)]
    nets = tag("g", *lines, class_="net join mark-alike")
    return _svg(_ink(nets + tag("g", *ends, class_="connectors mark-alike")))


def _ribbon() -> str:
    wide, d = line_width(24), f"M3 {number(_MIDDLE)}H{number(_WIDE - 3)}"
    parts = [tag("path", class_=name, d=d, stroke_width=w) for name, w in (("net-line", wide), ("net-core", wide - 2))]
    return _svg(_ink(tag("g", *parts, class_="net join flexible mark-alike")))


def _tile(face: Face, box: Rect, *more: str, side: int = 0, hatch: str = "") -> str:
    inner = tile_box(face, box, ROUND_BOARD, hatch)
    return _ink(tag("g", inner, *more, class_=tile_classes(face, on_edge=False)), side)


def _ink(inner: str, side: int = 0) -> str:
    return tag("g", inner, class_=f"diagram-ink side-{('left', 'right')[side]}")


def _svg(*inner: str) -> str:
    box = f"0 0 {number(_WIDE)} {number(_HIGH)}"
    return tag("svg", *inner, class_="diagram-sample", viewBox=box, aria_hidden="true")
