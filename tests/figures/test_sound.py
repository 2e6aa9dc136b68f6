"""Sound: what the figures say of silence, of several boards and of paths; distances are held against scipy."""

from __future__ import annotations

from math import hypot, inf
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

ARRAY = ("microphone-spacing", "array-aperture", "aliasing-limit", "arrival-spread")
WHOLE = "coverage: {sensors: whole, parts: whole, actuators: whole, paths: whole}\n"
CALM = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
places = st.lists(st.tuples(st.integers(0, 90), st.integers(0, 40)), min_size=2, max_size=7, unique=True)


def microphones(at: list[tuple[float, float]], board: str = "main") -> str:
    """Sensors of one board, at places in mm."""
    lines = [
        f"  m{board}{i}: {{on: {board}, means: MEMS microphone, at: [{x} mm, {y} mm]}}" for i, (x, y) in enumerate(at)
    ]
    return "\n".join(lines) + "\n"


@given(places)
@CALM
def test_spacings_on_one_board_are_those_that_scipy_finds(
    record_of: RecordOf, ends_of: EndsOf, at: list[tuple[float, float]]
) -> None:
    record = record_of(WHOLE + "boards: {main: {}}\nsensors:\n" + microphones(at))
    distances = pdist(np.array(at))
    assert ends_of("microphone-spacing", record) == pytest.approx((min(distances), min(distances)))
    assert ends_of("array-aperture", record) == pytest.approx((max(distances), max(distances)))


TWO_BOARDS = """boards:
  left: {outline: 30 x 20 mm, at: [5 mm, 10 mm], facing: front}
  right: {outline: 40 x 20 mm, at: [50 mm, 12 mm], facing: front}
sensors:
"""


@pytest.mark.parametrize(
    ("change", "across", "up"),
    [
        ("", 50 + 4 - 5 - 3, 12 + 6 - 10 - 8),  # by hand: places of the corners and on the boards added
        # Seen from behind, the second board's places count from its other edge.
        ("right: back", 50 + 40 - 4 - 5 - 3, 12 + 6 - 10 - 8),
        ("left: back", 50 + 4 - (5 + 30 - 3), 12 + 6 - 10 - 8),
    ],
)
def test_microphones_on_two_boards_are_as_far_apart_as_their_boards_say_or_a_depth_more(
    record_of: RecordOf, measure_of: MeasureOf, change: str, across: float, up: float
) -> None:
    text = TWO_BOARDS + microphones([(3, 8)], "left") + microphones([(4, 6)], "right")
    for board, facing in [change.split(": ")] if change else []:
        before, after = text.split(f"  {board}: ", 1)
        text = f"{before}  {board}: {after.replace('facing: front', f'facing: {facing}', 1)}"
    head = "archdiff: 1\nproduct: {name: Tarvo, kind: test, envelope: 100 x 24 x 60 mm}\n"
    bounds = measure_of("array-aperture", record_of(head + WHOLE + text)).bounds
    assert bounds is not None
    assert (bounds.low, bounds.high) == pytest.approx((hypot(across, up), hypot(across, up, 24)))


@pytest.mark.parametrize(
    ("cut", "lacking"),
    [
        ("at: [50 mm, 12 mm], ", "right: at"),
        ("at: [5 mm, 10 mm], facing: front", "left: facing"),
        (", at: [4 mm, 6 mm]", "mright0: at"),
    ],
)
def test_without_the_place_of_a_board_nothing_is_said_of_the_distance(
    record_of: RecordOf, measure_of: MeasureOf, cut: str, lacking: str
) -> None:
    text = TWO_BOARDS + microphones([(3, 8)], "left") + microphones([(4, 6)], "right")
    assert cut in text
    for figure in ARRAY:
        measure = measure_of(figure, record_of(WHOLE + text.replace(cut, "")))
        assert measure.bounds is None
        assert lacking in measure.missing


