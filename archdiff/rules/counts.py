"""Counts: what is listed agrees with what was counted, and an empty site does nothing."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.record import as_bounds
from archdiff.rules.facts import ids
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Element, Record

_SIGNS_OF_LIFE = ("power", "current", "marking", "mass")
_DRIVES_WITH_SIZES = re.compile(r"(hexalobular|cross recess|hexagon socket|square socket)\b[^\d]*", re.IGNORECASE)


@rule("fewer-placements-than-parts", order=320)
def fewer_placements_than_parts(record: Record) -> Iterator[Finding]:
    """More parts are listed on a side of a board than were counted there."""
    listed: dict[tuple[str, str], list[Element]] = {}
    for element in record.elements.values():
        if element.populated and record.has_trait(element, "placement"):
            place = (str(element.facts.get("on")), str(element.facts.get("side")))
            listed.setdefault(place, []).append(element)
    for board in record.boards:
        for side, counted in board.facts.get("placements", {}).items():
            elements = listed.get((board.id, side), [])
            number = sum(element.count for element in elements)
            most = as_bounds(counted)
            if most is not None and number > most.high:
                message = f"{number} parts are listed on the {side} of {board.id}, and {counted} placements are stated"
                hint = "count again: 'placements' holds every part that is placed there, listed or not"
                yield Finding((*board.path, "placements", side), message, hint)


@rule("empty-site-at-work", order=321, severity=Severity.WARNING)
def empty_site_at_work(record: Record) -> Iterator[Finding]:
    """A site that was left empty is said to take power, weigh something or bear a marking."""
    for element in record.elements.values():
        named = [name for name in _SIGNS_OF_LIFE if name in element.facts]
        if not element.populated and named:
            message = f"{element.id} is not populated, and yet its {' and '.join(named)} is stated"
            hint = "delete 'populated: false' where the part is there, else delete what an empty site cannot have"
            yield Finding((*element.path, "populated"), message, hint, key=True)


@rule("drive-without-size", order=324, severity=Severity.WARNING)
def drive_without_size(record: Record) -> Iterator[Finding]:
    """A screw drive is named without its size."""
    for joint in record.section("joints"):
        drive = str(joint.facts.get("drive", ""))
        if _DRIVES_WITH_SIZES.fullmatch(drive):
            hint = "add the size of the bit that fits: 'hexalobular 6', 'cross recess H1', 'hexagon socket 2'"
            yield Finding((*joint.path, "drive"), f"'{drive}' has no size, so nobody knows which bit to bring", hint)


@rule("decision-forces-itself", order=325)
def decision_forces_itself(record: Record) -> Iterator[Finding]:
    """A decision is said to force the very thing it is about."""
    for name, decision in record.decisions.items():
        about = ids(decision.get("about"))
        for index, forced in enumerate(ids(decision.get("forces"))):
            if forced in about:
                message = f"{name} is about {forced} and is said to force {forced}"
                hint = "name under 'forces' only what follows from the choice"
                yield Finding(("decisions", name, "forces", index), message, hint)
