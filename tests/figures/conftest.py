"""What the tests of the figures share: a figure's measure by the figure's id, and its bounds as two numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.figures import all_figures

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]


@pytest.fixture(scope="session")
def measure_of() -> MeasureOf:
    by_id = {figure.id: figure for figure in all_figures()}

    def measure(name: str, record: Record) -> Measure:
        compute = by_id[name].of_product
        assert compute is not None
        return compute(record)

    return measure


@pytest.fixture(scope="session")
def ends_of(measure_of: MeasureOf) -> EndsOf:
    """The lowest and highest value of a figure, None where nothing can be said."""

    def ends(name: str, record: Record) -> tuple[float, float] | None:
        bounds = measure_of(name, record).bounds
        return None if bounds is None else (bounds.low, bounds.high)

    return ends
