"""An invented pair of large products as records: any number of boards and parts, about two thirds of them matched.

Everything is drawn by chance from the vocabulary, but by a fixed seed: the same numbers give the same records.
"""

from __future__ import annotations

import json
import random
from dataclasses import dataclass, field, replace
from functools import cache
from typing import TYPE_CHECKING, Any

from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from pathlib import Path

SHARED, OTHER_MEANS, MOVED = 0.55, 0.15, 0.08
"""Shares of all things that both sides have (of the others some are paired as one job done differently, which makes two
thirds of all); and of these, that are done or placed differently."""
PLAIN = ("supply decoupling", "signal biasing", "supply smoothing", "electrostatic protection")
"""What real boards are full of, with the means it is done by."""
PLAIN_MEANS = ("ceramic capacitor", "resistor", "electrolytic capacitor", "suppressor diode")
CABLES = (
    "flexible printed circuit",
    "wire harness",
    "board-to-board connector",
    "flat flexible cable",
    "soldered wires",
)
BOARDS = (
    "Anvel board", "Brost board", "Calder board", "Dunmar board", "Eskin board", "Farrow board",
    "Gelt board", "Harn board", "Ister board", "Jorvan board", "Keld board", "Lumm board",
)  # fmt: skip
PACKAGES = {"QFN": 32, "SOIC": 8, "SOT-23": 3, "DFN": 6, "LQFP": 48}
"""Packages with the terminals they are drawn with here."""
OUTSIDE = {"controls": 8, "indicators": 6, "sensors": 8, "antennas": 3, "actuators": 3, "enclosure": 3}
"""How many things each other section holds at full size, that is with 400 parts."""
FULL = 400


@dataclass
class Thing:
    """One element of a product; `side` is 'both', or the one side that has it."""

    section: str
    function: str
    means: str
    board: int
    facts: dict[str, Any] = field(default_factory=dict)
    side: str = "both"


