"""What is not known, and what to look at next on the bench."""

from archdiff.unknowns.asked import Thing, thing_of
from archdiff.unknowns.gathered import CONFIRM_BELOW, Unknown, to_confirm, unknowns_of
from archdiff.unknowns.looks import LookAt, first_of, look_at, telling

__all__ = [
    "CONFIRM_BELOW",
    "LookAt",
    "Thing",
    "Unknown",
    "first_of",
    "look_at",
    "telling",
    "thing_of",
    "to_confirm",
    "unknowns_of",
]
