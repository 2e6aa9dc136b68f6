"""One side's drawing as an SVG element, from the positions both sides share."""

from archdiff.page.diagrams.boards import in_order
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.markup import number, tag, text, title
from archdiff.page.diagrams.paint_board import covered, paint_board
from archdiff.page.diagrams.paint_tile import paint_tile
from archdiff.page.diagrams.paint_wire import paint_connectors, paint_line, paint_pill
from archdiff.page.diagrams.plan import Plan
from archdiff.page.diagrams.scene import Block, Scene
from archdiff.page.diagrams.textwidth import shorten

SIDES = ("left", "right")
_TITLE_SIZE = 14.0
_LEAN = (45, -45)
"""How the hatching leans: ``///`` on the left drawing, ``\\\\\\`` on the right."""


def paint(scene: Scene, made: Plan, side: int, prefix: str) -> str:
    """The drawing of one side (0 left, 1 right); every id begins with `prefix`."""
    name = f"{prefix}-{SIDES[side]}"
    hatch = hatch_id(prefix, side)
    inner = [
        tag("title", text_of(scene.titles[side]), id=f"{name}-title"),
        tag("desc", text_of(_told(scene, side)), id=f"{name}-desc"),
        _defs(hatch, _LEAN[side]),
        _header(scene.titles[side], made, hatch),
        _outline(made.floor.outline),
        *_boards_and_wires(scene, made, side, hatch),
    ]
    return tag(
        "svg", *inner, xmlns="http://www.w3.org/2000/svg", class_=f"archdiff-diagram diagram-ink side-{SIDES[side]}",
        viewBox=f"0 0 {number(made.width)} {number(made.height)}", width=made.width, height=made.height,
        role="group", aria_labelledby=f"{name}-title", aria_describedby=f"{name}-desc",
    )  # fmt: skip


def hatch_id(prefix: str, side: int) -> str:
    """The id of one side's hatching."""
    return f"{prefix}-{SIDES[side]}-hatch"


def text_of(words: str) -> str:
    """Escaped text without an element round it."""
    return title(words).removeprefix("<title>").removesuffix("</title>")


def _told(scene: Scene, side: int) -> str:
    boards = sum(not block.faces[side].ghost for block in scene.blocks)
    tiles = sum(not slot.faces[side].ghost and not slot.faces[side].hidden for slot in scene.slots())
    links = sum(link.faces[side] is not None for link in scene.links)
    other = scene.titles[1 - side]
    return (
        f"Block diagram: boards drawn {boards}, tiles drawn {tiles}, links drawn {links}. "
        f"What matches stands at the same place as in the diagram of {other}; dashed outlines keep the place of what "
        f"is drawn only there."
    )


def _defs(hatch: str, lean: int) -> str:
    line = tag("path", class_="hatch-line", d="M1.5 0V3", stroke_width=1.3)
    pattern = tag(
        "pattern", tag("rect", class_="hatch-ground", width=3, height=3), line,
        id=hatch, width=3, height=3, patternUnits="userSpaceOnUse", patternTransform=f"rotate({lean})",
    )  # fmt: skip
    return tag("defs", pattern)


def _header(words: str, made: Plan, hatch: str) -> str:
    left = made.floor.outline.x0
    swatch = tag("rect", class_="swatch", x=left, y=6, width=22, height=12, rx=2, fill=f"url(#{hatch})")
    room = made.width - left - 36
    shown = shorten(words, _TITLE_SIZE, room, bold=True)
    return tag("g", swatch, text(shown, class_="product", x=left + 30, y=17), aria_hidden="true")


def _outline(box: Rect) -> str:
    return tag("rect", class_="enclosure", x=box.x0, y=box.y0, width=box.width, height=box.height, rx=14)


def _boards_and_wires(scene: Scene, made: Plan, side: int, hatch: str) -> list[str]:
    shown = [(strand, strand.wire.link.faces[side]) for strand in made.strands]
    drawn = [(strand, face) for strand, face in shown if face is not None]
    parts = [paint_line(strand, face) for strand, face in sorted(drawn, key=lambda each: each[0].wire.join)]
    for block in scene.blocks:
        parts += _board(block, made, side, hatch)
    parts += [paint_connectors(strand, face) for strand, face in drawn]
    for item in scene.edge:
        box = made.floor.items[item.slot.key]
        parts.append(paint_tile(item.slot, item.slot.faces[side], box, on_edge=True, hatch=hatch))
    parts += [paint_pill(strand, face, side) for strand, face in drawn]
    return parts


def _board(block: Block, made: Plan, side: int, hatch: str) -> list[str]:
    board = block.faces[side]
    slots = in_order(block)
    faces = tuple(slot.faces[side] for slot in slots)
    box, shape = made.floor.boards[block.key], made.floor.shapes[block.key]
    parts = [paint_board(block, board, faces, box, shape)]
    for slot, face in zip(slots, faces, strict=True):
        if not covered(face, board):
            parts.append(paint_tile(slot, face, made.floor.tiles[slot.key], on_edge=False, hatch=hatch))
    return parts
