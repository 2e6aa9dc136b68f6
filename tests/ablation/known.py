"""Contradictions that are known and not mended yet: each is told apart, so that no other hides behind it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Known:
    """One fault: its name, the kind of statement, what such statements look like, and why they are wrong."""

    name: str
    kind: str
    pattern: str
    why: str
    rare: bool = False  # met by the benchmark, not by every run of the test

    def is_it(self, kind: str, said: str) -> bool:
        """Whether a wrong statement is this fault."""
        return re.fullmatch(self.kind, kind) is not None and re.search(self.pattern, said) is not None


KNOWN: tuple[Known, ...] = ()


def sorted_out(wrong: Iterable[tuple[str, str]]) -> tuple[list[tuple[str, str]], dict[str, list[str]]]:
    """What is wrong and not known, and what is wrong by the name of the known fault."""
    fresh: list[tuple[str, str]] = []
    by_name: dict[str, list[str]] = {known.name: [] for known in KNOWN}
    for kind, said in wrong:
        known = next((fault for fault in KNOWN if fault.is_it(kind, said)), None)
        if known is None:
            fresh.append((kind, said))
        else:
            by_name[known.name].append(said)
    return fresh, by_name
