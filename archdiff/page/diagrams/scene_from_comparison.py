"""From a comparison to the scene of its block diagrams.

Boards that correspond share a block, seats that are paired share a slot. What the user meets from outside (power
entry, controls, antennas, movers, vents) stands on the enclosure outline and is tied to the board that carries it.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from archdiff.alignment import Agreement, Verdict
from archdiff.page.anchors import element_anchor, pair_anchor, subsystem_anchor
from archdiff.page.diagrams import scene_words as words
from archdiff.page.diagrams.scene import (
    Block,
    BoardFace,
    Edge,
    EdgeItem,
    Face,
    Link,
    LinkFace,
    Mark,
    Scene,
    Slot,
    State,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import HostPair, Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.record import Record

MARKS = {
    Verdict.ALIKE: Mark.ALIKE,
    Verdict.DIFFERENT: Mark.DIFFERENT,
    Verdict.ELSEWHERE: Mark.ELSEWHERE,
    Verdict.BOTH: Mark.BOTH,
    Verdict.ONLY_LEFT: Mark.ONLY,
    Verdict.ONLY_RIGHT: Mark.ONLY,
    Verdict.SEPARATE_LEFT: Mark.SEPARATE_ONLY,
    Verdict.SEPARATE_RIGHT: Mark.SEPARATE_ONLY,
    Verdict.UNKNOWN: Mark.UNKNOWN,
}
# Where on the outline things stand that are met from outside, by section; None stands on its board.
_EDGES = {
    "power.entry": Edge.LEFT,
    "power.storage": Edge.LEFT,
    "controls": Edge.RIGHT,
    "antennas": Edge.TOP,
    "actuators": Edge.BOTTOM,
    "enclosure": Edge.BOTTOM,
}
_JOINS = "interconnects"
# What only holds, covers or closes is told in the tables; among the tiles it would hide what works.
_NOT_DRAWN = ("structure", "opening")


def scene_of(comparison: Comparison) -> Scene:
    """The scene: every board, every interconnect between boards, every seat that is a thing of its own and works.

    A function that lives inside another part on every side that has it is told by that part's tile.
    """
    return _Scenery(comparison).scene()


class _Scenery:
    def __init__(self, comparison: Comparison) -> None:
        self.left, self.right = comparison.left, comparison.right
        self.pairs = list(enumerate(comparison.pairs, 1))
        self.hosts = [host for host in comparison.alignment.hosts if host.is_board]
        self.block_of = {
            (side, name): f"b{index}"
            for index, host in enumerate(self.hosts)
            for side, name in (("left", host.left), ("right", host.right))
            if name is not None
        }
        subsystems = list(comparison.left.vocabulary.subsystems)
        self.rank = {name: place for place, name in enumerate(subsystems)}
        self.slots: dict[str, list[Slot]] = {}
        self.edge: list[EdgeItem] = []
        self.links: list[Link] = []
        self.badges = 0
        self.inside = words.inside(comparison)
        self.anchors = {index: pair_anchor(comparison, pair) for index, pair in self.pairs}

    def scene(self) -> Scene:
        for index, pair in self.pairs:
            if any(seat.section == _JOINS for seat in pair.seats):
                self.links += self.joins(index, pair)
            elif pair.subsystem not in _NOT_DRAWN and not all(seat.embedded_in for seat in pair.seats):
                self.place(index, pair)
        blocks = tuple(self.block(f"b{i}", host) for i, host in enumerate(self.hosts))
        return Scene(self.left.name, self.right.name, blocks, tuple(self.edge), tuple(self.links))

    # boards

    def block(self, key: str, host: HostPair) -> Block:
        faces = [self.board_face(self.left, host.left, host), self.board_face(self.right, host.right, host)]
        return Block(key, faces[0], faces[1], tuple(self.slots.get(key, ())))

    def board_face(self, record: Record, name: str | None, host: HostPair) -> BoardFace:
        if name is not None:
            board = record.elements[name]
            alone = host.left is None or host.right is None
            mark = Mark.ALIKE if not alone else words.lone_mark(host.silent)
            return BoardFace(
                board.label,
                words.board_detail(board),
                State.DRAWN,
                mark,
                f"#{element_anchor(self.side(record), name)}",
            )
        other = self.right if record is self.left else self.left
        title = other.elements[host.right if record is self.left else host.left or ""].label  # type: ignore[index]
        silent = host.silent
        if silent is None or not silent.silence.is_known:
            return BoardFace(f"{title}: not known", "", State.NOT_LOOKED_AT, Mark.UNKNOWN)
        return BoardFace(f"no {title} here", "", State.NOT_THERE, Mark.ONLY)

    def side(self, record: Record) -> str:
        return "left" if record is self.left else "right"

    # seats

    def place(self, index: int, pair: Pair) -> None:
        edge = next((e for seat in pair.seats if (e := self.edge_of(seat)) is not None), None)
        key, rank = f"p{index}", (self.rank.get(pair.subsystem, 99), index)
        if edge is not None:
            faces = [self.face(index, pair, side, on_edge=True) for side in ("left", "right")]
            self.edge.append(EdgeItem(self.slot(key, faces, rank, pair), edge))
            self.links += self.ties(key, pair)
            return
        blocks = [self.block_on(side, seat) for side, seat in (("left", pair.left), ("right", pair.right))]
        if blocks[0] and blocks[1] and blocks[0] != blocks[1]:
            self.badges += 1
            self.moved(index, pair, blocks, rank)
            return
        where = blocks[0] or blocks[1]
        if where:
            faces = [self.face(index, pair, side) for side in ("left", "right")]
            self.slots.setdefault(where, []).append(self.slot(key, faces, rank, pair))

    @staticmethod
    def slot(key: str, faces: Sequence[Face], rank: tuple[int, ...], pair: Pair, seat: str = "") -> Slot:
        family = pair.subsystem
        return Slot(key, faces[0], faces[1], rank, seat, family, f"#{subsystem_anchor(family)}" if family else "")

    def moved(self, index: int, pair: Pair, blocks: list[str], rank: tuple[int, ...]) -> None:
        seats, badge = (pair.left, pair.right), str(self.badges)
        for at, (side, other) in enumerate((("left", "right"), ("right", "left"))):
            drawn = self.face(index, pair, side, badge)
            host = self.host_label(other, seats[1 - at])
            ghost = Face(
                f"on {host}",
                pair.function,
                State.ELSEWHERE,
                MARKS[pair.verdict],
                badge,
                f"#{self.anchors[index]}",
            )
            faces = (drawn, ghost) if side == "left" else (ghost, drawn)
            slot = self.slot(f"p{index}{side[0]}", faces, rank, pair, f"p{index}")
            self.slots.setdefault(blocks[at], []).append(slot)

    def edge_of(self, seat: Seat) -> Edge | None:
        if seat.embedded_in:
            return None
        if seat.section in _EDGES:
            return _EDGES[seat.section]
        record_hosts = [("left", host) in self.block_of or ("right", host) in self.block_of for host in seat.hosts]
        return None if any(record_hosts) else Edge.BOTTOM

    def block_on(self, side: str, seat: Seat | None) -> str:
        """The block of the board that bears the seat; the first one where several do."""
        hosts = seat.hosts if seat else ()
        return next((block for host in hosts if (block := self.block_of.get((side, host), ""))), "")

    def face(self, index: int, pair: Pair, side: str, badge: str = "", *, on_edge: bool = False) -> Face:
        seat = pair.left if side == "left" else pair.right
        mark, href = MARKS[pair.verdict], f"#{self.anchors[index]}"
        if seat is None:
            said, several, state = words.ghost_words(pair)
            return Face(said.replace("{}", pair.function), "", state, mark, badge, href, several=several)
        record = self.left if side == "left" else self.right
        if seat.embedded_in:
            where = f"inside {seat.first.label}"
            return Face(pair.function, where, State.EMBEDDED, mark, badge, href, several="{}: inside other parts")
        term = record.means_term(seat.means)
        shape = term.drawn_as if term else "other"
        inside = self.inside[side].get(seat.first.id, ())
        apart = len(seat.hosts) > 1 or (on_edge and pair.place is Agreement.DIFFERENT)
        detail = words.detail(seat, self.place_of(side, seat) if apart else "", inside)
        several = "{}" if seat.first.populated else "{} (sites left empty)"
        tip, count = words.tip(seat), seat.count
        return Face(words.title(seat, pair), detail, State.DRAWN, mark, badge, href, tip, count, shape, several=several)

    def place_of(self, side: str, seat: Seat) -> str:
        """Where a seat is, for one that no single board round it tells the place of."""
        return f"{'on' if self.block_on(side, seat) else 'at'} {self.host_label(side, seat)}"

    def host_label(self, side: str, seat: Seat | None) -> str:
        record = self.left if side == "left" else self.right
        labels = [record.elements[host].label for host in seat.hosts] if seat else []
        return " and ".join(labels) or "a place not stated"

    # links

    def ties(self, key: str, pair: Pair) -> Iterator[Link]:
        ends = [self.block_on(side, seat) for side, seat in (("left", pair.left), ("right", pair.right))]
        face = LinkFace("", None, flexible=False, mark=MARKS[pair.verdict])
        if ends[0] and ends[0] == ends[1]:
            yield Link(f"t{key}", (key, ends[0]), face, face, "tie")
            return
        if ends[0]:
            yield Link(f"t{key}l", (key, ends[0]), face, None, "tie")
        if ends[1]:
            yield Link(f"t{key}r", (key, ends[1]), None, face, "tie")

    def joins(self, index: int, pair: Pair) -> Iterator[Link]:
        spans: dict[tuple[str, str], dict[str, LinkFace]] = {}
        for side, seat in (("left", pair.left), ("right", pair.right)):
            if seat is None:
                continue
            blocks = list(dict.fromkeys(b for h in seat.hosts if (b := self.block_of.get((side, h)))))
            for span in pairwise(blocks):
                a, b = sorted(span)
                spans.setdefault((a, b), {})[side] = self.link_face(index, pair, seat, side)
        for number, (span, faces) in enumerate(spans.items()):
            key = f"j{index}" + (f"-{number}" if number else "")
            yield Link(key, span, faces.get("left"), faces.get("right"), "join")

    def link_face(self, index: int, pair: Pair, seat: Seat, side: str) -> LinkFace:
        record = self.left if side == "left" else self.right
        ways = seat.first.facts.get("ways")
        many = f"{ways}-way " if ways else ""
        flexible = record.has_trait(seat.first, "flexible")
        label = f"{many}{seat.means or seat.first.label}"
        return LinkFace(label, ways, flexible, MARKS[pair.verdict], f"#{self.anchors[index]}", seat.first.label)
