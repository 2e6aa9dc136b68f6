"""Antennas against their waves: worked by hand from the exact speed of light, units mixed, facts hidden."""

from __future__ import annotations

import math
from copy import deepcopy
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archdiff.figures import radio
from archdiff.record import Document, read_record
from archdiff.record.build import build_record

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Figure, Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

EXAMPLES = Path(__file__).parents[2] / "examples"
C = 299_792_458_000  # mm/s, exact (SI Brochure)
LOW, HIGH = 2.4e9, 2.4835e9  # the 2.4 GHz band (CEPT ERC Recommendation 70-03, read second-hand)
WHOLE = "coverage: {antennas: whole}\n"
BOARD = "boards: {main: {material: glass-epoxy laminate, thickness: 1.6 mm}}\n"
TRACK = "antennas: {a: {on: main, means: printed inverted-F, band: 2.4 GHz, length: 24 mm, width: 1 mm}}\n"


def measure(figure: Figure, record: Record) -> Measure:
    assert figure.of_product is not None
    return figure.of_product(record)


def ends(figure: Figure, record: Record) -> tuple[float, float] | None:
    bounds = measure(figure, record).bounds
    return None if bounds is None else (bounds.low, bounds.high)


def made(data: dict[str, Any]) -> Record:
    record, problems = build_record(Document("made", {"archdiff": 1, "product": {"name": "T", "kind": "t"}, **data}))
    assert not problems, problems
    return record


@pytest.mark.parametrize(
    ("band", "low", "high"),
    [
        ("2.4 GHz", LOW, HIGH),
        ("2400 MHz", LOW, HIGH),
        ("2.4..2.4835 GHz", LOW, HIGH),
        ("868 MHz", 863e6, 870e6),  # from memory
        ("13.56 MHz", 13.553e6, 13.567e6),  # 47 CFR 18.301: 13.56 MHz ± 7 kHz, read second-hand
        ("2.437 GHz", 2.437e9, 2.437e9),  # names no band: one frequency
        ("2.4 ± 0.1 GHz", 2.3e9, 2.5e9),  # has a tolerance: as stated
    ],
)
def test_a_quarter_wave_spans_the_band(band: str, low: float, high: float, record_of: RecordOf) -> None:
    found = ends(radio.quarter_wave_in_air, record_of(WHOLE + TRACK.replace("2.4 GHz", band) + BOARD))
    assert found == pytest.approx((C / high / 4, C / low / 4))


def test_a_band_without_an_upper_end_bounds_the_quarter_wave_from_above(record_of: RecordOf) -> None:
    text = WHOLE + BOARD + TRACK.replace("2.4 GHz", "at least 2 GHz")
    assert ends(radio.quarter_wave_in_air, record_of(text)) == pytest.approx((0, C / 2e9 / 4))
    assert ends(radio.conductor_over_quarter_wave, record_of(text)) == pytest.approx((24 * 4 * 2e9 / C, math.inf))


def test_the_shortest_quarter_wave_is_that_of_the_highest_band(record_of: RecordOf) -> None:
    text = WHOLE + "antennas: {a: {means: wire antenna, band: 868 MHz}, b: {means: chip antenna, band: 2.4 GHz}}\n"
    found = measure(radio.quarter_wave_in_air, record_of(text))
    assert found.bounds is not None
    assert (found.bounds.low, found.bounds.high) == pytest.approx((C / HIGH / 4, C / LOW / 4))
    assert found.parts["a"].low == pytest.approx(C / 870e6 / 4)


@pytest.mark.parametrize(
    ("cut", "lacks"),
    [
        ("band: 868 MHz, ", "a: band"),
        ("means: wire antenna, ", "a: means"),
        ("coverage: {antennas: whole}", "antennas: how far it was looked at is not stated"),
    ],
)
def test_what_is_not_known_of_one_antenna_opens_the_shortest_below(cut: str, lacks: str, record_of: RecordOf) -> None:
    text = (
        WHOLE
        + "antennas: {a: {means: wire antenna, band: 868 MHz, at: [1 mm, 1 mm]}, b: {means: chip antenna, band: 2.4 GHz}}\n"
    )
    assert cut in text
    found = measure(radio.quarter_wave_in_air, record_of(text.replace(cut, "")))
    assert found.bounds is not None
    assert found.bounds.high == pytest.approx(C / LOW / 4)
    assert found.bounds.low == pytest.approx(C / HIGH / 4 if lacks == "a: means" else 0)
    assert lacks in found.missing


