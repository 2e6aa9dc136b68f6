"""Cost and mass: what is stated of the product as a whole."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Quantity, Size
from archdiff.record import as_bounds

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("cost", "Cost, mass and size", 120)
_MM3_PER_CM3 = 1000.0


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


def _as_stated(record: Record, name: str) -> Measure:
    ledger = Ledger(record)
    value = record.product.get(name)
    ledger.note("product", name, known=value is not None)
    return ledger.measure(as_bounds(value), "not stated" if value is None else str(value))
