"""One pair that differs, as a sentence with the products' names in it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.alignment import Counts, Verdict
from archdiff.unknowns.asked import in_a_sentence

if TYPE_CHECKING:
    from archdiff.alignment import Pair, Seat
    from archdiff.record import Record


def sentence(pair: Pair, records: tuple[Record, Record]) -> str:
    """What is said of one pair that differs, with the products' names."""
    left, right = records
    what = pair.function[:1].upper() + pair.function[1:]
    if pair.left is None or pair.right is None:
        return f"{what}: {_of_one(pair, records)}."
    if pair.verdict is Verdict.ELSEWHERE:
        return f"{what}: {_where(pair.left, left)} in {left.name}, {_where(pair.right, right)} in {right.name}."
    if pair.verdict is Verdict.BOTH:
        sides = [
            f"{_means(seat, record)} {_where(seat, record)} of {record.name}"
            for seat, record in ((pair.left, left), (pair.right, right))
        ]
        return f"{what} differs in principle and location: {'; '.join(sides)}."
    return f"{what}: {_means(pair.left, left)} in {left.name}, {_means(pair.right, right)} in {right.name}."


def _of_one(pair: Pair, records: tuple[Record, Record]) -> str:
    """What is said of something that one product has and the other is not known to have."""
    left, right = records
    seat, owner, other = (pair.left, left, right) if pair.left else (pair.right, right, left)
    means = _means(seat, owner) if seat else ""
    if seat is not None and not seat.first.populated:
        return f"{owner.name} has a site for it that was left empty, {other.name} has none"
    if pair.silent is not None and pair.silent.further:
        known = pair.verdict in (Verdict.ONLY_LEFT, Verdict.ONLY_RIGHT)
        return f"{owner.name} has one more{'' if known else ' part of its own'} ({means}) than {other.name}"
    if pair.verdict in (Verdict.SEPARATE_LEFT, Verdict.SEPARATE_RIGHT):
        found = f"none was found in {other.name}, where it may live inside another part"
        own = "it" if seat is not None and seat.embedded_in else "a part of its own for it"
        return f"{owner.name} has {own} ({means}); {found}"
    return f"{owner.name} has it ({means}), {other.name} does not"


def _means(seat: Seat, record: Record) -> str:
    if seat.embedded_in:
        return f"inside {seat.first.label}"
    more = "" if _counts(record).of(seat).is_exact else " or more"
    many = f"{seat.count}{more} × " if seat.count > 1 else ""  # noqa: RUF001 - the multiplication sign is meant
    return many + (seat.means or seat.first.label)


@lru_cache(maxsize=4)
def _counts(record: Record) -> Counts:
    return Counts(record)


def _where(seat: Seat, record: Record) -> str:
    """'on the main board', 'in the back shell and the front shell'."""
    hosts = [record.elements[host] for host in seat.hosts]
    if not hosts:
        return "in a place not stated"
    board = any(host.section == "boards" for host in hosts)
    return f"{'on' if board else 'in'} the {' and the '.join(in_a_sentence(host.label) for host in hosts)}"
