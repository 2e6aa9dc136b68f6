"""Boards: how many, how large, how many copper layers, how many parts are placed on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import Ledger, added, count_listed, largest, told
from archdiff.figures.facts.board_facts import MM2_PER_CM2, area_in_all, area_in_words, area_of, placed_in_all
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Size

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.record import Record

FAMILY = Family("boards", "Boards", 10)


@figure(
    title="Boards",
    glance=True,
    order=10,
    meaning="How many circuit boards the product has.",
    formula="count of boards",
    source="count; common practice, no source",
    preferred="lower: fewer boards cost less to make, join and keep in stock",
)
def board_count(record: Record) -> Measure:
    """Boards, entries that stand for several alike counted as such."""
    return count_listed(record, "boards")


@figure(
    title="Board area",
    unit="cm²",
    order=20,
    meaning="How much circuit board the product uses, one side of every board taken together.",
    formula="sum of the areas of all boards; width x height, or that of the circle, where no area is stated",
    source="plane geometry; common practice, no source",
    preferred="lower: bare board is paid for by its area",
)
def board_area(record: Record) -> Measure:
    """Area of all boards in cm², with each board's own."""
    ledger = Ledger(record)
    area, parts = area_in_all(ledger, whole=ledger.whole("boards"))
    terms = " + ".join(area_in_words(board) for board in record.boards)
    return ledger.measure(area, f"{terms or 'no boards'} = {told(area)} cm²", parts)


@figure(
    title="Board area to footprint",
    order=30,
    meaning="Area of all boards over the ground the product stands on; above 1 where boards are stacked or upright.",
    formula="board area / (width x depth of the envelope)",
    source="own definition; no source found",
)
def board_area_to_footprint(record: Record) -> Measure:
    """Board area over the footprint of the envelope, a plain number, with each board's own."""
    ledger = Ledger(record)
    area, each = area_in_all(ledger, whole=ledger.whole("boards"))
    envelope = record.product.get("envelope")
    if not isinstance(envelope, Size):
        ledger.lack("product", "envelope")
        return ledger.measure(None, f"{told(area)} cm² on a footprint not known")
    ledger.use("product", "envelope")
    footprint = envelope.area / MM2_PER_CM2
    how = f"{told(area)} cm² / {told(footprint)} cm² (envelope {envelope})"
    if footprint.high <= 0:
        return ledger.measure(None, how)
    return ledger.measure(area / footprint, how, {key: own / footprint for key, own in each.items()})


@figure(
    title="Copper layers, most",
    order=40,
    meaning="How many copper layers the board with the most of them has.",
    formula="maximum of layers over all boards",
    source="count; common practice, no source",
    preferred="lower: each pair of layers is a further pressing",
)
def board_layers(record: Record) -> Measure:
    """The greatest number of copper layers, with each board's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    layers = {board.id: ledger.value(board, "layers") for board in record.boards}
    parts = {key: value for key, value in layers.items() if value is not None}
    how = "largest of " + ", ".join(f"{key} {told(value)}" for key, value in layers.items())
    return ledger.measure(largest(layers.values(), whole=whole), how if layers else "no boards", parts)


@figure(
    title="Copper layers x area",
    unit="cm²",
    order=50,
    meaning="Area of all copper layers taken together, a first measure of what the bare boards cost.",
    formula="sum over boards of layers x area",
    source="own definition; common practice, no source",
    preferred="lower: bare board is paid for by area and layers",
)
def layer_area(record: Record) -> Measure:
    """Layers times area in cm², with each board's own."""
    ledger = Ledger(record)
    whole = ledger.whole("boards")
    parts, terms = {}, []
    for board in record.boards:
        layers, area = ledger.value(board, "layers"), area_of(ledger, board)
        terms.append(f"{told(layers)} x {area_in_words(board)}")
        if layers is not None and area is not None:
            parts[board.id] = layers * area * (board.count / MM2_PER_CM2)
    total = added((parts.get(board.id) for board in record.boards), whole=whole)
    return ledger.measure(total, f"{' + '.join(terms) or 'no boards'} = {told(total)} cm²", parts)


@figure(
    title="Placed parts",
    glance=True,
    order=60,
    meaning="How many parts are placed on the boards, top and bottom, whether listed one by one or only counted.",
    formula="sum over boards of placements on top and bottom",
    source="count; common practice, no source",
    preferred="lower: placing is paid for by the part",
)
def placements(record: Record) -> Measure:
    """Parts placed on all boards, with each board's own; sites left empty do not count."""
    ledger = Ledger(record)
    total, parts = placed_in_all(ledger, whole=ledger.whole("boards"))
    terms = " + ".join(f"{key} {told(value)}" for key, value in parts.items())
    return ledger.measure(total, f"{terms or 'no boards'} = {told(total)}", parts)
