"""Boards with their headings, and the dashed outline of a board that one side lacks."""

from archdiff.page.diagrams.boards import HEAD_ONE, HEAD_SIZE, NOTE_SIZE, PAD, Shape, head_room
from archdiff.page.diagrams.geometry import Rect
from archdiff.page.diagrams.markup import named, tag, text
from archdiff.page.diagrams.scene import Block, BoardFace, Face, Mark, State
from archdiff.page.diagrams.symbols import use_mark
from archdiff.page.diagrams.textwidth import shorten, width, wrap
from archdiff.page.diagrams.wording import board_label

_ROUND = 5.0
_FIRST = 20.0
_SECOND = 33.0
_PHRASE_SIZE, _PHRASE_STEP = 11.0, 14.0


def covered(face: Face, board: BoardFace) -> bool:
    """Whether a ghost board already says all that the ghost on it would: both share one state."""
    return face.hidden or (board.ghost and face.state is board.state)


def paint_board(block: Block, face: BoardFace, faces: tuple[Face, ...], box: Rect, shape: Shape) -> str:
    """The outline and heading of a board as one side has it; `faces` are what its slots show on that side."""
    bare = face.ghost and all(covered(each, face) for each in faces)
    parts = [
        tag("rect", class_="board-box", x=box.x0, y=box.y0, width=box.width, height=box.height, rx=_ROUND),
        *(_phrase(face, box) if bare else _heading(face, box, shape)),
    ]
    names = ["board", f"mark-{face.mark.value}", *(["ghost", face.state.value] if face.ghost else [])]
    return named(board_label(face), face.href, *parts, class_=" ".join(names), data_key=block.key)


def _phrase(face: BoardFace, box: Rect) -> list[str]:
    """A ghost's phrase in the middle of its outline."""
    lines, _ = wrap(face.title, _PHRASE_SIZE, (box.width - 2 * PAD,) * 3)
    y = box.cy + 4 - _PHRASE_STEP * (len(lines) - 1) / 2
    return [
        text(line, class_="board-phrase middle", x=box.cx, y=y + _PHRASE_STEP * i) for i, line in enumerate(lines)
    ] + _glyph(face, box)


def _heading(face: BoardFace, box: Rect, shape: Shape) -> list[str]:
    room = head_room(box.width)
    name = "board-phrase" if face.ghost else "board-title"
    most = 1 if face.detail or shape.head == HEAD_ONE else 2
    lines, _ = wrap(face.title, HEAD_SIZE, (room,) * most, bold=True)
    parts = [
        text(line, class_=name, x=box.x0 + PAD, y=box.y0 + y) for line, y in zip(lines, (_FIRST, _SECOND), strict=False)
    ]
    if face.detail:
        parts.append(_note(face, box, shape, room, width(lines[0], HEAD_SIZE, bold=True) if lines else 0.0))
    return parts + _glyph(face, box)


def _note(face: BoardFace, box: Rect, shape: Shape, room: float, used: float) -> str:
    beside = shape.head == HEAD_ONE
    x = box.x0 + PAD + (used + 8 if beside else 0)
    said = shorten(face.detail, NOTE_SIZE, room - (used + 8 if beside else 0))
    return text(said, class_="board-detail", x=x, y=box.y0 + (_FIRST if beside else _SECOND))


def _glyph(face: BoardFace, box: Rect) -> list[str]:
    if face.ghost and face.mark is not Mark.UNKNOWN and face.state is not State.NOT_LOOKED_AT:
        return []
    if face.mark is Mark.ALIKE:  # boards that correspond need not be alike: nothing compared them
        return []
    mark = Mark.UNKNOWN if face.state is State.NOT_LOOKED_AT else face.mark
    return [use_mark(mark, box.x1 - PAD - 12, box.y0 + 9.5)]
