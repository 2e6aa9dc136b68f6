"""How evenly parts lie on boards, against worked examples.

Formulas: Shannon 1948 (entropy), Herfindahl (sum of squared shares; effective number is its inverse), Gini. The
example 30/30/20/20 with 2600 points was read on a page of the US Department of Justice on the index; its Gini
coefficient and all other values were recomputed by hand and with numpy.
"""

from __future__ import annotations

from math import log2
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Figure
    from archdiff.record import Record


def figure_of(name: str) -> Figure:
    from archdiff.figures import all_figures

    return next(figure for figure in all_figures() if figure.id == name)


def boards(*placed: int) -> str:
    rows = ", ".join(f"b{i}: {{placements: {{top: {n}, bottom: 0}}}}" for i, n in enumerate(placed))
    return f"coverage: {{boards: whole}}\nboards: {{{rows}}}\n"


@pytest.mark.parametrize(
    ("figure", "placed", "value"),
    [
        ("allocation-entropy", (50, 30, 20), 1.485475),  # recomputed; over log2 3 it is 0.937231
        ("effective-boards", (30, 30, 20, 20), 1 / 0.26),  # 2600 points of 10 000 (read)
        ("placement-gini", (30, 30, 20, 20), 0.1),  # recomputed
        ("effective-boards", (40, 30, 20, 10), 3.3333),  # recomputed: index 0.30
        ("placement-gini", (40, 30, 20, 10), 0.25),  # recomputed
    ],
)
def test_worked_examples(
    figure: str, placed: tuple[int, ...], value: float, record_of: Callable[[str], Record]
) -> None:
    compute = figure_of(figure).of_product
    assert compute is not None
    bounds = compute(record_of(boards(*placed))).bounds
    assert bounds is not None
    assert bounds.is_exact
    assert bounds.best == pytest.approx(value, abs=5e-5)


def test_entropy_of_the_example_over_that_of_equal_shares(record_of: Callable[[str], Record]) -> None:
    compute = figure_of("allocation-entropy").of_product
    assert compute is not None
    bounds = compute(record_of(boards(50, 30, 20))).bounds
    assert bounds is not None
    assert bounds.low / log2(3) == pytest.approx(0.937231, abs=5e-7)


def test_gini_of_the_example_without_the_bias_of_few_boards(record_of: Callable[[str], Record]) -> None:
    # Times n / (n - 1): 0.25 x 4 / 3 = 0.3333 for shares of 40, 30, 20 and 10 (recomputed by hand).
    compute = figure_of("placement-gini").of_product
    assert compute is not None
    bounds = compute(record_of(boards(40, 30, 20, 10))).bounds
    assert bounds is not None
    assert bounds.low * 4 / 3 == pytest.approx(0.3333, abs=5e-5)
