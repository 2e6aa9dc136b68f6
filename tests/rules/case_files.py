"""Reads the case files: several small records in one file, each broken or fine, with marks where faults are told."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

MARK = "▶"  # stands right before the place at which a finding is expected
CASES = Path(__file__).parent / "cases"
_HEAD = re.compile(r"^--- # (?P<kind>breaks|fine): (?P<title>.+)$", re.MULTILINE)
# What every record needs; set behind the case, so that its lines keep their numbers.
_NEEDED = {"archdiff": "archdiff: 1", "product": "product: {name: Thing, kind: device}"}


@dataclass(frozen=True)
class Case:
    rule: str
    kind: str  # "breaks" or "fine"
    title: str
    text: str
    places: frozenset[tuple[int, int]]

    def __str__(self) -> str:
        return f"{self.rule} {self.kind}: {self.title}"


def all_cases() -> list[Case]:
    return [case for file in sorted(CASES.glob("*.yaml")) for case in _of_file(file)]


def _of_file(file: Path) -> list[Case]:
    text = file.read_text("utf-8")
    heads = list(_HEAD.finditer(text))
    ends = [head.start() for head in heads[1:]] + [len(text)]
    return [
        _case(file.stem, head["kind"], head["title"], text[head.end() + 1 : end])
        for head, end in zip(heads, ends, strict=True)
    ]


def _case(rule: str, kind: str, title: str, marked: str) -> Case:
    lines, places = [], set()
    for number, line in enumerate(marked.splitlines(), start=1):
        pieces = line.split(MARK)
        column = 1
        for piece in pieces[:-1]:
            column += len(piece)
            places.add((number, column))
        lines.append("".join(pieces))
    lines += [words for name, words in _NEEDED.items() if not any(line.startswith(name + ":") for line in lines)]
    return Case(rule, kind, title, "\n".join(lines) + "\n", frozenset(places))
