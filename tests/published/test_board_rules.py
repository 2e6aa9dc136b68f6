"""Rules of thumb of board making, from practice: no standard was found that gives them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures
from archdiff.figures.interconnects import flat_cable_width
from archdiff.quantities import Bounds

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
