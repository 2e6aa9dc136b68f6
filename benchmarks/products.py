"""Pairs of invented products with known truth, in the project's own record format.

A product is drawn first; each side then is that product as another team might have built it and another
analyst might have written it down. Everything is renamed on both sides, so ids and names say nothing.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from archdiff.record import Document, Record, section
from archdiff.record.build import build_record
from archdiff.vocabulary import load_vocabulary

SECTIONS = ("parts", "controls", "indicators", "sensors", "actuators", "antennas")
PACKAGES = ("QFN", "SOIC", "TSSOP", "LQFP", "DFN", "SOT-23", "BGA", "SMA", "metric 1608", "metric 2012")
VALUES = ("100 nF", "1 uF", "10 uF", "10 kohm", "4.7 kohm", "100 ohm", "4.7 uH", "22 pF", "1 Mohm", "220 uF")
COLOURS = ("black", "white", "grey", "red", "green", "amber")
TUNING_SEEDS = range(20_000, 20_020)  # for setting weights and the calibration
REPORTING_SEEDS = range(20)  # for the figures that are published; never looked at while tuning
VOLTAGES = ("1.2 V", "1.8 V", "3.3 V", "5 V", "12 V")


@dataclass(frozen=True)
class Setting:
    """How far the two sides lie apart; shares are of all elements (or of all facts, or links)."""

    name: str
    other_means: float = 0.15
    moved: float = 0.10
    dropped: float = 0.10
    merged_boards: int = 1
    missing_facts: float = 0.10
    missing_links: float = 0.10
    noise: float = 0.03  # relative, of measured lengths
    links: bool = True


EASY = Setting("easy", 0.05, 0.03, 0.03, 0, 0.05, 0.05, 0.01)
NORMAL = Setting("normal")
HARD = Setting("hard", 0.30, 0.20, 0.20, 2, 0.20, 0.20, 0.06)


@dataclass
class Thing:
    """One element of the product before it is written down; `twin` is the same for interchangeable ones."""

    number: int
    section: str
    function: str
    means: str
    board: int
    facts: dict[str, Any]
    joined: set[int] = field(default_factory=set)
    rail: int = 0
    twin: int = -1


@dataclass
class Truth:
    """Ids of the element on both sides ('' where a side has none), its twins' class, and whether it was moved."""

    left: str
    right: str
    twin: int
    moved: bool


@dataclass
class ProductPair:
    """Both records as data, the truth, and the models built from the data."""

    left_data: dict[str, Any]
    right_data: dict[str, Any]
    truths: list[Truth]

    def records(self) -> tuple[Record, Record]:
        """Both records, built anew."""
        return as_record(self.left_data, "left.yaml"), as_record(self.right_data, "right.yaml")


def as_record(data: dict[str, Any], file: str) -> Record:
    """The model of a record given as data; faults in the generated data are errors here."""
    record, problems = build_record(Document(file, data))
    if problems:
        raise ValueError("\n".join(map(str, problems[:5])))
    return record


@cache
def _functions() -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """(function, section, means that may do it) for what lies on boards."""
    vocabulary = load_vocabulary()
    by_subsystem: dict[str, list[str]] = {}
    for means in vocabulary.means.values():
        if "embedded" not in means.traits:
            by_subsystem.setdefault(means.subsystem, []).append(means.name)
    draw = random.Random(0)  # noqa: S311 - nothing secret is drawn
    found = []
    for term in vocabulary.functions.values():
        places = [name for name in term.found_in if name in SECTIONS]
        means = by_subsystem.get(term.subsystem, [])
        if places and len(means) > 3 and not term.unknown:
            found.append((term.name, places[0], tuple(draw.sample(means, min(5, len(means))))))
    draw.shuffle(found)
    return tuple(found)


def _facts(draw: random.Random, section_name: str, means: str) -> dict[str, Any]:
    """Facts as they go with a means: two products of one means are alike, but not the same."""
    profile = random.Random(means)  # noqa: S311 - nothing secret is drawn
    typical = draw.choice([profile.randint(2, 40), profile.randint(2, 64)])
    width = round(profile.uniform(1.0, 12.0) * draw.choice([0.8, 1.0, 1.3]), 2)
    facts = {
        "package": draw.choice(profile.sample(PACKAGES, 3)),
        "pins": typical,
        "size": (width, round(width * profile.choice([0.5, 0.8, 1.0]), 2)),
        "value": draw.choice(profile.sample(VALUES, 4)),
        "voltage": draw.choice(profile.sample(VOLTAGES, 2)),
        "colour": profile.choice(COLOURS),
        "length": round(draw.uniform(10, 40), 1),
    }
    known = section(section_name).plan.properties
    return {name: value for name, value in facts.items() if name in known and draw.random() < 0.85}


