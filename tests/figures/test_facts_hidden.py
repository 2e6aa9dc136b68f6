"""Made-up products of which everything is known, with facts hidden: bounds never exclude the true value.

Each draw makes a product whose every section was wholly looked at. Then some facts are hidden, then more: the
figures of the poorer record must hold the true value, and hold all that the richer one left open.
"""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import Measure, all_figures
from archdiff.record import Document, Record
from archdiff.record.build import build_record
from archdiff.vocabulary import load_vocabulary

FIGURES = {figure.id: figure.of_product for figure in all_figures() if figure.of_product is not None}
SECTIONS = (
    *("boards", "parts", "interconnects", "controls", "indicators", "sensors"),
    *("actuators", "antennas", "shields", "enclosure", "joints", "opening", "power"),
)
MOUNTED = {
    "parts": (("host processing", "program storage", "expansion"), ("microcontroller", "serial flash", "resistor")),
    "controls": (("volume adjustment", "reset"), ("tactile switch", "pinhole key")),
    "indicators": (("status display",), ("LED",)),
    "sensors": (("voice capture", "temperature sensing"), ("bottom-port MEMS microphone", "thermistor")),
    "actuators": (("sound output",), ("moving-coil loudspeaker",)),
    "antennas": (("wireless networking",), ("chip antenna",)),
}
LINKS = ("flexible printed circuit", "soldered wires", "board-to-board connector")
JOINTS = ("machine screw", "snap-fit", "double-sided tape")
Hiding = tuple[str, ...]


def has(means: str, trait: str) -> bool:
    term = load_vocabulary().means_term(means)
    assert term is not None, means
    return trait in term.traits


@st.composite
def products(draw: st.DrawFn) -> dict[str, Any]:
    boards = "abc"[: draw(st.integers(1, 3))]
    data: dict[str, Any] = {name: {} for name in SECTIONS if name != "opening"}
    data |= {"archdiff": 1, "coverage": dict.fromkeys(SECTIONS, "whole"), "enclosure": {"shell": {}, "lid": {}}}
    data["product"] = {"name": "Tarvo", "kind": "test", "price": "9 EUR", "mass": "90 g", "envelope": "90 x 40 x 20 mm"}
    for section, (functions, means) in MOUNTED.items():
        for i in range(draw(st.integers(0, 3))):
            data[section][f"{section}{i}"] = draw(mounted(boards, functions, means))
    for board in boards:
        data["boards"][board] = draw(board_facts(data, board))
    ends = [*boards, *data["sensors"], *data["actuators"]]
    for i in range(draw(st.integers(0, 3))):
        data["interconnects"][f"link{i}"] = draw(link(boards, ends))
    if data["parts"] and draw(st.booleans()):
        covers = draw(st.lists(st.sampled_from(sorted(data["parts"])), min_size=1, max_size=2))
        data["shields"]["can"] = {"on": "a", "means": "soldered can", "covers": covers}
    for i in range(draw(st.integers(0, 3))):
        data["joints"][f"joint{i}"] = draw(joint())
    data["opening"] = draw(st.lists(action(), max_size=5))
    return data


@st.composite
def mounted(draw: st.DrawFn, boards: str, functions: tuple[str, ...], means: tuple[str, ...]) -> dict[str, Any]:
    place = draw(st.sampled_from([*boards, "shell"]))
    facts = {"function": draw(st.sampled_from(functions)), "means": draw(st.sampled_from(means))}
    facts |= {"count": draw(st.integers(1, 3))}
    return facts | (
        {"in": place} if place == "shell" else {"on": place, "side": draw(st.sampled_from(["top", "bottom"]))}
    )


@st.composite
def board_facts(draw: st.DrawFn, data: dict[str, Any], board: str) -> dict[str, Any]:
    listed = [
        e
        for section in MOUNTED
        for e in data[section].values()
        if e.get("on") == board and has(e["means"], "placement")
    ]
    placed = {
        side: sum(e["count"] for e in listed if e["side"] == side) + draw(st.integers(0, 50))
        for side in ("top", "bottom")
    }
    placed["top"] += 1  # the can, and so that there is a part somewhere
    width, layers = draw(st.integers(10, 90)), draw(st.integers(1, 6))
    return {"outline": f"{width} x 20 mm", "layers": layers, "placements": placed}


