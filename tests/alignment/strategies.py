"""Small random records for property tests, and how to write them down differently without changing them."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import strategies as st

from archdiff.record import Document, Record
from archdiff.record.build import build_record

FUNCTIONS = {
    "parts": ["host processing", "program storage", "voltage conversion", "clock generation", "purpose not known"],
    "controls": ["volume adjustment", "mode selection"],
    "indicators": ["status display"],
    "sensors": ["humidity sensing", "temperature sensing"],
}
MEANS = ["", "microcontroller", "serial flash", "tactile switch", "LED", "quartz crystal"]
WORDS = ["whole", "part", "none"]


def record_from(data: dict[str, Any], file: str = "some.yaml") -> Record:
    """The model of a record given as plain data, which must be free of faults."""
    record, problems = build_record(Document(file, {"archdiff": 1, "product": {"name": "Some"}, **data}))
    assert not problems, problems
    return record


@st.composite
def facts(draw: st.DrawFn) -> dict[str, Any]:
    chosen: dict[str, Any] = {}
    for name, values in {
        "means": MEANS[1:],
        "size": ["5 x 5 mm", "7 x 7 mm", "5.1 x 5 mm"],
        "voltage": ["3.3 V", "5 V", "about 5 V"],
        "count": [1, 2, 4],
        "sure": ["measured", "seen", "inferred"],
    }.items():
        if draw(st.booleans()):
            chosen[name] = draw(st.sampled_from(values))
    return chosen


@st.composite
def products(draw: st.DrawFn, coverage: str | None = None) -> dict[str, Any]:
    """The data of a record with up to a dozen elements on up to three boards."""
    boards = [f"board{k}" for k in range(draw(st.integers(1, 3)))]
    data: dict[str, Any] = {"boards": {name: {} for name in boards}, "enclosure": {"shell": {"function": "housing"}}}
    ids: list[str] = []
    for number in range(draw(st.integers(0, 9))):
        section = draw(st.sampled_from(sorted(FUNCTIONS)))
        entry = {"function": draw(st.sampled_from(FUNCTIONS[section])), **draw(facts())}
        if draw(st.integers(0, 5)):
            entry["on"] = draw(st.sampled_from(boards))
        if section == "parts" and draw(st.integers(0, 3)) == 0:
            entry["also"] = ["working memory"]
        if section == "parts" and draw(st.integers(0, 6)) == 0:
            entry["populated"] = False
        if ids and draw(st.booleans()):
            entry["joined_to"] = draw(st.lists(st.sampled_from(ids), min_size=1, max_size=2, unique=True))
        name = f"E{number}"
        ids.append(name)
        data.setdefault(section, {})[name] = entry
    if len(boards) > 1 and draw(st.booleans()):
        data["interconnects"] = {"ribbon": {"between": boards[:2], "means": "flexible printed circuit", "ways": 14}}
    words = st.just(coverage) if coverage else st.sampled_from(WORDS)
    data["coverage"] = {
        name: draw(words) for name in ("boards", "parts", "controls", "indicators", "sensors", "enclosure")
    }
    for name in ("interconnects", "joints", "power", "actuators", "antennas", "shields"):
        data["coverage"][name] = draw(words)
    return data


def renamed(data: dict[str, Any], names: dict[str, str]) -> dict[str, Any]:
    """The same record with other ids."""

    def swap(value: Any) -> Any:
        if isinstance(value, dict):
            return {names.get(key, key): swap(item) for key, item in value.items()}
        if isinstance(value, list):
            return [swap(item) for item in value]
        return names.get(value, value) if isinstance(value, str) else value

    changed: dict[str, Any] = swap(data)
    return changed


def reordered(data: dict[str, Any], order: list[int]) -> dict[str, Any]:
    """The same record with the entries of its sections in another order."""
    changed = copy.deepcopy(data)
    for section, entries in data.items():
        if isinstance(entries, dict) and section not in ("coverage", "product"):
            names = sorted(entries, key=lambda name: (order[sum(map(ord, name)) % len(order)], name))
            changed[section] = {name: copy.deepcopy(entries[name]) for name in names}
    return changed


def element_ids(data: dict[str, Any]) -> list[str]:
    """All ids of a record."""
    return [name for section in (*FUNCTIONS, "boards", "enclosure", "interconnects") for name in data.get(section, {})]