def test_an_antenna_that_may_be_a_coil_may_lower_the_shortest_and_never_raises_it(record_of: RecordOf) -> None:
    text = WHOLE + "antennas: {a: {means: wire antenna, band: 868 MHz}, b: {band: 2.4 GHz}}\n"
    found = measure(radio.quarter_wave_in_air, record_of(text))
    assert found.bounds is not None
    assert (found.bounds.low, found.bounds.high) == pytest.approx((C / HIGH / 4, C / 863e6 / 4))
    assert found.missing == ("b: means",)
    assert set(found.parts) == {"a"}
    assert measure(radio.quarter_wave_in_air, record_of(text.replace("means: wire antenna, ", ""))).bounds is None


@pytest.mark.parametrize("means", ["loop coil antenna", "printed loop", "ferrite rod antenna"])
def test_coils_and_loops_are_left_out_and_said_to_be(means: str, record_of: RecordOf) -> None:
    text = WHOLE + BOARD + TRACK.replace("{a:", "{coil: {means: " + means + ", length: 900 mm}, a:")
    for figure in (radio.quarter_wave_in_air, radio.conductor_over_quarter_wave):
        found = measure(figure, record_of(text))
        assert found.how.endswith("; coil left out: a coil or loop")
        assert set(found.parts) == {"a"}
        assert not found.missing
    alone = measure(radio.quarter_wave_in_air, record_of(WHOLE + "antennas: {coil: {means: " + means + "}}\n"))
    assert alone.bounds is None
    assert alone.how == "no antenna recorded; coil left out: a coil or loop"
    assert (alone.moot, alone.missing) == (True, ())


@pytest.mark.parametrize(
    ("length", "said"),
    [
        ("24 mm", "shorter than a quarter wave in air, as a printed antenna on laminate is"),
        ("30.5 mm", ""),  # within the quarter waves of the band
        ("40 mm", "longer than a quarter wave in air"),
        ("20..40 mm", ""),
    ],
)
def test_conductor_against_a_quarter_wave_in_air(length: str, said: str, record_of: RecordOf) -> None:
    found = measure(radio.conductor_over_quarter_wave, record_of(WHOLE + BOARD + TRACK.replace("24 mm", length)))
    low, high = (
        (float(end) for end in length.removesuffix(" mm").split(".."))
        if ".." in length
        else 2 * (float(length.removesuffix(" mm")),)
    )
    assert found.bounds is not None
    # 24 mm / (299 792.458 km/s / (4 x 2.4 GHz)) = 24 / 31.228
    assert (found.bounds.low, found.bounds.high) == pytest.approx((4 * low * LOW / C, 4 * high * HIGH / C))
    assert found.said == said


def test_an_antenna_that_is_not_printed_is_only_said_to_be_shorter(record_of: RecordOf) -> None:
    text = WHOLE + BOARD + TRACK.replace("printed inverted-F", "stamped metal antenna")
    assert measure(radio.conductor_over_quarter_wave, record_of(text)).said == "shorter than a quarter wave in air"
    two = text.replace("{a:", "{b: {means: wire antenna, length: 90 mm, band: 868 MHz}, a:")
    assert measure(radio.conductor_over_quarter_wave, record_of(two)).said == (
        "the shortest is shorter than a quarter wave in air"
    )


def hammerstad(er: float, width: float, height: float) -> float:
    """The formula again, from memory (E. Hammerstad 1975), for a track narrower than it is high above ground."""
    return (er + 1) / 2 + (er - 1) / 2 * ((1 + 12 * height / width) ** -0.5 + 0.04 * (1 - width / height) ** 2)


def test_conductor_against_a_quarter_wave_on_the_board(record_of: RecordOf) -> None:
    found = measure(radio.conductor_over_printed_quarter_wave, record_of(WHOLE + BOARD + TRACK))
    assert found.bounds is not None
    most = hammerstad(5.6, 1, 1.6)  # the highest permittivity in the table, public pages, read
    air = (4 * 24 * LOW / C, 4 * 24 * HIGH / C)
    assert (found.bounds.low, found.bounds.high) == pytest.approx((air[0], air[1] * math.sqrt(most)))
    assert any("a bound that takes ground on the far face" in words for words in found.assumed)
    assert any("3.8 to 5.6" in words and words.endswith("read)") for words in found.assumed)


