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


def test_of_several_entries_what_is_stated_together_is_added_and_what_differs_among_them_is_not_told(record_of) -> None:
    """Three lamps of 13 mW each against one entry of eight that takes 66 mW in all: 39 against 66 mW, not 13."""
    means = "function: status display, means: LED"
    left = record_of(
        f"indicators: {{a: {{{means}, power: 13 mW, size: 1.6 x 0.8 mm, price: 0.02 EUR}},"
        f" b: {{{means}, power: 13 mW, size: 2 x 1.2 mm, price: 0.03 EUR}}}}"
    )
    right = record_of(f"indicators: {{ring: {{{means}, count: 8, power: 66 mW, size: 2 x 2 mm, price: 0.05 EUR}}}}")
    found = changes_of([left.elements["a"], left.elements["b"]], [right.elements["ring"]])
    assert [(change.what, change.left, change.right) for change in found] == [
        ("power", "2 \N{MULTIPLICATION SIGN} 13 mW", "66 mW together")
    ]  # sizes differ among the left ones; 0.02 + 0.03 is 0.05
