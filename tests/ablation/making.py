"""Pairs of invented products of which everything is known, in the data form of a record.

A pair is one list of jobs realised twice: the two sides choose means, boards, counts, and whether a job has a part
of its own or lives inside the host chip. One seed makes one pair, always the same.
"""

from __future__ import annotations

import copy
from random import Random
from typing import Any

from archdiff.cli.examples import example_in, examples_folder
from archdiff.record import read_document, sections
from archdiff.vocabulary import load_vocabulary

Data = dict[str, Any]
COVERED = (
    *("boards", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas"),
    *("shields", "enclosure", "joints", "paths", "opening", "power"),
)
# Function, section, and means it may be done by; with * it may live inside the host chip instead.
_JOBS = (
    ("program storage*", "parts", ("serial flash", "embedded multimedia card")),
    ("working memory*", "parts", ("dynamic memory", "pseudo-static memory")),
    ("clock generation*", "parts", ("quartz crystal", "ceramic resonator")),
    ("audio amplification", "parts", ("class D amplifier", "class AB amplifier")),
    ("audio conversion*", "parts", ("audio converter chip", "digital-to-analogue converter")),
    ("charge control", "parts", ("linear charger chip", "switching charger chip")),
    ("voltage conversion", "parts", ("linear regulator", "step-down regulator")),
    ("supply decoupling", "parts", ("ceramic capacitor", "polymer capacitor")),
    ("expansion", "parts", ("pin header", "board-to-board connector")),
    ("wireless networking*", "parts", ("radio transceiver chip", "radio module")),
    ("volume adjustment", "controls", ("tactile switch", "rotary encoder", "capacitive touch electrode")),
    ("mode selection", "controls", ("tactile switch", "slide switch")),
    ("reset", "controls", ("tactile switch", "pinhole key")),
    ("status display", "indicators", ("LED", "colour light chip")),
    ("value display", "indicators", ("segment LCD", "segment LED display")),
    ("voice capture", "sensors", ("bottom-port MEMS microphone", "electret capsule")),
    ("temperature sensing*", "sensors", ("thermistor", "digital temperature chip")),
    ("motion sensing", "sensors", ("pyroelectric", "microwave motion module")),
    ("sound output", "actuators", ("moving-coil loudspeaker", "piezo disc")),
    ("noise warning", "actuators", ("piezo buzzer", "magnetic buzzer")),
    ("vibration alerting", "actuators", ("eccentric vibration motor", "linear resonant actuator")),
    ("short-range wireless", "antennas", ("chip antenna", "printed inverted-F")),
    ("radio shielding", "shields", ("soldered can", "two-piece can")),
    ("power entry", "power.entry", ("coaxial dc socket", "magnetic connector")),
    ("energy storage", "power.storage", ("lithium-ion pouch", "nickel-metal hydride cells")),
    ("standing", "enclosure", ("rubber foot", "moulded boss")),
    ("light guiding", "enclosure", ("light pipe", "light guide plate")),
    ("heat spreading", "enclosure", ("graphite sheet", "heat-spreading plate")),
    ("labelling", "enclosure", ("", "printed label")),
)
_KINDS = ("heat", "sound", "light", "air", "radio", "touch", "force")
_STAGES = ("air gap", "foam ring", "front volume", "outlet slots", "moulded rib")
_MATERIALS = ("silicone", "ABS", "acrylic", "aluminium")


def pair_of(seed: int) -> tuple[Data, Data]:
    """Two whole records of 10 to 30 elements each."""
    chance = Random(seed)
    jobs = chance.sample(_JOBS, chance.randint(7, 12))
    boards = chance.randint(1, 3)
    sides = [_product(chance, jobs, max(1, boards + chance.choice((-1, 0, 0, 1))), side) for side in ("k", "m")]
    ways = Random(f"{seed}/paths")  # apart, so that all else is made as if there were no paths
    plans = [(kind, _way(ways, jobs)) for kind in ways.sample(_KINDS, ways.randint(1, 3))]
    for data, mark in zip(sides, "km", strict=True):
        _lay_paths(ways, data, plans, mark)
    return sides[0], sides[1]


def example_made_whole(name: str) -> tuple[Data, Data]:
    """The two records of an example, as if all of both had been looked at and listed."""
    files = example_in(examples_folder() / name)
    left, right = (read_document(file, "record").data for file in (files.left, files.right))
    for data in (left, right):
        data["coverage"] = dict.fromkeys(COVERED, "whole")
        data.pop("questions", None)
        for board, facts in data["boards"].items():
            facts["placements"] = {side: _listed(data, board, side) + 40 for side in ("top", "bottom")}
    return left, right


def table_of(data: Data, section: str) -> Data:
    """The entries of a section such as 'parts' or 'power.entry'; a new table where there is none yet."""
    for step in section.split("."):
        data = data.setdefault(step, {})
    return data


def _product(chance: Random, jobs: list[tuple[str, str, tuple[str, ...]]], boards: int, mark: str) -> Data:
    data: Data = {"archdiff": 1, "coverage": dict.fromkeys(COVERED, "whole")}
    data["product"] = {"name": f"Product {mark.upper()}", "kind": "test object", "envelope": "90 x 40 x 20 mm"}
    data["product"] |= {"price": f"{chance.randint(5, 99)} EUR", "mass": f"{chance.randint(50, 300)} g"}
    names = [f"{mark}b{i}" for i in range(boards)]
    shells = {f"{mark}upper": _shell(chance), f"{mark}lower": _shell(chance)}
    data["enclosure"] = dict(shells)
    host = _placed(chance, names, chance.choice(("microcontroller", "system on chip")), "host processing")
    data["parts"] = {f"{mark}u0": host | {"also": []}}
    for number, (function, section, means) in enumerate(jobs):
        _realise(chance, data, (function, section, means), f"{mark}{number}", (names, list(shells)))
    if not data["parts"][f"{mark}u0"]["also"]:
        del data["parts"][f"{mark}u0"]["also"]
    _tie(chance, data, names, list(shells), mark)
    data["boards"] = {name: _board(chance, data, name) for name in names}
    data["opening"] = _opening(chance, data)
    _state_absences(chance, data)
    return data


def _way(chance: Random, jobs: list[tuple[str, str, tuple[str, ...]]]) -> list[str]:
    """What one path leads through: functions of elements, and mere words."""
    named = [job[0].removesuffix("*") for job in chance.sample(jobs, chance.randint(1, 4))]
    way = [*named, *chance.sample(_STAGES, chance.randint(0, 2)), *(["housing"] if chance.random() < 0.5 else [])]
    chance.shuffle(way)
    return way


def _lay_paths(chance: Random, data: Data, plans: list[tuple[str, list[str]]], mark: str) -> None:
    start = next(iter(data["parts"]))
    paths = {}
    for number, (kind, way) in enumerate(plans):
        if chance.random() < 0.15:
            continue
        stages = [_way_stage(chance, data, what) for what in way if chance.random() < 0.85]
        ends = {"from": start, "to": "air"} if kind != "touch" else {"from": "user", "to": start}
        sure = chance.choice(("measured", "seen", "seen", "seen", "inferred"))
        paths[f"{mark}p{number}"] = {"kind": kind, **ends, "sure": sure, "through": stages}
        if chance.random() < 0.3:
            paths[f"{mark}p{number}"]["facing"] = chance.choice(("up", "front", "into plate"))
    if paths:
        data["paths"] = paths


def _way_stage(chance: Random, data: Data, what: str) -> Data:
    """A stage through the first element that does this; of what has no element the words."""
    tables = (table_of(copy.deepcopy(data), section.name) for section in sections() if section.name != "paths")
    named = [(name, facts) for table in tables for name, facts in table.items() if facts.get("function") == what]
    facts: Data = {"what": named[0][0] if named else what}
    if chance.random() < 0.6:
        facts["thickness"] = f"{chance.randint(1, 30) / 10} mm"
    if chance.random() < 0.3 and not (named and "material" in named[0][1]):
        facts["material"] = chance.choice(_MATERIALS)
    if chance.random() < 0.06:
        facts["sure"] = "guessed"
    return facts


def _realise(
    chance: Random, data: Data, job: tuple[str, str, tuple[str, ...]], name: str, places: tuple[list[str], list[str]]
) -> None:
    function, section, means = job
    boards, shells = places
    if chance.random() < 0.14:
        return
    if function.endswith("*") and chance.random() < 0.4:
        next(iter(data["parts"].values()))["also"].append(function.removesuffix("*"))
        return
    facts = _placed(chance, boards, chance.choice(means), function.removesuffix("*"))
    if section == "enclosure":
        facts = {k: v for k, v in facts.items() if k in ("function", "means")} | {"in": chance.choice(shells)}
        facts["material"] = chance.choice(_MATERIALS)
    elif section == "actuators" and chance.random() < 0.4:
        facts = {k: v for k, v in facts.items() if k not in ("on", "side")} | {"in": chance.choice(shells)}
    if section == "shields":
        facts["covers"] = chance.sample(sorted(data["parts"]), 1)
    table = table_of(data, section)
    copies = chance.choice((1, 1, 1, 2, 3)) if section not in ("shields", "enclosure") else 1
    if copies > 1 and chance.random() < 0.5:
        table[f"{name}a"] = facts | {"count": copies}
        return
    for letter in "abc"[:copies]:
        table[f"{name}{letter}"] = dict(facts)
    if section == "parts" and copies == 1 and chance.random() < 0.08:
        table[f"{name}a"]["populated"] = False


def _placed(chance: Random, boards: list[str], means: str, function: str) -> Data:
    facts: Data = {"on": chance.choice(boards), "side": chance.choice(("top", "top", "bottom"))}
    facts |= {"function": function} | ({"means": means} if means else {})
    if chance.random() < 0.7:
        facts["size"] = f"{chance.randint(2, 5)} x {chance.randint(2, 5)} mm"
    if chance.random() < 0.5:
        facts["price"] = f"{chance.randint(1, 200) / 100} EUR"
    return facts


def _shell(chance: Random) -> Data:
    facts = {"function": "housing", "means": chance.choice(("moulded shell", "die-cast housing"))}
    return facts | {"material": chance.choice(_MATERIALS), "mass": f"{chance.randint(5, 60)} g"}


def _tie(chance: Random, data: Data, boards: list[str], shells: list[str], mark: str) -> None:
    parts = sorted(data["parts"])
    for section in ("parts", "controls", "indicators", "sensors", "actuators"):
        for name, facts in data.get(section, {}).items():
            others = [part for part in parts if part != name]
            if others and facts.get("populated") is not False and chance.random() < 0.6:
                facts["joined_to"] = chance.sample(others, min(len(others), chance.randint(1, 2)))
    links: Data = {}
    for number in range(1, len(boards)):
        means, ways = chance.choice(("flat flexible cable", "soldered wires", "ribbon cable")), chance.randint(2, 30)
        between = [boards[chance.randrange(number)], boards[number]]
        links[f"{mark}w{number}"] = {"between": between, "means": means, "ways": ways}
        links[f"{mark}w{number}"] |= {
            "pitch": "1 mm",
            "width": f"{ways + 1} mm",
            "detachable": means != "soldered wires",
        }
    if links:
        data["interconnects"] = links
    data["joints"] = {f"{mark}s{i}": _joint(chance, shells, boards) for i in range(chance.randint(1, 3))}


def _joint(chance: Random, shells: list[str], boards: list[str]) -> Data:
    means = chance.choice(("machine screw", "thread-forming screw", "snap-fit", "double-sided tape"))
    between = list(shells) if chance.random() < 0.6 else [chance.choice(boards), shells[0]]
    facts: Data = {"between": between, "means": means, "count": chance.randint(1, 6)}
    facts["reusable"] = means != "double-sided tape"
    return facts | ({"drive": chance.choice(("cross recess H1", "hexalobular 6"))} if "screw" in means else {})


def _board(chance: Random, data: Data, name: str) -> Data:
    placed = {side: _listed(data, name, side) + chance.randint(0, 30) for side in ("top", "bottom")}
    placed["top"] += 1
    outline = f"{chance.randint(20, 80)} x {chance.randint(20, 35)} mm"
    return {"outline": outline, "layers": chance.choice((1, 2, 4)), "placements": placed}


def _listed(data: Data, board: str, side: str) -> int:
    sections = ("parts", "controls", "indicators", "sensors", "actuators", "antennas", "shields")
    tables = [data.get(section, {}) for section in sections] + list(data.get("power", {}).values())
    entries = [e for table in tables if isinstance(table, dict) for e in table.values() if isinstance(e, dict)]
    here = [e for e in entries if e.get("on") == board and e.get("side") == side and e.get("populated") is not False]
    return sum(int(e.get("count", 1)) for e in here)


def _opening(chance: Random, data: Data) -> list[Data]:
    lower = list(data["enclosure"])[1]
    steps: list[Data] = []
    for name, joint in data["joints"].items():
        if joint["between"][1] == lower:
            tool = joint.get("drive", "plastic wedge")
            steps.append({"do": "unscrew" if "drive" in joint else "pry", "what": name, "tool": tool, "time": "9 s"})
    steps.append({"do": "lift", "what": lower, "frees": [lower], "time": f"{chance.randint(2, 9)} s"})
    return steps


def _state_absences(chance: Random, data: Data) -> None:
    from tests.ablation.truth import functions_in

    there = functions_in(data)
    known = load_vocabulary().functions
    free = sorted(f for job in _JOBS if (f := job[0].removesuffix("*")) not in there and f in known)
    stated = [{"function": f, "because": "looked for"} for f in free if chance.random() < 0.25]
    if stated:
        data["absent"] = stated
