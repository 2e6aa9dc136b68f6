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
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import Truth

if TYPE_CHECKING:
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
    return ledger.measure(count, ", ".join(parts) or "no drives listed", parts)


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
    count = count_true(joints, lambda joint: _reusable(ledger, joint), whole=whole)
    how = f"{told(count)} of {number(joints)}" + ("" if whole else " listed")
    return ledger.measure(share(count, number(joints), whole=whole), how)


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


def _reusable(ledger: Ledger, joint: Element) -> Truth:
    stated = joint.facts.get("reusable")
    if isinstance(stated, bool):
        ledger.use(joint.id, "reusable")
        return Truth.YES if stated else Truth.NO
    answer = ledger.trait(joint, "reusable")
    if answer is Truth.UNKNOWN:
        ledger.lack(joint.id, "reusable")
    return answer
