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
    (change,) = changes_of(left.elements["jack"], right.elements["jack"])
    assert (change.what, change.left, change.right) == ("supplied with means", "wall adapter", "USB lead")
