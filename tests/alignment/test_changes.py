"""Facts inside facts are told one by one, however little the two sides have in common."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.alignment.changes import changes_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

    RecordOf = Callable[[str], Record]


def test_a_supply_in_one_box_and_a_lead_in_the_other(record_of: RecordOf) -> None:
    def entry(box: str) -> Record:
        return record_of(f"power: {{entry: {{jack: {{means: coaxial dc socket, supplied_with: {{{box}}}}}}}}}\n")

    left, right = entry("means: wall adapter, voltage: 5 V, current: 1 A, no_load: 0.06 W"), entry("means: USB lead")
    (change,) = changes_of([left.elements["jack"]], [right.elements["jack"]])
    assert (change.what, change.left, change.right) == ("supplied with means", "wall adapter", "USB lead")


def test_of_several_entries_only_what_all_say_alike_is_told_and_nothing_that_is_stated_together(record_of) -> None:
    """Three lamps of 13 mW each and one entry of eight that takes 66 mW in all have no power to compare."""
    means = "function: status display, means: LED"
    sizes = ("1.6 x 0.8 mm", "2 x 1.2 mm")
    a, b = (f"{{{means}, power: 13 mW, pitch: 5 mm, size: {size}}}" for size in sizes)
    left = record_of(f"indicators: {{a: {a}, b: {b}}}")
    right = record_of(f"indicators: {{ring: {{{means}, count: 8, power: 66 mW, pitch: 4 mm, size: 3 x 3 mm}}}}")
    members = [left.elements["a"], left.elements["b"]]
    told = [(change.what, change.left, change.right) for change in changes_of(members, [right.elements["ring"]])]
    assert told == [("pitch", "5 mm", "4 mm")]
    told = [(change.what, change.left, change.right) for change in changes_of(members[:1], [right.elements["ring"]])]
    assert ("power", "13 mW", "66 mW together") in told
