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


_BY_PART = ".*, by part"
KNOWN = (
    Known("counts-by-entry", "counts differ", ".", "counts one entry of several against an entry that counts them all"),
    Known("opening-time-by-means", _BY_PART, "^opening-time ", "exact by kind of step where steps may be lacking"),
    Known("microphones-by-means", _BY_PART, "^microphone-count ", "exact by means where one states no means"),
    Known("placed-by-hosts", _BY_PART, "^pairs-placed ", "exact by hosts where a pair has no place"),
    Known("tile-for-an-empty-site", "ghost tiles", "^no further .* empty site$", "the other side has the working ones"),
    Known("no-such-board", "ghost boards", ".", "boards go together by what was listed on them, and not all was"),
    Known(
        "number-in-a-headline", "headlines", " \u00d7 ", "the number seen in a section that was not wholly looked at"
    ),
    Known(
        "separate-though-inside", "a separate part is one", ".", "said of what lives inside another part on either side"
    ),
    Known(
        "place-not-stated",
        "place same or different",
        "neither record states",
        "a piece of the enclosure whose 'in' is not stated is taken to sit in nothing",
    ),
    Known(
        "placed-without-the-piece",
        "partition figures, a piece.*",
        ".",
        "the same piece falls out of the partition unsaid",
        rare=True,
    ),
    Known("means-by-material", "means agree or differ", "neither record states", "material stands in for means"),
)


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
