"""Boards and parts: sizes that standards give, seen second-hand, and rules of thumb that none was found to give."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures
from archdiff.figures.interconnects import flat_cable_width
from archdiff.quantities import Bounds
from archdiff.record.packages import chip_code, package_row
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record


def test_placement_density(record_of: Callable[[str], Record]) -> None:
    # 220 parts on 46 cm2 are 4.78 to the cm2 (own definition, worked by hand).
    text = "coverage: {boards: whole}\nboards: {main: {area: 46 cm2, placements: {top: 200, bottom: 20}}}\n"
    density = next(figure for figure in all_figures() if figure.id == "placement-density").of_product
    assert density is not None
    bounds = density(record_of(text)).bounds
    assert bounds is not None
    assert bounds.best == pytest.approx(4.78, abs=0.005)


@pytest.mark.parametrize(
    ("ways", "pitch", "width"),
    [
        (24, 0.5, 12.5),  # common practice, from memory
        (10, 0.5, 5.5),  # usual width of a ready-made flat cable, from memory
        (6, 1.0, 7.0),  # usual width of a ready-made flat cable, from memory
    ],
)
def test_flat_cables_are_about_one_pitch_wider_than_ways_times_pitch(ways: int, pitch: float, width: float) -> None:
    bounds = flat_cable_width(Bounds.exact(ways), Bounds.exact(pitch))
    assert bounds.best == pytest.approx(width)
    assert bounds.low < width < bounds.high


# EIA (inch) and IEC (metric) chip size codes: read on makers' pages that quote them, not in the standards.
CHIP_CODES = [
    ("01005", "0402", 0.4, 0.2),
    ("0201", "0603", 0.6, 0.3),
    ("0402", "1005", 1.0, 0.5),
    ("0603", "1608", 1.6, 0.8),
    ("0805", "2012", 2.0, 1.25),
    ("1206", "3216", 3.2, 1.6),
]


@pytest.mark.parametrize(("inch", "metric", "length", "width"), CHIP_CODES)
def test_chip_size_codes_of_both_systems(inch: str, metric: str, length: float, width: float) -> None:
    for package in (f"inch {inch}", f"metric {metric}"):
        code = chip_code(package)
        assert code is not None
        (row,) = code.rows
        assert (row.number("length"), row.number("width")) == (length, width)
        assert row.cited.endswith("read second-hand")


@pytest.mark.parametrize("code", ["0402", "0603"])
def test_two_codes_of_that_list_stand_for_two_sizes_and_no_other_does(code: str) -> None:
    both = {inch for inch, *_ in CHIP_CODES} & {metric for _, metric, *_ in CHIP_CODES}
    assert both == {"0402", "0603"}
    found = chip_code(code)
    assert found is not None
    assert len(found.rows) == 2


@pytest.mark.parametrize(
    ("package", "length", "width", "pitch"),
    [
        # JEDEC MS-012 variation AA, MO-153 and MS-026, bodies in mm: read on pages that quote them.
        ("SOIC-8", 4.9, 3.9, 1.27),
        ("TSSOP-14", 5.0, 4.4, 0.65),
        ("TSSOP-16", 5.0, 4.4, 0.65),
        ("LQFP-48", 7.0, 7.0, 0.5),
        ("LQFP-64", 10.0, 10.0, 0.5),
        ("LQFP-100", 14.0, 14.0, 0.5),
        ("LQFP-144", 20.0, 20.0, 0.5),
    ],
)
def test_bodies_of_standard_packages(
    package: str, length: float, width: float, pitch: float, record_of: Callable[[str], Record]
) -> None:
    part = record_of(f"parts: {{U1: {{package: {package}}}}}\n").elements["U1"]
    row, _ = package_row(part)
    assert row is not None
    assert (row.number("length"), row.number("width"), row.number("pitch")) == (length, width, pitch)
    assert row.number("terminals") == float(package.rsplit("-", 1)[1])
    assert row.cited.endswith("read second-hand")


def test_leads_reach_over_their_bodies() -> None:
    rows = read_table("packages").rows
    for key, row in rows.items():
        body = rows.get(key.removesuffix(" over leads"))
        if body is not None and body is not row:
            over, own = (r.span("length")[0] * r.span("width")[0] for r in (row, body))
            assert over > own, key
