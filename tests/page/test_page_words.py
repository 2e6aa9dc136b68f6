"""What is said of pairs, silence and numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import Agreement, Pair, Verdict
from archdiff.figures.figure import Figure, FigureResult, Measure
from archdiff.page import render_page
from archdiff.page.diagrams.scene import Mark
from archdiff.page.glyphs import mark_of
from archdiff.quantities import NOT_KNOWN, Bounds
from archdiff.record.silence import Silence, Silent
from archdiff.wording import (
    chance_words,
    counted,
    outcome_words,
    silent_short,
    silent_words,
    sure_words,
    unlisted_words,
    verdict_words,
)
from tests.page.conftest import NOT_LOOKED_AT, seat
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

NAMES = ("Veska One", "Orlim Two")
NB = "\N{NO-BREAK SPACE}"


def test_counted() -> None:
    assert [counted(n, "entry", "entries") for n in (0, 1, 2)] == ["no entries", "1 entry", "2 entries"]


@pytest.fixture
def alone(records: tuple[Record, Record]) -> Callable[[Silent | None, Verdict], Pair]:
    """A pair of the left side alone with that silence, whatever verdict it claims."""
    left, _ = records
    return lambda silent, verdict: Pair(
        seat(left, "U3"),
        None,
        "voltage conversion",
        "power",
        verdict,
        Agreement.UNKNOWN,
        Agreement.UNKNOWN,
        silent=silent,
    )


@pytest.mark.parametrize("verdict", list(Verdict))
@pytest.mark.parametrize("silent", [NOT_LOOKED_AT, None])
def test_never_only_in_where_nobody_looked(
    alone: Callable[[Silent | None, Verdict], Pair], silent: Silent | None, verdict: Verdict
) -> None:
    pair = alone(silent, verdict)
    assert verdict_words(pair, NAMES) == NOT_KNOWN
    assert mark_of(pair) is Mark.UNKNOWN
    assert silent_short(silent) == NOT_KNOWN


def test_the_three_silences_have_three_wordings(alone: Callable[[Silent | None, Verdict], Pair]) -> None:
    none = Silent(Silence.NOT_THERE, "looked for and not found", "inferred")
    inside = Silent(Silence.NO_SEPARATE_PART, "may live inside another part")
    assert verdict_words(alone(none, Verdict.ONLY_LEFT), NAMES) == "only in Veska One"
    assert verdict_words(alone(inside, Verdict.SEPARATE_LEFT), NAMES) == "separate part only in Veska One"
    assert silent_words(none) == "none found: looked for and not found (inferred)"
    assert silent_words(inside) == "no part of its own: may live inside another part (seen)"
    assert silent_words(NOT_LOOKED_AT) == "not known: parts looked at only in part"


def test_the_page_never_says_only_in_of_a_pair_nobody_looked_for(comparison: Comparison) -> None:
    rows = render_page(comparison).split("<tr ")
    for name in ("pair-board-joining", "pair-fastening"):
        row = Page("<tr " + next(row for row in rows if row.startswith(f'id="{name}"')).split("</tr>")[0]).text
        assert "not known" in row
        assert "only in Veska" not in row
        assert "only in Orlim" not in row
        assert "looked at only in part" in row


def test_one_sided_rows_name_the_product(comparison: Comparison) -> None:
    text = Page(render_page(comparison)).text
    assert "only in Veska One" in text
    assert "only in Orlim Two" in text
    assert "separate part only in Veska One" in text


def test_a_complete_pair_says_what_is_open(comparison: Comparison) -> None:
    housing = next(pair for pair in comparison.pairs if pair.function == "housing")
    assert verdict_words(housing, NAMES) == "not known: means and place"


def test_chance_is_told_in_words(comparison: Comparison) -> None:
    said = {pair.function: chance_words(pair) for pair in comparison.pairs}
    assert said["host processing"] == "almost certainly the same job"
    assert said["brightness adjustment"] == "probably the same job"
    assert said["program storage"] == "possibly the same job"
    assert said["voltage conversion"] == ""


def test_how_sure_is_told_in_words() -> None:
    assert sure_words("read") == "read off a marking or document"
    assert sure_words("") == "how it is known is not said"


def outcome(left: Bounds | None, right: Bounds | None) -> str:
    figure = Figure("f", "F", "", "boards", 1, "", "", "", of_product=lambda _: Measure(None))
    return outcome_words(FigureResult(figure, Measure(left), Measure(right)), NAMES)


def test_outcomes() -> None:
    assert outcome(Bounds.exact(4), Bounds.exact(2)) == f"Veska One: 2{NB}× Orlim Two"  # noqa: RUF001
    assert outcome(Bounds.exact(2), Bounds.exact(4)) == f"Orlim Two: 2{NB}× Veska One"  # noqa: RUF001
    assert outcome(Bounds.exact(4), Bounds.exact(4)) == "same"
    assert outcome(Bounds(4, 3, 5), Bounds(4, 3, 5)) == "no difference shown"
    assert outcome(Bounds.at_least(4), Bounds.exact(3)) == "Veska One higher"
    assert outcome(Bounds.at_least(4), Bounds.exact(9)) == NOT_KNOWN
    assert outcome(None, Bounds.exact(9)) == NOT_KNOWN


def test_a_side_that_lists_nothing_is_judged_by_how_far_it_was_looked_at() -> None:
    assert unlisted_words("whole", "paths") == "none: paths looked at whole"
    assert unlisted_words("part", "paths") == "not known: paths looked at in part"
    assert unlisted_words("none", "paths") == "not known: paths not looked at"
