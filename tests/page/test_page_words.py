"""What is said of pairs, silence and numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.alignment import Agreement, Pair, Verdict
from archdiff.figures.figure import Figure, FigureResult, Measure
from archdiff.page import render_page
from archdiff.page.diagrams.scene import Mark
from archdiff.page.words import (
    NOT_KNOWN,
    best,
    chance_words,
    counted,
    mark_of,
    number,
    outcome_words,
    plain,
    silent_short,
    silent_words,
    sure_words,
    times,
    unlisted_words,
    verdict_words,
)
from archdiff.quantities import Bounds
from archdiff.record.silence import Silence, Silent
from tests.page.conftest import NOT_LOOKED_AT, seat
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

NAMES = ("Veska One", "Orlim Two")
NB, THIN = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("bounds", "unit", "text"),
    [
        (None, "mm", NOT_KNOWN),
        (Bounds.unknown(), "mm", NOT_KNOWN),
        (Bounds.unknown(0), "", NOT_KNOWN),
        (Bounds.exact(118), "", "118"),
        (Bounds.at_least(118), "", f"≥{NB}118"),
        (Bounds.unknown(0, 3), "mm", f"≤{NB}3{NB}mm"),
        (Bounds.exact(1240), "mm2", f"12.4{NB}cm²"),
        (Bounds.exact(1240), "mm²", f"12.4{NB}cm²"),
        (Bounds.exact(640), "mm²", f"640{NB}mm²"),
        (Bounds(10, 9.8, 10.2), "", "9.8…10.2"),
        (Bounds(None, 4.0, 6.0), "W", f"4…6{NB}W"),
        (Bounds.exact(0.3), "W", f"0.3{NB}W"),
        (Bounds.exact(0.017), "W", f"17{NB}mW"),
        (Bounds.exact(0.1 + 0.2), "V", f"0.3{NB}V"),
        (Bounds.exact(2.4e9), "Hz", f"2.4{NB}GHz"),
        (Bounds.exact(0.0001), "F", f"100{NB}µF"),
        (Bounds.exact(132), "s", f"132{NB}s"),
        (Bounds.exact(1320), "s", f"22{NB}min"),
        (Bounds.exact(8 * 2**20), "byte", f"8{NB}MiB"),
        (Bounds.exact(0), "W", f"0{NB}W"),
        (Bounds.exact(-3.25), "dB", f"\N{MINUS SIGN}3.25{NB}dB"),
        (Bounds.exact(12345), "", f"12{THIN}345"),
        (Bounds.exact(90), "°", "90°"),
    ],
)
def test_number(bounds: Bounds | None, unit: str, text: str) -> None:
    assert number(bounds, unit) == text


def test_the_ends_of_a_range_are_rounded_outwards() -> None:
    assert number(Bounds(None, 9.8412, 10.1588)) == "9.8…10.2"
    assert number(Bounds.at_least(118.99)) == f"≥{NB}118"
    assert number(Bounds.unknown(0, 3.001)) == f"≤{NB}3.01"


def test_a_narrow_range_is_never_shown_as_one_number() -> None:
    assert number(Bounds(None, 100.01, 100.02)) == "100.01…100.02"


@given(st.floats(-1e7, 1e7), st.floats(0, 1e6))
def test_a_shown_range_holds_the_true_one(low: float, width: float) -> None:
    text = number(Bounds(None, low, low + width)).replace(THIN, "").replace("\N{MINUS SIGN}", "-")
    ends = [float(part.strip("≤ \N{NO-BREAK SPACE}")) for part in text.split("…")]
    slack = 1e-6 * max(1.0, abs(low) + width)
    if len(ends) == 2:
        assert ends[0] <= low + slack
    assert ends[-1] >= low + width - max(slack, 5e-3 * abs(low + width) * (len(ends) == 1))


def test_best_is_silent_where_the_number_is_exact() -> None:
    assert best(Bounds.exact(3)) == ""
    assert best(Bounds.at_least(3)) == ""
    assert best(Bounds(2800, 2700, 2900), "mm²") == f"28{NB}cm²"


def test_times() -> None:
    assert times(Bounds(2.1, 1.9, 2.3)) == f"1.9…2.3{NB}×"  # noqa: RUF001
    assert times(None) == ""
    assert times(Bounds.at_least(2)) == ""


def test_plain_numbers() -> None:
    assert [plain(value) for value in (0, -0.0, 3.0, 3.14159, 0.000123, 1234.5)] == [
        "0",
        "0",
        "3",
        "3.14",
        "0.000123",
        "1234",
    ]


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
    assert outcome(Bounds.exact(4), Bounds.exact(2)) == f"Veska One higher, 2{NB}×"  # noqa: RUF001
    assert outcome(Bounds.exact(2), Bounds.exact(4)) == f"Orlim Two higher, 2{NB}×"  # noqa: RUF001
    assert outcome(Bounds.exact(4), Bounds.exact(4)) == "same"
    assert outcome(Bounds(4, 3, 5), Bounds(4, 3, 5)) == "no difference shown"
    assert outcome(Bounds.at_least(4), Bounds.exact(3)) == "Veska One higher"
    assert outcome(Bounds.at_least(4), Bounds.exact(9)) == NOT_KNOWN
    assert outcome(None, Bounds.exact(9)) == NOT_KNOWN


def test_a_side_that_lists_nothing_is_judged_by_how_far_it_was_looked_at() -> None:
    assert unlisted_words("whole", "paths") == "none: paths looked at whole"
    assert unlisted_words("part", "paths") == "not known: paths looked at in part"
    assert unlisted_words("none", "paths") == "not known: paths not looked at"
