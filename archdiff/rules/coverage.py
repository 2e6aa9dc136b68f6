"""Coverage: what is said of how far one looked agrees with what is listed. Silence is never absence."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.problems import Severity
from archdiff.record import UNKNOWN_PURPOSE, section
from archdiff.record.coverage import NONE
from archdiff.rules.facts import near
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.record import Absence, Element, Record
    from archdiff.rules.facts import Path

_ELSEWHERE = "elsewhere"


@rule("coverage-of-unknown-host", order=700)
def coverage_of_unknown_host(record: Record) -> Iterator[Finding]:
    """Coverage is stated for a host that the record does not have."""
    for name, host, _ in _by_host(record):
        if host not in record.hosts:
            is_something = host in record.elements
            what = f"'{host}' is one of '{record.elements[host].section}'" if is_something else f"there is no '{host}'"
            message = f"{what}, and a board or a piece of the enclosure is wanted here"
            hint = near(host, (*record.hosts, _ELSEWHERE), "name a board, a piece of the enclosure, or 'elsewhere'")
            yield Finding(("coverage", name, host), message, hint, key=True)


@rule("coverage-by-side-of-a-piece", order=701)
def coverage_by_side_of_a_piece(record: Record) -> Iterator[Finding]:
    """Coverage by top and bottom is stated for something that is no board."""
    for name, host, value in _by_host(record):
        piece = record.hosts.get(host)
        if isinstance(value, dict) and piece is not None and piece.section != "boards":
            message = f"{host} is a piece of the enclosure and has no top and bottom side to look at one by one"
            yield Finding(("coverage", name, host), message, f"write one word: '{host}: part'")


@rule("coverage-none-but-listed", order=702, severity=Severity.WARNING)
def coverage_none_but_listed(record: Record) -> Iterator[Finding]:
    """Something is listed where coverage says that nobody looked."""
    told: set[Path] = set()
    for element in record.elements.values():
        place = _stated_for(record, element)
        if place is not None and place not in told:
            told.add(place)
            message = f"coverage says 'none' here, and {element.id} is listed (line {_line(record, element)})"
            yield Finding(place, message, "write 'part', or 'whole' where nothing was left out")
    if record.coverage.stated.get("opening") == NONE and record.opening:
        message = f"coverage says 'none' here, and {len(record.opening)} steps of opening are listed"
        yield Finding(("coverage", "opening"), message, "write 'part', or 'whole' where the product was wholly opened")


@rule("stated-absent-but-listed", order=703)
def stated_absent_but_listed(record: Record) -> Iterator[Finding]:
    """A function is said not to be there, and something that does it is listed."""
    for absence in record.absences:
        found = next((e for e in record.elements.values() if _is_it(absence, e)), None)
        if absence.function != UNKNOWN_PURPOSE and found is not None:
            what = "no part of its own" if absence.separate else "nothing"
            does = f"{found.id} does (line {_line(record, found)})"
            message = f"here {what} is said to do '{absence.function}', and {does}"
            hint = f"delete this entry, correct the function of {found.id}, or say 'on: …' for where it is absent"
            yield Finding((*absence.path, "function"), message, hint)


@rule("function-left-out", order=704, severity=Severity.WARNING)
def function_left_out(record: Record) -> Iterator[Finding]:
    """What a thing is for is left out, although its section is said to be wholly looked at."""
    for element in record.elements.values():
        wanted = section(element.section).default_function == UNKNOWN_PURPOSE
        if wanted and "function" not in element.facts and record.coverage.is_whole(element.section, *_place(element)):
            message = f"it is not said what {element.id} is for, so nothing else may be called absent here"
            hint = "add 'function: …'; where nobody could tell, write 'function: purpose not known' on purpose"
            yield Finding(element.path, message, hint, key=True)


def _by_host(record: Record) -> Iterator[tuple[str, str, Any]]:
    """(section, host, value) of all coverage that is stated by host."""
    for name, value in record.coverage.stated.items():
        if isinstance(value, dict):
            yield from ((name, host, inner) for host, inner in value.items() if host != _ELSEWHERE)


def _place(element: Element) -> tuple[str, str]:
    host = element.hosts[0] if len(element.hosts) == 1 else ""
    return host, str(element.facts.get("side", ""))


def _stated_for(record: Record, element: Element) -> Path | None:
    """The place under coverage that says 'none' of where this element is listed; None where none does."""
    name = section(element.section).covered_by
    host, side = _place(element)
    value: Any = record.coverage.stated.get(name)
    path: Path = ("coverage", name)
    for step in (host if isinstance(value, dict) and host in value else _ELSEWHERE, side):
        if isinstance(value, dict):
            value, path = _inner(value, step), (*path, step)
    return path if value == NONE else None


def _inner(value: Mapping[str, Any], step: str) -> Any:
    return value.get(step)


def _is_it(absence: Absence, element: Element) -> bool:
    """Whether this element does what is said to be absent, where it is said to be."""
    if not element.populated or element.id == absence.embedded_in:
        return False
    if absence.on and absence.on not in (*element.hosts, element.id):
        return False
    does = element.functions[:1] if absence.separate else element.functions
    return absence.function in does


def _line(record: Record, element: Element) -> int:
    return record.document.spot(element.path, key=True).line
