"""Published numbers of sound, each through the figure of a record that states what the source states."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from archdiff.figures import sound
from archdiff.physics.acoustics import helmholtz_frequency

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.figures.figure import Figure
    from archdiff.quantities import Bounds
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

# Half-litre bottle, blown over: frequency in Hz by the volume of air in cm³ above the water (read).
BOTTLE = {100: 355, 200: 239, 300: 193, 400: 165, 500: 146}
ARRAY = """coverage: {{sensors: whole, paths: whole}}
boards: {{main: {{outline: 90 x 20 mm}}}}
sensors:
  one: {{on: main, at: [10 mm, 10 mm], means: MEMS microphone}}
  two: {{on: main, at: [{place} mm, 10 mm], means: MEMS microphone}}
paths: {{hearing: {{kind: sound, from: room, to: one, ambient: 20 degC}}}}
"""
PORT = """coverage: {{sensors: whole, paths: whole}}
sensors: {{one: {{means: MEMS microphone, port: {{{port}}}}}}}
paths: {{hearing: {{kind: sound, from: room, to: one, ambient: 20 degC, through: [{stages}]}}}}
"""


def bounds_of(figure: Figure, record: Record) -> Bounds:
    assert figure.of_product is not None
    bounds = figure.of_product(record).bounds
    assert bounds is not None
    assert bounds.is_exact
    return bounds


@pytest.mark.parametrize(
    ("spacing", "figure", "expected", "within"),
    [
        (14.29, sound.aliasing_limit, 12_000, 12),  # published as "12 kHz" (read)
        (65, sound.aliasing_limit, 2640, 0.5),  # computed by hand
        (65, sound.arrival_spread, 2 * 94.69, 0.01),  # twice that of 30 degrees from broadside, computed by hand
        (65, sound.array_aperture, 65, 1e-9),
        (65, sound.microphone_spacing, 65, 1e-9),
    ],
)
def test_two_microphones(record_of: RecordOf, spacing: float, figure: Figure, expected: float, within: float) -> None:
    record = record_of(ARRAY.format(place=10 + spacing))
    assert bounds_of(figure, record).low == pytest.approx(expected, abs=within)


@pytest.mark.parametrize(
    ("port", "stages"),
    [
        ("cavity: 2 mm3", "{what: hole, length: 3 mm, diameter: 1 mm}"),
        ("", "{what: hole, length: 3 mm, diameter: 1 mm}, {what: cavity, volume: 2 mm3}"),
        # The same hole, through three layers.
        (
            "cavity: 2 mm3",
            """{what: shell, length: 1.5 mm, diameter: 1 mm}, {what: gasket, thickness: 0.5 mm, diameter: 1 mm},
               {what: board, length: 1 mm, diameter: 1 mm}""",
        ),
    ],
)
def test_port_of_a_microphone(record_of: RecordOf, port: str, stages: str) -> None:
    # 1.0 mm wide, 3.0 mm long, 2.0 mm³ behind it, 20 °C: 17 446 Hz, computed by hand.
    record = record_of(PORT.format(port=port, stages=stages))
    assert bounds_of(sound.port_resonance, record).low == pytest.approx(17_446, abs=1)


def test_port_without_a_path_of_its_own(record_of: RecordOf) -> None:
    text = PORT.format(port="diameter: 1 mm, length: 3 mm, cavity: 2 mm3", stages="").replace("to: one", "to: other")
    bounds = sound.port_resonance.of_product(record_of(text)).bounds  # type: ignore[misc]
    assert bounds is not None
    assert bounds.best == pytest.approx(17_446, abs=1)  # at 20 °C, which is only taken: computed by hand
    assert bounds.low == pytest.approx(17_446 * math.sqrt((273.15 + 5) / 293.15), abs=1)
    assert bounds.high == pytest.approx(17_446 * math.sqrt((273.15 + 40) / 293.15), abs=1)


def test_plate_before_a_loudspeaker(record_of: RecordOf) -> None:
    # 50 mm at 20 °C: 1716 Hz (formula read, computed by hand).
    text = """coverage: {actuators: whole, paths: whole}
actuators: {driver: {means: moving-coil loudspeaker, faces: into plate, distance_to_plate: 50 mm}}
paths: {voice: {kind: sound, from: driver, to: user, ambient: 20 degC}}
"""
    assert bounds_of(sound.first_null, record_of(text)).low == pytest.approx(1716, abs=0.5)


def test_a_bottle_that_was_measured(record_of: RecordOf) -> None:
    """The measured tones go with one over the root of the volume within 6 per cent, and so does the figure."""
    constant = sum(tone * math.sqrt(volume) for volume, tone in BOTTLE.items()) / len(BOTTLE)
    tones = {}
    for volume in BOTTLE:
        port = f"diameter: 20 mm, length: 60 mm, cavity: {volume} cm3"
        text = PORT.format(port=port, stages="{what: neck, length: 60 mm, diameter: 20 mm}")
        tones[volume] = bounds_of(sound.port_resonance, record_of(text)).low
    for volume, tone in BOTTLE.items():
        assert tones[volume] / tones[100] * constant / math.sqrt(100) == pytest.approx(tone, rel=0.06)


def test_the_bottle_has_one_neck_for_all_its_fillings() -> None:
    # The inertance that fits the smallest volume foretells the tones of the others within 2 x 6 per cent.
    air = (343e3 / (math.tau * BOTTLE[100])) ** 2 / 100e3
    for volume, tone in BOTTLE.items():
        assert helmholtz_frequency(343, volume * 1e3, air) == pytest.approx(tone, rel=0.12)
