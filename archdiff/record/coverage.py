"""How far a product was looked at, and what may therefore be said of what is not listed.

This is the one place that turns silence into 'not there' or 'not known'. Everything else asks here.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


class Truth(Enum):
    """The answer to a question put to a record."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "not known"


WHOLE, PART, NONE = "whole", "part", "none"
_SIDES = ("top", "bottom")


@dataclass(frozen=True, slots=True)
class Coverage:
    """What the record states under `coverage`, and which sections have entries at all.

    A section that is not named there counts as looked at in part where it has entries, else not at all.
    """

    stated: Mapping[str, Any]
    filled: frozenset[str]

    def of(self, section: str, host: str = "", side: str = "") -> str:
        """'whole', 'part' or 'none' for a section such as 'parts' or 'power.entry', on one host, on one side.

        Without a host: for the whole product. Without a side: for both sides of the host.
        """
        name = section.split(".", 1)[0]
        value = self.stated.get(name)
        if value is None:
            return PART if name in self.filled else NONE
        if isinstance(value, str):
            return value
        if not host:
            return _together([_of_host(inner, side) for inner in (*value.values(), value.get("elsewhere", NONE))])
        return _of_host(value.get(host, value.get("elsewhere", NONE)), side)

    def is_whole(self, section: str, host: str = "", side: str = "") -> bool:
        """Whether what is not listed there is known not to be there."""
        return self.of(section, host, side) == WHOLE

    def all_whole(self, sections: Iterable[str]) -> bool:
        """Whether every one of these sections was wholly looked at."""
        return all(self.is_whole(section) for section in sections)

    def gaps(self) -> list[tuple[str, str, str, str]]:
        """(section, host, side, word) for everything stated that is not whole; host and side may be ''.

        Where coverage is stated by host, all other hosts count as not looked at unless 'elsewhere' says more.
        """
        found: list[tuple[str, str, str, str]] = []
        for section, value in self.stated.items():
            hosts = {"": value} if isinstance(value, str) else value
            for host, inner in hosts.items():
                sides = {"": inner} if isinstance(inner, str) else {side: inner.get(side, NONE) for side in _SIDES}
                found += [(section, host, side, word) for side, word in sides.items() if word != WHOLE]
            if not isinstance(value, str) and "elsewhere" not in value:
                found.append((section, "elsewhere", "", NONE))
        return found


def _of_host(value: str | Mapping[str, str], side: str) -> str:
    if isinstance(value, str):
        return value
    if side in _SIDES:
        return value.get(side, NONE)
    return _together([value.get(name, NONE) for name in _SIDES])


def _together(words: list[str]) -> str:
    if all(word == words[0] for word in words):
        return words[0]
    return PART
