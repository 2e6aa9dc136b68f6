"""Small random records whose paths lead through elements and through mere words."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from tests.alignment.strategies import record_from, renamed

JOBS = [
    ("parts", "thermal coupling", ["thermal pad", "phase-change pad"]),
    ("parts", "host processing", ["microcontroller", "system on chip"]),
    ("parts", "purpose not known", [""]),
    ("shields", "radio shielding", ["soldered can", "two-piece can"]),
    ("enclosure", "housing", ["moulded shell", "die-cast housing"]),
    ("enclosure", "light guiding", ["light pipe", "light guide plate"]),
    ("enclosure", "dust sealing", ["air filter", ""]),
]
WORDS = ["air gap", "gap", "foam ring", "front volume", "outlet slots", "slots"]
ENDS = ["air", "user", "room"]
__all__ = ["element_names", "products", "record_from", "renamed"]


@st.composite
def _stage(draw: st.DrawFn, ids: list[str]) -> dict[str, Any]:
    facts: dict[str, Any] = {"what": draw(st.sampled_from([*ids, *WORDS]))}
    for name, values in {
        "thickness": ["1 mm", "1.5 mm", "about 1 mm"],
        "volume": ["900 mm3"],
        "material": ["silicone", "filled silicone", "ABS"],
        "facing": ["up", "front"],
        "sure": ["seen", "guessed"],
    }.items():
        if draw(st.integers(0, 3)) == 0:
            facts[name] = draw(st.sampled_from(values))
    return facts


@st.composite
def _path(draw: st.DrawFn, ids: list[str]) -> dict[str, Any]:
    inwards = draw(st.booleans())
    ends = draw(st.sampled_from(ENDS)), draw(st.sampled_from([*ids, *ENDS]))
    facts: dict[str, Any] = {"kind": draw(st.sampled_from(["heat", "sound"]))}
    facts |= dict(zip(("from", "to") if inwards else ("to", "from"), ends, strict=True))
    if draw(st.integers(0, 3)):
        facts["through"] = draw(st.lists(_stage(ids), min_size=1, max_size=4))
    if draw(st.integers(0, 2)) == 0:
        facts["facing"] = draw(st.sampled_from(["up", "into plate"]))
    facts["sure"] = draw(st.sampled_from(["measured", "seen", "inferred"]))
    return facts


@st.composite
def products(draw: st.DrawFn, coverage: str | None = None, sure: str | None = None, least: int = 0) -> dict[str, Any]:
    """The data of a record with a few elements and from `least` to three paths."""
    data: dict[str, Any] = {"boards": {"main": {}}}
    for number in range(draw(st.integers(1, 5))):
        section, function, means = draw(st.sampled_from(JOBS))
        facts = {"function": function, "on": "main"}
        if stated := draw(st.sampled_from(means)):
            facts["means"] = stated
        data.setdefault(section, {})[f"E{number}"] = facts
    ids = element_names(data)
    data["paths"] = {f"P{n}": draw(_path(ids)) for n in range(draw(st.integers(least, 3)))}
    if sure is not None:
        for path in data["paths"].values():
            path["sure"] = sure
            for stage in path.get("through", ()):
                stage.pop("sure", None)
    word = coverage or draw(st.sampled_from(["whole", "part", "none"]))
    data["coverage"] = dict.fromkeys(("boards", "parts", "shields", "enclosure", "paths"), word)
    return data


def element_names(data: dict[str, Any]) -> list[str]:
    """The ids of the elements that stages may name."""
    return [name for section in ("parts", "shields", "enclosure") for name in data.get(section, {})]