@pytest.mark.parametrize(
    ("cut", "lacks", "most"),
    [
        (", width: 1 mm", "a: width", 5.6),  # however wide: all in the board at the most
        (", thickness: 1.6 mm", "main: thickness", 5.6),
        ("material: glass-epoxy laminate, ", "main: material", math.inf),
        ("on: main, ", "a: on", math.inf),
    ],
)
def test_what_is_not_known_of_the_board_opens_the_ratio_above(
    cut: str, lacks: str, most: float, record_of: RecordOf
) -> None:
    text = WHOLE + BOARD + TRACK
    assert cut in text
    found = measure(radio.conductor_over_printed_quarter_wave, record_of(text.replace(cut, "")))
    assert found.bounds is not None
    assert found.bounds.low == pytest.approx(4 * 24 * LOW / C)
    assert found.bounds.high == pytest.approx(4 * 24 * HIGH / C * math.sqrt(most))
    assert lacks in found.missing


@pytest.mark.parametrize("written", ["FR4", "FR-4", "glass epoxy", "Glass-Epoxy Laminate"])
def test_a_laminate_is_known_by_its_usual_names(written: str, record_of: RecordOf) -> None:
    text = WHOLE + BOARD.replace("glass-epoxy laminate", written) + TRACK
    assert ends(radio.conductor_over_printed_quarter_wave, record_of(text)) == ends(
        radio.conductor_over_printed_quarter_wave, record_of(WHOLE + BOARD + TRACK)
    )


def test_a_laminate_in_no_table_is_named(record_of: RecordOf) -> None:
    text = WHOLE + BOARD.replace("glass-epoxy laminate", "pressed straw") + TRACK
    assert (
        "main: permittivity of pressed straw"
        in measure(radio.conductor_over_printed_quarter_wave, record_of(text)).missing
    )


def test_only_printed_antennas_are_held_against_the_board(record_of: RecordOf) -> None:
    text = WHOLE + BOARD + TRACK.replace("printed inverted-F", "chip antenna")
    found = measure(radio.conductor_over_printed_quarter_wave, record_of(text))
    assert found.bounds is None
    assert found.how == "no printed antenna recorded"
    assert (found.moot, found.missing) == (True, ())


# Middles 30 and 40 mm apart are 50 mm apart (3-4-5 triangle).
TWO = """product: {name: T, kind: t, envelope: 100 x 0 x 100 mm}
coverage: {antennas: whole}
boards:
  main: {at: [10 mm, 20 mm], facing: front, outline: 60 x 50 mm, thickness: 1.6 mm}
  back: {at: [5 mm, 5 mm], facing: back, outline: 60 x 50 mm}
antennas:
  a: {on: main, side: top, means: printed inverted-F, band: 2.4 GHz, at: [5 mm, 5 mm]}
  b: {on: main, side: top, means: chip antenna, band: 5 GHz, at: [35 mm, 45 mm]}
"""


def spacing(text: str, record_of: RecordOf) -> tuple[float, float] | None:
    return ends(radio.antenna_spacing, record_of("archdiff: 1\n" + text))


def test_spacing_on_one_board_is_in_waves_of_the_lower_band(record_of: RecordOf) -> None:
    assert spacing(TWO, record_of) == pytest.approx((50 * LOW / C, 50 * HIGH / C))


@pytest.mark.parametrize(
    ("board", "at", "apart"),
    [
        # a is at (15, 25) seen from the front; b is to be 30 mm right and 40 mm up of it, at (45, 65).
        ("main", "[35 mm, 45 mm]", 50),
        # On a board that faces back, b's 20 mm are counted from the edge at 5 + 60 mm: 65 - 20 = 45; 5 + 60 = 65.
        ("back", "[20 mm, 60 mm]", 50),
    ],
)
def test_spacing_over_two_boards_is_seen_from_the_front(board: str, at: str, apart: float, record_of: RecordOf) -> None:
    text = TWO.replace("b: {on: main", f"b: {{on: {board}").replace("[35 mm, 45 mm]", at)
    # The product is said to be 0 mm deep, so that nothing is hidden by depth.
    assert spacing(text, record_of) == pytest.approx((apart * LOW / C, apart * HIGH / C))
    deep = text.replace("100 x 0 x 100 mm", "100 x 120 x 100 mm")
    far = apart if board == "main" else 130  # 5-12-13 triangle
    assert spacing(deep, record_of) == pytest.approx((apart * LOW / C, far * HIGH / C))


