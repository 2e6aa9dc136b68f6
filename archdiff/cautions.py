"""Cautions for whoever opens such a product next, by where its energy comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.wording import names

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

# What the words rest on is named at the end of each, for those who want to read the originals.
ALWAYS = (
    "Take it off its supply first. Remove the battery where there is one, and prove the circuit dead before touching "
    "it: soft stand-by keeps supplies alive after switching off.\n"
    "Wear a wrist strap on an earthed mat while handling boards, and take the strap off for any work near live parts "
    "(IEC 61340-5-1).\n"
    "Do not look into light sources directly; laser modules inside sensors included (IEC 60825-1, IEC 62471)."
).splitlines()
_BY_SUPPLY = {
    "mains": (
        "Work dead whenever it is possible; keep others out of reach; do not work alone near hazardous voltage "
        "(HSE INDG354, HSG85).\n"
        "Capacitors behind the rectifier hold their charge: discharge them through a resistor, never with a short, "
        "and measure.\n"
        "Products with two-wire plugs can have a live chassis and live heat sinks."
    ),
    "battery": (
        "Never puncture, bend, crush or heat a cell. Stop and get away at swelling, smell, leaking or warmth.\n"
        "Tape the terminals of removed cells and store them where a fire would do no harm."
    ),
    "external supply": (
        "The supply in the box is a mains product of its own: leave it closed unless you are qualified to open it."
    ),
    "harvested": "A harvesting source works again as soon as it gets light, heat or motion: cover or disconnect it.",
}


@dataclass(frozen=True, slots=True)
class Cautions:
    """What to mind with a kind of supply, and the products that have it or may have it."""

    supply: str
    products: str
    cautions: tuple[str, ...]


def cautions_of(comparison: Comparison) -> tuple[Cautions, ...]:
    """The cautions that apply; a product whose supply is not stated may have any."""
    records = (comparison.left, comparison.right)
    supplies = [set(record.product.get("supply", ())) for record in records]
    groups = []
    for supply, text in _BY_SUPPLY.items():
        meant = [
            name if supply in stated else f"{name}, whose supply is not stated"
            for name, stated in zip(names(comparison), supplies, strict=True)
            if supply in stated or not stated
        ]
        if meant:
            groups.append(Cautions(supply, " and ".join(meant), tuple(text.splitlines())))
    return tuple(groups)
