"""From a comparison to the scene of its block diagrams.

Boards that correspond share a block, seats that are paired share a slot. What the user meets from outside (power
entry, controls, antennas, movers, vents) stands on the enclosure outline and is tied to the board that carries it.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from archdiff.alignment import Verdict
from archdiff.page.anchors import element_anchor, pair_anchor
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
from archdiff.record.silence import Silence

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import HostPair, Pair, Seat
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record
    from archdiff.record.silence import Silent

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
_STATES = {
    Silence.NOT_THERE: State.NOT_THERE,
    Silence.NO_SEPARATE_PART: State.EMBEDDED,
    Silence.NOT_LOOKED_AT: State.NOT_LOOKED_AT,
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
        self.inside = _inside(comparison)
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
            mark = Mark.ALIKE if not alone else _lone_mark(host.silent)
            return BoardFace(
                board.label,
                _board_detail(board),
                State.DRAWN,
                mark,
                f"#{element_anchor(self.side(record), name)}",
            )
        other = self.right if record is self.left else self.left
        title = other.elements[host.right if record is self.left else host.left or ""].label  # type: ignore[index]
        silent = host.silent
        if silent is None or not silent.silence.is_known:
            return BoardFace(f"{title}: not looked at", "", State.NOT_LOOKED_AT, Mark.UNKNOWN)
        return BoardFace(f"no {title} here", "", State.NOT_THERE, Mark.ONLY)

    def side(self, record: Record) -> str:
        return "left" if record is self.left else "right"

    # seats

    def place(self, index: int, pair: Pair) -> None:
        edge = next((e for seat in pair.seats if (e := self.edge_of(seat)) is not None), None)
        key, rank = f"p{index}", (self.rank.get(pair.subsystem, 99), index)
        if edge is not None:
            faces = [self.face(index, pair, side) for side in ("left", "right")]
            self.edge.append(EdgeItem(Slot(key, faces[0], faces[1], rank), edge))
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
            self.slots.setdefault(where, []).append(Slot(key, faces[0], faces[1], rank))

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
            self.slots.setdefault(blocks[at], []).append(Slot(f"p{index}{side[0]}", *faces, rank, f"p{index}"))

    def edge_of(self, seat: Seat) -> Edge | None:
        if seat.embedded_in:
            return None
        if seat.section in _EDGES:
            return _EDGES[seat.section]
        record_hosts = [("left", host) in self.block_of or ("right", host) in self.block_of for host in seat.hosts]
        return None if any(record_hosts) else Edge.BOTTOM

    def block_on(self, side: str, seat: Seat | None) -> str:
        if seat is None or len(seat.hosts) != 1:
            return ""
        return self.block_of.get((side, seat.hosts[0]), "")

    def face(self, index: int, pair: Pair, side: str, badge: str = "") -> Face:
        seat = pair.left if side == "left" else pair.right
        mark, href = MARKS[pair.verdict], f"#{self.anchors[index]}"
        if seat is None:
            title, state = _ghost_words(pair)
            return Face(title, "", state, mark, badge, href)
        record = self.left if side == "left" else self.right
        if seat.embedded_in:
            return Face(pair.function, f"inside {seat.first.label}", State.EMBEDDED, mark, badge, href)
        term = record.means_term(seat.means)
        shape = term.drawn_as if term else "other"
        inside = self.inside[side].get(seat.first.id, ())
        return Face(
            _title(seat, pair), _detail(seat, inside), State.DRAWN, mark, badge, href, _tip(seat), seat.count, shape
        )

    def host_label(self, side: str, seat: Seat | None) -> str:
        record = self.left if side == "left" else self.right
        return record.elements[seat.hosts[0]].label if seat and seat.hosts else "a place not stated"

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


def _lone_mark(silent: Silent | None) -> Mark:
    return Mark.ONLY if silent is not None and silent.silence.is_known else Mark.UNKNOWN


def _ghost_words(pair: Pair) -> tuple[str, State]:
    silent = pair.silent
    if pair.site is not None:
        known = silent is not None and silent.silence.is_known
        return f"{pair.function}: site left empty", State.NOT_THERE if known else State.NOT_LOOKED_AT
    if silent is not None and silent.further and silent.silence.is_known:
        return f"no further {pair.function}", _STATES[silent.silence]
    if silent is None or silent.silence is Silence.NOT_LOOKED_AT:
        may_be = silent is not None and silent.may_be
        return f"{pair.function}: not {'known' if may_be else 'looked at'}", State.NOT_LOOKED_AT
    if silent.silence is Silence.NO_SEPARATE_PART:
        return f"no part of its own for {pair.function}", _STATES[silent.silence]
    return f"no {pair.function}", _STATES[silent.silence]


def _title(seat: Seat, pair: Pair) -> str:
    empty = "" if seat.first.populated else " (site left empty)"
    return pair.function[:1].upper() + pair.function[1:] + empty


def _detail(seat: Seat, inside: Sequence[str]) -> str:
    facts = [seat.means, seat.first.text("package") or seat.first.text("size")]
    also = f"; also {', '.join(inside)}" if inside else ""
    return ", ".join(fact for fact in facts if fact) + also


def _inside(comparison: Comparison) -> dict[str, dict[str, list[str]]]:
    """By side and element id the functions that live inside it and have no tile of their own."""
    found: dict[str, dict[str, list[str]]] = {"left": {}, "right": {}}
    for pair in comparison.pairs:
        if all(seat.embedded_in for seat in pair.seats):
            for side, seat in (("left", pair.left), ("right", pair.right)):
                if seat is not None:
                    found[side].setdefault(seat.embedded_in, []).append(seat.function)
    return found


def _tip(seat: Seat) -> str:
    return f"{seat.first.label} ({', '.join(seat.ids)})"


def _board_detail(board: Element) -> str:
    layers = board.text("layers")
    facts = [board.text("outline"), f"{layers} layers" if layers else ""]
    return ", ".join(fact for fact in facts if fact)
