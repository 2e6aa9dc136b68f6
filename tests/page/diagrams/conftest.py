"""Invented scenes, and a reader that takes a finished drawing apart again and lists what is wrong with it."""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ET
from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.page.diagrams import floor
from archdiff.page.diagrams.floor import HEADER
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
from archdiff.page.diagrams.textwidth import width

if TYPE_CHECKING:
    import random

Box = tuple[float, float, float, float]
CSS = Path(floor.__file__).with_name("diagram.css").read_text("utf-8")
NS = "{http://www.w3.org/2000/svg}"
TITLES = (
    "Host processing",
    "Reference clock",
    "Supply decoupling",
    "Level shifting",
    "Motor drive and current sensing",
    "Überspannungsschutz",
    "温湿度传感",
)
LABELS = ("flexible printed circuit, 14 ways", "wire harness", "pin header, 2 x 20 ways, board to board")


def random_scene(rng: random.Random, boards: int, slots: int, joins: int, items: int) -> Scene:
    """A scene of the given size whose every other property is left to chance."""

    def face() -> Face:
        state = rng.choice([State.DRAWN] * 6 + list(State))
        title = rng.choice(TITLES)
        return Face(
            title if state is State.DRAWN else f"no {title}",
            rng.choice(["", "chip, 7 x 7 mm", "linear regulator, 150 mA"]),
            state,
            rng.choice(list(Mark)),
            rng.choice(["", "", "3", "12"]),
            rng.choice(["", "#a"]),
            count=rng.choice([1, 1, 14]),
            shape=rng.choice(["chip", "sensor", "never heard of"]),
            hidden=rng.random() < 0.05,
        )

    def slot(key: str) -> Slot:
        return Slot(key, face(), face(), (rng.randint(0, 9),))

    def board_face(key: str) -> BoardFace:
        state = rng.choice([State.DRAWN] * 4 + [State.NOT_THERE, State.NOT_LOOKED_AT])
        return BoardFace(f"Board {key}", "62 x 48 mm, 4 layers", state, rng.choice(list(Mark)))

    def link_face() -> LinkFace:
        return LinkFace(rng.choice(LABELS), rng.choice([None, 2, 14, 40]), rng.random() < 0.5, rng.choice(list(Mark)))

    names = [f"b{n}" for n in range(boards)]
    blocks = tuple(
        Block(name, board_face(name), board_face(name), tuple(slot(f"{name}s{n}") for n in range(slots // boards)))
        for name in names
    )
    edge = tuple(EdgeItem(slot(f"e{n}"), rng.choice(list(Edge))) for n in range(items))
    links = [
        Link(f"j{n}", (rng.choice(names), rng.choice(names)), rng.choice([None, link_face()]), link_face())
        for n in range(joins)
    ]
    links += [
        Link(
            f"t{n}", (f"e{n % items}", rng.choice(names)), link_face(), link_face(), rng.choice(["tie", "tie", "join"])
        )
        for n in range(items + items // 3)
    ]
    return Scene("Alder", "Birch", blocks, edge, tuple(links))


@dataclass
class Sheet:
    """One drawing, read back from its SVG."""

    svg: str
    boards: dict[str, Box] = field(default_factory=dict)
    tiles: dict[str, Box] = field(default_factory=dict)
    items: dict[str, Box] = field(default_factory=dict)
    connectors: dict[str, list[Box]] = field(default_factory=dict)
    pills: dict[str, Box] = field(default_factory=dict)
    nets: dict[str, list[tuple[float, float]]] = field(default_factory=dict)
    texts: dict[str, list[ET.Element]] = field(default_factory=lambda: defaultdict(list))

    def __post_init__(self) -> None:
        self.root = ET.fromstring(self.svg)
        for group in self.root.iter(f"{NS}g"):
            key, names = group.get("data-key"), group.get("class", "").split()
            if key is None:
                continue
            boxes = [box for box in (_box(rect) for rect in group.findall(f"{NS}rect")) if box]
            if "connectors" in names:
                self.connectors[key] = boxes
            elif "net" in names:
                self.nets[key] = _corners(group.find(f"{NS}path").get("d"))  # type: ignore[union-attr,arg-type]
            else:
                self.texts[key] += group.findall(f"{NS}text")
                self._shelf(names)[key] = boxes[0]

    def _shelf(self, names: list[str]) -> dict[str, Box]:
        if "pill" in names:
            return self.pills
        if "tile" in names:
            return self.items if "on-edge" in names else self.tiles
        return self.boards

    def segments(self, key: str) -> list[Box]:
        """The net's straight runs as boxes without thickness."""
        return [
            (min(xa, xb), min(ya, yb), max(xa, xb), max(ya, yb))
            for (xa, ya), (xb, yb) in itertools.pairwise(self.nets[key])
        ]


def _box(rect: ET.Element) -> Box | None:
    if "badge-box" in rect.get("class", ""):
        return None
    x, y, w, h = (float(rect.get(name, "nan")) for name in ("x", "y", "width", "height"))
    return x, y, x + w, y + h


def _corners(d: str) -> list[tuple[float, float]]:
    """The corners of a path of straight runs and rounded bends: a bend's control point is its corner."""
    points = []
    for letter, numbers in re.findall(r"([MLQ])([^MLQ]*)", d):
        values = [float(n) for n in numbers.split()]
        if letter != "L":
            points.append((values[0], values[1]))
    return [*points, (values[0], values[1])]


def meet(a: Box, b: Box, slack: float = 0.25) -> bool:
    """Whether two boxes share more than their edges."""
    return a[0] < b[2] - slack and b[0] < a[2] - slack and a[1] < b[3] - slack and b[1] < a[3] - slack


def runs_into(segment: Box, box: Box) -> bool:
    """Whether a segment passes through the inside of a box."""
    return segment[0] < box[2] - 0.5 and box[0] + 0.5 < segment[2] and segment[1] < box[3] - 0.5 and (
        box[1] + 0.5 < segment[3]
    ) if segment[0] != segment[2] and segment[1] != segment[3] else (
        max(segment[0], box[0] + 0.5) <= min(segment[2], box[2] - 0.5)
        and max(segment[1], box[1] + 0.5) <= min(segment[3], box[3] - 0.5)
    )  # fmt: skip


def within(inner: Box, outer: Box) -> bool:
    """Whether the first box lies inside the second."""
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _overlaps(sheet: Sheet) -> list[str]:
    groups: dict[str, dict[str, Box]] = {
        "board": sheet.boards,
        "tile": sheet.tiles,
        "item": sheet.items,
        "connector": {f"{key} {n}": box for key, boxes in sheet.connectors.items() for n, box in enumerate(boxes)},
        "pill": sheet.pills,
    }
    named = [(kind, key, box) for kind, boxes in groups.items() for key, box in boxes.items()]
    allowed = {("board", "tile"), ("board", "connector")}
    return [
        f"{kind} {key} meets {other} {name}"
        for (kind, key, a), (other, name, b) in itertools.combinations(named, 2)
        if (kind, other) not in allowed and meet(a, b)
    ]


def _astray(sheet: Sheet) -> list[str]:
    faults = []
    for key in sheet.nets:
        for segment in sheet.segments(key):
            for kind, boxes in (("board", sheet.boards), ("item", sheet.items), ("tile", sheet.tiles)):
                faults += [
                    f"net {key} runs into {kind} {name}" for name, box in boxes.items() if runs_into(segment, box)
                ]
            faults += [
                f"net {key} runs into pill {name}"
                for name, box in sheet.pills.items()
                if name != key and runs_into(segment, box)
            ]
            faults += [
                f"net {key} runs into a connector of {name}"
                for name, boxes in sheet.connectors.items()
                for box in boxes
                if name != key and runs_into(segment, box)
            ]
            if segment[1] < HEADER:
                faults.append(f"net {key} runs into the product's name")
    return faults


def lettering(names: str, css: str = CSS) -> tuple[float, bool, bool]:
    """Type size in px, whether bold and whether set about its middle, as the stylesheet has it for these classes."""
    rules = {name: rule for heads, rule in re.findall(r"([^{}]+)\{([^{}]*)\}", css)
             for name in re.findall(r"\.diagram-ink (\.[\w.-]+)\s*(?:,|$)", heads)}  # fmt: skip
    found = "".join(rules.get("." + ".".join(names.split()[:most]), "") for most in (1, 2))
    return float(re.findall(r"font-size: ([\d.]+)px", found)[-1]), "font-weight: 700" in found, "middle" in found


LETTERING = {
    name: lettering(name)
    for name in (
        *("tile-title", "tile-detail", "tile-phrase", "badge", "pill-text"),
        *("board-title", "board-detail", "board-phrase", "board-phrase middle"),
    )
}


def spilled(sheet: Sheet) -> list[str]:
    """Words that leave their tile, board or pill, by the widths the drawing itself reckons with."""
    faults = []
    for key, (x0, y0, x1, y1) in {**sheet.tiles, **sheet.items, **sheet.pills, **sheet.boards}.items():
        for text in sheet.texts[key]:
            size, bold, centred = LETTERING[text.get("class", "")]
            x, y = (float(text.get(name, "nan")) for name in ("x", "y"))
            extent = width(text.text or "", size, bold=bold)
            left = x - (extent / 2 if centred else 0)
            if not (x0 <= left and left + extent <= x1 - 2 and y0 + size * 0.7 <= y <= y1 - 2):
                faults.append(f"{text.text!r} leaves {key}")
    return faults


def _together(scene: Scene, sheet: Sheet) -> list[str]:
    """Nets that lie on one another, but for the ties of one enclosure item, which may share a trunk."""
    ends = {link.key: set(link.ends) - {block.key for block in scene.blocks} for link in scene.links}
    faults = []
    for a, b in itertools.combinations(sheet.nets, 2):
        if ends[a] & ends[b]:
            continue
        for one, other in itertools.product(sheet.segments(a), sheet.segments(b)):
            level = one[1] == one[3] == other[1] == other[3] and min(one[2], other[2]) > max(one[0], other[0])
            upright = one[0] == one[2] == other[0] == other[2] and min(one[3], other[3]) > max(one[1], other[1])
            if level or upright:
                faults.append(f"net {a} lies on net {b}")
    return faults


def faults(scene: Scene, svg: str) -> list[str]:
    """Everything that is wrong with the positions of one finished drawing."""
    sheet = Sheet(svg)
    paper = (0.0, 0.0, float(sheet.root.get("width", 0)), float(sheet.root.get("height", 0)))
    everything = {**sheet.boards, **sheet.tiles, **sheet.items, **sheet.pills}
    found = [f"{key} hangs over the sheet" for key, box in everything.items() if not within(box, paper)]
    for block in scene.blocks:
        home = sheet.boards[block.key]
        found += [
            f"tile {slot.key} hangs over its board"
            for slot in block.slots
            if slot.key in sheet.tiles and not within(sheet.tiles[slot.key], home)
        ]
    joins = {link.key for link in scene.links if link.kind == "join"}
    found += [f"join {key} has no pill" for key in sheet.nets if key in joins and key not in sheet.pills]
    return found + _overlaps(sheet) + _astray(sheet) + _together(scene, sheet) + spilled(sheet)


@pytest.fixture(name="faults")
def faults_fixture():
    return faults


@pytest.fixture(name="spilled")
def spilled_fixture():
    return spilled


@pytest.fixture(name="read")
def read_fixture():
    return Sheet


@pytest.fixture(name="random_scene")
def random_scene_fixture():
    return random_scene


@pytest.fixture(name="monitors")
def monitors_fixture() -> Scene:
    return monitors()


def monitors() -> Scene:
    """Two invented air monitors: three boards on the left, nearly everything on one board on the right."""

    def slot(key: str, left: Face, right: Face, *rank: int) -> Slot:
        return Slot(key, left, right, rank)

    host = Face("Host processing", "system on chip, 7 x 7 mm", mark=Mark.DIFFERENT, href="#host", shape="chip")
    buzzer = Face("Sound alert", "piezo buzzer, 9 mm", mark=Mark.ONLY, shape="loudspeaker")
    there = Face("on Main board", state=State.ELSEWHERE, mark=Mark.ELSEWHERE, badge="3")
    humidity = Face("Humidity sensing", "digital, 2.5 x 2.5 mm", mark=Mark.ELSEWHERE, badge="3", shape="sensor")
    back = Face("on Sensor board", state=State.ELSEWHERE, mark=Mark.ELSEWHERE, badge="3")
    reset = Face("Reset", "pinhole", mark=Mark.UNKNOWN, shape="key")
    unseen = Face("reset: not known", state=State.NOT_LOOKED_AT, mark=Mark.UNKNOWN, shape="key")
    plug = Face("Power entry", "USB Type-C, 5 V", shape="plug")
    main = BoardFace("Main board", "62 x 48 mm, 4 layers", mark=Mark.DIFFERENT, href="#main")
    sensor = BoardFace("Sensor board", "55 x 40 mm", mark=Mark.ONLY)
    none = BoardFace("no sensor board", state=State.NOT_THERE, mark=Mark.ONLY)
    ribbon = LinkFace("flexible printed circuit, 10 ways", 10, flexible=True, mark=Mark.ONLY)
    tie = LinkFace("wires")
    return Scene(
        "Alder air monitor",
        "Birch air monitor",
        (
            Block(
                "main",
                main,
                main,
                (
                    slot("host", host, host, 1),
                    slot("buzzer", buzzer, Face("no sound alert", state=State.NOT_THERE, mark=Mark.ONLY), 4),
                    slot("humidity@main", back, humidity, 3),
                ),
            ),
            Block("sensor", sensor, none, (slot("humidity@sensor", humidity, there, 3),)),
        ),
        (
            EdgeItem(slot("plug", plug, plug, 8), Edge.LEFT),
            EdgeItem(slot("reset", reset, unseen, 6), Edge.RIGHT),
        ),
        (
            Link("ribbon", ("main", "sensor"), ribbon, None),
            Link("plug-main", ("plug", "main"), tie, tie, "tie"),
            Link("reset-main", ("reset", "main"), tie, None, "tie"),
        ),
    )
