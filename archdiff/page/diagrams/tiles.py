"""The words of a tile, broken to a width, and the height they need."""

from dataclasses import dataclass
from functools import lru_cache

from archdiff.page.diagrams.geometry import up
from archdiff.page.diagrams.scene import Face, Mark, Slot, State
from archdiff.page.diagrams.textwidth import width, wrap

TITLE_SIZE = 11.0
DETAIL_SIZE = 9.5
TITLE_STEP = 13.0
DETAIL_STEP = 11.5
TEXT_X = 24.0
"""Where the words of a tile begin, behind its icon."""
DETAIL_X = 9.0
"""Where the detail begins, below the icon."""
BADGE_X = 7.0
"""Where the badge of a ghost begins."""
PAD_RIGHT = 7.0
GLYPH_ROOM = 16.0
"""What the verdict glyph takes off the first line."""
BADGE_SIZE = 9.5
NARROWEST, WIDEST = 96.0, 176.0
"""Bounds of a tile's width in px."""
LOWEST = 34.0
_MOST_LINES = 5
_FIRST_BASELINE = 15.0
_BELOW = 7.5


@dataclass(frozen=True, slots=True)
class Words:
    """The broken lines of a face.

    `whole` tells whether every word is on the tile; `icon` whether the icon is, for it gives way to a long word and
    is never on a ghost.
    """

    title: tuple[str, ...]
    detail: tuple[str, ...]
    whole: bool
    icon: bool = True
    title_x: float = TEXT_X

    @property
    def height(self) -> float:
        """Height of a tile that holds the lines, in px."""
        lines = _FIRST_BASELINE + TITLE_STEP * (len(self.title) - 1) + DETAIL_STEP * len(self.detail)
        return max(LOWEST, lines + _BELOW)


def glyph_shown(face: Face) -> bool:
    """Whether the verdict stands on the face: on everything drawn, and on ghosts only where nothing is known."""
    return not face.ghost or face.mark is Mark.UNKNOWN or face.state is State.NOT_LOOKED_AT


def badge_width(badge: str) -> float:
    """Width of the box round a badge, in px."""
    return max(13.0, width(badge, BADGE_SIZE, bold=True) + 6.0)


def lead(face: Face) -> float:
    """Where the words of a face begin: behind its icon; a ghost has none, but its badge may stand there."""
    if not face.ghost:
        return TEXT_X
    return max(TEXT_X, BADGE_X + badge_width(face.badge) + 4.0) if face.badge else DETAIL_X


def first_room(face: Face, tile_width: float) -> float:
    """Room for the first line, beside glyph and badge."""
    badge = badge_width(face.badge) + 4.0 if face.badge and not face.ghost else 0.0
    taken = GLYPH_ROOM * glyph_shown(face) + badge
    return tile_width - lead(face) - PAD_RIGHT - taken


@lru_cache(maxsize=65536)
def words(face: Face, tile_width: float) -> Words:
    """The face's words broken to a tile of `tile_width` px: at most four lines of title and five of detail.

    A ghost's phrase is set in detail size over up to five lines.
    """
    if face.hidden:
        return Words((), (), whole=True)
    first, below = first_room(face, tile_width), tile_width - DETAIL_X - PAD_RIGHT
    rest = tile_width - lead(face) - PAD_RIGHT
    if face.ghost:
        return _ghost_words(face, first, rest)
    icon = longest_word(face) <= first
    if not icon:
        first, rest = first + TEXT_X - DETAIL_X, below
    title, whole_title = wrap(face.heading, TITLE_SIZE, (first, rest, rest, rest), bold=True)
    detail, whole_detail = wrap(face.detail, DETAIL_SIZE, (below,) * _MOST_LINES) if face.detail else ((), True)
    return Words(title, detail, whole_title and whole_detail, icon, TEXT_X if icon else DETAIL_X)


@lru_cache(maxsize=16384)
def longest_word(face: Face) -> float:
    """Width in px of the longest word of the title of a drawn face."""
    return max((width(word, TITLE_SIZE, bold=True) for word in face.heading.split()), default=0.0)


def _ghost_words(face: Face, first: float, rest: float) -> Words:
    lines, whole = wrap(face.heading, DETAIL_SIZE, (first, *(rest,) * (_MOST_LINES - 1)))
    spare = _MOST_LINES - len(lines)
    detail, whole_detail = wrap(face.detail, DETAIL_SIZE, (rest,) * spare) if face.detail and spare else ((), True)
    return Words(lines, detail, whole and whole_detail, icon=False, title_x=lead(face))


def slot_height(slot: Slot, tile_width: float) -> float:
    """Height in px that serves both sides of the slot at the given tile width."""
    return max(words(face, tile_width).height for face in slot.faces)


@lru_cache(maxsize=16384)
def natural_width(face: Face) -> float:
    """Width at which title and detail each stand on one line."""
    if face.hidden:
        return NARROWEST
    size, bold = (DETAIL_SIZE, False) if face.ghost else (TITLE_SIZE, True)
    title = width(face.heading, size, bold=bold) - first_room(face, 0.0)
    return max(title, width(face.detail, DETAIL_SIZE) + (lead(face) if face.ghost else DETAIL_X) + PAD_RIGHT)


def word_width(face: Face) -> float:
    """Width in px of a tile on whose first line the longest word of the title stands unbroken beside all else."""
    return longest_word(face) - first_room(face, 0.0)


def easy_width(slots: tuple[Slot, ...], low: float = NARROWEST, high: float = WIDEST) -> float:
    """A width, a multiple of the pitch in `low..high`, at which nine in ten of the faces keep all their words."""
    faces = [face for slot in slots for face in slot.faces if not face.hidden]
    size = low
    while size < high and sum(not words(face, size).whole for face in faces) * 10 > len(faces):
        size += 8.0
    return up(size)