def test_antennas_on_two_sides_are_at_most_the_board_further_apart(record_of: RecordOf) -> None:
    text = TWO.replace("b: {on: main, side: top", "b: {on: main, side: bottom")
    assert spacing(text, record_of) == pytest.approx((50 * LOW / C, math.hypot(50, 1.6) * HIGH / C))


@pytest.mark.parametrize(
    ("cut", "lacks"),
    [
        (", at: [35 mm, 45 mm]", "b: at"),
        (", band: 5 GHz", "b: band"),
        ("b: {on: back, side: top, ", "b: on"),
        ("back: {at: [5 mm, 5 mm], ", "back: at"),
        ("facing: back, ", "back: facing"),
        ("facing: back, outline: 60 x 50 mm", "back: outline"),
        ("facing: front, ", "main: facing"),
    ],
)
def test_a_place_that_is_not_known_is_named_and_gives_no_spacing(cut: str, lacks: str, record_of: RecordOf) -> None:
    text = TWO.replace("b: {on: main", "b: {on: back")
    assert cut in text
    left = {"b: {on: back, side: top, ": "b: {", "back: {at: [5 mm, 5 mm], ": "back: {"}.get(cut, "")
    left = "facing: back" if lacks == "back: outline" else left
    found = measure(radio.antenna_spacing, record_of("archdiff: 1\n" + text.replace(cut, left)))
    assert found.bounds is None
    assert lacks in found.missing


def test_several_of_one_entry_stand_at_places_not_known(record_of: RecordOf) -> None:
    found = measure(radio.antenna_spacing, record_of("archdiff: 1\n" + TWO.replace("a: {on", "a: {count: 2, on")))
    assert found.bounds is not None
    assert found.bounds.low == 0
    assert "a: place of each" in found.missing


def test_one_antenna_is_not_apart_from_any(record_of: RecordOf) -> None:
    found = measure(radio.antenna_spacing, record_of(WHOLE + BOARD + TRACK))
    assert (found.bounds, found.how) == (None, "no two antennas recorded")
    assert (found.moot, found.missing) == (True, ())


def test_clearance_in_wavelengths_is_that_of_the_antenna_with_least(record_of: RecordOf) -> None:
    text = WHOLE + (
        "antennas:\n  a: {means: chip antenna, band: 2.4 GHz, clearance: 6 mm}\n"
        "  b: {means: wire antenna, band: 868 MHz, clearance: 10 mm}\n"
    )
    # 10 mm are 10 / 347.4..344.6 of a wave at 868 MHz, 6 mm are 6 / 124.9..120.7 at 2.4 GHz.
    assert ends(radio.antenna_clearance, record_of(text)) == pytest.approx((10 * 863e6 / C, 10 * 870e6 / C))


COIL = "antennas: {coil: {on: main, means: loop coil antenna}}\n"
CHIP = TRACK.replace("printed inverted-F", "chip antenna")


@pytest.mark.parametrize(
    ("figure", "antennas"),
    [
        (radio.quarter_wave_in_air, COIL),
        (radio.conductor_over_quarter_wave, COIL),
        (radio.conductor_over_printed_quarter_wave, CHIP),
        (radio.antenna_spacing, TRACK),
        (radio.antenna_clearance, COIL),
    ],
)
@pytest.mark.parametrize(
    ("coverage", "lacks"),
    [
        ("antennas: whole", ""),
        ("antennas: part", "antennas: looked at only in part"),
        ("", "antennas: how far it was looked at is not stated"),
        ("antennas: {main: whole}", "antennas elsewhere: not looked at"),
        ("antennas: {main: {top: whole}, elsewhere: whole}", "antennas on the underside of main: not looked at"),
    ],
)
def test_an_antenna_may_be_where_nobody_looked(
    figure: Figure, antennas: str, coverage: str, lacks: str, record_of: RecordOf
) -> None:
    found = measure(figure, record_of(f"coverage: {{{coverage}}}\n" + BOARD + antennas))
    assert (found.bounds, found.moot) == (None, not lacks)
    assert lacks in found.missing if lacks else not found.missing


