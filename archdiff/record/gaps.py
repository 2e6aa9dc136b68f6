"""The parts of a product that were not wholly looked at, in words: the same words wherever they are named."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.record.coverage import NONE, PART
from archdiff.record.plan import sections

if TYPE_CHECKING:
    from archdiff.record.model import Record

_NOT_STATED = "how far it was looked at is not stated"
_SIDES = {"bottom": "underside", "top": "top side"}


@dataclass(frozen=True, slots=True)
class Gap:
    """One part of the product: its section, where that is in words, and how far it was looked at in words."""

    section: str
    where: str
    how: str


# Every figure asks; a comparison has two records, and a test few more at a time.
@lru_cache(maxsize=8)
def gaps_of(record: Record) -> tuple[Gap, ...]:
    """Every gap: those stated under `coverage`, then sections whose coverage is not stated."""
    stated = record.coverage.stated
    found = [
        Gap(section, _where(record, section, host, side), "not looked at" if word == NONE else "looked at only in part")
        for section, host, side, word in record.coverage.gaps()
    ]
    names = dict.fromkeys((*(section.covered_by for section in sections()), "opening"))
    for name in names:
        if name not in stated:
            partly = record.coverage.of(name) == PART
            found.append(Gap(name, name, _NOT_STATED if partly else "not looked at"))
    return tuple(found)


def gaps_in(record: Record, section: str) -> tuple[Gap, ...]:
    """The gaps of one section such as 'parts' or 'power.entry'; empty where it was wholly looked at."""
    return _by_section(record).get(section.split(".", 1)[0], ())


@lru_cache(maxsize=8)
def _by_section(record: Record) -> dict[str, tuple[Gap, ...]]:
    found: dict[str, tuple[Gap, ...]] = {}
    for gap in gaps_of(record):
        found[gap.section] = (*found.get(gap.section, ()), gap)
    return found


def _where(record: Record, section: str, host: str, side: str) -> str:
    if not host:
        return section
    if host == "elsewhere":
        return f"{section} elsewhere"
    name = record.elements[host].label if host in record.elements else host
    return f"{section} on the {_SIDES[side]} of {name}" if side in _SIDES else f"{section} on {name}"
