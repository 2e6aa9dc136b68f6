"""The supply tree: what the rails have to spare, what is lost on the way, and what is accounted for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, added, told
from archdiff.figures.facts.entry_facts import as_size, quantity
from archdiff.figures.facts.load_facts import LOADS, power_of_loads
from archdiff.figures.facts.supply_facts import SAME_STATE, SupplyTree
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.figure import Measure
    from archdiff.record import Element, Record

FAMILY = Family("supply", "Supply tree", 66)
_RAILS = "power.rails"


@figure(
    title="Smallest headroom of a rail",
    order=10,
    meaning="How many times its present current the most loaded rail could give.",
    formula="least of limit / current over the rails",
    source="limits and currents of the record; ratio, own definition",
    preferred="above 1 with a margin",
)
def rail_headroom(record: Record) -> Measure:
    """Ratio, by rail; a rail without a limit or a current leaves it open."""
    ledger = Ledger(record)
    tree = SupplyTree(ledger)
    rooms = {rail.id: _room(tree, rail) for rail in tree.rails}
    known = {name: room for name, room in rooms.items() if room is not None}
    # Where a rail is open the least of all may be anything, however far was looked.
    whole = len(known) == len(rooms) and ledger.whole(_RAILS)
    if not rooms:
        return _no_rail(ledger)
    ledger.assume(SAME_STATE)
    low = min(room.low for room in known.values()) if whole else 0.0
    high = min((room.high for room in known.values()), default=math.inf)
    how = ", ".join(f"{name} {told(room)}" for name, room in rooms.items())
    return ledger.measure(Bounds(low if low == high else None, low, high), f"{how}; least counts", known)


@figure(
    title="Power lost in conversion",
    unit="W",
    order=20,
    meaning="Power that turns into heat where one supply voltage is made of another.",
    formula="sum over the rails of voltage x current x (1 / efficiency - 1)",
    source="conservation of energy; in series the efficiency is at most output over input voltage",
    preferred="lower",
)
def conversion_loss(record: Record) -> Measure:
    """Power in W, by rail; nothing above what the source of a rail can spare."""
    ledger = Ledger(record)
    return _loss(ledger, lambda lost: lost, "W")


@figure(
    title="Share lost in conversion",
    order=30,
    meaning="How much of the power in use turns into heat where one supply voltage is made of another.",
    formula="power lost in conversion / power in use",
    source="conservation of energy; in series the efficiency is at most output over input voltage",
    preferred="lower",
)
def conversion_loss_share(record: Record) -> Measure:
    """Share, 0 to 1, by rail."""
    ledger = Ledger(record)
    taken = _in_use(ledger)
    if taken is None:
        return ledger.measure(None, "power in use not known")
    return _loss(ledger, lambda lost: _at_most_all(lost / taken), f"W of {told(taken)} W")


@figure(
    title="Share of the power accounted for",
    order=40,
    meaning="How much of the power in use is taken by the listed parts that work from a supply.",
    formula="sum of stated powers, else current x voltage of the rail, / power in use",
    source="conservation of energy: near 1 where all is listed; passive parts are left out; own check",
    preferred="near 1: then the record explains where the power goes",
)
def power_accounted(record: Record) -> Measure:
    """Share of the power in use, by load; loads without a power or a current leave it open above."""
    ledger = Ledger(record)
    taken = _in_use(ledger)
    if taken is None:
        return ledger.measure(None, "power in use not known")
    ledger.assume(SAME_STATE)
    powers, is_open = power_of_loads(ledger)
    total = added(powers.values(), whole=not is_open and ledger.whole(*LOADS))
    terms = " + ".join(f"{name} {told(power)}" for name, power in powers.items()) or "no load with a power listed"
    how = f"({terms}) / {told(taken)} W"
    return ledger.measure(total / taken, how, {name: power / taken for name, power in powers.items()})


def _room(tree: SupplyTree, rail: Element) -> Bounds | None:
    """Limit over current; None where one of them is not known."""
    limit = quantity(tree.ledger, rail, "limit")
    amps = None if limit is None else tree.current(rail)
    return None if limit is None or amps is None or amps.high == 0 else limit / amps


def _loss(ledger: Ledger, shown: Callable[[Bounds], Bounds], unit: str) -> Measure:
    tree = SupplyTree(ledger)
    if not tree.rails:
        ledger.whole(_RAILS)
        return _no_rail(ledger)
    ledger.assume(SAME_STATE)
    losses = tree.losses()
    lost = tree.lost(losses)
    lost = lost if math.isinf(lost.high) or ledger.whole(_RAILS) else Bounds.at_least(lost.low)
    how = f"{'; '.join(_told(tree, rail, losses[rail.id]) for rail in tree.rails)}; together {told(lost)} {unit}"
    return ledger.measure(shown(lost), how, {name: shown(loss) for name, loss in losses.items()})


def _told(tree: SupplyTree, rail: Element, loss: Bounds) -> str:
    if loss.high == 0:
        return f"{rail.id} costs nothing"
    return (
        f"{rail.id} gives {told(tree.output(rail))} W at efficiency {told(tree.efficiency(rail))}, costs {told(loss)} W"
    )


def _no_rail(ledger: Ledger) -> Measure:
    ledger.lack("power", "rails")
    return ledger.measure(None, "no rail recorded")


def _in_use(ledger: Ledger) -> Bounds | None:
    """Power in W that the product takes in use; None where it is not stated or may be 0."""
    taken = as_size(as_bounds(ledger.record.power.get("in_use")))
    known = ledger.note("power", "in_use", known=taken is not None and taken.high > 0)
    return taken if known else None


def _at_most_all(share: Bounds) -> Bounds:
    """A share of what there is: not above 1, unless what is stated says so."""
    most = max(1.0, share.low)
    best = None if share.best is None else min(share.best, most)
    return Bounds(best, share.low, min(share.high, most))
