"""Light: lamps, their spacing and what they shine through; distances are held against scipy, sums are by hand."""

from __future__ import annotations

from math import inf, pi, sin
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.spatial.distance import pdist

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures import Measure
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]
    MeasureOf = Callable[[str, Record], Measure]
    EndsOf = Callable[[str, Record], tuple[float, float] | None]

WHOLE = "coverage: {indicators: whole, paths: whole}\n"
CALM = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
ROW = """boards: {main: {}}
indicators:
  good: {on: main, means: LED, at: [10 mm, 5 mm], colours: [green], power: 12 mW, flux: 0.5 lm, separated_by: wall, seen_through: pane}
  poor: {on: main, means: LED, at: [16 mm, 5 mm], colours: [red], power: 18 mW, flux: 0.7 lm, separated_by: wall, seen_through: pane}
  more: {on: main, means: RGB LED, at: [16 mm, 13 mm], colours: [red, blue], power: 30 mW, flux: 1.2 lm, separated_by: wall, seen_through: pane}
  figures: {on: main, means: segment LCD, at: [40 mm, 5 mm], power: 1 mW, seen_through: pane}
paths: {glow: {kind: light, from: good, to: user, through: [{what: wall, length: 4 mm, area: 66 mm2}, {what: pane, thickness: 2 mm, area: 48 mm2}]}}
"""
FIGURES = (
    *("lamp-count", "share-of-lamps-kept-apart", "lamp-spacing", "light-path-over-spacing"),
    *("lit-opening-per-lamp", "power-per-lamp", "light-per-lamp", "light-per-watt"),
)


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("lamp-count", 3),  # the display is no lamp
        ("share-of-lamps-kept-apart", 1),
        ("lamp-spacing", 6),  # of 6, 8 and 10 mm
        ("light-path-over-spacing", (4 + 2) / 6),
        ("lit-opening-per-lamp", 48 / 3),
        ("power-per-lamp", 0.060 / 3),
        ("light-per-lamp", 2.4 / 3),
        ("light-per-watt", 2.4 / 0.060),
    ],
)
def test_all_stated(record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str, value: float) -> None:
    record = record_of(WHOLE + ROW)
    assert ends_of(figure, record) == pytest.approx((value, value))
    assert measure_of(figure, record).missing == ()


@pytest.mark.parametrize("figure", FIGURES)
def test_looked_at_in_part_leaves_it_open(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str
) -> None:
    record = record_of(ROW)
    ends, measure = ends_of(figure, record), measure_of(figure, record)
    assert ends is None or ends[0] == 0 or ends[1] == inf
    assert "indicators: how far it was looked at is not stated" in measure.missing


@pytest.mark.parametrize("figure", FIGURES[1:])
def test_no_lamp_says_so(record_of: RecordOf, measure_of: MeasureOf, figure: str) -> None:
    record = record_of(WHOLE + "indicators: {figures: {means: segment LCD, flux: 3 lm, power: 1 mW}}\n")
    measure = measure_of(figure, record)
    assert measure.bounds is None
    assert "no " in measure.how
    assert (measure.moot, measure.missing) == (True, ())


@pytest.mark.parametrize("figure", FIGURES[1:])
def test_without_a_lamp_paths_that_nobody_looked_at_do_not_matter(
    record_of: RecordOf, measure_of: MeasureOf, figure: str
) -> None:
    measure = measure_of(figure, record_of("coverage: {indicators: whole, paths: none}\n"))
    assert (measure.bounds, measure.moot, measure.missing) == (None, True, ())


ONLY = "indicators: {only: {on: main, means: LED, pitch: 4 mm, power: 1 mW, flux: 1 lm}}\n"
OF_SEVERAL = ["share-of-lamps-kept-apart", "lamp-spacing", "light-path-over-spacing"]
GLOW = "paths: {glow: {kind: light, from: only, through: [{what: air, length: 3 mm}]}}\n"


@pytest.mark.parametrize("figure", OF_SEVERAL)
def test_one_lamp_has_no_neighbour(record_of: RecordOf, measure_of: MeasureOf, figure: str) -> None:
    measure = measure_of(figure, record_of(WHOLE + "boards: {main: {}}\n" + ONLY + GLOW))
    assert measure.bounds is None
    assert measure.how == "one lamp: no neighbour"
    assert (measure.moot, measure.missing) == (True, ())