def test_a_board_that_lies_flat_has_no_place_seen_from_the_front(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = TWO_BOARDS.replace("facing: front", "facing: up", 1)
    record = record_of(WHOLE + text + microphones([(3, 8)], "left") + microphones([(4, 6)], "right"))
    measure = measure_of("array-aperture", record)
    assert measure.bounds is None
    assert "left: place in all three directions" in measure.missing


@pytest.mark.parametrize("figure", ARRAY)
def test_one_microphone_is_no_array(record_of: RecordOf, measure_of: MeasureOf, figure: str) -> None:
    record = record_of(WHOLE + "boards: {main: {}}\nsensors:\n" + microphones([(1, 2)]))
    measure = measure_of(figure, record)
    assert measure.bounds is None
    assert measure.how == "one microphone: no array"
    assert (measure.moot, measure.missing) == (True, ())


# How far sensors were looked at, or a further one, and what is therefore lacking: another microphone may be there.
OPEN = [
    ("", "", "sensors: how far it was looked at is not stated"),
    ("sensors: part", "", "sensors: looked at only in part"),
    ("sensors: none", "", "sensors: not looked at"),
    ("sensors: {main: whole}", "", "sensors elsewhere: not looked at"),
    ("sensors: {main: {top: whole}, elsewhere: whole}", "", "sensors on the underside of main: not looked at"),
    ("sensors: whole", "  odd: {on: main}\n", "odd: means"),
    ("sensors: whole", "  odd: {on: main, means: embedded in host}\n", "odd: what it is, inside another"),
]


@pytest.mark.parametrize("figure", ARRAY)
@pytest.mark.parametrize(("coverage", "more", "lacking"), OPEN)
def test_a_second_microphone_may_be_where_nobody_looked(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, coverage: str, more: str, lacking: str
) -> None:
    text = f"coverage: {{{coverage}}}\nboards: {{main: {{}}}}\nsensors:\n{microphones([(1, 2)])}{more}"
    measure = measure_of(figure, record_of(text))
    assert (measure.bounds, measure.moot, measure.how) == (None, False, "one microphone recorded")
    assert lacking in measure.missing


@pytest.mark.parametrize("figure", [*ARRAY, "port-resonance"])
@pytest.mark.parametrize(("coverage", "more", "lacking"), OPEN)
def test_a_first_microphone_may_be_where_nobody_looked(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, coverage: str, more: str, lacking: str
) -> None:
    text = (
        f"coverage: {{{coverage}}}\nboards: {{main: {{}}}}\nsensors:\n  warm: {{on: main, means: thermistor}}\n{more}"
    )
    measure = measure_of(figure, record_of(text))
    assert (measure.bounds, measure.moot) == (None, False)
    assert lacking in measure.missing


def test_an_embedded_sensor_may_be_a_microphone_and_counts_as_one_site_at_most(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    record = record_of(WHOLE + "sensors: {odd: {means: embedded in host}}\n")
    assert ends_of("microphone-sites", record) == (0, 1)
    assert measure_of("microphone-sites", record).missing == ("odd: what it is, inside another",)


@pytest.mark.parametrize("figure", [*ARRAY, "port-resonance"])
def test_no_microphone_at_all(record_of: RecordOf, measure_of: MeasureOf, figure: str) -> None:
    measure = measure_of(figure, record_of(WHOLE + "sensors: {warm: {means: thermistor}}\n"))
    assert (measure.bounds, measure.how) == (None, "no microphone recorded")
    assert (measure.moot, measure.missing) == (True, ())


def test_several_in_one_entry_have_no_places(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = "boards: {main: {}}\nsensors: {ring: {on: main, means: MEMS microphone, count: 4, at: [9 mm, 9 mm]}}\n"
    for figure in ARRAY:
        measure = measure_of(figure, record_of(WHOLE + text))
        assert measure.bounds is None
        assert "ring: at of each" in measure.missing


def test_a_sensor_of_unknown_means_may_be_a_further_microphone(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = "boards: {main: {}}\nsensors:\n" + microphones([(10, 10), (40, 50)]) + "  odd: {on: main}\n"
    record = record_of(WHOLE + text)
    assert ends_of("microphone-spacing", record) == (0, 50)  # a triangle of 30, 40 and 50
    assert ends_of("array-aperture", record) == (50, inf)
    seen_in_part = record_of(text.replace("  odd: {on: main}\n", "") + "coverage: {sensors: part}\n")
    assert ends_of("microphone-spacing", seen_in_part) == (0, 50)


def test_what_hears_is_told_by_the_trait_and_not_by_the_name(record_of: RecordOf, ends_of: EndsOf) -> None:
    terms = "terms: {means: {whisper foil: {meaning: a foil that hears, traits: [hears]}, mute: {meaning: deaf}}}\n"
    text = "boards: {main: {}}\nsensors:\n" + microphones([(0, 0), (3, 4)]).replace("MEMS microphone", "whisper foil")
    assert ends_of("array-aperture", record_of(WHOLE + terms + text)) == (5, 5)
    deaf = record_of(WHOLE + terms + text.replace("whisper foil", "mute"))
    assert ends_of("array-aperture", deaf) is None
    assert ends_of("microphone-sites", deaf) == (0, 0)


SITES = """sensors:
  m1: {means: MEMS microphone, function: voice capture}
  m2: {means: MEMS microphone, function: voice capture, count: 2}
parts:
  X1: {function: voice capture, means: empty footprint, populated: false}
  X2: {function: expansion, means: pin header, populated: false}
"""


@pytest.mark.parametrize(
    ("change", "ends"),
    [
        (("", ""), (4, 4)),
        (("function: expansion, ", ""), (4, 5)),  # may be one: nobody knows what it is for
        (("pin header", "top-port MEMS microphone"), (5, 5)),
        (("X1: {function: voice capture", "X1: {function: expansion"), (3, 3)),
        (("means: MEMS microphone, function: voice capture}", "means: MEMS microphone}"), (4, 5)),
        (("m1: {means: MEMS microphone, function", "m1: {function"), (3, 4)),
        (("populated: false", "populated: true"), (3, 3)),
    ],
)
def test_sites_for_microphones(
    record_of: RecordOf, ends_of: EndsOf, change: tuple[str, str], ends: tuple[float, float]
) -> None:
    assert ends_of("microphone-sites", record_of(WHOLE + SITES.replace(*change))) == ends


def test_fitted_and_empty_sites_are_told_apart(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("microphone-sites", record_of(WHOLE + SITES))
    assert {name: part.best for name, part in measure.parts.items()} == {"fitted": 3, "left empty": 1}
    in_part = measure_of("microphone-sites", record_of(WHOLE.replace("parts: whole", "parts: part") + SITES))
    assert in_part.bounds is not None
    assert (in_part.bounds.low, in_part.bounds.high) == (4, inf)


HEARING = """sensors: {one: {means: MEMS microphone, port: {diameter: 1 mm, length: 3 mm, cavity: 2 mm3}}}
paths: {way: {kind: sound, from: room, to: one, ambient: 20 degC, through: [
  {what: shell, length: 2 mm, diameter: 2 mm}, {what: board, length: 1 mm, diameter: 1 mm}, {what: cavity, volume: 4 mm3}]}}
"""


def test_a_recorded_path_is_taken_before_the_port_and_said(record_of: RecordOf, measure_of: MeasureOf) -> None:
    measure = measure_of("port-resonance", record_of(WHOLE + HEARING))
    assert measure.bounds is not None
    # By hand: (2 + 0.85)/3.14159 + (1 + 0.425)/0.785398 = 2.72155 /mm; 343215/6.28319/√(4 x 2.72155) = 16 556 Hz.
    assert measure.bounds.best == pytest.approx(16_556, abs=1)
    assert "path way" in measure.how
    assert not any("port" in fact for fact in measure.used)
    by_port = measure_of("port-resonance", record_of(WHOLE + HEARING.replace("to: one", "to: elsewhere")))
    assert "by its port" in by_port.how
    assert "one: port diameter" in by_port.used


@pytest.mark.parametrize(
    ("change", "lacking"),
    [
        (("length: 2 mm, ", ""), "way stage 1: length"),
        ((", length: 1 mm, diameter: 1 mm", ""), "way stage 2: volume"),
        (("length: 1 mm, diameter: 1 mm", "length: 1 mm"), "way stage 2: diameter"),
        ((", ambient: 20 degC", ""), "way: ambient"),
        (("diameter: 2 mm", "area: 3.14159 mm2"), "way stage 1: diameter"),
    ],
)
def test_what_a_path_does_not_state_leaves_the_resonance_open(
    record_of: RecordOf, measure_of: MeasureOf, change: tuple[str, str], lacking: str
) -> None:
    true = measure_of("port-resonance", record_of(WHOLE + HEARING)).bounds
    measure = measure_of("port-resonance", record_of(WHOLE + HEARING.replace(*change)))
    assert true is not None
    assert measure.bounds is not None
    assert measure.bounds.low <= true.low * (1 + 1e-6)
    assert measure.bounds.high >= true.high * (1 - 1e-6)
    assert not measure.bounds.is_exact
    assert lacking in measure.missing


def test_a_second_volume_lowers_the_resonance(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = HEARING.replace("{what: cavity", "{what: chamber, volume: 9 mm3}, {what: cavity")
    # By hand, at most that of the larger one alone with the holes less their ends:
    # 2/3.14159 + 1/0.785398 = 1.90986 /mm; 54624.4/√(9 x 1.90986) = 13 175 Hz.
    assert ends_of("port-resonance", record_of(WHOLE + text)) == pytest.approx((0, 13_175), abs=1)


def test_where_paths_were_looked_at_in_part_the_port_is_asked_first(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    in_part = WHOLE.replace("paths: whole", "paths: part")
    by_port = measure_of("port-resonance", record_of(in_part + HEARING))
    assert "by its port" in by_port.how
    assert by_port.bounds is not None
    assert by_port.bounds.best == pytest.approx(17_446, abs=1)  # 1 mm, 3 mm, 2 mm³, 20 °C, by hand
    # Without it a further hole may lie on the way, and the ends of those recorded may not be free: at most
    # 343215/6.28319/√(4 x 1.90986) = 54624.4/2.76395 = 19 763 Hz, by hand.
    no_port = HEARING.replace(", port: {diameter: 1 mm, length: 3 mm, cavity: 2 mm3}", "")
    assert ends_of("port-resonance", record_of(in_part + no_port)) == pytest.approx((0, 19_763), abs=1)
    missing = measure_of("port-resonance", record_of(in_part + no_port)).missing
    assert {"one: port", "paths: looked at only in part"} <= set(missing)


@pytest.mark.parametrize("lacking", ["port", "port cavity", "port length", "port diameter"])
def test_what_a_port_does_not_state_is_named(record_of: RecordOf, measure_of: MeasureOf, lacking: str) -> None:
    facts = {"port diameter": "diameter: 1 mm", "port length": "length: 3 mm", "port cavity": "cavity: 2 mm3"}
    port = ", ".join(text for name, text in facts.items() if name != lacking)
    text = f"sensors: {{one: {{means: MEMS microphone{'' if lacking == 'port' else f', port: {{{port}}}'}}}}}\n"
    measure = measure_of("port-resonance", record_of(WHOLE + text))
    assert f"one: {lacking}" in measure.missing
    assert measure.bounds is None or measure.bounds.low == 0


def test_the_lowest_of_several_ports_and_each_of_them(record_of: RecordOf, measure_of: MeasureOf) -> None:
    text = """sensors:
  near: {means: MEMS microphone, port: {diameter: 1 mm, length: 1 mm, cavity: 2 mm3}}
  far: {means: MEMS microphone, port: {diameter: 1 mm, length: 9 mm, cavity: 2 mm3}}
  damp: {means: humidity sensor chip, port: {diameter: 1 mm, length: 90 mm, cavity: 2 mm3}}
"""
    measure = measure_of("port-resonance", record_of(WHOLE + text))
    assert measure.bounds is not None
    assert set(measure.parts) == {"near", "far"}
    assert measure.bounds == measure.parts["far"]
    # By hand, √((1 + 0.85)/(9 + 0.85)): all else is equal.
    ratio = measure.parts["far"].low / measure.parts["near"].low
    assert ratio == pytest.approx(0.433380, abs=1e-5)


SPEAKER = """actuators: {driver: {means: moving-coil loudspeaker, size: round 30 x 6 mm, faces: down}}
paths: {voice: {kind: sound, from: driver, to: user, ambient: 20 degC, facing: front, through: [
  {what: ring, thickness: 1 mm, area: 600 mm2}, {what: front volume, volume: 1 cm3},
  {what: shell, length: 2 mm, diameter: 2 mm, parallel: 10}]}}
"""


def test_a_loudspeaker_before_its_opening(record_of: RecordOf, ends_of: EndsOf) -> None:
    record = record_of(WHOLE + SPEAKER)
    assert ends_of("loudspeaker-turn", record) == (90, 90)
    # By hand: 10 holes of 3.14159 mm² over 706.858 mm².
    assert ends_of("sound-opening-share", record) == pytest.approx((0.0444444, 0.0444444), abs=1e-6)
    # By hand: (2 + 2 x 0.85)/31.4159 = 0.117775 /mm; 343215/6.28319/√(1000 x 0.117775) = 5033.4 Hz.
    assert ends_of("front-volume-resonance", record) == pytest.approx((5033.4, 5033.4), abs=0.5)


@pytest.mark.parametrize(
    ("change", "angle"),
    [
        (("faces: down", "faces: front"), (0, 0)),
        (("faces: down", "faces: back"), (180, 180)),
        (("faces: down", "faces: into plate"), None),
        ((", faces: down", ""), None),
        ((", facing: front", ""), None),
    ],
)
def test_angle_between_loudspeaker_and_opening(
    record_of: RecordOf, ends_of: EndsOf, change: tuple[str, str], angle: tuple[float, float] | None
) -> None:
    assert ends_of("loudspeaker-turn", record_of(WHOLE + SPEAKER.replace(*change))) == angle


@pytest.mark.parametrize(
    ("figure", "cut", "lacking"),
    [
        ("front-volume-resonance", ", volume: 1 cm3", "voice stage 2: volume"),
        ("front-volume-resonance", "length: 2 mm, ", "voice stage 3: length"),
        ("front-volume-resonance", " {what: front volume, volume: 1 cm3},", "voice: a stage with a volume"),
        ("sound-opening-share", ", size: round 30 x 6 mm", "driver: size"),
        ("sound-opening-share", ", diameter: 2 mm, parallel: 10", "voice stage 3: area"),
        ("loudspeaker-turn", ", faces: down", "driver: faces"),
    ],
)
def test_what_is_lacking_of_a_loudspeaker_is_named(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, cut: str, lacking: str
) -> None:
    assert cut in SPEAKER
    measure = measure_of(figure, record_of(WHOLE + SPEAKER.replace(cut, "")))
    assert lacking in measure.missing
    assert measure.bounds is None or measure.bounds.low == 0


def test_of_two_loudspeakers_the_one_that_stands_out(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf
) -> None:
    more = SPEAKER.replace(
        "}}\npaths: {", "}, second: {means: dome tweeter, size: 10 x 10 mm, faces: front}}\npaths: {"
    )
    path = "second_voice: {kind: sound, from: second, to: user, facing: front, through: [{what: grille, area: 50 mm2}]}"
    record = record_of(WHOLE + more[:-2] + f", {path}}}\n")
    assert ends_of("loudspeaker-turn", record) == (90, 90)
    assert {k: v.best for k, v in measure_of("loudspeaker-turn", record).parts.items()} == {"driver": 90, "second": 0}
    assert ends_of("sound-opening-share", record) == pytest.approx((0.0444444, 0.0444444), abs=1e-6)
    silent = measure_of("loudspeaker-turn", record_of(WHOLE + more))
    assert silent.bounds is not None
    assert (silent.bounds.low, silent.bounds.high) == (90, 180)
    assert "second: a sound path from it" in silent.missing


@pytest.mark.parametrize(
    ("figure", "ends"),
    [
        ("sound-opening-share", (0, 0.0444444)),
        # By hand, without the ends: 343215/6.28319/√(1000 x 2/31.4159) = 6846.2 Hz.
        ("front-volume-resonance", (0, 6846.2)),
        ("loudspeaker-turn", (90, 90)),  # told by the facts of the path itself
    ],
)
def test_where_paths_were_looked_at_in_part_a_stage_may_be_lacking(
    record_of: RecordOf, ends_of: EndsOf, figure: str, ends: tuple[float, float]
) -> None:
    record = record_of(WHOLE.replace("paths: whole", "paths: part") + SPEAKER)
    assert ends_of(figure, record) == pytest.approx(ends, rel=1e-5)


OF_LOUDSPEAKERS = {
    "sound-opening-share": "no loudspeaker recorded",
    "front-volume-resonance": "no loudspeaker recorded",
    "loudspeaker-turn": "no loudspeaker recorded",
    "first-null": "no loudspeaker before a plate recorded",
}


@pytest.mark.parametrize(("figure", "how"), OF_LOUDSPEAKERS.items())
def test_no_loudspeaker_at_all(record_of: RecordOf, measure_of: MeasureOf, figure: str, how: str) -> None:
    measure = measure_of(figure, record_of(WHOLE + "actuators: {fan: {means: axial fan}}\n"))
    assert (measure.bounds, measure.how) == (None, how)
    assert (measure.moot, measure.missing) == (True, ())


@pytest.mark.parametrize("figure", OF_LOUDSPEAKERS)
@pytest.mark.parametrize(
    ("coverage", "more", "lacking"),
    [
        ("", "", "actuators: how far it was looked at is not stated"),
        ("actuators: part", "", "actuators: looked at only in part"),
        ("actuators: {main: whole}", "", "actuators elsewhere: not looked at"),
        ("actuators: whole", ", odd: {on: main}", "odd: "),
        ("actuators: whole", ", odd: {on: main, means: embedded in host}", "odd: "),
    ],
)
def test_a_loudspeaker_may_be_where_nobody_looked(
    record_of: RecordOf, measure_of: MeasureOf, figure: str, coverage: str, more: str, lacking: str
) -> None:
    text = (
        f"coverage: {{{coverage}}}\nboards: {{main: {{}}}}\nactuators: {{fan: {{on: main, means: axial fan}}{more}}}\n"
    )
    measure = measure_of(figure, record_of(text))
    assert (measure.bounds, measure.moot) == (None, False)
    assert any(fact.startswith(lacking) for fact in measure.missing)


@pytest.mark.parametrize(
    ("more", "ends"),
    [
        ("", None),
        (", distance_to_plate: 20 mm", (4290.2, 4290.2)),  # by hand: 343215 / 80
        (", distance_to_plate: 18..22 mm", (3900.2, 4766.9)),  # by hand: 343215 / 88 and / 72
    ],
)
def test_first_null(
    record_of: RecordOf, measure_of: MeasureOf, ends_of: EndsOf, more: str, ends: tuple[float, float] | None
) -> None:
    record = record_of(WHOLE + SPEAKER.replace(", faces: down", f", faces: down{more}"))
    assert ends_of("first-null", record) == (None if ends is None else pytest.approx(ends, abs=0.1))
    measure = measure_of("first-null", record)
    assert more or (measure.moot, "driver: distance_to_plate" in measure.missing) == (False, True)


def test_another_loudspeaker_may_have_a_lower_null(record_of: RecordOf, ends_of: EndsOf) -> None:
    text = SPEAKER.replace("faces: down}}", "faces: down, distance_to_plate: 20 mm}, second: {means: dome tweeter}}")
    ends = ends_of("first-null", record_of(WHOLE + text))
    assert ends is not None
    assert ends == pytest.approx((0, 4290.2), abs=0.1)


UNITS = (
    """sensors:
  one: {{on: main, means: MEMS microphone, at: [{a}, {b}]}}
  two: {{on: main, means: MEMS microphone, at: [{c}, {b}], port: {{diameter: {d}, length: {e}, cavity: {f}}}}}
  three: {{on: main, means: MEMS microphone, at: [{a}, {c}], port: {{area: {g}, length: {e}, cavity: {f}}}}}
boards: {{main: {{}}}}
actuators: {{driver: {{means: moving-coil loudspeaker, size: {h}, faces: down, distance_to_plate: {a}}}}}
paths:
  way: {{kind: sound, from: room, to: one, ambient: {t}, through: [
    {{what: shell, length: {e}, diameter: {d}}}, {{what: mesh, thickness: {d}, area: {g}}}, {{what: cavity, volume: {f}}}]}}
  voice: {{kind: sound, from: driver, to: user, ambient: {t}, facing: front, through: [
    {{what: volume, volume: {f}}}, {{what: holes, length: {e}, diameter: {d}, parallel: 3}}]}}
""",
    {"a": "25.4 mm", "b": "7 mm", "c": "50.8 mm", "d": "1.2 mm", "e": "3.5 mm", "f": "2 mm3", "g": "1.5 mm2"}
    | {"h": "round 30 x 6 mm", "t": "20 degC"},
    {"a": "1 inch", "b": "0.7 cm", "c": "2 inch", "d": "1200 um", "e": "0.0035 m", "f": "0.002 ml", "g": "0.015 cm2"}
    | {"h": "round 3 x 0.6 cm", "t": "293.15 K"},
)


@pytest.mark.parametrize(
    "figure", [*ARRAY, "port-resonance", "front-volume-resonance", "sound-opening-share", "first-null"]
)
def test_units_do_not_matter(record_of: RecordOf, ends_of: EndsOf, figure: str) -> None:
    template, metric, other = UNITS
    ends = ends_of(figure, record_of(WHOLE + template.format(**metric)))
    assert ends is not None
    assert ends_of(figure, record_of(WHOLE + template.format(**other))) == pytest.approx(ends, rel=1e-9)


LOOSE = """sensors:
  one: {{on: main, means: MEMS microphone, at: [{0} mm, 7 mm], port: {{diameter: {1} mm, length: {2} mm, cavity: {3} mm3}}}}
  two: {{on: main, means: MEMS microphone, at: [70 mm, {0} mm], port: {{area: {1} mm2, length: {2} mm, cavity: {3} mm3}}}}
boards: {{main: {{}}}}
actuators: {{driver: {{means: moving-coil loudspeaker, size: {3} x {3} mm, faces: up, distance_to_plate: {0} mm}}}}
paths:
  voice: {{kind: sound, from: driver, to: user, ambient: {0} degC, facing: up, through: [
    {{what: volume, volume: {3} cm3}}, {{what: holes, length: {2} mm, diameter: {1} mm}}, {{what: grid, thickness: {2} mm, area: {3} mm2}}]}}
  way: {{kind: sound, from: room, to: one, ambient: {0} degC, through: [
    {{what: hole, length: {2} mm, diameter: {1} mm}}, {{what: cavity, volume: {3} mm3}}]}}
"""
SOUND = (*ARRAY, "port-resonance", "front-volume-resonance", "sound-opening-share", "first-null", "loudspeaker-turn")
tenths = st.integers(5, 400).map(lambda n: n / 10)


@given(st.lists(st.tuples(tenths, tenths, tenths, st.floats(0, 1)), min_size=4, max_size=4))
@CALM
def test_narrower_facts_give_narrower_figures(
    record_of: RecordOf, ends_of: EndsOf, facts: list[tuple[float, float, float, float]]
) -> None:
    ordered = [sorted(fact[:3]) for fact in facts]
    wide = record_of(WHOLE + LOOSE.format(*(f"{low}..{high}" for low, _, high in ordered)))
    narrow = record_of(WHOLE + LOOSE.format(*(f"{low}..{middle}" for low, middle, _ in ordered)))
    exact = record_of(WHOLE + LOOSE.format(*(middle for _, middle, _ in ordered)))
    for figure in SOUND:
        outer, inner, least = (ends_of(figure, record) for record in (wide, narrow, exact))
        for one, other in ((outer, inner), (inner, least)):
            if one is not None and other is not None:
                assert one[0] <= other[0] * (1 + 1e-9) + 1e-12, figure
                assert other[1] <= one[1] * (1 + 1e-9) + 1e-12, figure
            assert one is None or other is not None, figure
