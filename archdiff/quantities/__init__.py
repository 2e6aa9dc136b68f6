"""Quantities as people write them: a value, a tolerance, a range, about, at least, at most; and as they are shown."""

from archdiff.quantities.bounds import Bounds, across
from archdiff.quantities.parse import Quantity, QuantityError, Size, parse_quantity, parse_size
from archdiff.quantities.shown import NOT_KNOWN, best, number, plain, times
from archdiff.quantities.units import DIMENSIONS, shown_unit

__all__ = [
    "DIMENSIONS",
    "NOT_KNOWN",
    "Bounds",
    "Quantity",
    "QuantityError",
    "Size",
    "across",
    "best",
    "number",
    "parse_quantity",
    "parse_size",
    "plain",
    "shown_unit",
    "times",
]
