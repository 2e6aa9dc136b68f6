"""Interconnects: the ways fit the cable, the supplies fit the ways, and the ends lie apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.rules.facts import board_of, ids, number, shown
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record


@rule("ways-do-not-fit-width", order=400)
def ways_do_not_fit_width(record: Record) -> Iterator[Finding]:
    """An interconnect has more ways than its width has room for, even in two rows."""
    for link, width in _with_width(record):
        needed = _row(link, rows=2)
        if needed is not None and needed.low > width.high:
            yield Finding((*link.path, "ways"), _too_wide(link, needed, width, "in two rows"), _REMEDY)


@rule("ways-need-two-rows", order=401, severity=Severity.WARNING)
def ways_need_two_rows(record: Record) -> Iterator[Finding]:
    """An interconnect has more ways than fit side by side into its width."""
    for link, width in _with_width(record):
        one, two = _row(link, rows=1), _row(link, rows=2)
        if one is not None and two is not None and two.low <= width.high < one.low:
            yield Finding((*link.path, "ways"), _too_wide(link, one, width, "side by side"), _REMEDY)


@rule("more-supply-than-ways", order=402)
def more_supply_than_ways(record: Record) -> Iterator[Finding]:
    """Supply and ground are said to take more ways than there are."""
    for link in record.section("interconnects"):
        ways = link.facts.get("ways")
        supply, ground = link.facts.get("supply_ways", 0), link.facts.get("ground_ways", 0)
        if isinstance(ways, int) and supply + ground > ways:
            message = f"{link.id} has {ways} ways, and {supply} for supply and {ground} for ground are more"
            yield Finding((*link.path, "ways"), message, "count again; each way carries one thing")


@rule("interconnect-on-one-board", order=403, severity=Severity.WARNING)
def interconnect_on_one_board(record: Record) -> Iterator[Finding]:
    """An interconnect has all its ends on the same board."""
    for link in record.section("interconnects"):
        ends = [record.elements.get(name) for name in ids(link.facts.get("between"))]
        boards = {"" if end is None else _board(record, end) for end in ends}
        if len(boards) == 1 and "" not in boards and len(set(ids(link.facts["between"]))) > 1:
            message = f"all ends of {link.id} are on {boards.pop()}"
            hint = "a link within one board is copper: say 'joined_to' on the parts; else correct 'between' or an 'on'"
            yield Finding((*link.path, "between"), message, hint)


@rule("shield-over-another-board", order=404)
def shield_over_another_board(record: Record) -> Iterator[Finding]:
    """A shield that sits on one board is said to cover something on another."""
    for shield in record.section("shields"):
        own = board_of(record, shield)
        for index, name in enumerate(ids(shield.facts.get("covers"))):
            covered = record.elements.get(name)
            board = "" if covered is None else board_of(record, covered)
            if own and board and board != own:
                message = f"{shield.id} sits on {own} and is said to cover {name}, which is on {board}"
                hint = f"correct 'covers' or 'on'; a shield that spans boards is 'in' a piece and not 'on' {own}"
                yield Finding((*shield.path, "covers", index), message, hint)


def _board(record: Record, end: Element) -> str:
    return end.id if end.section == "boards" else board_of(record, end)


def _with_width(record: Record) -> Iterator[tuple[Element, Bounds]]:
    for link in record.section("interconnects"):
        width = number(link.facts, "width")
        if width is not None:
            yield link, width


def _row(link: Element, *, rows: int) -> Bounds | None:
    """From the first to the last conductor of one row, in mm."""
    ways, pitch = link.facts.get("ways"), number(link.facts, "pitch")
    return None if not isinstance(ways, int) or pitch is None else pitch * (-(-ways // rows) - 1)


def _too_wide(link: Element, needed: Bounds, width: Bounds, how: str) -> str:
    return (
        f"{link.facts['ways']} ways at a pitch of {link.facts['pitch']} are {shown(needed, 'mm')} wide {how}, and "
        f"{link.id} is {shown(width, 'mm')} wide"
    )


_REMEDY = "count the ways again, or check pitch and width: the pitch is that of neighbouring conductors"
