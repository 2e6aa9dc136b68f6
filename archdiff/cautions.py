"""Cautions for whoever opens such a product next, by where its energy comes from and where it stays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from archdiff.wording import names

if TYPE_CHECKING:
    from archdiff.comparison import Comparison
    from archdiff.record import Record

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
        "An external supply is a mains product of its own: leave it closed unless you are qualified to open it."
    ),
    "harvested": "A harvesting source works again as soon as it gets light, heat or motion: cover or disconnect it.",
}
# Not where the energy comes from, but where it stays.
_BY_CHARGE = {
    "charged capacitors": (
        "Capacitors keep their charge when the supply is gone: wait, discharge them through a resistor, never with a "
        "short, and measure before touching."
    ),
}
# From here on a store or a capacitor is worth a caution of its own: common practice, no source.
_LARGE_STORE = 2.0  # Wh
_LARGE_CHARGE = 1.0  # J


@dataclass(frozen=True, slots=True)
class Cautions:
    """What to mind with a kind of supply, and the products that have it or may have it."""

    supply: str
    products: str
    cautions: tuple[str, ...]


def all_cautions() -> dict[str, tuple[str, ...]]:
    """Every caution there is, by what it is for; 'always' first."""
    by_cause = {cause: tuple(text.splitlines()) for cause, text in (_BY_SUPPLY | _BY_CHARGE).items()}
    return {"always": tuple(ALWAYS), **by_cause}


def cautions_of(comparison: Comparison) -> tuple[Cautions, ...]:
    """The cautions that apply; a product whose supply is not stated may have any of those that hang on it.

    What a record lists beside its supply counts as well: an entry for the mains, a store of some watt-hours, a
    capacitor with a dangerous voltage or a large charge.
    """
    sides = (("left", comparison.left), ("right", comparison.right))
    stated = [set(record.product.get("supply", ())) for _, record in sides]
    found = [_found(comparison, side, record) for side, record in sides]
    groups = []
    for supply, text in (_BY_SUPPLY | _BY_CHARGE).items():
        meant = [
            name if supply in said | seen else f"{name}, whose supply is not stated"
            for name, said, seen in zip(names(comparison), stated, found, strict=True)
            if supply in said | seen or (not said and supply in _BY_SUPPLY)
        ]
        if meant:
            groups.append(Cautions(supply, " and ".join(meant), tuple(text.splitlines())))
    return tuple(groups)


def _found(comparison: Comparison, side: str, record: Record) -> set[str]:
    """The cautions that what is listed in a record calls for, whatever it says of its supply."""
    asked = {
        "mains": any(record.has_trait(entry, "mains") for entry in record.section("power.entry")),
        "battery": _any_above(comparison, side, "stored-energy", _LARGE_STORE),
        "charged capacitors": _any_above(comparison, side, "residual-energy", _LARGE_CHARGE)
        or _any_above(comparison, side, "bleed-time", 0.0),
    }
    return {caution for caution, is_called_for in asked.items() if is_called_for}


def _any_above(comparison: Comparison, side: str, figure: str, most: float) -> bool:
    """Whether a part of a figure may be above a value."""
    results = (result for result in comparison.figures if result.figure.id == figure)
    measures = (result.left if side == "left" else result.right for result in results)
    return any(part.high > most for measure in measures if measure for part in measure.parts.values())
