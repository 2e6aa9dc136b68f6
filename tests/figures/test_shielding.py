from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archdiff.figures import shielding
from archdiff.record import read_record

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Figure, Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]

WHOLE = "coverage: {parts: whole, shields: whole}\n"
BUILD = """boards: {main: {}}
parts:
  U1: {on: main, function: host processing}
  U2: {on: main, function: wireless networking, hidden_under: can}
  U3: {on: main, function: program storage}
  R1: {on: main, function: signal biasing, count: 5}
shields:
  can: {on: main, means: soldered can, covers: [U1]}
  rim: {on: main, means: black foam light barrier, covers: [U3]}
"""


@pytest.mark.parametrize(
    ("text", "ends", "missing"),
    [
        (BUILD, (2 / 8, 2 / 8), ()),
        (BUILD.replace(", covers: [U1]", ""), (1 / 8, 1), ("can: covers",)),
        (BUILD.replace(", covers: [U3]", ""), (2 / 8, 2 / 8), ()),
        (BUILD.replace("means: black foam light barrier, ", ""), (2 / 8, 3 / 8), ("rim: means",)),
        (BUILD.replace(", hidden_under: can", ""), (1 / 8, 1 / 8), ()),
    ],
)
def test_share_of_parts_that_a_conducting_shield_covers(
    text: str, ends: tuple[float, float], missing: tuple[str, ...], record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of("share-under-shields", record_of(WHOLE + text))
    assert measure.bounds is not None
    assert (measure.bounds.low, measure.bounds.high) == pytest.approx(ends)
    assert measure.missing == missing


@pytest.mark.parametrize("lacking", ["parts", "shields"])
def test_the_share_is_not_known_where_parts_or_shields_were_looked_at_in_part(
    lacking: str, record_of: RecordOf, measure_of: MeasureOf
) -> None:
    measure = measure_of(
        "share-under-shields", record_of(WHOLE.replace(f"{lacking}: whole", f"{lacking}: part") + BUILD)
    )
    assert measure.bounds is None
    assert measure.missing == (f"{lacking}: looked at only in part",)


def test_no_shields_at_all_cover_nothing(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("share-under-shields", record_of(WHOLE + BUILD.split("shields:", maxsplit=1)[0]))
    assert measure.bounds is not None
    assert measure.bounds.high == 0


# --- what the openings leave -----------------------------------------------------------------------------------------

C = 299_792_458_000  # mm/s, exact (SI Brochure)
LOW, HIGH = 2.4e9, 2.4835e9  # the 2.4 GHz band (CEPT ERC Recommendation 70-03, read second-hand)
EXAMPLES = Path(__file__).parents[2] / "examples"
ALL = "coverage: {parts: whole, shields: whole, antennas: whole}\n"
CAN = "shields: {can: {means: soldered can, largest_opening: 5 mm, openings: 4}}\n"
RADIO = "antennas: {a: {means: chip antenna, band: 2.4 GHz}}\n"
HOST = "parts: {U1: {means: microcontroller, clock: 150 MHz}, Y1: {means: quartz crystal, clock: 24 MHz}}\n"
SLOTS = [
    shielding.largest_shield_opening,
    shielding.slot_shielding_reach,
    shielding.slot_shielding_at_radio_bands,
    shielding.slot_shielding_at_highest_clock,
    shielding.shield_opening_in_wavelengths,
]
REACH, BANDS, CLOCK, WAVES = SLOTS[1:]


def measured(figure: Figure, record: Record) -> Measure:
    assert figure.of_product is not None
    return figure.of_product(record)


def ends(figure: Figure, record: Record) -> tuple[float, float] | None:
    bounds = measured(figure, record).bounds
    return None if bounds is None else (bounds.low, bounds.high)


def ott(length: float, hertz: float, count: int = 1) -> float:
    """Ott's slot formula (read second-hand), where the slot is shorter than half a wave."""
    return 20 * math.log10(C / hertz / (2 * length)) - 10 * math.log10(count)


def test_slots_at_the_radio_band_and_at_the_clock(record_of: RecordOf) -> None:
    record = record_of(ALL + CAN + RADIO + HOST)
    # From all four openings acting as one at the top of the band to one alone at its foot.
    assert ends(BANDS, record) == pytest.approx((ott(5, HIGH, 4), ott(5, LOW)))
    assert ends(CLOCK, record) == pytest.approx((ott(5, 150e6, 4), ott(5, 150e6)))
    clock = measured(CLOCK, record).bounds
    assert clock is not None
    assert clock.best == pytest.approx(ott(5, 150e6, 4))
    assert ends(WAVES, record) == pytest.approx((5 * LOW / C, 5 * HIGH / C))
    # 20 dB are left where twice the slot, times the root of 4, is a tenth of the wave.
    assert ends(REACH, record) == pytest.approx((C / (20 * 5 * 2), C / (20 * 5)))
    assert ends(SLOTS[0], record) == (5, 5)


def test_five_millimetres_at_2_45_ghz_leave_21_75_db(record_of: RecordOf) -> None:
    # Published formula (Ott, read second-hand), worked by hand. A range, however narrow, is taken as stated.
    text = ALL + CAN.replace("openings: 4", "openings: 1") + RADIO.replace("2.4 GHz", "2.4499..2.4501 GHz") + HOST
    assert ends(BANDS, record_of(text)) == pytest.approx((21.75, 21.75), abs=5e-3)


def test_an_opening_of_half_a_wave_leaves_nothing(record_of: RecordOf) -> None:
    text = ALL + CAN.replace("5 mm", "63 mm") + RADIO + HOST  # half a wave is 62.46 mm at 2.4 GHz
    assert ends(BANDS, record_of(text)) == (0, 0)
    assert "counted as 0 where below" in measured(BANDS, record_of(text)).how


def test_the_leakiest_shield_and_the_highest_band_count(record_of: RecordOf) -> None:
    two = CAN.replace("}}", "}, lid: {means: clip-on can, largest_opening: 8 mm, openings: 1}}")
    both = RADIO.replace("}}", "}, b: {means: chip antenna, band: 5 GHz}}")
    found = measured(BANDS, record_of(ALL + two + both + HOST))
    assert found.bounds is not None
    assert (found.bounds.low, found.bounds.high) == pytest.approx(
        (min(ott(8, 5.895e9), ott(5, 5.895e9, 4)), min(ott(8, 5.15e9), ott(5, 5.15e9)))
    )
    assert set(found.parts) == {"can at 2.4 GHz", "can at 5 GHz", "lid at 2.4 GHz", "lid at 5 GHz"}
    assert ends(WAVES, record_of(ALL + two + both + HOST)) == pytest.approx((8 * 5.15e9 / C, 8 * 5.895e9 / C))


@pytest.mark.parametrize(
    ("cut", "kept", "lacks"),
    [
        (", openings: 4", "", "can: openings"),
        ("largest_opening: 5 mm, ", "", "can: largest_opening"),
        ("means: soldered can, ", "", "can: means"),
        (", band: 2.4 GHz", "", "a: band"),
        ("shields: whole", "shields: part", "shields: looked at only in part"),
        ("antennas: whole", "antennas: part", "antennas: looked at only in part"),
    ],
)
def test_what_is_not_known_lets_more_leak(cut: str, kept: str, lacks: str, record_of: RecordOf) -> None:
    text = ALL + CAN + RADIO + HOST
    assert cut in text
    found = measured(BANDS, record_of(text.replace(cut, kept)))
    assert found.bounds is None or found.bounds.low == 0
    assert lacks in found.missing


def test_a_shield_that_may_be_metal_may_leak_more_and_never_less(record_of: RecordOf) -> None:
    text = ALL + CAN.replace("{can:", "{lid: {largest_opening: 8 mm, openings: 1}, can:") + RADIO + HOST
    assert ends(BANDS, record_of(text)) == pytest.approx((min(ott(8, HIGH), ott(5, HIGH, 4)), ott(5, LOW)))
    assert ends(SLOTS[0], record_of(text)) == (5, 8)
    assert set(measured(BANDS, record_of(text)).parts) == {"can at 2.4 GHz"}
    assert set(measured(SLOTS[0], record_of(text)).parts) == {"can"}


@pytest.mark.parametrize(
    ("cut", "lacks"),
    [
        (", clock: 150 MHz", "U1: clock"),
        ("means: microcontroller, ", "U1: means"),
        ("parts: whole", "parts: how far it was looked at is not stated"),
    ],
)
def test_a_clock_that_is_not_known_may_be_higher(cut: str, lacks: str, record_of: RecordOf) -> None:
    text = (
        (ALL + CAN + RADIO + HOST).replace("parts: whole, ", "")
        if "whole" in cut
        else (ALL + CAN + HOST).replace(cut, "")
    )
    found = measured(CLOCK, record_of(text))
    assert lacks in found.missing
    assert found.bounds is not None
    if lacks == "U1: means":  # it may have no clock of its own: then the crystal's is the highest
        assert (found.bounds.low, found.bounds.high) == pytest.approx((ott(5, 150e6, 4), ott(5, 24e6)))
    else:
        assert found.bounds.low == 0


def test_a_resistor_has_no_clock_to_ask_for(record_of: RecordOf) -> None:
    text = ALL + CAN + HOST.replace("}}", "}, R1: {means: resistor}}")
    assert not measured(CLOCK, record_of(text)).missing


def test_bands_of_coils_do_not_count(record_of: RecordOf) -> None:
    text = ALL + CAN + RADIO.replace("{a:", "{coil: {means: loop coil antenna, band: 13.56 MHz}, a:") + HOST
    found = measured(BANDS, record_of(text))
    assert not any("13.56" in words for words in found.assumed)
    assert any("2.4 GHz" in words for words in found.assumed)
    assert found.how.endswith("; coil left out: a coil or loop")
    assert not found.missing


@pytest.mark.parametrize(
    ("figure", "cut", "how"),
    [
        (BANDS, RADIO, "antenna that is no coil or loop: none recorded"),
        (WAVES, RADIO, "antenna that is no coil or loop: none recorded"),
        (CLOCK, HOST, "processor, radio or clock source: none recorded"),
    ],
)
def test_without_any_frequency_there_is_no_number(figure: Figure, cut: str, how: str, record_of: RecordOf) -> None:
    section = cut.split(":", maxsplit=1)[0]
    text = (ALL + CAN + RADIO + HOST).replace(cut, "")
    found = measured(figure, record_of(text))
    assert (found.bounds, found.how) == (None, how)
    assert (found.moot, found.missing) == (True, ())
    assert found.used == (f"{section}: coverage",)
    # Nor do shields matter then, whatever is not known of them.
    bare = text.replace("largest_opening: 5 mm, openings: 4", "").replace("shields: whole", "shields: part")
    assert (measured(figure, record_of(bare)).moot, measured(figure, record_of(bare)).missing) == (True, ())
    for word in ("part", "none", "{main: whole}"):
        open_record = record_of(text.replace(f"{section}: whole", f"{section}: {word}") + "boards: {main: {}}\n")
        unknown = measured(figure, open_record)
        assert (unknown.bounds, unknown.moot) == (None, False)
        assert any(fact.startswith(section) for fact in unknown.missing)


@pytest.mark.parametrize(
    ("figure", "cut", "kept", "lacks"),
    [
        (BANDS, RADIO, "antennas: {a: {band: 2.4 GHz}}\n", "a: means"),
        (WAVES, RADIO, "antennas: {a: {band: 2.4 GHz}}\n", "a: means"),
        (CLOCK, HOST, "parts: {U1: {function: host processing}}\n", "U1: means"),
    ],
)
def test_what_may_have_a_frequency_is_named(
    figure: Figure, cut: str, kept: str, lacks: str, record_of: RecordOf
) -> None:
    found = measured(figure, record_of((ALL + CAN + RADIO + HOST).replace(cut, kept)))
    assert (found.bounds, found.moot) == (None, False)
    assert lacks in found.missing


def test_what_makes_no_difference_is_not_said_to_be_used(record_of: RecordOf) -> None:
    # With the clock of one processor not known, neither the resistor nor the slower crystal matters.
    parts = HOST.replace("}}", "}, U2: {means: microcontroller}, R1: {means: resistor}}")
    found = measured(CLOCK, record_of(ALL + CAN + RADIO + parts))
    assert set(found.used) == {
        *("can: means", "can: largest_opening", "can: openings"),
        *("U1: means", "U1: clock"),
    }
    assert found.missing == ("U2: clock",)


def test_of_two_alike_neither_means_matters_and_both_clocks_do(record_of: RecordOf) -> None:
    parts = "parts: {U1: {means: microcontroller, clock: 150 MHz}, U2: {means: microcontroller, clock: 150 MHz}}\n"
    used = measured(CLOCK, record_of(ALL + CAN + RADIO + parts)).used
    assert {"U1: clock", "U2: clock"} <= set(used)
    assert not {"U1: means", "U2: means"} & set(used)


def test_how_many_openings_there_are_does_not_matter_to_the_largest(record_of: RecordOf) -> None:
    text = ALL + CAN.replace(", openings: 4", "") + RADIO + HOST
    for figure in (SLOTS[0], WAVES):
        assert not measured(figure, record_of(text)).missing


def test_an_antenna_that_may_be_a_coil_has_no_part_of_its_own(record_of: RecordOf) -> None:
    text = ALL + CAN + RADIO.replace("{a:", "{b: {band: 5 GHz}, a:") + HOST
    found = measured(BANDS, record_of(text))
    assert set(found.parts) == {"can at 2.4 GHz"}
    assert found.bounds is not None
    assert (found.bounds.low, found.bounds.high) == pytest.approx((ott(5, 5.895e9, 4), ott(5, LOW)))
    assert found.missing == ("b: means",)


def test_plastic_shields_have_no_slots_and_none_may_be_recorded(record_of: RecordOf) -> None:
    rubber = CAN.replace("soldered can", "black foam light barrier")
    for text in (ALL + rubber + RADIO + HOST, ALL + RADIO + HOST):
        for figure in SLOTS:
            found = measured(figure, record_of(text))
            assert (found.bounds, found.how) == (None, "no metal shield recorded")
            assert (found.moot, found.missing) == (True, ())
            assert found.used == (("can: means", "shields: coverage") if rubber in text else ("shields: coverage",))


@pytest.mark.parametrize("figure", SLOTS, ids=lambda figure: figure.id)
@pytest.mark.parametrize("shield", ["", CAN.replace("soldered can", "black foam light barrier")])
@pytest.mark.parametrize(
    ("coverage", "lacks"),
    [("part", "shields: looked at only in part"), ("{main: whole}", "shields elsewhere: not looked at")],
)
def test_a_metal_shield_may_be_where_nobody_looked(
    figure: Figure, shield: str, coverage: str, lacks: str, record_of: RecordOf
) -> None:
    text = ALL.replace("shields: whole", f"shields: {coverage}") + "boards: {main: {}}\n" + shield + RADIO + HOST
    found = measured(figure, record_of(text))
    assert (found.bounds, found.moot, found.how) == (None, False, "no metal shield recorded")
    assert lacks in found.missing


@pytest.mark.parametrize("figure", SLOTS, ids=lambda figure: figure.id)
@pytest.mark.parametrize("means", ["", "means: embedded in host, "])
def test_a_shield_of_which_nobody_knows_what_it_is_may_be_metal(
    figure: Figure, means: str, record_of: RecordOf
) -> None:
    found = measured(figure, record_of(ALL + CAN.replace("means: soldered can, ", means) + RADIO + HOST))
    assert (found.bounds, found.moot) == (None, False)
    assert "can: means" in found.missing


def test_a_shield_without_openings_says_nothing_of_slots(record_of: RecordOf) -> None:
    closed = "shields: {can: {means: soldered can, openings: 0}}\n"
    record = record_of(ALL + closed + RADIO + HOST)
    for figure in (REACH, BANDS, CLOCK):
        found = measured(figure, record)
        assert (found.bounds, found.how) == (None, "no opening in a metal shield recorded")
        assert (found.moot, found.missing) == (True, ())
        in_part = measured(figure, record_of((ALL + closed + RADIO + HOST).replace("shields: whole", "shields: part")))
        assert (in_part.bounds, in_part.moot) == (None, False)
        assert "shields: looked at only in part" in in_part.missing
    assert ends(SLOTS[0], record) == ends(WAVES, record) == (0, 0)
    # Beside one that has openings it changes nothing.
    two = CAN.replace("{can", "{closed: {means: soldered can, openings: 0}, can")
    for figure in SLOTS:
        assert ends(figure, record_of(ALL + two + RADIO + HOST)) == ends(figure, record_of(ALL + CAN + RADIO + HOST))


@pytest.mark.parametrize("figure", SLOTS, ids=lambda figure: figure.id)
def test_the_same_in_inches_and_megahertz(figure: Figure, record_of: RecordOf) -> None:
    one = ALL + CAN.replace("5 mm", "5.08 mm") + RADIO.replace("2.4 GHz", "2.4..2.5 GHz") + HOST
    other = one.replace("5.08 mm", "0.2 in").replace("2.4..2.5 GHz", "2400..2500 MHz").replace("150 MHz", "0.15 GHz")
    assert ends(figure, record_of(one)) == pytest.approx(ends(figure, record_of(other)), rel=1e-9)


parted = st.lists(st.floats(0, 1), min_size=4, max_size=4).map(sorted)


def between(limits: tuple[float, float], unit: str, low: float, high: float) -> str:
    at = [limits[0] + cut * (limits[1] - limits[0]) for cut in (low, high)]
    return f"{at[0]:.6f}..{at[1]:.6f} {unit}"


@settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(opening=parted, band=parted, clock=parted, count=st.integers(1, 40), drawn=st.data())
def test_knowing_more_only_narrows(
    opening: list[float], band: list[float], clock: list[float], count: int, drawn: st.DataObject, record_of: RecordOf
) -> None:
    def text(first: int, last: int) -> str:
        values = {
            "5 mm": between((0.5, 90), "mm", opening[first], opening[last]),
            "2.4 GHz": between((0.1, 7), "GHz", band[first], band[last]),
            "150 MHz": between((1, 900), "MHz", clock[first], clock[last]),
            "openings: 4": f"openings: {count}",
        }
        whole = CAN + RADIO + HOST
        for word, value in values.items():
            whole = whole.replace(word, value)
        return ALL + whole

    poorer = text(0, 3)
    hidden = [", openings: " + str(count), "means: soldered can, ", ", clock: 24 MHz", "means: microcontroller, "]
    for cut in drawn.draw(st.lists(st.sampled_from(hidden), max_size=2, unique=True)):
        poorer = poorer.replace(cut, "")
    for figure in SLOTS:
        outer, inner = ends(figure, record_of(poorer)), ends(figure, record_of(text(1, 2)))
        if outer is not None:
            assert inner is not None, figure.id
            assert outer[0] <= inner[0] * (1 + 1e-9) + 1e-9, figure.id
            assert inner[1] <= outer[1] * (1 + 1e-9) + 1e-9, figure.id


@pytest.mark.parametrize(
    ("name", "opening", "reach", "clock"),
    [
        # 12 openings of 1 mm: 299 792.458 / (2 x 1 x sqrt 12 x 10) = 4327.1 MHz; a half wave of 1561.4 mm at 96 MHz:
        # 63.87 - 10.79 = 53.08 dB. Four of 36 mm: 299 792.458 / (2 x 36 x 2 x 10) = 208.19 MHz; a half wave of 936.85
        # mm at 160 MHz over 36 mm: 28.31 - 6.02 = 22.29 dB. Worked by hand.
        ("vornip-three", 1, 4327.1, 53.08),
        ("mubrel-disc", 36, 208.19, 22.29),
    ],
)
def test_the_air_monitors(name: str, opening: float, reach: float, clock: float) -> None:
    record, _ = read_record(EXAMPLES / "air-monitors" / f"{name}.yaml")
    assert record is not None
    assert ends(SLOTS[0], record) == (opening, opening)
    slowest = measured(REACH, record).bounds
    assert slowest is not None
    assert slowest.low / 1e6 == pytest.approx(reach, rel=5e-5)
    (left,) = measured(CLOCK, record).parts.values()
    assert left.best == pytest.approx(clock, abs=5e-3)
