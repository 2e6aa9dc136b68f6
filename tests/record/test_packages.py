"""How much board a body takes by its package, on made-up parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.record.packages import body_by_package, chip_code

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record


@pytest.mark.parametrize(
    ("package", "digits", "system", "rows"),
    [
        ("metric 1608", "1608", "metric", 1),
        ("inch 0603", "0603", "inch", 1),
        ("imperial 0603", "0603", "inch", 1),
        ("0603 Metric", "0603", "metric", 1),
        ("chip 0805", "0805", "", 1),
        ("0603", "0603", "", 2),
    ],
)
def test_a_code_and_its_system_in_any_usual_spelling(package: str, digits: str, system: str, rows: int) -> None:
    code = chip_code(package)
    assert code is not None
    assert (code.digits, code.system, len(code.rows)) == (digits, system, rows)


@pytest.mark.parametrize("package", ["", "LQFP-100", "SOT-23-6", "QFN", "9999", "0402 (1005)", "inch 1608"])
def test_what_is_no_code_or_none_of_its_system(package: str) -> None:
    assert chip_code(package) is None


@pytest.mark.parametrize(
    ("part", "best", "low", "high", "facts"),
    [
        # 1.6 x 0.8 mm, each side give or take a tenth.
        ("package: metric 1608", 1.28, 1.28 * 0.81, 1.28 * 1.21, ("package",)),
        # A body of 7 x 7 mm, 9 x 9 mm over the leads.
        ("package: LQFP-48", None, 49 * 0.81, 81 * 1.21, ("package",)),
        ("package: LQFP, pins: 48, pitch: 0.5 mm", None, 49 * 0.81, 81 * 1.21, ("package", "pins")),
        ("package: tssop 16", None, 22 * 0.81, 32 * 1.21, ("package",)),
        # 3.9 x 4.9 mm, and no more than 5.3 x 8 mm over the leads of the wider body that is sold by this name.
        ("package: SOIC, pins: 8", None, 19.11 * 0.81, 42.4 * 1.21, ("package", "pins")),
    ],
)
def test_a_body_lies_between_its_nominal_size_and_the_span_over_its_leads(
    part: str, best: float | None, low: float, high: float, facts: tuple[str, ...], record_of: Callable[[str], Record]
) -> None:
    body = body_by_package(record_of(f"boards: {{b: {{}}}}\nparts: {{U1: {{on: b, {part}}}}}\n").elements["U1"])
    assert body is not None
    assert body.area.best == (None if best is None else pytest.approx(best))
    assert (body.area.low, body.area.high) == pytest.approx((low, high))
    assert body.facts == facts
    assert "read second-hand" in body.cited


@pytest.mark.parametrize(
    "part",
    [
        "means: resistor",
        "package: QFN, pins: 56",
        "package: SOIC",
        "package: SOIC, pins: 20",
        "package: LQFP-64, pitch: 0.4 mm",  # a smaller one of that name
        'package: "0603"',  # one of two sizes
    ],
)
def test_a_package_of_many_sizes_tells_none(part: str, record_of: Callable[[str], Record]) -> None:
    assert body_by_package(record_of(f"parts: {{U1: {{{part}}}}}\n").elements["U1"]) is None