@pytest.mark.parametrize(
    ("figure", "antennas", "lacks"),
    [
        (radio.quarter_wave_in_air, COIL.replace(", means: loop coil antenna", ""), "coil: means"),
        (radio.conductor_over_printed_quarter_wave, CHIP.replace("means: chip antenna, ", ""), "a: means"),
        (
            radio.conductor_over_printed_quarter_wave,
            CHIP.replace("chip antenna", "embedded in host"),
            "a: what it is, inside another",
        ),
        (radio.antenna_spacing, COIL.replace("}}", "}, a: {on: main}, b: {on: main}}"), "a: means"),
        (radio.antenna_spacing, TRACK.replace("{a: {", "{a: {count: 2, "), "a: place of each"),
    ],
)
def test_an_antenna_of_which_nobody_knows_what_it_is_may_count(
    figure: Figure, antennas: str, lacks: str, record_of: RecordOf
) -> None:
    found = measure(figure, record_of(WHOLE + BOARD + antennas))
    assert (found.bounds, found.moot) == (None, False)
    assert lacks in found.missing


FIGURES = [
    radio.quarter_wave_in_air,
    radio.conductor_over_quarter_wave,
    radio.conductor_over_printed_quarter_wave,
    radio.antenna_spacing,
    radio.antenna_clearance,
]
MILLIMETRES = """product: {name: T, kind: t, envelope: 101.6 x 25.4 x 101.6 mm}
coverage: {antennas: whole}
boards:
  main: {at: [12.7 mm, 25.4 mm], facing: front, outline: 50.8 x 50.8 mm, thickness: 1.5748 mm, material: FR-4}
  back: {at: [5.08 mm, 2.54 mm], facing: back, outline: 50.8 x 50.8 mm, thickness: 1.5748 mm, material: FR-4}
antennas:
  a: {on: main, side: top, means: printed monopole, band: 2.4 GHz, at: [5.08 mm, 2.54 mm], length: 25.4 mm, width: 1.016 mm, clearance: 5.08 mm}
  b: {on: back, side: top, means: printed monopole, band: 0.902..0.928 GHz, at: [2.54 mm, 7.62 mm], length: 63.5 mm, width: 1.016 mm, clearance: 5.08 mm}
"""
INCHES = """product: {name: T, kind: t, envelope: 4 x 1 x 4 in}
coverage: {antennas: whole}
boards:
  main: {at: [0.5 in, 1 in], facing: front, outline: 2 x 2 in, thickness: 62 mil, material: FR-4}
  back: {at: [0.2 in, 0.1 in], facing: back, outline: 2 x 2 in, thickness: 62 mil, material: FR-4}
antennas:
  a: {on: main, side: top, means: printed monopole, band: 2400 MHz, at: [0.2 in, 0.1 in], length: 1 in, width: 40 mil, clearance: 0.2 in}
  b: {on: back, side: top, means: printed monopole, band: 902..928 MHz, at: [0.1 in, 0.3 in], length: 2.5 in, width: 40 mil, clearance: 0.2 in}
"""


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.id)
def test_the_same_in_inches_and_megahertz(figure: Figure, record_of: RecordOf) -> None:
    one, other = (ends(figure, record_of("archdiff: 1\n" + text)) for text in (MILLIMETRES, INCHES))
    assert one is not None
    assert one == pytest.approx(other, rel=1e-9)


RICH: dict[str, Any] = {
    "coverage": {"antennas": "whole"},
    "boards": {
        "main": {"at": ["10 mm", "5 mm"], "facing": "front", "outline": "60 x 50 mm", "thickness": "1.6 mm"},
        "back": {"at": ["5 mm", "9 mm"], "facing": "back", "outline": "60 x 50 mm", "thickness": "1.0 mm"},
    },
}
SPANS = {"length": (5, 90), "width": (0.2, 5), "clearance": (1, 30), "thickness": (0.2, 3), "at": (0, 40)}
wide = st.tuples(st.floats(0, 1), st.floats(0, 1), st.floats(0, 1), st.floats(0, 1))


def span(cuts: tuple[float, ...], limits: tuple[float, float], unit: str) -> tuple[str, str]:
    """A wide range and a narrow one within it, as text."""
    values = sorted(limits[0] + cut * (limits[1] - limits[0]) for cut in cuts)
    return f"{values[0]:.6f}..{values[3]:.6f} {unit}", f"{values[1]:.6f}..{values[2]:.6f} {unit}"


