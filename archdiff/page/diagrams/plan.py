"""From a scene to every position of the drawing; gutters grow until every wire finds its way, then shrink to fit."""

from dataclasses import dataclass

from archdiff.page.diagrams.drafting import Draft, draft
from archdiff.page.diagrams.floor import Floor, FloorPlanner
from archdiff.page.diagrams.frame import Frame, frame
from archdiff.page.diagrams.moorings import Moorer
from archdiff.page.diagrams.routing import Strand, route_all
from archdiff.page.diagrams.scene import Scene
from archdiff.page.diagrams.terminals import Terminals

_EASES = (1.0, 1.7, 3.0, 4.5, 6.5, 9.0)
_TRIES = 3
_SPARES = ((0, 0), (0, 1), (1, 0), (1, 1))
"""Tracks that a second, tighter attempt gets beyond those used: in every side gutter, in every horizontal one."""
_BEND, _PER_HEIGHT, _PER_WIDTH = 20.0, 2.0, 5.0


@dataclass(frozen=True, slots=True)
class Plan:
    """All positions, shared by both sides.

    `unrouted` are the keys of links that found no way, `cramped` those among them that lacked room on a board edge.
    """

    frame: Frame
    floor: Floor
    strands: tuple[Strand, ...]
    unrouted: tuple[str, ...]
    cramped: bool

    @property
    def width(self) -> float:
        """Width of the drawing in px."""
        return self.frame.width

    @property
    def height(self) -> float:
        """Height of the drawing in px."""
        return self.floor.height


@dataclass(frozen=True, slots=True)
class Gutters:
    """Numbers of tracks: in the left and right side gutter, and in each horizontal gutter from top to bottom."""

    sides: tuple[int, int]
    rows: tuple[int, ...]

    def grown(self) -> "Gutters":
        """Room for about half as many wires again."""
        left, right = (count + count // 2 + 1 for count in self.sides)
        return Gutters((left, right), tuple(count + count // 2 + 2 for count in self.rows))

    def with_spare(self, side: int, row: int) -> "Gutters":
        """With so many more tracks in every side gutter and in every horizontal one."""
        left, right = (count + side for count in self.sides)
        return Gutters((left, right), tuple(count + row for count in self.rows))


def plan(scene: Scene) -> Plan:
    """Every position of the pair of drawings, tried with wider boards as long as a link is left without a way."""
    best: Plan | None = None
    for ease in _EASES:
        start = draft(scene, ease)
        roomy = _roomy(scene, start)
        lean = roomy if roomy.unrouted else _lean(scene, start, roomy)
        best = lean if best is None else min(best, lean, key=_burden)
        if not best.unrouted:
            break
    if best is None:
        raise AssertionError("there is always a first try")
    return best


def _roomy(scene: Scene, start: Draft) -> Plan:
    """A plan with more tracks than needed: the first with which every wire finds its way, else the best."""
    many = len(scene.links)
    gutters = Gutters((3 + many // 6, 3 + many // 6), (3 + many // 12,) * (len(start.rows) + 1))
    best = _lay(scene, start, gutters)
    for _ in range(_TRIES):
        if not best.unrouted or best.cramped:
            break
        gutters = gutters.grown()
        best = min(best, _lay(scene, start, gutters), key=_burden)
    return best


def _lean(scene: Scene, start: Draft, roomy: Plan) -> Plan:
    """The best of some plans with about the tracks that a roomy one used, and of that one."""
    return min((roomy, *(_lay(scene, start, _used(roomy).with_spare(*spare)) for spare in _SPARES)), key=_burden)


def _burden(made: Plan) -> tuple[int, float]:
    """What is wrong with a plan: first links without a way, then wires that wander and paper that lies idle, in px."""
    wander = sum(
        abs(xa - xb) + abs(ya - yb) + _BEND
        for strand in made.strands
        for (xa, ya), (xb, yb) in zip(strand.points, strand.points[1:], strict=False)
    )
    return len(made.unrouted), wander + _PER_HEIGHT * made.height + _PER_WIDTH * made.width


def _lay(scene: Scene, start: Draft, gutters: Gutters) -> Plan:
    """One attempt with the given gutters."""
    laid = frame(scene, start.rows, start.planner, start.edges, gutters.sides)
    heights = [start.planner.plan(row).height for row in start.rows]
    wires = Moorer(scene, laid, heights).moor()
    floor = FloorPlanner(scene, start.rows, start.planner, laid, gutters.rows).plan(wires)
    terminals = Terminals(laid, floor).of(wires)
    strands, lost = route_all(wires, terminals, laid, floor)
    return Plan(laid, floor, tuple(strands), tuple(lost), cramped=len(terminals) < len(wires))


def _used(made: Plan) -> Gutters:
    """The tracks that at least one strand runs along, counted."""
    level: set[float] = set()
    upright: set[float] = set()
    for strand in made.strands:
        for (xa, ya), (xb, yb) in zip(strand.points, strand.points[1:], strict=False):
            if ya == yb:
                level.add(ya)
            if xa == xb:
                upright.add(xa)
    left, right = (max(1, sum(x in upright for x in side)) for side in made.frame.tracks)
    return Gutters((left, right), tuple(sum(y in level for y in gutter) for gutter in made.floor.tracks))
