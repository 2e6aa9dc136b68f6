"""Packages: a chip size code says its system, and stated terminals and sizes fit the package."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.record.packages import chip_code, package_row
from archdiff.rules.facts import size_of
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Element, Record
    from archdiff.tables import Row

# A further terminal may be the pad under the body.
_PAD_BENEATH = 1
# Real bodies of one chip size code differ from the nominal size by less than this share and this many mm.
_SHARE, _SLACK = 0.25, 0.2


@rule("chip-code-without-system", order=323)
def chip_code_without_system(record: Record) -> Iterator[Finding]:
    """A chip size code could be meant in inches or in millimetres."""
    for element in record.elements.values():
        code = chip_code(element.text("package"))
        if code is not None and len(code.rows) > 1:
            sizes = {column: _size(row) for row in code.rows for column in _columns(row, code.digits)}
            message = (
                f"the chip size code {code.digits} is {sizes['inch']} as an inch code and {sizes['metric']} as a "
                "metric one"
            )
            hint = f"write 'inch {code.digits}' or 'metric {code.digits}'; where neither is known, state the size"
            yield Finding((*element.path, "package"), message, hint)


@rule("size-contradicts-chip-code", order=326, severity=Severity.WARNING)
def size_contradicts_chip_code(record: Record) -> Iterator[Finding]:
    """A body is said to have another size than its chip size code stands for."""
    for element in record.elements.values():
        code = chip_code(element.text("package"))
        if code is not None and len(code.rows) == 1 and _is_another_size(element, code.rows[0]):
            message = (
                f"{element.id} is said to be {element.facts['size']}, and the chip size code {code.digits} stands for "
                f"{_size(code.rows[0])}"
            )
            hint = "correct the size, or say whether the code is an inch or a metric one"
            yield Finding((*element.path, "size"), message, hint)


@rule("pins-contradict-package", order=327, severity=Severity.WARNING)
def pins_contradict_package(record: Record) -> Iterator[Finding]:
    """A part is said to have another number of terminals than its package."""
    for element in record.elements.values():
        row, facts = package_row(element)
        pins = element.facts.get("pins")
        if row is None or "pins" in facts or not isinstance(pins, int):
            continue
        if not 0 <= pins - row.number("terminals") <= _PAD_BENEATH:
            message = f"{element.id} is said to have {pins} terminals, and {row.key} has {row.number('terminals'):g}"
            hint = "count again, or correct 'package'; the pad under the body may count as one more"
            yield Finding((*element.path, "pins"), message, hint)


def _columns(row: Row, digits: str) -> list[str]:
    return [column for column in ("inch", "metric") if row.values.get(column) == digits]


def _size(row: Row) -> str:
    return f"{row.number('length'):g} x {row.number('width'):g} mm"


def _is_another_size(element: Element, row: Row) -> bool:
    size = size_of(element.facts)
    if size is None or size.is_round:
        return False
    stated = sorted((size.width, size.depth), key=lambda side: side.low)
    nominal = sorted((row.number("width"), row.number("length")))
    return any(
        side.low > most * (1 + _SHARE) + _SLACK or side.high < most * (1 - _SHARE) - _SLACK
        for side, most in zip(stated, nominal, strict=True)
    )