# How far indicators were looked at, or a further one, and what is therefore lacking: another lamp may be there.
OPEN = [
    ("", "", "indicators: how far it was looked at is not stated"),
    ("indicators: part", "", "indicators: looked at only in part"),
    ("indicators: {main: whole}", "", "indicators elsewhere: not looked at"),
    ("indicators: {main: {top: whole}, elsewhere: whole}", "", "indicators on the underside of main: not looked at"),
    ("indicators: whole", "odd: {on: main}", "odd: means"),
    ("indicators: whole", "odd: {on: main, means: embedded in host}", "odd: what it is, inside another"),
]


@pytest.mark.parametrize("figure", FIGURES[1:])
@pytest.mark.parametrize("lamp", [ONLY, ONLY.replace("means: LED", "means: segment LCD")])
@pytest.mark.parametrize(("coverage", "more", "lacking"), OPEN)
def test_a_further_lamp_may_be_where_nobody_looked(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, lamp: str, coverage: str, more: str, lacking: str
) -> None:
    text = f"coverage: {{{', '.join(filter(None, [coverage, 'paths: whole']))}}}\nboards: {{main: {{}}}}\n"
    measure = measure_of(
        figure, record_of(text + lamp.replace("{only: {", f"{{{more}, only: {{" if more else "{only: {") + GLOW)
    )
    assert not measure.moot
    assert lacking in measure.missing


APART = """indicators: {one: {means: LED, seen_through: slit}, two: {means: LED, seen_through: hole}}
paths:
  left: {kind: light, from: one, through: [{what: slit, length: 4 mm}]}
  right: {kind: light, from: two, through: [{what: hole, length: 5 mm}]}
"""


@pytest.mark.parametrize(
    ("change", "lacking"),
    [
        (("", ""), ""),
        (("paths: whole", "paths: part"), "paths: looked at only in part"),
        ((", seen_through: hole", ""), "two: seen_through"),
        ((", through: [{what: slit, length: 4 mm}]", ""), "left: through"),
        (("two: {means: LED, ", "two: {"), "two: means"),
    ],
)
def test_lamps_that_each_have_a_path_to_themselves_have_no_neighbour_along_it(
    record_of: RecordOf, measure_of: MeasureOf, change: tuple[str, str], lacking: str
) -> None:
    text = WHOLE + APART
    assert change[0] in text
    measure = measure_of("light-path-over-spacing", record_of(text.replace(*change)))
    assert (measure.bounds, measure.moot) == (None, not lacking)
    assert lacking in measure.missing if lacking else not measure.missing


@pytest.mark.parametrize(
    ("figure", "change", "ends", "lacking"),
    [
        ("lamp-count", ("means: RGB LED, ", ""), (2, 3), "more: means"),
        ("lamp-count", ("colours: [green], ", ""), (3, 3), "good: colours"),
        ("share-of-lamps-kept-apart", ("7 lm, separated_by: wall, ", "7 lm, "), (2 / 3, 1), "poor: separated_by"),
        ("share-of-lamps-kept-apart", ("separated_by: wall, ", ""), None, "poor: separated_by"),
        ("lamp-spacing", ("at: [16 mm, 5 mm], ", ""), (0, 10), "poor: at"),
        ("light-path-over-spacing", ("wall, length: 4 mm", "wall"), (2 / 6, inf), "glow stage 1: length"),
        ("light-path-over-spacing", ("thickness: 2 mm, ", ""), (4 / 6, inf), "glow stage 2: thickness"),
        ("light-path-over-spacing", ("kind: light", "kind: touch"), None, "paths: a light path from a lamp; none is recorded"),
        ("lit-opening-per-lamp", (", area: 48 mm2", ""), (0, 22), "glow stage 2: area"),
        ("lit-opening-per-lamp", ("7 lm, separated_by: wall, seen_through: pane", "7 lm"), (16, 24), "poor: seen_through"),
        ("lit-opening-per-lamp", ("7 lm, separated_by: wall, seen_through: pane", "7 lm, seen_through: hole"), (24, 24), ""),
        ("power-per-lamp", ("power: 12 mW, ", ""), (0.048 / 3, inf), "good: power"),
        ("light-per-lamp", ("flux: 0.5 lm, ", ""), (1.9 / 3, inf), "good: flux"),
        ("light-per-watt", ("flux: 0.5 lm, ", ""), (1.9 / 0.06, inf), "good: flux"),
        ("light-per-watt", ("power: 12 mW, ", ""), (0, 2.4 / 0.048), "good: power"),
    ],
)  # fmt: skip
def test_what_is_not_stated_leaves_it_open_and_is_named(
    record_of: RecordOf,
    measure_of: MeasureOf,
    ends_of: EndsOf,
    figure: str,
    change: tuple[str, str],
    ends: tuple[float, float] | None,
    lacking: str,
) -> None:
    assert change[0] in ROW
    record = record_of(WHOLE + ROW.replace(*change))
    assert ends_of(figure, record) == (None if ends is None else pytest.approx(ends))
    assert not lacking or lacking in measure_of(figure, record).missing


