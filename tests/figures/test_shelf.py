from __future__ import annotations

import subprocess
import sys
from collections import Counter
from typing import TYPE_CHECKING

import pytest

import archdiff.figures
from archdiff.figures import Measure, PairView, all_figures, compute_figures, families, shelf
from archdiff.quantities import Bounds

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from archdiff.record import Record

FAMILY = shelf.Family("tried", "Tried", 1)
NEW_FAMILY = """
from archdiff.figures.figure import Measure
from archdiff.figures.shelf import Family, figure
from archdiff.quantities import Bounds
FAMILY = Family("zz-first", "First of all", -5)
@figure(title="Second", order=2, meaning="m", formula="f", source="s")
def aaa_second(record):
    return Measure(Bounds.exact(2))
@figure(title="First", order=1, meaning="m", formula="f", source="s")
def zzz_first(record):
    return Measure(Bounds.exact(1))
"""


@pytest.fixture
def new_family(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    (tmp_path / "zz_tried_out.py").write_text(NEW_FAMILY)
    monkeypatch.setattr(archdiff.figures, "__path__", [*archdiff.figures.__path__, str(tmp_path)])
    shelf._shelf.cache_clear()
    yield
    shelf._shelf.cache_clear()
    sys.modules.pop("archdiff.figures.zz_tried_out", None)


@pytest.mark.usefixtures("new_family")
def test_a_new_family_is_one_new_file_and_stands_where_it_says() -> None:
    assert families()[0].id == "zz-first"
    assert [figure.id for figure in all_figures()[:2]] == ["zzz-first", "aaa-second"]
    assert families()[1].order >= 0


def test_every_figure_is_described_and_computes_one_thing() -> None:
    for figure in all_figures():
        assert all((figure.title, figure.meaning, figure.formula, figure.source)), figure.id
        assert figure.meaning.endswith("."), figure.id
        assert (figure.of_product is None) != (figure.of_pair is None), figure.id


def test_ids_titles_and_places_are_used_once() -> None:
    figures = all_figures()
    for what in ([f.id for f in figures], [f.title for f in figures], [(f.family, f.order) for f in figures]):
        assert [name for name, times in Counter(what).items() if times > 1] == []
    assert len({family.order for family in families()}) == len(families())


def test_order_is_the_declared_one() -> None:
    places = {family.id: family.order for family in families()}
    keys = [(places[figure.family], figure.order) for figure in all_figures()]
    assert keys == sorted(keys)


def test_importing_the_package_loads_no_family() -> None:
    code = "import sys, archdiff.figures; sys.exit('archdiff.figures.boards' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_figure_that_does_not_say_where_it_comes_from_is_refused() -> None:
    def lonely(record: Record) -> Measure:
        return Measure(Bounds.exact(len(record.elements)))

    with pytest.raises(TypeError, match="lonely does not say its order, source"):
        shelf.figure(title="t", meaning="m", formula="f")(lonely)
    kept = shelf.figure(title="t", meaning="m", formula="f", source="s", order=1)(lonely)
    assert (kept.id, kept.family, kept.unit) == ("lonely", "tried", "")


def test_all_are_computed_for_both_sides_or_for_the_pair(record_of: Callable[[str], Record]) -> None:
    from archdiff.alignment.model import Alignment
    from archdiff.alignment.partition import Partition

    left, right = record_of("coverage: {boards: whole}\n"), record_of("boards: {main: {}}\n")
    results = compute_figures(PairView(left, right, Alignment((), ()), Partition((), ())))
    assert [result.figure for result in results] == list(all_figures())
    for result in results:
        assert (result.left is None) == (result.right is None) == (result.pair is not None)
    boards = next(result for result in results if result.figure.id == "board-count")
    assert boards.left is not None
    assert boards.right is not None
    assert boards.left.bounds == Bounds.exact(0)
    assert boards.right.bounds == Bounds.at_least(1)
