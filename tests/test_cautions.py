"""Cautions follow what a record lists, and not only what it says of its supply."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.cautions import cautions_of
from archdiff.notes import Notes
from archdiff.pipeline import compare

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison
    from archdiff.record import Record

    RecordOf = Callable[[str], Record]

HEAD = (
    "archdiff: 1\nproduct: {{name: {name}, kind: test, supply: [{supply}]}}\ncoverage: {{parts: whole, power: whole}}\n"
)


def record(record_of: RecordOf, name: str, supply: str, text: str = "") -> Record:
    return record_of(HEAD.format(name=name, supply=supply) + text)


def told(record_of: RecordOf, text: str, supply: str = "external supply") -> dict[str, str]:
    pair = record(record_of, "Tarvo", supply, text), record(record_of, "Molk", "external supply")
    return {group.supply: group.products for group in cautions_of(compare(*pair, Notes()))}


@pytest.mark.parametrize(
    ("text", "caution"),
    [
        ("power: {entry: {inlet: {means: mains inlet}}}\n", "mains"),
        ("power: {storage: {pack: {voltage: 11.1 V, charge: 2600 mAh}}}\n", "battery"),
        ("power: {storage: {pack: {energy: 9.6 Wh}}}\n", "battery"),
        ("parts: {C1: {means: electrolytic capacitor, capacitance: 100 uF, voltage: 325 V}}\n", "charged capacitors"),
        (
            "parts: {C1: {means: film capacitor, capacitance: 1 uF, voltage: 325 V, bleed: 1 Mohm}}\n",
            "charged capacitors",
        ),
        ("power: {storage: {s: {means: supercapacitor, capacitance: 10 F, voltage: 2.7 V}}}\n", "charged capacitors"),
    ],
)
def test_what_is_listed_calls_for_its_caution(text: str, caution: str, record_of: RecordOf) -> None:
    assert told(record_of, text) == {"external supply": "Tarvo and Molk", caution: "Tarvo"}


@pytest.mark.parametrize(
    "text",
    [
        "power: {entry: {jack: {means: coaxial dc socket}}}\n",
        "power: {storage: {clock: {means: coin cell, function: back-up storage, energy: 0.12 Wh}}}\n",
        "parts: {C1: {means: electrolytic capacitor, capacitance: 470 uF, voltage: 10 V}}\n",
    ],
)
def test_small_things_call_for_none(text: str, record_of: RecordOf) -> None:
    assert told(record_of, text) == {"external supply": "Tarvo and Molk"}


def test_a_supply_that_is_stated_needs_no_listing(record_of: RecordOf) -> None:
    assert told(record_of, "", "mains, battery") == {"mains": "Tarvo", "battery": "Tarvo", "external supply": "Molk"}


def test_a_supply_that_is_not_stated_may_be_any_and_is_said_so(record_of: RecordOf) -> None:
    found = told(record_of, "power: {entry: {inlet: {means: mains inlet}}}\n", "")
    assert found["mains"] == "Tarvo"
    assert found["battery"] == "Tarvo, whose supply is not stated"
    assert "charged capacitors" not in found


def test_the_examples(air_monitors: Comparison, bike_lights: Comparison) -> None:
    assert {group.supply for group in cautions_of(air_monitors)} == {"external supply"}
    assert {group.supply for group in cautions_of(bike_lights)} == {"battery", "external supply"}
