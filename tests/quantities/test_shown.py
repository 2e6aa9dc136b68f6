"""Numbers as they are shown: few digits, a fitting unit, and never more claimed than is known."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.quantities import NOT_KNOWN, Bounds, best, number, plain, times

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
