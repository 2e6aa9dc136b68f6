"""Cautions for whoever opens such a product next, by where its energy comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.cautions import ALWAYS, cautions_of

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TITLE = "Cautions"
ORDER = 160


def view(comparison: Comparison) -> dict[str, Any]:
    """The cautions that apply, each with the products that it is for."""
    return {"always": ALWAYS, "groups": cautions_of(comparison)}
