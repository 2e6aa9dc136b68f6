"""Heat: what stands in its way from source to air, how warm faces get, how much there is on how much area."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, largest, told
from archdiff.figures.facts.board_facts import area_in_all
from archdiff.figures.facts.heat_boards import conductivity_of
from archdiff.figures.facts.heat_flows import heat_of, power_in_use
from archdiff.figures.facts.heat_layers import few
from archdiff.figures.facts.heat_outside import outer_area, outside_of
from archdiff.figures.facts.heat_rise import assume_still_air, rise_in_words, rise_of
from archdiff.figures.facts.heat_sums import face_rises, face_temperatures, resistances, source_rises
from archdiff.figures.shelf import Family, figure
from archdiff.physics.conduction import along_layers, through_layers

if TYPE_CHECKING:
    from archdiff.figures.facts.heat_boards import Rule
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("heat", "Heat", 70)
_SLABS = (
    "resistances of slabs in series and parallel, Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3"
)
_STILL_AIR = "Churchill & Chu 1975; McAdams 1954 in the form of Çengel, Heat and Mass Transfer, ch. 9; Stefan-Boltzmann"
_LAYERED = "layers side by side and one after the other, as for printed boards in Graebner & Azar 1997"
_COOLER = "lower: cooler at the same power"
_SPREADS = "higher: heat spreads further from its source"
_NO_PATH = "no heat path recorded"
_MW_PER_W = 1e3
_MM2_PER_CM2 = 100.0


@figure(
    title="Heat path, source to outer face",
    unit="K/W",
    order=10,
    meaning="How much the way from a source to the outer face resists heat, on the path that resists it most.",
    formula="greatest over heat paths of the sum over stages of thickness / (conductivity x area), or as stated",
    source=_SLABS,
    preferred=_COOLER,
)
def heat_path_resistance(record: Record) -> Measure:
    """Resistance in K/W from source to outer face, with that of each path and stage."""
    return resistances(Ledger(record), _NO_PATH)


@figure(
    title="Source above the air",
    unit="K",
    order=20,
    meaning="How much warmer than the air around the warmest source gets, of all sources that have a heat path.",
    formula="greatest over heat paths of the rise of the outer face + sum over stages of resistance x power through it",
    source=f"{_SLABS}; {_STILL_AIR}",
    preferred=_COOLER,
)
def source_rise(record: Record) -> Measure:
    """Rise in K of the source over the air, with that of each path."""
    return source_rises(Ledger(record), _NO_PATH)


@figure(
    title="Outer face above the air",
    unit="K",
    order=30,
    meaning="How much warmer than the air around the warmest outer face gets, as a mean over the area that is warm.",
    formula="power / (area x (convection + radiation)), both of which depend on the rise: sought until they agree",
    source=_STILL_AIR,
    preferred=_COOLER,
)
def face_rise(record: Record) -> Measure:
    """Rise in K of the outer face over the air, with that of each face."""
    return face_rises(Ledger(record), _NO_PATH)


@figure(
    title="Temperature of the outer face",
    unit="°C",
    order=40,
    meaning="How warm the warmest outer face gets in the air that the record states, as a mean over the warm area.",
    formula="temperature of the air + rise of the outer face",
    source=f"{_STILL_AIR}; touch: IEC 62368-1 class TS1",
    preferred=_COOLER,
)
def face_temperature(record: Record) -> Measure:
    """Temperature in °C of the outer face, beside the published ones for touching it."""
    return face_temperatures(Ledger(record), _NO_PATH)


@figure(
    title="Outside above the air, heat spread evenly",
    unit="K",
    order=50,
    meaning="How much warmer than standard air the whole outside would be if it gave off the product's heat evenly.",
    formula="power / (outer area x (convection + radiation)); power from that of the heat paths to all in use",
    source=_STILL_AIR,
    preferred=_COOLER,
)
def outside_rise(record: Record) -> Measure:
    """Rise in K of the outside over the air at an even temperature; a draught through the product lowers it."""
    ledger = Ledger(record)
    heat = heat_of(ledger, at_most=False)
    face = outside_of(ledger, heat, power_in_use(ledger))
    assume_still_air(ledger)
    ledger.assume("the side it stands on gives off heat as the others do; what air carries through vents leaves less")
    rise = rise_of(face)
    return ledger.measure(rise, rise_in_words(face, rise))


@figure(
    title="Power per outer area",
    unit="mW/cm²",
    order=60,
    meaning="How much power in use each square centimetre of the outside has to give off.",
    formula="power in use / outer area, from that of the pieces to that of the box around the product",
    source="own definition; no source found",
    preferred=_COOLER,
)
def power_per_outer_area(record: Record) -> Measure:
    """Power in use over outer area, in mW/cm²."""
    ledger = Ledger(record)
    power, (area, words) = power_in_use(ledger), outer_area(ledger)
    if power is None:
        return ledger.measure(None, "power in use not known")
    return ledger.measure(power * _MW_PER_W / (area * (1 / _MM2_PER_CM2)), f"{few(power)} W / ({words})")


@figure(
    title="Power per board area",
    unit="mW/cm²",
    order=70,
    meaning="How much power in use there is for each square centimetre of circuit board, one side counted.",
    formula="power in use / area of all boards; what is not on boards takes its share of the power",
    source="own definition; no source found",
    preferred=_COOLER,
)
def power_per_board_area(record: Record) -> Measure:
    """Power in use over board area, in mW/cm²."""
    ledger = Ledger(record)
    power, (area, _) = power_in_use(ledger), area_in_all(ledger, whole=ledger.whole("boards"))
    if power is None or area.high <= 0:
        return ledger.measure(None, "power in use not known" if power is None else "no boards")
    return ledger.measure(power * _MW_PER_W / area, f"{few(power)} W / {told(area)} cm²")


@figure(
    title="Heat along a board",
    unit="W/(m·K)",
    order=80,
    meaning="How well the board that spreads heat best may conduct it along its layers.",
    formula="largest over boards of (copper x its conductivity + laminate x its own) / thickness",
    source=_LAYERED,
    preferred=_SPREADS,
)
def board_conductivity_along(record: Record) -> Measure:
    """Conductivity in W/(m K) along the layers, with that of each board."""
    return _of_boards(record, "along", along_layers)


@figure(
    title="Heat through a board",
    unit="W/(m·K)",
    order=90,
    meaning="How well the board that lets most heat through may conduct it from face to face, plated holes left out.",
    formula="largest over boards of thickness / (copper / its conductivity + laminate / its own)",
    source=_LAYERED,
)
def board_conductivity_through(record: Record) -> Measure:
    """Conductivity in W/(m K) through the layers, with that of each board."""
    return _of_boards(record, "through", through_layers)


def _of_boards(record: Record, column: str, rule: Rule) -> Measure:
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    each = {board.id: conductivity_of(ledger, board, column, rule) for board in record.boards}
    parts = {name: bounds for name, (bounds, _) in each.items() if bounds is not None}
    how = "; ".join(words for _, words in each.values()) or "no boards"
    return ledger.measure(largest((bounds for bounds, _ in each.values()), whole=whole), how, parts)
