"""Quantities as people write them: a value, a tolerance, a range, about, at least, at most."""

from archdiff.quantities.bounds import Bounds
from archdiff.quantities.parse import Quantity, QuantityError, Size, parse_quantity, parse_size
from archdiff.quantities.units import DIMENSIONS, shown_unit

__all__ = [
    "DIMENSIONS",
    "Bounds",
    "Quantity",
    "QuantityError",
    "Size",
    "parse_quantity",
    "parse_size",
    "shown_unit",
]
