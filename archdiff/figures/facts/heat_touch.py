"""Temperatures of touched faces beside published ones, in words and with care."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.facts.heat_layers import few
from archdiff.physics.materials import material_named
from archdiff.tables import read_table

if TYPE_CHECKING:
    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.quantities import Bounds

CARE = "an estimate, no statement on safety"


def touch_in_words(ledger: Ledger, stage: Stage, celsius: Bounds) -> str:
    """'27.2 to 44.1 °C, below 48 °C, the TS1 value of IEC 62368-1 for plastic held for over 1 min'."""
    felt = _felt(stage)
    row = next(iter(read_table("touch_limits").rows.values()))
    spans = [row.span(name) for name in ([felt] if felt else row.values)]
    low, high = min(span[0] for span in spans), max(span[1] for span in spans)
    ledger.assume(f"touch temperatures ({row.cited})")
    if celsius.high < low:
        where = "below"
    elif celsius.low > high:
        where = "above"
    else:
        where = "it may be below or above"
    limit = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    return (
        f"{few(celsius)} °C, {where} {limit} °C, the TS1 value of IEC 62368-1 for {felt or 'any material'} "
        f"held for {row.key}"
    )


def _felt(stage: Stage) -> str:
    """The column of the table for what the skin meets; '' where the material is not known."""
    row = material_named(stage.text("material"))
    return "" if row is None else str(row.values.get("felt", ""))
