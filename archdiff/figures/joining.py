"""Joining: what holds the product together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import (
    Ledger,
    count_listed,
    count_true,
    grouped,
    listed,
    means_of,
    number,
    open_above,
    share,
    sum_in_words,
    told,
)
from archdiff.figures.facts.fastener_facts import Kind, drive_row, kinds, reusable
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("joining", "Joining", 105)
_DRIVEN = "screw"  # drawn like this in the vocabulary: what a driver or key turns


@figure(
    title="Joints",
    order=10,
    meaning="How many screws, snaps, bonds and other joints hold the product together.",
    formula="count of joints, by means",
    source="count; common practice, no source",
    preferred="lower: each joint takes time to close and to open",
)
def joint_count(record: Record) -> Measure:
    """Joints by means, an entry of several alike counted as such."""
    return count_listed(record, "joints", label=means_of)


@figure(
    title="Different drives",
    order=20,
    meaning="How many different screw drives have to be fitted by a tool.",
    formula="count of different drives over all joints",
    source="count; common practice, no source",
    preferred="lower: each drive needs a tool of its own",
)
def drive_count(record: Record) -> Measure:
    """Different screw drives, with how many screws have each."""
    ledger = Ledger(record)
    whole = ledger.whole("joints")
    joints = listed(record, "joints")
    turned = [joint for joint in joints if _is_turned(ledger, joint)]
    unknown = [joint for joint in turned if not joint.text("drive")]
    parts = grouped(turned, lambda joint: joint.text("drive"), whole=whole)
    known = len({joint.text("drive") for joint in turned} - {""})
    # A screw whose drive was not seen may have one of those already counted, unless there are none yet.
    low = max(known, 1) if unknown and any(_surely_turned(record, joint) for joint in unknown) else known
    count = open_above(low, whole=whole)
    if whole and unknown:
        count = Bounds(None, low, known + len(unknown))
    return ledger.measure(count, ", ".join(_sized(ledger, drive) for drive in parts) or "no drives listed", parts)


@figure(
    title="Hidden joints",
    order=30,
    meaning="How many joints cannot be seen until something else has come off.",
    formula="count of joints said to be hidden under something",
    source="count; common practice, no source",
    preferred="lower, where the product is to be opened for repair",
)
def hidden_joints(record: Record) -> Measure:
    """Joints with something over them; one of which nothing is said counts as open to view."""
    ledger = Ledger(record)
    whole = ledger.whole("joints")
    hidden = [joint for joint in listed(record, "joints") if joint.text("hidden_under")]
    parts = grouped(hidden, lambda joint: f"under {joint.text('hidden_under')}", whole=whole)
    return ledger.measure(open_above(number(hidden), whole=whole), sum_in_words(hidden), parts)


@figure(
    title="Reusable joints",
    order=40,
    meaning="Share of the joints that can be undone and done up again.",
    formula="reusable joints / joints",
    source="fastener class A of EN 45554:2020 (known second-hand); own share",
    preferred="higher, where the product is to be opened for repair",
)
def reusable_share(record: Record) -> Measure:
    """Share, 0 to 1, of joints said to be reusable or whose means is."""
    ledger = Ledger(record)
    whole = ledger.whole("joints")
    joints = listed(record, "joints")
    count = count_true(joints, lambda joint: reusable(ledger, joint), whole=whole)
    how = f"{told(count)} of {number(joints)}" + ("" if whole else " listed")
    return ledger.measure(share(count, number(joints), whole=whole), how)


@figure(
    title="Joints not to be used again",
    order=50,
    meaning="How many joints cannot be done up again once they are undone, or not be undone without damage.",
    formula="count of joints that are not reusable, by what undoing does to them",
    source="fastener classes B and C of EN 45554:2020 (from memory)",
    preferred="lower, where the product is to be opened for repair",
)
def spent_joints(record: Record) -> Measure:
    """Joints said not to be reusable or whose means is not, by kind."""
    ledger = Ledger(record)
    whole = ledger.whole("joints")
    joints = listed(record, "joints")
    may_be = {joint.id: kinds(ledger, joint) for joint in joints}
    count = count_true(joints, lambda joint: _is_not(may_be[joint.id], {Kind.REUSABLE}), whole=whole)
    parts = {kind.value: _of_kind(joints, may_be, kind, whole=whole) for kind in (Kind.REMOVABLE, Kind.DESTRUCTIVE)}
    how = ", ".join(f"{name} {told(part)}" for name, part in parts.items())
    return ledger.measure(count, f"{told(count)} of {number(joints)} listed: {how}", parts if joints else {})


def _of_kind(joints: Iterable[Element], may_be: Mapping[str, frozenset[Kind]], kind: Kind, *, whole: bool) -> Bounds:
    others = set(Kind) - {kind}
    return count_true(joints, lambda joint: _is_not(may_be[joint.id], others), whole=whole)


def _is_not(may_be: frozenset[Kind], kinds: set[Kind]) -> Truth:
    if not may_be & kinds:
        return Truth.YES
    return Truth.NO if may_be <= kinds else Truth.UNKNOWN


def _sized(ledger: Ledger, drive: str) -> str:
    row = drive_row(drive)
    if row is None:
        return drive
    ledger.assume(f"size of the recess: {row.cited}")
    return f"{drive} ({row.values['dimension']} {row.number('across'):.2f} mm)"


def _surely_turned(record: Record, joint: Element) -> bool:
    term = record.means_term(joint.means)
    return bool(joint.text("drive")) or (term is not None and term.drawn_as == _DRIVEN)


def _is_turned(ledger: Ledger, joint: Element) -> bool:
    """Whether it has, or may have, a drive; its drive is noted where it has."""
    term = ledger.record.means_term(joint.means)
    if _surely_turned(ledger.record, joint) or (term is None and not joint.text("drive")):
        if term is None and not joint.text("drive"):
            ledger.lack(joint.id, "means")
        return ledger.note(joint.id, "drive", known=bool(joint.text("drive"))) or True
    return False
