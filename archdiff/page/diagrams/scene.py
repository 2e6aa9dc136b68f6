"""What a pair of aligned block diagrams shows, before any position is chosen.

A scene speaks of both sides at once: every slot, board and link carries the face it shows on the left and the one it
shows on the right.  Nothing here knows of records, seats or the page.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

_UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff\ud800-\udfff]+")


class State(StrEnum):
    """How a slot shows on one side; all but `DRAWN` are dashed ghosts."""

    DRAWN = "drawn"
    NOT_THERE = "not-there"
    NOT_LOOKED_AT = "not-looked-at"
    ELSEWHERE = "elsewhere"
    EMBEDDED = "embedded"


class Mark(StrEnum):
    """The verdict of the pair that a face belongs to."""

    ALIKE = "alike"
    DIFFERENT = "different"
    ELSEWHERE = "elsewhere"
    BOTH = "both"
    ONLY = "only"
    SEPARATE_ONLY = "separate-only"
    UNKNOWN = "unknown"


class Edge(StrEnum):
    """The side of the enclosure outline on which an item stands."""

    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"


def clean(text: str) -> str:
    """`text` without control, direction and lone surrogate signs, runs of blanks made one."""
    return " ".join(_UNPRINTABLE.sub(" ", text).split())


def _clean_fields(thing: object, *names: str) -> None:
    for name in names:
        object.__setattr__(thing, name, clean(getattr(thing, name)))


@dataclass(frozen=True, slots=True)
class Face:
    """What a slot shows on one side.

    `title` names the function; a ghost's title is its whole phrase ("no buzzer", "reset: not known").  `badge` is
    the short number shared by all faces of a seat that stands on different boards.  `shape` is the vocabulary's
    drawn-as word.  `count` is how many alike things the tile stands for.  A `hidden` face leaves its place empty.
    `several` is what is said where the face stands for several functions, "{}" being these ("{}: not known");
    a face without it is never collected with those of other functions.
    """

    title: str
    detail: str = ""
    state: State = State.DRAWN
    mark: Mark = Mark.ALIKE
    badge: str = ""
    href: str = ""
    tip: str = ""
    count: int = 1
    shape: str = "other"
    hidden: bool = False
    several: str = ""

    def __post_init__(self) -> None:
        """Strip what can not be printed, once and for all."""
        _clean_fields(self, "title", "detail", "badge", "href", "tip", "several")

    @property
    def heading(self) -> str:
        """The title with its count, as it is written on the tile."""
        return f"{self.title} × {self.count}" if self.count > 1 else self.title  # noqa: RUF001

    @property
    def ghost(self) -> bool:
        """Whether the face is a dashed outline."""
        return self.state is not State.DRAWN


@dataclass(frozen=True, slots=True)
class Slot:
    """One place of the union of both products; `rank` orders the slots of a board by function.

    The slots of one seat that stands on different boards have keys of their own and share `seat`.  `family` names the
    kind of function ("power") under which slots of a crowded scene are collected, `family_href` what is said of it.
    """

    key: str
    left: Face
    right: Face
    rank: tuple[int, ...] = ()
    seat: str = ""
    family: str = ""
    family_href: str = ""

    def __post_init__(self) -> None:
        """Strip what can not be printed, once and for all."""
        _clean_fields(self, "family", "family_href")

    @property
    def faces(self) -> tuple[Face, Face]:
        """The left and the right face."""
        return self.left, self.right


@dataclass(frozen=True, slots=True)
class BoardFace:
    """What a board shows on one side; a ghost's title is its whole phrase ("no front board")."""

    title: str
    detail: str = ""
    state: State = State.DRAWN
    mark: Mark = Mark.ALIKE
    href: str = ""

    def __post_init__(self) -> None:
        """Strip what can not be printed, once and for all."""
        _clean_fields(self, "title", "detail", "href")

    @property
    def ghost(self) -> bool:
        """Whether the board is a dashed outline."""
        return self.state is not State.DRAWN


@dataclass(frozen=True, slots=True)
class Block:
    """A pair of boards, or a board of one side only, with the slots that stand on it."""

    key: str
    left: BoardFace
    right: BoardFace
    slots: tuple[Slot, ...] = ()

    @property
    def faces(self) -> tuple[BoardFace, BoardFace]:
        """The left and the right face."""
        return self.left, self.right


@dataclass(frozen=True, slots=True)
class EdgeItem:
    """A slot that stands on the enclosure outline."""

    slot: Slot
    edge: Edge


@dataclass(frozen=True, slots=True)
class LinkFace:
    """A link as one side has it; `ways` is the number of conductors, None when not known."""

    label: str
    ways: int | None = None
    flexible: bool = False
    mark: Mark = Mark.ALIKE
    href: str = ""
    tip: str = ""

    def __post_init__(self) -> None:
        """Strip what can not be printed, once and for all."""
        _clean_fields(self, "label", "href", "tip")


@dataclass(frozen=True, slots=True)
class Link:
    """A link between two block keys, or between an edge item's slot key and a block key.

    `kind` is "join" (board to board, with connectors and a pill) or "tie" (a thin dotted line).
    """

    key: str
    ends: tuple[str, str]
    left: LinkFace | None
    right: LinkFace | None
    kind: str = "join"

    @property
    def faces(self) -> tuple[LinkFace | None, LinkFace | None]:
        """The left and the right face; None where that side has no such link."""
        return self.left, self.right


@dataclass(frozen=True, slots=True)
class Scene:
    """Both products, ready to be drawn at the same places.

    Raises ValueError when two things share a key or a link ends at nothing, for then no place could be found for it.
    """

    title_left: str
    title_right: str
    blocks: tuple[Block, ...] = ()
    edge: tuple[EdgeItem, ...] = ()
    links: tuple[Link, ...] = ()

    def __post_init__(self) -> None:
        """Strip the titles and hold the keys together."""
        _clean_fields(self, "title_left", "title_right")
        ends = [block.key for block in self.blocks] + [item.slot.key for item in self.edge]
        _refuse_twins("block or edge item", ends)
        _refuse_twins("slot", [slot.key for slot in self.slots()])
        _refuse_twins("link", [link.key for link in self.links])
        known = set(ends)
        for link in self.links:
            for end in link.ends:
                if end not in known:
                    raise ValueError(f"link {link.key!r} ends at {end!r}, which is neither a block nor an edge item")

    @property
    def titles(self) -> tuple[str, str]:
        """The left and the right title."""
        return self.title_left, self.title_right

    def slots(self) -> Iterator[Slot]:
        """Every slot, those on boards first, then those on the enclosure outline."""
        for block in self.blocks:
            yield from block.slots
        for item in self.edge:
            yield item.slot


def _refuse_twins(what: str, keys: list[str]) -> None:
    seen: set[str] = set()
    for key in keys:
        if key in seen:
            raise ValueError(f"two things of the scene share the {what} key {key!r}")
        seen.add(key)