@cache
def _terms(section: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Functions found in a section (of parts: there before all), each with means of its subsystem."""
    vocabulary = load_vocabulary()
    means: dict[str, list[str]] = {}
    for term in vocabulary.means.values():
        if "embedded" not in term.traits:
            means.setdefault(term.subsystem, []).append(term.name)
    return tuple(
        (term.name, tuple(means[term.subsystem]))
        for term in vocabulary.functions.values()
        if section in (term.found_in[:1] if section == "parts" else term.found_in)
        and not term.unknown
        and term.subsystem not in ("structure", "opening", "")
    )


def _thing(draw: random.Random, section: str, pool: list[tuple[str, tuple[str, ...]]], board: int, side: str) -> Thing:
    """A thing by chance; what boards are full of is on both sides, or it would all be paired."""
    if section == "parts" and side == "both" and draw.random() < 0.5:
        which, package = draw.randrange(len(PLAIN)), draw.choice(("metric 1608", "metric 2012"))
        return Thing(section, PLAIN[which], PLAIN_MEANS[which], board, {"package": package})
    function, means = draw.choice(pool)
    facts: dict[str, Any] = {"size": f"{draw.randint(2, 14)} x {draw.randint(2, 14)} mm"}
    if section == "parts":
        facts["package"], facts["pins"] = draw.choice(list(PACKAGES.items()))
    return Thing(section, function, draw.choice(means[:6]), board, facts, side)


def _things(draw: random.Random, section: str, count: int, boards: int) -> list[Thing]:
    """So many things on each side: more than half of them shared, the others of functions that the other side lacks."""
    terms = list(_terms(section))
    draw.shuffle(terms)
    own = max(1, len(terms) // 5)
    pools = {"left": terms[:own], "right": terms[own : 2 * own], "both": terms[2 * own :] or terms}
    shared = round(count * SHARED)
    sides = ["both"] * shared + ["left"] * (count - shared) + ["right"] * (count - shared)
    return [_thing(draw, section, pools[side], at % boards, side) for at, side in enumerate(sides)]


def _rebuilt(draw: random.Random, thing: Thing, boards: int) -> Thing:
    """The thing as the right product has it: some by other means, some on another board."""
    made = replace(thing)
    if draw.random() < OTHER_MEANS:
        means = dict(_terms(thing.section)).get(thing.function, (thing.means,))
        made.means = draw.choice([each for each in means[:6] if each != thing.means] or [thing.means])
    if draw.random() < MOVED:
        made.board = draw.randrange(boards)
    return made


def _joints(draw: random.Random, boards: int) -> list[tuple[int, int, str, int]]:
    """Links that reach every board, and half as many again."""
    chain = [(draw.randrange(max(0, at - 3), at), at) for at in range(1, boards)]
    spare = [tuple(sorted(draw.sample(range(boards), 2))) for _ in range(boards // 2)]
    pairs = [*chain, *((a, b) for a, b in spare)]
    return [(a, b, draw.choice(CABLES), draw.choice((2, 4, 8, 10, 14, 24, 40))) for a, b in pairs]


def _record(name: str, side: str, things: list[Thing], joints: list[tuple[int, int, str, int]], boards: int) -> Any:
    """One product as its record, on as many boards as asked."""
    keys = [f"b{at}" for at in range(boards)]
    data: dict[str, Any] = {"archdiff": 1, "product": {"name": name, "maker": "Nobody", "kind": "bench rack"}}
    data["coverage"] = dict.fromkeys(("boards", "interconnects", *OUTSIDE), "whole")
    parts = {key: "part" if side == "right" and key in keys[1::4] else "whole" for key in keys}
    data["coverage"]["parts"] = parts | {"elsewhere": "whole"}
    data["boards"] = {
        key: {"name": BOARDS[at], "outline": f"{60 + 8 * at} x {40 + 4 * at} mm", "layers": 2 + 2 * (at % 2)}
        for at, key in enumerate(keys)
    }
    data["power"] = {"entry": {"jack": {"on": "b0", "function": "power entry", "means": "coaxial dc socket"}}}
    for number, thing in enumerate(things):
        entry = {"function": thing.function, "means": thing.means, "sure": "seen", **thing.facts}
        if thing.section != "enclosure":
            entry["on"] = keys[thing.board]
        data.setdefault(thing.section, {})[f"{thing.section[:2]}{number}"] = entry
    data["interconnects"] = {
        f"j{at}": {"between": [keys[a], keys[b]], "function": "board joining", "means": means, "ways": ways}
        for at, (a, b, means, ways) in enumerate(joints)
    }
    return data


def stress_pair(boards: int = 12, parts: int = FULL, seed: int = 1) -> tuple[Any, Any]:
    """Both records as data: `boards` boards and `parts` parts a side, and what else a product of that size has."""
    draw = random.Random(f"{boards} {parts} {seed}")
    things = _things(draw, "parts", parts, boards)
    for section, full in OUTSIDE.items():
        things += _things(draw, section, max(1, round(full * parts / FULL)), boards)
    joints = _joints(draw, boards)
    others = [(a, b, draw.choice(CABLES), ways) if draw.random() < OTHER_MEANS else (a, b, means, ways)
              for a, b, means, ways in joints]  # fmt: skip
    left = [thing for thing in things if thing.side != "right"]
    right = [_rebuilt(draw, thing, boards) for thing in things if thing.side != "left"]
    return _record("Torvik Stack", "left", left, joints, boards), _record("Umbel Tower", "right", right, others, boards)


def written(folder: Path, boards: int = 12, parts: int = FULL, seed: int = 1) -> tuple[Path, Path]:
    """Both records as files in `folder`; every JSON text is a YAML text."""
    files = folder / "torvik-stack.yaml", folder / "umbel-tower.yaml"
    for file, data in zip(files, stress_pair(boards, parts, seed), strict=True):
        file.write_text(json.dumps(data, indent=1), "utf-8")
    return files
