"""How much a board slows a wave along a track on it: the greatest permittivity that the wave may meet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY
from archdiff.physics.waves import effective_permittivity
from archdiff.quantities import Bounds, across
from archdiff.tables import read_table
from archdiff.vocabulary import fold

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.record import Element
    from archdiff.tables import Row


def most_permittivity(ledger: Ledger, antenna: Element) -> tuple[float, str]:
    """The greatest permittivity that its wave may meet, over ground on the far face of its board, and why."""
    hosts = ledger.hosts(antenna)
    board = next((host for host in ledger.record.boards if {host.id} == hosts), None)
    row = _laminate(ledger, board) if board else None
    thickness = ledger.value(board, "thickness") if board else None
    width = ledger.value(antenna, "width") or ANY
    ledger.assume(
        "the shorter quarter wave to be a bound that takes ground on the far face of the board and air above the "
        "track: with none beneath it is longer, and a housing close by shortens it a little"
    )
    if row is None:
        return math.inf, "a laminate not known"
    low, high = row.span("permittivity")
    ledger.assume(f"{row.key} to have a relative permittivity of {low:g} to {high:g} ({row.cited})")
    most = across(effective_permittivity, Bounds(None, low, high), width, thickness or ANY).high
    return most, f"permittivity at most {most:.6g} over ground"


def _laminate(ledger: Ledger, board: Element) -> Row | None:
    """The laminate that the board's material names; None, noted, where it is not stated or in no table."""
    written = board.text("material")
    for row in read_table("laminate_permittivity").rows.values():
        names = (row.key, *str(row.values["also"]).split(", "))
        if fold(written) in {fold(name) for name in names}:
            ledger.use(board.id, "material")
            return row
    ledger.lack(board.id, "material" if not written else f"permittivity of {written}")
    return None
