"""How well a bare board conducts heat along and through its layers, whatever share of each is copper."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.facts.heat_layers import few
from archdiff.physics.materials import material_named
from archdiff.quantities import Bounds
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element
    from archdiff.tables import Row

    Rule = Callable[[Iterable[tuple[float, float]]], float]


def conductivity_of(ledger: Ledger, board: Element, column: str, rule: Rule) -> tuple[Bounds | None, str]:
    """In W/(m K) by a rule of layers, `column` being that of the laminate's conductivity; and the sum in words.

    From a board without copper to one whose every layer is whole copper: what share is etched away nobody sees in
    the inner layers. None where the laminate is not known. Plated holes are left out.
    """
    laminate, share = _laminate(ledger, board, column), _copper_share(ledger, board)
    if laminate is None:
        return None, f"{board.id} of a laminate not known"
    copper = read_table("materials").rows["copper"]
    metal, resin = copper.span("conductivity")[1], laminate.span(column)
    ledger.assume(
        f"{laminate.key} to conduct {few(Bounds(None, *resin))} W/(m·K) {column} its layers ({laminate.cited})"
    )
    ledger.assume(
        f"copper to conduct at most {metal:g} W/(m·K) ({copper.cited}), and to cover from none to all of a layer"
    )
    most = rule(((share, metal), (1 - share, resin[1])))
    of = board.text("thickness") or "its thickness"
    words = f"{board.id}: copper up to {share:.4g} of {of}, {resin[0]:g} to {most:.4g} W/(m·K)"
    return Bounds(None, resin[0], most), words


def _copper_share(ledger: Ledger, board: Element) -> float:
    """The greatest share of the board's thickness that may be copper."""
    layers, copper, thickness = (ledger.value(board, name) for name in ("layers", "copper", "thickness"))
    if layers is None or copper is None or thickness is None or thickness.low <= 0:
        return 1.0
    share = layers.high * copper.high / thickness.low
    return share if 0 <= share <= 1 and math.isfinite(share) else 1.0


def _laminate(ledger: Ledger, board: Element, column: str) -> Row | None:
    written = board.text("material")
    row = material_named(written)
    known = row is not None and column in row.values
    if not written or known:
        ledger.note(board.id, "material", known=known)
    else:
        ledger.lack(board.id, f"conductivity of {written}")
    return row if known else None
