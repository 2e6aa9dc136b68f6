"""The whole: no piece is longer, thicker or heavier than the product it is part of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.quantities.bounds import total
from archdiff.rules.facts import board_of, number, shown, size_of, space_diagonal
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Record

# Lengths from ruler and caliper may differ by this many mm without anything being wrong.
_SLACK = 0.5


@rule("board-larger-than-product", order=310, severity=Severity.WARNING)
def board_larger_than_product(record: Record) -> Iterator[Finding]:
    """A stiff board does not fit the product's envelope when it lies along its sides."""
    envelope = size_of(record.product, "envelope")
    if envelope is None or envelope.height is None:
        return
    room = sorted(side.high for side in (envelope.width, envelope.depth, envelope.height))
    for board in record.boards:
        outline = size_of(board.facts, "outline")
        if outline is None or record.has_trait(board, "flexible"):
            continue
        short, long = sorted((outline.width.low, outline.depth.low))
        if long > room[2] + _SLACK or short > room[1] + _SLACK:
            message = f"{board.id} ({outline}) does not fit into the product's envelope ({envelope})"
            hint = "check both; leave it as it is only where the board stands aslant or folds"
            yield Finding((*board.path, "outline"), message, hint)


@rule("body-larger-than-product", order=311, severity=Severity.WARNING)
def body_larger_than_product(record: Record) -> Iterator[Finding]:
    """A stiff thing is longer than the longest line inside the product's envelope."""
    diagonal = space_diagonal(record)
    for element in record.elements.values():
        size = size_of(element.facts)
        if diagonal is None or size is None or record.has_trait(element, "flexible"):
            continue
        sides = (size.width, size.depth, *((size.height,) if size.height else ()))
        longest = max(side.low for side in sides)
        if longest > diagonal + _SLACK:
            message = (
                f"{element.id} ({size}) is longer than any line inside the product's envelope "
                f"({record.product['envelope']}: {diagonal:.4g} mm)"
            )
            yield Finding((*element.path, "size"), message, "check both sizes and their units")


@rule("port-longer-than-product", order=312)
def port_longer_than_product(record: Record) -> Iterator[Finding]:
    """A sound or air port is longer than the longest line inside the product's envelope."""
    diagonal = space_diagonal(record)
    for element in record.elements.values():
        length = number(element.facts, "port", "length")
        if diagonal is not None and length is not None and length.low > diagonal + _SLACK:
            message = (
                f"the port of {element.id} is {shown(length, 'mm')} long, and no line inside the product is longer "
                f"than {diagonal:.4g} mm"
            )
            yield Finding((*element.path, "port", "length"), message, "check the length and its unit")


@rule("path-thicker-than-product", order=313, severity=Severity.WARNING)
def path_thicker_than_product(record: Record) -> Iterator[Finding]:
    """The stages of a path are together thicker than the product."""
    diagonal = space_diagonal(record)
    for path in record.section("paths"):
        stages = path.facts.get("through", ())
        thickness = total(each for stage in stages if (each := number(stage, "thickness")) is not None)
        if diagonal is not None and thickness.low > diagonal + _SLACK:
            message = (
                f"the stages of {path.id} are together {shown(thickness, 'mm')} thick, and no line inside the product "
                f"is longer than {diagonal:.4g} mm"
            )
            hint = "check the thicknesses and their units; what runs along a stage is its 'length'"
            yield Finding((*path.path, "through"), message, hint, key=True)


@rule("heavier-than-product", order=314)
def heavier_than_product(record: Record) -> Iterator[Finding]:
    """One thing is heavier than the whole product."""
    whole = number(record.product, "mass")
    for element in record.elements.values():
        mass = number(element.facts, "mass")
        if whole is not None and mass is not None and mass.low > whole.high:
            message = f"{element.id} is said to weigh {shown(mass, 'g')}, and the whole product {shown(whole, 'g')}"
            yield Finding((*element.path, "mass"), message, "check both masses and their units")


@rule("pieces-heavier-than-product", order=315, severity=Severity.WARNING)
def pieces_heavier_than_product(record: Record) -> Iterator[Finding]:
    """The pieces add up to more mass than the whole product has."""
    whole = number(record.product, "mass")
    # A board is usually weighed with what is soldered to it, so only what is not on a board is counted beside it.
    apart = (element for element in record.elements.values() if not board_of(record, element))
    masses = [mass for element in apart if (mass := number(element.facts, "mass")) is not None]
    together = total(masses)
    if whole is not None and together.low > whole.high and all(mass.low <= whole.high for mass in masses):
        message = (
            f"what is weighed piece by piece adds up to {shown(together, 'g')}, and the whole product weighs "
            f"{shown(whole, 'g')}"
        )
        hint = "check the masses; state each without what is listed on its own"
        yield Finding(("product", "mass"), message, hint)
