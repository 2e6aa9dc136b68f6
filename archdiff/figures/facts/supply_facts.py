"""The supply tree of one product: what each rail gives, how well it is made, and what is lost in making it.

All currents and powers are taken to be meant for one state of use, and what an entry for several alike states to be
that of all of them together: `SAME_STATE` says so where a figure rests on it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY
from archdiff.figures.facts.entry_facts import narrowed, quantity, sharpened, stated
from archdiff.figures.facts.load_facts import ROUNDING, loads_by_supply
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.figures.counting import Ledger
    from archdiff.record import Element

SAME_STATE = (
    "all currents and powers are meant for the same state of use, and for all alike of an entry together (ours)"
)
_ALL = Bounds.exact(1.0)
_DEEPEST = 20  # no product makes so many rails one from another; a loop of rails ends here


class SupplyTree:
    """The rails of one product; every fact used or lacking goes into the ledger."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.rails = ledger.record.section("power.rails")
        self._loads = loads_by_supply(ledger.record)
        self._made_from: dict[str, list[Element]] = {}
        for rail in self.rails:
            self._made_from.setdefault(rail.text("from"), []).append(rail)

    def source(self, rail: Element) -> Element | None:
        """The supply that a rail is made from; None where that is not stated."""
        return self.ledger.record.elements.get(rail.text("from"))

    def current(self, rail: Element) -> Bounds:
        """Current in A: as stated, and not below what its loads take nor above its limit."""
        found = quantity(self.ledger, rail, "current")
        result = sharpened(self.ledger, found, lambda notes: self._within(notes, rail))
        return ANY if result is None else result

    def output(self, rail: Element) -> Bounds:
        """Power in W that a rail gives."""
        volts, amps = quantity(self.ledger, rail, "voltage"), self.current(rail)
        return ANY if volts is None else volts * amps

    def efficiency(self, rail: Element) -> Bounds:
        """Output over input power: as stated, and never above output over input voltage where it is made in series."""
        return self._efficiency(self.ledger, rail)

    def losses(self) -> dict[str, Bounds]:
        """Power in W lost in making each rail, no more than its source has to give beyond what it hands on."""
        found = {rail.id: self._lost(rail) for rail in self.rails}
        for group in self._groups(found):
            spare, most = self._spare(group), sum(found[rail.id].high for rail in group)
            self._note_source(group, narrows=spare < most)
            found |= {rail.id: _at_most(found[rail.id], spare) for rail in group}
        return found

    def lost(self, losses: dict[str, Bounds]) -> Bounds:
        """Power in W lost in all rails together: no group loses more than its source can spare."""
        groups = self._groups(losses)
        return _sum(_at_most(_sum(losses[rail.id] for rail in group), self._spare(group)) for group in groups)

    def _lost(self, rail: Element) -> Bounds:
        efficiency = self.efficiency(rail)
        if efficiency.low == 1:
            return Bounds.exact(0.0)  # whatever it gives
        more = efficiency.inverse() - 1.0
        return self.output(rail) * Bounds(more.best, max(more.low, 0.0), max(more.high, 0.0))

    def _within(self, notes: Ledger, rail: Element) -> Bounds:
        """The current in A that loads and limit leave open."""
        limit = quantity(notes, rail, "limit")
        high = math.inf if limit is None else limit.high
        return Bounds(None, min(self._taken(notes, rail) / ROUNDING, high), high)

    def _taken(self, notes: Ledger, rail: Element, depth: int = 0) -> float:
        """The least current in A that its loads and the rails made from it take."""
        loads = self._loads.get(rail.id, ())
        direct = sum(amps.low for load in loads if (amps := quantity(notes, load, "current")) is not None)
        volts = quantity(notes, rail, "voltage")
        if volts is None or volts.high == 0 or depth == _DEEPEST:
            return direct
        children = self._made_from.get(rail.id, ())
        return direct + sum(self._least_input(notes, child, depth) for child in children) / volts.high

    def _least_input(self, notes: Ledger, rail: Element, depth: int) -> float:
        """The least power in W that making a rail takes."""
        amps, volts = quantity(notes, rail, "current"), quantity(notes, rail, "voltage")
        taken = self._taken(notes, rail, depth + 1) / ROUNDING
        least = taken if amps is None else max(taken, amps.low) if taken <= amps.high else amps.low
        return 0.0 if volts is None else volts.low * least / self._efficiency(notes, rail).high

    def _efficiency(self, notes: Ledger, rail: Element) -> Bounds:
        found = quantity(notes, rail, "efficiency")
        if found is not None and found.low >= 1:
            return _ALL
        low, high = (0.0, 1.0) if found is None else (found.low, min(found.high, 1.0))
        high = self._no_better_than_voltages(notes, rail, low, high if high > 0 else 1.0)
        best = None if found is None or found.best is None else min(max(found.best, low), high)
        return Bounds(low if low == high else best, low, high)

    def _no_better_than_voltages(self, notes: Ledger, rail: Element, low: float, high: float) -> float:
        """The highest efficiency: that of its voltages where what makes the rail lies in series with it."""
        source, maker = self.source(rail), notes.record.elements.get(rail.text("made_by"))
        if source is None:
            notes.lack(rail.id, "from")
        if maker is None:
            notes.lack(rail.id, "made_by")
        elif notes.record.means_term(maker.means) is None:
            notes.lack(maker.id, "means")
        if source is None or maker is None or not notes.record.has_trait(maker, "in-series"):
            return high
        out, into = stated(rail, "voltage"), stated(source, "voltage")
        if out is None or into is None or into.low == 0:
            notes.lack((rail if out is None else source).id, "voltage")
            return high
        most = out.high / into.low
        if not low <= most < high:
            return high
        for subject, fact in ((rail, "made_by"), (rail, "from"), (maker, "means"), (source, "voltage")):
            notes.use(subject.id, fact)
        return most

    def _groups(self, losses: dict[str, Bounds]) -> list[list[Element]]:
        """Rails that cost something, by the source they are made from; one without a known source stands alone."""
        groups: dict[str, list[Element]] = {}
        for rail in self.rails:
            if losses[rail.id].high > 0:
                source = self.source(rail)
                groups.setdefault(rail.id if source is None else f"from {source.id}", []).append(rail)
        return list(groups.values())

    def _spare(self, group: list[Element]) -> float:
        """The most power in W that the source of a group has beyond what its rails hand on; infinite if not known."""
        source = self.source(group[0])
        if source is None:
            return math.inf
        power, volts, amps = (stated(source, name) for name in ("power", "voltage", "current"))
        if volts is not None and amps is not None:
            power = narrowed(power, volts * amps)
        return math.inf if power is None else power.high - _sum(self.output(rail) for rail in group).low

    def _note_source(self, group: list[Element], *, narrows: bool) -> None:
        """What is known of the power of a group's source counts as used where it narrows a loss."""
        source = self.source(group[0])
        if source is None:
            return
        for name in ("power",) if "power" in source.facts else ("voltage", "current"):
            if source.bounds(name) is None:
                self.ledger.lack(source.id, name)
            elif narrows:
                self.ledger.use(source.id, name)


def _at_most(value: Bounds, most: float) -> Bounds:
    """Values up to `most`; unchanged where that would leave nothing, for then the record contradicts itself."""
    if math.isclose(value.low, most, rel_tol=1e-9):
        most = max(most, value.low)  # the same number, reckoned another way
    if not value.low <= most < value.high:
        return value
    best = None if value.best is None or value.best > most else value.best
    return Bounds(value.low if value.low == most else best, value.low, most)


def _sum(terms: Iterable[Bounds]) -> Bounds:
    result = Bounds.exact(0.0)
    for term in terms:
        result = result + term
    return result
