"""Cost and mass: what is stated of the product as a whole, and what its parts add up to."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, largest, told
from archdiff.figures.facts.roll_up import (
    STATING,
    carried_by_board,
    lack_place,
    masses,
    prices,
    section_of,
    subsystem_of,
)
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds, Quantity, Size
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.figures.figure import Measure
    from archdiff.record import Record

_SECTIONS = tuple(dict.fromkeys(name.split(".", maxsplit=1)[0] for name in STATING))
FAMILY = Family("cost", "Cost, mass and size", 120)
_MM3_PER_CM3 = 1000.0
_TOGETHER = "own sum of stated prices; common practice, no source"


@figure(
    title="Price",
    order=10,
    meaning="What the product is sold for, as stated, in the currency stated.",
    formula="as stated",
    source="the record",
    preferred="lower for the buyer",
)
def price(record: Record) -> Measure:
    """Price with its currency as the unit; prices in two currencies are not compared."""
    stated = record.product.get("price")
    measure = _as_stated(record, "price")
    return replace(measure, unit=stated.currency) if isinstance(stated, Quantity) else measure


@figure(
    title="Prices of parts, together",
    order=12,
    meaning="What the boards, parts, links and pieces listed cost together, where a price is stated; no work, no box.",
    formula="sum of stated prices; a board's price is that of one bare board, any other that of its whole entry",
    source=_TOGETHER,
    preferred="lower for the maker",
)
def stated_prices(record: Record) -> Measure:
    """Sum by subsystem in the currency stated; open above by every price that is lacking."""
    ledger = Ledger(record)
    whole = ledger.whole(*_SECTIONS)
    found = prices(ledger)
    currencies = sorted(set(found.currencies.values()))
    if len(currencies) > 1:
        parts = {currency: found.sum(whole=whole, currency=currency) for currency in currencies}
        ledger.lack("product", "prices of the parts in one currency")
        return ledger.measure(None, "in several currencies, which cannot be added up", parts)
    if not found.values:
        ledger.lack("product", "anything that could have a price")
        return ledger.measure(None, "nothing recorded that could have a price")
    parts, total = found.by(subsystem_of(ledger), whole=whole), found.sum(whole=whole)
    measure = ledger.measure(total, f"{_in_words(parts, total)}; {found.in_words()}", parts)
    return replace(measure, unit=currencies[0]) if currencies and measure.bounds else measure


@figure(
    title="Dearest board with what it carries",
    order=14,
    meaning="What the dearest of the boards costs together with everything listed on it, where a price is stated.",
    formula="greatest over boards of bare board + prices of what is listed on it",
    source=_TOGETHER,
    preferred="lower for the maker",
)
def board_price(record: Record) -> Measure:
    """Sum by board in the currency stated; open above by every price that is lacking."""
    ledger = Ledger(record)
    whole = ledger.whole(*_SECTIONS)
    found = prices(Ledger(record))
    carried, placeless = carried_by_board(record)
    for thing in placeless:
        lack_place(ledger, thing)
    whole = whole and not placeless
    each = {board.id: found.sum(whole=whole, only=carried[board.id]) for board in record.boards}
    currencies = sorted(set(found.currencies.values()))
    if len(currencies) > 1 or not each:
        ledger.lack("product", "boards, and prices of the parts in one currency")
        return ledger.measure(None, "no boards, or prices in several currencies")
    if any(sum_.high == inf for sum_ in each.values()):
        ledger.lack("boards", "prices of everything that they carry")
    how = ", ".join(f"{name} {told(sum_)}" for name, sum_ in each.items())
    measure = ledger.measure(largest(each.values(), whole=whole), f"greatest of: {how}", each)
    return replace(measure, unit=currencies[0]) if currencies and measure.bounds else measure


@figure(
    title="Prices of parts over price",
    order=16,
    meaning="Share of the product's price that the stated prices of its parts make up.",
    formula="prices of parts, together / price",
    source=_TOGETHER,
)
def price_share(record: Record) -> Measure:
    """Share of the price, where both are in one currency."""
    ledger = Ledger(record)
    whole = ledger.whole(*_SECTIONS)
    found, stated = prices(Ledger(record)), record.product.get("price")
    known = ledger.note("product", "price", known=isinstance(stated, Quantity))
    currencies = {*found.currencies.values(), *([stated.currency] if isinstance(stated, Quantity) else [])}
    total = found.sum(whole=whole and bool(found.values))
    if total.high == inf:
        ledger.lack("product", "prices of all its parts")
    if len(currencies) > 1:
        ledger.lack("product", "prices of product and parts in one currency")
    if not known or not isinstance(stated, Quantity) or len(currencies) > 1 or stated.bounds.low <= 0:
        return ledger.measure(None, "price not stated, nothing, or in another currency than those of the parts")
    return ledger.measure(total / stated.bounds, f"{told(total)} / {stated}; {found.in_words()}")


@figure(
    title="Mass",
    unit="g",
    order=20,
    meaning="What the whole product weighs, as stated.",
    formula="as stated",
    source="the record",
    preferred="lower: less material and carriage",
)
def mass(record: Record) -> Measure:
    """Mass in g."""
    return _as_stated(record, "mass")


@figure(
    title="Masses of parts, together",
    unit="g",
    order=22,
    meaning="What the boards with their parts, the pieces, links and other things off the boards weigh together.",
    formula="sum of stated masses, each of its whole entry; what lies on a board is weighed with it",
    source="own sum of stated masses; common practice, no source",
)
def stated_masses(record: Record) -> Measure:
    """Sum in g by kind of thing; open above by every mass that is lacking."""
    ledger = Ledger(record)
    whole = ledger.whole(*_SECTIONS)
    found = masses(ledger)
    if not found.values:
        ledger.lack("product", "anything that could have a mass")
        return ledger.measure(None, "nothing recorded that could have a mass")
    parts, total = found.by(section_of(ledger), whole=whole), found.sum(whole=whole)
    return ledger.measure(total, f"{_in_words(parts, total)}; {found.in_words()}", parts)


@figure(
    title="Mass accounted for",
    order=24,
    meaning="Share of the product's mass that the masses of its parts make up; screws and glue are in none of them.",
    formula="masses of parts, together / mass",
    source="own share; common practice, no source",
)
def mass_share(record: Record) -> Measure:
    """Share of the mass."""
    ledger = Ledger(record)
    whole = ledger.whole(*_SECTIONS)
    found, stated = masses(Ledger(record)), as_bounds(record.product.get("mass"))
    total = found.sum(whole=whole and bool(found.values))
    if total.high == inf:
        ledger.lack("product", "masses of all its parts")
    if not ledger.note("product", "mass", known=stated is not None) or stated is None or stated.low <= 0:
        return ledger.measure(None, "mass of the product not stated, or nothing")
    return ledger.measure(total / stated, f"{told(total)} g / {record.product['mass']}; {found.in_words()}")


@figure(
    title="Envelope volume",
    unit="cm³",
    order=30,
    meaning="How much room the smallest box around the product takes.",
    formula="width x depth x height of the envelope; circle area x height where it is round",
    source="solid geometry; common practice, no source",
)
def envelope_volume(record: Record) -> Measure:
    """Volume in cm³ of the stated envelope."""
    ledger = Ledger(record)
    envelope = record.product.get("envelope")
    known = isinstance(envelope, Size) and envelope.height is not None
    ledger.note("product", "envelope", known=known)
    if not isinstance(envelope, Size) or envelope.height is None:
        return ledger.measure(None, "envelope not stated with all three sizes")
    return ledger.measure(envelope.area * envelope.height * (1 / _MM3_PER_CM3), str(envelope))


@figure(
    title="Heft",
    unit="g/cm³",
    order=35,
    meaning="Mass over the volume of the smallest box around the product: how full or how hollow it feels in the hand.",
    formula="mass / volume of the envelope",
    source="density as mass over volume (ISO 80000-4); the box is larger than the body",
)
def heft(record: Record) -> Measure:
    """Mass over envelope volume in g/cm³."""
    ledger = Ledger(record)
    mass, envelope = as_bounds(record.product.get("mass")), record.product.get("envelope")
    has_volume = isinstance(envelope, Size) and envelope.height is not None
    known = [
        ledger.note("product", "mass", known=mass is not None),
        ledger.note("product", "envelope", known=has_volume),
    ]
    if not all(known) or mass is None or not isinstance(envelope, Size) or envelope.height is None:
        return ledger.measure(None, "mass, or envelope with all three sizes, not stated")
    volume = envelope.area * envelope.height * (1 / _MM3_PER_CM3)
    return ledger.measure(mass / volume, f"{record.product['mass']} / ({envelope} = {told(volume)} cm³)")


def _in_words(parts: Mapping[str, Bounds], total: Bounds) -> str:
    return f"{' + '.join(f'{name} {told(part)}' for name, part in parts.items())} = {told(total)}"


def _as_stated(record: Record, name: str) -> Measure:
    ledger = Ledger(record)
    value = record.product.get(name)
    ledger.note("product", name, known=value is not None)
    return ledger.measure(as_bounds(value), "not stated" if value is None else str(value))