@st.composite
def wide_and_narrow(draw: st.DrawFn) -> tuple[Record, Record]:
    """One product twice: every number known within wide and within narrower limits."""
    twice: tuple[dict[str, Any], dict[str, Any]] = (deepcopy(RICH), deepcopy(RICH))
    antennas: tuple[dict[str, Any], dict[str, Any]] = ({}, {})
    for name in "abc"[: draw(st.integers(1, 3))]:
        facts = {"on": draw(st.sampled_from(["main", "back"])), "side": draw(st.sampled_from(["top", "bottom"]))}
        facts["means"] = draw(st.sampled_from(["printed meander", "chip antenna", "printed loop"]))
        spans = {fact: span(draw(wide), SPANS[fact], "mm") for fact in ("length", "width", "clearance")}
        spans["band"] = span(draw(wide), (0.4, 7), "GHz")
        places = [span(draw(wide), SPANS["at"], "mm") for _ in range(2)]
        for i in (0, 1):
            antennas[i][name] = {**facts, **{fact: pair[i] for fact, pair in spans.items()}}
            antennas[i][name]["at"] = [place[i] for place in places]
    thickness = span(draw(wide), SPANS["thickness"], "mm")
    for i, data in enumerate(twice):
        data["antennas"] = antennas[i]
        data["boards"]["main"] |= {"thickness": thickness[i], "material": "FR-4"}
    for _ in range(draw(st.integers(0, 3))):
        forget(draw, twice[0])
    return made(twice[0]), made(twice[1])


def forget(draw: st.DrawFn, data: dict[str, Any]) -> None:
    """Hide one fact, the look at all antennas, or an antenna with it."""
    which = draw(st.sampled_from(["fact", "coverage", "antenna", "board"]))
    if which == "board":
        data["boards"]["main"].pop(draw(st.sampled_from(["at", "facing", "thickness", "material"])), None)
        return
    name = draw(st.sampled_from(sorted(data["antennas"]))) if data["antennas"] else ""
    if which == "fact" and data["antennas"][name]:
        del data["antennas"][name][draw(st.sampled_from(sorted(data["antennas"][name])))]
    elif which != "fact":
        data["coverage"]["antennas"] = "part"
        if which == "antenna" and len(data["antennas"]) > 1:
            del data["antennas"][name]


@settings(deadline=None, max_examples=150)
@given(wide_and_narrow())
def test_knowing_more_only_narrows(both: tuple[Record, Record]) -> None:
    poorer, richer = both
    for figure in FIGURES:
        outer, inner = (measure(figure, record).bounds for record in (poorer, richer))
        if outer is not None:
            assert inner is not None, figure.id
            spare = 1e-9 * (1 + abs(inner.low))
            assert outer.low <= inner.low + spare, figure.id
            assert inner.high <= outer.high + spare, figure.id


@pytest.mark.parametrize(
    ("name", "antenna", "ratio", "room"),
    [
        # 27 mm of film antenna over (299 792.458 / (4 x 2400) = 31.228 mm) to (/ (4 x 2483.5) = 30.178 mm), and 9 mm
        # of room over waves of 124.914 to 120.714 mm; 25 mm of track and 6 mm of room over the same. Worked by hand.
        ("vornip-three", "flexant", (0.8646, 0.8947), (0.0720, 0.0746)),
        ("mubrel-disc", "pifa", (0.8006, 0.8284), (0.0480, 0.0497)),
    ],
)
def test_the_air_monitors(name: str, antenna: str, ratio: tuple[float, float], room: tuple[float, float]) -> None:
    record, _ = read_record(EXAMPLES / "air-monitors" / f"{name}.yaml")
    assert record is not None
    for figure, expected in ((radio.conductor_over_quarter_wave, ratio), (radio.antenna_clearance, room)):
        found = measure(figure, record)
        assert found.bounds is not None
        part = found.parts[antenna]
        assert (part.low, part.high) == pytest.approx(expected, abs=5e-5)
        # Nobody looked for an antenna under the can of the one: another may be shorter or stand closer.
        assert found.bounds.high == part.high
        assert found.bounds.low == (part.low if name == "mubrel-disc" else 0)