@st.composite
def link(draw: st.DrawFn, boards: str, ends: list[str]) -> dict[str, Any]:
    means, ways = draw(st.sampled_from(LINKS)), draw(st.integers(1, 30))
    between = [draw(st.sampled_from(list(boards))), draw(st.sampled_from(ends))]
    supply = draw(st.integers(0, ways))
    facts = {"between": between, "means": means, "ways": ways, "detachable": has(means, "detachable")}
    facts |= {"supply_ways": supply, "ground_ways": draw(st.integers(0, ways - supply))}
    return facts | {"pitch": "0.5 mm", "width": f"{(ways + draw(st.floats(0, 2))) * 0.5} mm"}


@st.composite
def joint(draw: st.DrawFn) -> dict[str, Any]:
    means = draw(st.sampled_from(JOINTS))
    facts = {
        "between": ["shell", "lid"],
        "means": means,
        "count": draw(st.integers(1, 4)),
        "reusable": has(means, "reusable"),
    }
    return facts | ({"drive": draw(st.sampled_from(["slot", "hexalobular 6"]))} if "screw" in means else {})


@st.composite
def action(draw: st.DrawFn) -> dict[str, Any]:
    tool = draw(st.sampled_from(["", "spudger", "driver"]))
    facts = {"do": draw(st.sampled_from(["lift", "pry"])), "time": f"{draw(st.integers(1, 30))} s"}
    return facts | ({"tool": tool} if tool else {}) | ({"frees": ["lid"]} if draw(st.booleans()) else {})


KEPT = {"count", "between", "side", "tool", "do", "frees"}  # where the format says what their absence means


def hidings(data: dict[str, Any]) -> list[Hiding]:
    """Everything that can be hidden: a fact, a side's placements, an entry with its section's coverage, coverage."""
    found: list[Hiding] = [("product", name) for name in ("price", "mass", "envelope")]
    for section in SECTIONS:
        found.append(("coverage", section))
        entries = data[section] if isinstance(data[section], dict) else {}
        for key, facts in entries.items():
            found.append(("entry", section, key))
            found += [("fact", section, key, name) for name in facts if name not in KEPT | {"placements"}]
            found += [("fact", section, key, "placements", side) for side in facts.get("placements", ())]
    return found + [("time", str(i)) for i in range(len(data["opening"]))]


def hide(data: dict[str, Any], hiding: Hiding) -> None:
    kind, *rest = hiding
    if kind == "product":
        data["product"].pop(rest[0], None)
    elif kind == "coverage":
        data["coverage"][rest[0]] = "part"
    elif kind == "entry":
        data["coverage"][rest[0]] = "part"
        data[rest[0]].pop(rest[1], None)
    elif kind == "time":
        data["opening"][int(rest[0])].pop("time", None)
    else:
        holder = data
        for step in rest[:-1]:
            holder = holder.get(step, {})
        holder.pop(rest[-1], None)


def without(data: dict[str, Any], hidden: list[Hiding]) -> Record:
    poorer = deepcopy(data)
    for hiding in hidden:
        hide(poorer, hiding)
    return build_record(Document("made", poorer))[0]


def holds(outer: Measure, inner: Measure) -> bool:
    if outer.bounds is None or inner.bounds is None:
        return outer.bounds is None
    spare = 1e-9 * max(1.0, abs(inner.bounds.low))
    return outer.bounds.low <= inner.bounds.low + spare and inner.bounds.high <= outer.bounds.high + spare


@settings(deadline=None, max_examples=150)
@given(st.data())
def test_hiding_facts_never_excludes_the_true_value_and_more_facts_only_narrow(drawn: st.DataObject) -> None:
    data = drawn.draw(products())
    hidden = drawn.draw(st.lists(st.sampled_from(hidings(data)), max_size=6, unique=True))
    fewer = hidden[: drawn.draw(st.integers(0, len(hidden)))]
    whole, richer, poorer = (without(data, taken) for taken in ([], fewer, hidden))
    for name, compute in FIGURES.items():
        true, some, least = compute(whole), compute(richer), compute(poorer)
        assert true.bounds is None or true.bounds.is_exact, (name, true)
        if true.bounds is not None:
            assert holds(some, true), (name, fewer, true, some)
            assert holds(least, some), (name, hidden, some, least)


# Parts, enclosure and power are only ever counted together with other sections.
@pytest.mark.parametrize("section", [name for name in SECTIONS if name not in ("parts", "enclosure", "power")])
def test_each_section_sways_some_figure(section: str) -> None:
    data: dict[str, Any] = {"archdiff": 1, "product": {"name": "Tarvo", "kind": "test"}}
    known, unknown = (
        build_record(Document("made", {**data, "coverage": {section: word}}))[0] for word in ("whole", "none")
    )
    differ = [name for name, compute in FIGURES.items() if compute(known).bounds != compute(unknown).bounds]
    assert differ
