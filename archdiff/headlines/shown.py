"""Figures under a headline: those about the same subject in which the products are known to differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.figure import Outcome
from archdiff.headlines.headline import Consequence
from archdiff.quantities import number
from archdiff.unknowns.asked import in_a_sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from archdiff.figures import FigureResult
    from archdiff.headlines.headline import Headline
    from archdiff.quantities import Bounds
    from archdiff.record import Record

_A_LINE = 2  # so many figures make one line
# Which figures belong to what a headline speaks of: a figure's id, a section of the page, a section of the record, or
# a subsystem, looked for in this order. The first that tell the sides apart are shown. Common practice, no source.
FIGURES_OF: Mapping[str, tuple[str, ...]] = {
    "board-count": ("ways-between-boards", "links-between-boards", "layer-area"),
    "partition": ("ways-per-paired-function",),
    "opening-steps": ("opening-time", "destructive-actions", "tool-changes", "opening-time-estimated"),
    "power.entry": ("entry-power", "standby-power", "conversion-loss-share"),
    "power.storage": ("run-time", "stored-energy"),
    "power": ("conversion-loss-share", "power-in-use", "standby-power"),
    "user input": ("control-count",),
    "user output": ("light-per-watt", "power-per-lamp", "lamp-count", "lamp-spacing"),
    "sensing": ("stages-before-sensor", "air-movers", "sensor-count"),
    "wireless": ("conductor-over-quarter-wave", "antenna-clearance", "antenna-count"),
    "thermal": ("source-rise", "outside-rise", "power-per-outer-area"),
    "audio": ("port-resonance", "aliasing-limit", "sound-opening-share", "microphone-count"),
    "shielding": ("largest-shield-opening", "slot-shielding-reach", "shield-count"),
    "memory": ("embedded-functions", "parts-in-all"),
    "compute": ("power-per-board-area", "embedded-functions", "main-board-density"),
    "opening": ("opening-time", "hidden-joints", "spent-joints", "destructive-actions"),
    "structure": ("joint-count", "spent-joints", "mass"),
}
HIGHER = (Outcome.LEFT_HIGHER, Outcome.RIGHT_HIGHER)


class Shown:
    """The figures in which the products differ; each is told once."""

    def __init__(self, figures: Sequence[FigureResult], records: tuple[Record, Record], told: set[str]) -> None:
        self.found = {result.figure.id: result for result in figures}
        self.names = tuple(record.name for record in records)
        self.told = set(told)

    def line(self, headline: Headline) -> list[Consequence]:
        """One line of the figures that belong to the headline; empty where none tells the sides apart."""
        said: list[str] = []
        ids: list[str] = []
        for name in _figures_of(headline):
            sides = _sides(self.found.get(name)) if name not in self.told else None
            if sides is not None and len(ids) < _A_LINE:
                said.append(self._said(name, sides, first=not ids))
                ids.append(name)
        self.told |= set(ids)
        return [Consequence(f"{'; '.join(said)}.", figures=tuple(ids))] if ids else []

    def _said(self, name: str, sides: tuple[str, str], *, first: bool) -> str:
        title = self.found[name].figure.title
        if first:
            return f"{title}: {sides[0]} in {self.names[0]}, {sides[1]} in {self.names[1]}"
        return f"{in_a_sentence(title)}: {sides[0]} and {sides[1]}"


def _figures_of(headline: Headline) -> tuple[str, ...]:
    pair = headline.pair
    sections = [seat.section for seat in pair.seats] if pair is not None else []
    keys = (headline.figure, headline.section, *sections, pair.subsystem if pair is not None else "")
    return next((FIGURES_OF[key] for key in keys if key in FIGURES_OF), ())


def _sides(result: FigureResult | None) -> tuple[str, str] | None:
    """Both values in words where it is known which is higher, else None.

    A figure of the pair that gives each side's own number counts as well.
    """
    if result is None:
        return None
    unit = result.figure.unit
    if result.pair is not None:
        left, right = (result.pair.parts.get(side) for side in ("left", "right"))
        if left is None or right is None or left.overlaps(right):
            return None
        return _in_words(left, unit), _in_words(right, unit)
    if result.outcome not in HIGHER or result.left is None or result.right is None:
        return None
    a, b = (_in_words(measure.bounds, measure.unit or unit) for measure in (result.left, result.right))
    return a, b


def _in_words(bounds: Bounds | None, unit: str) -> str:
    """A number for running text: 'at least 7', for not everyone reads a sign for it."""
    text, signs = number(bounds, unit), {"≥": "at least", "≤": "at most"}
    return f"{signs[text[0]]} {text[2:]}" if text[0] in signs else text
