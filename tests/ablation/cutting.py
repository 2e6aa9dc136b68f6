"""Cutting facts out of a whole record, with its coverage marked as an honest bench would mark it."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from archdiff.record.plan import section as section_named
from archdiff.record.plan import sections
from archdiff.vocabulary import load_vocabulary

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from random import Random

    from tests.ablation.making import Data

# Where the format itself says what it means that they are not stated; cutting them would be a false statement.
_MEANS_SOMETHING = frozenset(
    {
        "count",
        "between",
        "also",
        "populated",
        "sits_in",
        "hidden_under",
        "terms",
        "note",
        "evidence",
        "sure",
        "function",
        "kind",
    }
)
_LINKS = ("joined_to", "covers", "feeds", "carries", "serves", "fed_by", "from", "made_by", "joined_by", "laid_through")
# A part was seen, and its section with it; what else lives inside that part nobody wrote down.
UNMARKED = "also unmarked"
_PLACE = ("side", "at", "turned", "edge")
_OF_STAGES = frozenset({"what", "note", "evidence", "sure"})


@dataclass(frozen=True, slots=True)
class Cut:
    """One thing to cut: `kind` says what, `section` and `name` where, `fact` and `target` which."""

    kind: str
    section: str = ""
    name: str = ""
    fact: str = ""
    target: str = ""

    def __str__(self) -> str:
        return " ".join(part for part in (self.kind, self.section, self.name, self.fact, self.target) if part)


def cuts_of(data: Data, chance: Random, most: int, *, unmarked: bool = False) -> list[Cut]:
    """Up to `most` cuts of a record, drawn by kind first so that rare kinds are met as often as common ones.

    `unmarked` draws also functions inside other parts that are cut without a mark on the coverage.
    """
    shelves: dict[str, list[Cut]] = {}
    for cut in _possible(data):
        shelves.setdefault(cut.kind, []).append(cut)
    kinds = sorted(kind for kind in shelves if kind != UNMARKED or unmarked)
    often = [*kinds, "gone", "gone on host", "fact", "fact", "link"]
    drawn = [chance.choice(shelves[kind]) for kind in chance.choices([k for k in often if k in shelves], k=most)]
    return list(dict.fromkeys(drawn))


def path_cuts_of(data: Data, chance: Random, most: int) -> list[Cut]:
    """Up to `most` cuts of paths and their stages."""
    possible: list[Cut] = []
    for name, path in data.get("paths", {}).items():
        possible.append(Cut("gone", "paths", name))
        for index, stage in enumerate(path.get("through", ())):
            possible.append(Cut("stage", "paths", name, str(index)))
            facts = (fact for fact in stage if fact not in _OF_STAGES)
            possible += [Cut("stage fact", "paths", name, str(index), fact) for fact in facts]
    return chance.sample(possible, min(len(possible), most))


def column_of(both: tuple[Data, Data], chance: Random) -> Cut:
    """A fact that both benches never wrote down in one section: the same cut for either side."""
    columns = sorted(
        {
            (section.name, fact)
            for data in both
            for section in sections()
            if section.name != "paths"
            for facts in _table(data, section.path).values()
            for fact in facts
            if fact not in _MEANS_SOMETHING and fact != "placements"
        }
    )
    section, fact = chance.choice(columns)
    return Cut("column", section, fact=fact)


def cut_back(data: Data, cuts: Iterable[Cut]) -> Data:
    """The record without what was cut."""
    work = _Cutting(copy.deepcopy(data))
    for cut in cuts:
        work.apply(cut)
    return work.finished()


def _possible(data: Data) -> Iterator[Cut]:
    boards = data.get("boards", {})
    for name in ("price", "mass", "envelope"):
        if name in data["product"]:
            yield Cut("product fact", name=name)
    for section in sections():
        table = _table(data, section.path)
        if table and section.name not in ("boards", "paths"):
            yield Cut("section", section.name, fact="none")
            yield Cut("section", section.name, fact="part")
        for name, facts in table.items():
            yield from _of_entry(section.name, name, facts, boards)
    for index, step in enumerate(data.get("opening", ())):
        yield Cut("step", name=str(index))
        yield from (Cut("step fact", name=str(index), fact=fact) for fact in ("time",) if fact in step)
    yield from (Cut("absence", name=entry["function"]) for entry in data.get("absent", ()))


def _of_entry(section: str, name: str, facts: Data, boards: Data) -> Iterator[Cut]:
    if section == "boards":
        yield Cut("board", section, name, "drop")
        yield Cut("board", section, name, "unplace")
        yield from (Cut("placements", section, name, side) for side in facts.get("placements", {}))
    else:
        yield Cut("gone", section, name)
    if facts.get("on") in boards and section not in ("enclosure", "power.rails"):
        yield Cut("gone on host", section, name)
    known = load_vocabulary().functions
    for function in facts.get("also", ()):
        if (term := known.get(function)) is not None and term.may_be_embedded:
            yield Cut("also", section, name, target=function)
            yield Cut(UNMARKED, section, name, target=function)
    # With a second function and no first one the second would become what the element is there for.
    if (
        "function" in facts
        and "also" not in facts
        and section_named(section).default_function in ("", "purpose not known")
    ):
        yield Cut("function", section, name)
    for fact in facts:
        if fact in _LINKS and isinstance(facts[fact], list):
            yield from (Cut("link", section, name, fact, target) for target in facts[fact])
        elif fact not in _MEANS_SOMETHING and fact != "placements":
            yield Cut("fact", section, name, fact)


def _table(data: Data, path: tuple[str, ...]) -> Data:
    table: Any = data
    for step in path:
        table = table.get(step, {})
    return table


class _Cutting:
    def __init__(self, data: Data) -> None:
        self.data = data
        self.words: dict[str, str] = {}  # by name under coverage: 'part' or 'none' for the whole product
        self.spots: dict[str, set[tuple[str, str]]] = {}  # by name under coverage: hosts and sides
        self.lost: set[str] = set()
        self.steps: set[int] = set()

    def apply(self, cut: Cut) -> None:
        getattr(self, "_" + cut.kind.replace(" ", "_"))(cut)

    def _entry(self, cut: Cut) -> Data:
        return _table(self.data, section_named(cut.section).path).get(cut.name, {})

    def _remove(self, section: str, name: str) -> None:
        _table(self.data, section_named(section).path).pop(name, None)
        self.lost.add(name)

    def _part(self, section: str) -> None:
        self.words.setdefault(section.split(".", maxsplit=1)[0], "part")

    def _product_fact(self, cut: Cut) -> None:
        self.data["product"].pop(cut.name, None)

    def _section(self, cut: Cut) -> None:
        known = section_named(cut.section)
        for name in list(_table(self.data, known.path)):
            self._remove(cut.section, name)
        self._part(cut.section)
        if cut.fact == "none" and len(known.path) == 1:
            self.words[known.covered_by] = "none"

    def _gone(self, cut: Cut) -> None:
        self._remove(cut.section, cut.name)
        self._part(cut.section)

    def _gone_on_host(self, cut: Cut) -> None:
        facts = self._entry(cut)
        if facts.get("on"):
            spot = (str(facts["on"]), str(facts.get("side", "")))
            self.spots.setdefault(cut.section.split(".")[0], set()).add(spot)
        else:
            self._part(cut.section)
        self._remove(cut.section, cut.name)

    def _board(self, cut: Cut) -> None:
        self._remove("boards", cut.name)
        self._part("boards")
        for section in sections():
            for name, facts in list(_table(self.data, section.path).items()):
                if facts.get("on") == cut.name and cut.fact == "drop":
                    self._gone(Cut("gone", section.name, name))
                elif facts.get("on") == cut.name:
                    self._unplaced(facts)

    def _unplaced(self, facts: Data) -> None:
        for fact in ("on", *_PLACE):
            facts.pop(fact, None)

    def _placements(self, cut: Cut) -> None:
        self._entry(cut).get("placements", {}).pop(cut.fact, None)

    def _also(self, cut: Cut) -> None:
        self._also_unmarked(cut)
        self._part(cut.section)

    def _also_unmarked(self, cut: Cut) -> None:
        facts = self._entry(cut)
        if cut.target in facts.get("also", ()):
            facts["also"].remove(cut.target)

    def _function(self, cut: Cut) -> None:
        self._entry(cut).pop("function", None)

    def _fact(self, cut: Cut) -> None:
        facts = self._entry(cut)
        facts.pop(cut.fact, None)
        if cut.fact == "on":
            self._unplaced(facts)

    def _column(self, cut: Cut) -> None:
        for name in list(_table(self.data, section_named(cut.section).path)):
            self._fact(Cut("fact", cut.section, name, cut.fact))

    def _link(self, cut: Cut) -> None:
        if cut.target in self._entry(cut).get(cut.fact, ()):
            self._entry(cut)[cut.fact].remove(cut.target)

    def _stage(self, cut: Cut) -> None:
        # Only emptied here, so that the others keep their places until all is cut.
        through = self._entry(cut).get("through", [])
        if int(cut.fact) < len(through):
            through[int(cut.fact)] = None
            self._part("paths")

    def _stage_fact(self, cut: Cut) -> None:
        through = self._entry(cut).get("through", [])
        if int(cut.fact) < len(through) and through[int(cut.fact)]:
            through[int(cut.fact)].pop(cut.target, None)

    def _step(self, cut: Cut) -> None:
        self.steps.add(int(cut.name))
        self._part("opening")

    def _step_fact(self, cut: Cut) -> None:
        self.data["opening"][int(cut.name)].pop(cut.fact, None)

    def _absence(self, cut: Cut) -> None:
        self.data["absent"] = [entry for entry in self.data["absent"] if entry["function"] != cut.name]

    # what follows from cuts

    def finished(self) -> Data:
        """The record with no mention left of what was cut, and its coverage marked."""
        self.data["opening"] = [s for i, s in enumerate(self.data.get("opening", ())) if i not in self.steps]
        for path in self.data.get("paths", {}).values():
            if "through" in path:
                path["through"] = [stage for stage in path["through"] if stage is not None]
        while self._forget():
            pass
        for section in sections():
            for facts in _table(self.data, section.path).values():
                for key in [k for k, v in facts.items() if v in ([], {})]:
                    del facts[key]
        self._mark()
        return self.data

    def _forget(self) -> bool:
        """Drop every mention of what is lost; whether more was lost by that."""
        before = len(self.lost)
        for section in sections():
            for name, facts in list(_table(self.data, section.path).items()):
                if not self.lost.isdisjoint(facts.get("between", ())) or (
                    section.name == "paths" and self._told(facts)
                ):
                    self._gone(Cut("gone", section.name, name))
                else:
                    self._unmention(facts)
        kept = [step for step in self.data["opening"] if not self._told(step)]
        if len(kept) < len(self.data["opening"]):
            self._part("opening")
            self.data["opening"] = kept
        for name in ("decisions", "questions"):
            if self.lost and name in self.data:
                del self.data[name]
        for entry in self.data.get("absent", ()):
            self._unmention(entry)
        for entry in self.data.get("evidence", {}).values():
            self._unmention(entry)
        return len(self.lost) > before

    def _told(self, value: Any) -> bool:
        if isinstance(value, dict):
            return any(self._told(item) for item in value.values())
        if isinstance(value, list):
            return any(self._told(item) for item in value)
        return value in self.lost

    def _unmention(self, facts: Data) -> None:
        for key, value in list(facts.items()):
            if key in ("function", "also", "means", "material", "name"):
                continue
            if isinstance(value, str) and value in self.lost:
                del facts[key]
                if key == "on":
                    self._unplaced(facts)
            elif isinstance(value, list):
                facts[key] = [item for item in value if not (isinstance(item, str) and item in self.lost)]

    def _mark(self) -> None:
        coverage = self.data["coverage"]
        boards = set(self.data.get("boards", {}))
        for name, spots in self.spots.items():
            if name in self.words or any(host not in boards for host, _ in spots):
                self.words.setdefault(name, "part")
            else:
                coverage[name] = {**dict.fromkeys(sorted(boards), "whole"), "elsewhere": "whole"}
                for host in sorted({host for host, _ in spots}):
                    coverage[name][host] = _word({side for h, side in spots if h == host})
        coverage |= self.words


def _word(sides: set[str]) -> str | dict[str, str]:
    if "" in sides:
        return "part"
    return {side: "part" if side in sides else "whole" for side in ("top", "bottom")}