def test_lamps_are_told_by_colour(record_of: RecordOf, measure_of: MeasureOf) -> None:
    parts = measure_of("lamp-count", record_of(WHOLE + ROW)).parts
    assert {name: part.best for name, part in parts.items()} == {"green": 1, "red": 1, "red or blue": 1}


@given(st.lists(st.tuples(st.integers(0, 60), st.integers(0, 30)), min_size=2, max_size=7, unique=True))
@CALM
def test_lamp_spacing_is_the_one_that_scipy_finds(
    record_of: RecordOf, ends_of: EndsOf, at: list[tuple[int, int]]
) -> None:
    lamps = "\n".join(f"  l{i}: {{on: main, means: LED, at: [{x} mm, {y} mm]}}" for i, (x, y) in enumerate(at))
    record = record_of(f"{WHOLE}boards: {{main: {{}}}}\nindicators:\n{lamps}\n")
    nearest = min(pdist(np.array(at)))
    assert ends_of("lamp-spacing", record) == pytest.approx((nearest, nearest))


def test_a_ring_of_lamps_is_as_far_apart_as_its_chords(record_of: RecordOf, ends_of: EndsOf) -> None:
    # Chord of a circle: 29.8 mm x sin(180°/8) = 11.40 mm, by hand; scipy finds it among the eight places.
    turns = np.arange(8) / 8 * 2 * pi
    places = 14.9 * np.column_stack((np.cos(turns), np.sin(turns)))
    assert 29.8 * sin(pi / 8) == pytest.approx(min(pdist(places)))
    record = record_of(WHOLE + "indicators: {ring: {means: LED, count: 8, pitch: 11.4 mm}}\n")
    assert ends_of("lamp-spacing", record) == pytest.approx((min(pdist(places)),) * 2, abs=0.005)


def test_a_group_beside_another_lamp_may_be_nearer_to_it_than_its_own_pitch(
    record_of: RecordOf, ends_of: EndsOf
) -> None:
    text = "boards: {main: {}}\nindicators: {ring: {means: LED, count: 8, pitch: 11.4 mm}, one: {on: main, means: LED, at: [1 mm, 1 mm]}}\n"
    assert ends_of("lamp-spacing", record_of(WHOLE + text)) == (0, 11.4)
    unknown = record_of(WHOLE + text.replace(", pitch: 11.4 mm", ""))
    assert ends_of("lamp-spacing", unknown) is None


@pytest.mark.parametrize(
    ("stage", "ratio", "opening"),
    [
        ("pane", 9 / 6, 6 / 3),  # all three lamps
        ("a pipe of its own", 6 / 6, 6),  # its own lamp alone, which has no neighbour there
    ],
)
def test_of_two_light_paths_the_longest_and_the_narrowest(
    record_of: RecordOf, ends_of: EndsOf, stage: str, ratio: float, opening: float
) -> None:
    beam = f"beam: {{kind: light, from: poor, through: [{{what: {stage}, length: 9 mm, area: 6 mm2}}]}}"
    record = record_of(WHOLE + ROW.rstrip().removesuffix("}") + f", {beam}}}\n")
    assert ends_of("light-path-over-spacing", record) == pytest.approx((ratio, ratio))
    assert ends_of("lit-opening-per-lamp", record) == pytest.approx((opening, opening))


@pytest.mark.parametrize(
    ("figure", "ends"),
    [
        ("light-path-over-spacing", (6 / 6, inf)),
        ("lit-opening-per-lamp", (0, 48 / 3)),
        ("lamp-spacing", (6, 6)),
    ],
)
def test_where_paths_were_looked_at_in_part_a_stage_may_be_lacking(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, figure: str, ends: tuple[float, float]
) -> None:
    record = record_of(WHOLE.replace("paths: whole", "paths: part") + ROW)
    assert ends_of(figure, record) == pytest.approx(ends)
    assert ("paths: looked at only in part" in measure_of(figure, record).missing) == (ends != (6, 6))