def product(n: int, draw: random.Random) -> tuple[list[Thing], int]:
    """A product of about n elements, and how many boards it has."""
    functions = _functions()[: max(8, round(min(n * 0.5, 6 * n**0.55)))]
    weights = [1 / (rank + 3) for rank in range(len(functions))]
    boards = max(3, round(n / 30))
    hubs = [draw.randrange(n) for _ in range(max(2, n // 25))]
    things: list[Thing] = []
    for number in range(n):
        if things and draw.random() < 0.06:
            model = things[-1]
            things.append(replace(model, number=number, facts=dict(model.facts), joined=set(model.joined)))
            continue
        function, place, means_choice = draw.choices(functions, weights)[0]
        means = draw.choices(means_choice, [4, 2, 1, 1, 1][: len(means_choice)])[0]
        thing = Thing(number, place, function, means, draw.randrange(boards), _facts(draw, place, means))
        thing.twin, thing.rail = number, draw.randrange(4)
        for _ in range(draw.choice([1, 1, 2, 2, 3, 4])):
            near = draw.choice(hubs) if draw.random() < 0.6 else draw.randrange(max(0, number - 12), number + 1)
            if near != number:
                thing.joined.add(near)
        things.append(thing)
    return things, boards


def pair_of(n: int, setting: Setting, seed: int) -> ProductPair:
    """Two builds of one product of about n elements."""
    draw = random.Random(f"{n} {setting.name} {setting.links} {seed}")  # noqa: S311 - nothing secret is drawn
    things, boards = product(n, draw)
    extra = round(n * setting.dropped / 2)
    others = [replace(thing, number=n + k) for k, thing in enumerate(product(2 * extra, draw)[0])] if extra else []
    for thing in others:
        thing.twin, thing.board = thing.number, draw.randrange(boards)
        thing.joined = {draw.randrange(n) for _ in thing.joined}
    gone = set(draw.sample(range(n), round(n * setting.dropped)))
    here = [t for t in things if t.number not in gone or draw.random() < 0.5] + others[:extra]
    kept = {t.number for t in here}
    there = [_rebuilt(t, setting, boards, draw) for t in things if t.number not in gone or t.number not in kept]
    there += others[extra:]
    merge = dict(zip(range(boards - setting.merged_boards, boards), range(boards), strict=False))
    for thing in there:
        thing.board = merge.get(thing.board, thing.board)
    left, left_ids = _written(here, boards, setting, draw)
    right, right_ids = _written(there, boards, setting, draw)
    return ProductPair(left, right, _truths(here, there, left_ids, right_ids, merge))


def _rebuilt(thing: Thing, setting: Setting, boards: int, draw: random.Random) -> Thing:
    made = replace(thing, facts=dict(thing.facts), joined=set(thing.joined))
    if draw.random() < setting.other_means:
        choice = next(means for name, _, means in _functions() if name == thing.function)
        made.means = draw.choice([name for name in choice if name != thing.means])
        made.facts = _facts(draw, thing.section, made.means)
    if draw.random() < setting.moved:
        made.board = draw.choice([board for board in range(boards) if board != thing.board])
    return made


def _truths(
    here: list[Thing], there: list[Thing], left_ids: dict[int, str], right_ids: dict[int, str], merge: dict[int, int]
) -> list[Truth]:
    left, right = {t.number: t for t in here}, {t.number: t for t in there}
    truths = []
    for number in sorted(left.keys() | right.keys()):
        a, b = left.get(number), right.get(number)
        one = a or b
        assert one is not None
        moved = a is not None and b is not None and merge.get(a.board, a.board) != b.board
        truths.append(Truth(left_ids.get(number, ""), right_ids.get(number, ""), one.twin, moved))
    return truths


Written = tuple[dict[str, Any], dict[int, str]]


def _written(things: list[Thing], boards: int, setting: Setting, draw: random.Random) -> Written:
    """One side as an analyst writes it down: own ids, own order, some facts and links left out."""
    names = [f"e{number}" for number in range(len(things))]
    draw.shuffle(names)
    ids = {thing.number: name for thing, name in zip(things, names, strict=True)}
    board_ids = [f"b{number}" for number in draw.sample(range(10 * boards), boards)]
    rails = {f"r{k}": {"voltage": VOLTAGES[k]} for k in range(4)}
    rail_ids = list(rails)
    data: dict[str, Any] = {"archdiff": 1, "product": {"name": f"Invented {draw.randrange(10**6)}", "kind": "test"}}
    data["coverage"] = dict.fromkeys(("boards", *SECTIONS), "part")
    used = {thing.board for thing in things}
    data["boards"] = {name: {} for number, name in enumerate(board_ids) if number in used}
    data["power"] = {"rails": rails}
    order = list(things)
    draw.shuffle(order)
    said: dict[int, dict[str, Any]] = {}
    for thing in order:
        entry = said[thing.twin] = _entry(thing, said.get(thing.twin), ids, setting, draw)
        entry = dict(entry)
        entry["on"] = board_ids[thing.board]
        if setting.links and draw.random() > setting.missing_links:
            entry["fed_by"] = rail_ids[thing.rail]
        data.setdefault(thing.section, {})[ids[thing.number]] = entry
    return data, ids


def _entry(
    thing: Thing, twin: dict[str, Any] | None, ids: dict[int, str], setting: Setting, draw: random.Random
) -> dict[str, Any]:
    """The facts of one element; of twins that were built alike the analyst writes the same."""
    if twin is not None and twin["function"] == thing.function and twin.get("means", thing.means) == thing.means:
        return {name: value for name, value in twin.items() if name not in ("on", "fed_by")}
    entry: dict[str, Any] = {"function": thing.function}
    if draw.random() > setting.missing_facts:
        entry["means"] = thing.means
    for name, value in thing.facts.items():
        if draw.random() > setting.missing_facts:
            entry[name] = _noisy(name, value, setting, draw)
    joined = [ids[k] for k in sorted(thing.joined) if k in ids and draw.random() > setting.missing_links]
    if setting.links and joined:
        entry["joined_to"] = joined
    return entry


def _noisy(name: str, value: Any, setting: Setting, draw: random.Random) -> Any:
    if name == "size":
        a, b = (round(side * (1 + draw.gauss(0, setting.noise)), 2) for side in value)
        return f"{a} x {b} mm"
    if name == "length":
        return f"{round(value * (1 + draw.gauss(0, setting.noise)), 1)} mm"
    return value
