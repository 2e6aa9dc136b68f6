"""Steps of opening as the energy-label rules for telephones and tablets count them.

(EU) 2023/1669, annex IV 5 (read): a step ends with the removal of a part or sub-assembly, or with a change of
tool; unplugging the mains counts as one; taking up a tool or removing a fastener does not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures.facts.reach import steps_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

BUILD = "boards: {main: {}}\nenclosure: {lid: {}, base: {}}\npower: {entry: {inlet: {in: base}}}\nopening:\n"
UNPLUG = "  - {do: unplug, what: inlet}\n"
SCREW = "  - {do: unscrew, what: screws, tool: hexalobular 6}\n"
PRY = "  - {do: pry, what: rim, tool: spudger}\n"
LID = "  - {do: lift, what: lid, frees: [lid]}\n"
HANDS = "  - {do: unclip, what: rim}\n"
BOARD = "  - {do: lift, what: main, frees: [main]}\n"
FROM_THE_WALL = "  - {do: unplug}\n"
CABLE = "  - {do: unplug cable, what: inlet}\n"
SOCKET = "  - {do: unscrew, what: inlet}\n"
BY_TOOL = "  - {do: lift, what: lid, frees: [lid], tool: spudger}\n"


@pytest.mark.parametrize(
    ("actions", "steps"),
    [
        ([LID], 1),  # removal of a part
        ([LID, BOARD], 2),
        ([SCREW, LID], 1),  # taking up the driver and undoing the screws ends no step
        ([SCREW, SCREW, LID], 1),
        ([HANDS, PRY, LID], 1),  # from bare hands to a tool is taking one up
        ([SCREW, PRY, LID], 2),  # the change from driver to spudger ends one
        ([UNPLUG, SCREW, LID], 2),  # unplugging counts
        ([FROM_THE_WALL, SCREW, LID], 2),
        ([CABLE, SOCKET], 0),  # working on the socket parts no supply
        ([SCREW, LID, PRY, BOARD], 2),  # the change of tool falls on the end of a step
        ([SCREW, BY_TOOL], 2),
        ([SCREW], 0),  # fasteners alone
        ([], 0),
    ],
)
def test_what_ends_a_step(actions: list[str], steps: int, record_of: Callable[[str], Record]) -> None:
    text = BUILD + "".join(actions) if actions else BUILD.replace("opening:\n", "")
    assert steps_of(record_of(text)) == steps