def test_a_lamp_seen_through_a_stage_that_may_be_lacking_may_shine_along(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = ROW.replace("7 lm, separated_by: wall, seen_through: pane", "7 lm, seen_through: hole")
    assert ends_of("lit-opening-per-lamp", record_of(WHOLE + text)) == (24, 24)
    in_part = record_of(WHOLE.replace("paths: whole", "paths: part") + text)
    assert ends_of("lit-opening-per-lamp", in_part) == (0, 24)


def test_what_shines_is_told_by_the_trait_and_not_by_the_name(record_of: RecordOf, ends_of: EndsOf) -> None:
    terms = "terms: {means: {ember: {meaning: glows, traits: [shines]}, LED look-alike: {meaning: painted dot}}}\n"
    text = "indicators: {a: {means: ember, count: 3}, b: {means: LED look-alike}}\n"
    assert ends_of("lamp-count", record_of(WHOLE + terms + text)) == (3, 3)


UNITS = (
    """boards: {{main: {{}}}}
indicators:
  good: {{on: main, means: LED, at: [{a}, {b}], power: {p}, flux: 1 lm, seen_through: pane}}
  poor: {{on: main, means: LED, at: [{b}, {a}], power: {p}, flux: 2 lm, seen_through: pane}}
paths: {{glow: {{kind: light, from: good, through: [{{what: wall, length: {a}}}, {{what: pane, thickness: {b}, area: {c}}}]}}}}
""",
    {"a": "25.4 mm", "b": "2 mm", "p": "12 mW", "c": "48 mm2"},
    {"a": "1 inch", "b": "0.002 m", "p": "0.012 W", "c": "0.48 cm2"},
)


@pytest.mark.parametrize("figure", ["lamp-spacing", "light-path-over-spacing", *FIGURES[4:]])
def test_units_do_not_matter(record_of: RecordOf, ends_of: EndsOf, figure: str) -> None:
    template, metric, other = UNITS
    ends = ends_of(figure, record_of(WHOLE + template.format(**metric)))
    assert ends is not None
    assert ends_of(figure, record_of(WHOLE + template.format(**other))) == pytest.approx(ends, rel=1e-9)


def test_a_pitch_in_another_unit_is_the_same(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = "indicators: {{ring: {{means: LED, count: 8, pitch: {}}}}}\n"
    one, other = (ends_of("lamp-spacing", record_of(WHOLE + text.format(pitch))) for pitch in ("25.4 mm", "1 inch"))
    assert one == other == (25.4, 25.4)


LOOSE = """boards: {{main: {{}}}}
indicators:
  good: {{on: main, means: LED, at: [{0} mm, 5 mm], power: {1} mW, flux: {2} lm, seen_through: pane}}
  poor: {{on: main, means: LED, at: [16 mm, {1} mm], power: {2} mW, flux: {0} lm, seen_through: pane}}
paths: {{glow: {{kind: light, from: good, through: [{{what: wall, length: {1} mm}}, {{what: pane, thickness: {0} mm, area: {2} mm2}}]}}}}
"""
tenths = st.integers(0, 400).map(lambda n: n / 10)


@given(st.lists(st.tuples(tenths, tenths, tenths), min_size=3, max_size=3))
@CALM
def test_narrower_facts_give_narrower_figures(
    record_of: RecordOf, ends_of: EndsOf, facts: list[tuple[float, float, float]]
) -> None:
    ordered = [sorted(fact) for fact in facts]
    wide = record_of(WHOLE + LOOSE.format(*(f"{low}..{high}" for low, _, high in ordered)))
    narrow = record_of(WHOLE + LOOSE.format(*(f"{low}..{middle}" for low, middle, _ in ordered)))
    exact = record_of(WHOLE + LOOSE.format(*(middle for _, middle, _ in ordered)))
    for figure in FIGURES:
        outer, inner, least = (ends_of(figure, record) for record in (wide, narrow, exact))
        for one, other in ((outer, inner), (inner, least)):
            if one is not None and other is not None:
                assert one[0] <= other[0] * (1 + 1e-9) + 1e-12, figure
                assert other[1] <= one[1] * (1 + 1e-9) + 1e-12, figure
