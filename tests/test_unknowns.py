import pytest

from archdiff.pipeline import compare
from archdiff.unknowns import Unknown, look_at

LEFT = """
coverage: {boards: whole, parts: whole, controls: whole, sensors: whole}
boards: {main: {name: Main board, outline: 60 x 40 mm, placements: {top: 30, bottom: 2}}}
parts: {U1: {on: main, function: host processing, means: microcontroller}}
sensors: {s1: {on: main, function: humidity sensing, means: digital humidity chip}}
"""
RIGHT = """
coverage: {boards: whole, parts: {one: {top: whole, bottom: none}}, controls: whole}
boards: {one: {name: Logic board, outline: 60 x 40 mm}}
parts: {IC1: {on: one, function: host processing}}
questions: [{about: IC1, ask: what is it, settle_by: lift the can}]
"""


@pytest.fixture
def comparison(record_of):
    return compare(record_of(LEFT), record_of(RIGHT))


def test_a_gap_is_told_once_in_words_with_what_hangs_on_it(comparison):
    (gap,) = [u for u in comparison.unknowns if u.about == "parts on the underside of Logic board"]
    assert (gap.side, gap.why) == ("right", "not looked at")
    wheres = [(u.side, u.about) for u in comparison.unknowns]
    assert len(wheres) == len(set(wheres))


def test_an_open_verdict_hangs_on_the_section_that_was_not_looked_at(comparison):
    (gap,) = [u for u in comparison.unknowns if (u.side, u.about) == ("right", "sensors")]
    assert "verdict on humidity sensing" in gap.hangs


def test_a_means_that_is_not_stated_is_asked_for(comparison):
    assert [u.about for u in comparison.unknowns if "IC1): means" in u.about]


def test_a_figure_that_lacks_a_fact_waits_for_it(comparison):
    waiting = {hang for u in comparison.unknowns if u.side == "right" for hang in u.hangs}
    assert any(hang.startswith("figure: ") for hang in waiting)
    assert not any(u.side == "left" and "placements" in u.about for u in comparison.unknowns)


def test_the_look_at_list_is_ranked_by_what_it_settles(comparison):
    gaps = [entry for entry in comparison.look_at if entry.what != "lift the can"]
    worth = [sum(2 if hang.startswith("verdict") else 1 for hang in entry.waiting) for entry in gaps]
    assert worth == sorted(worth, reverse=True)
    (asked,) = [entry for entry in comparison.look_at if entry.what == "lift the can"]
    assert "IC1" in asked.where


def test_nothing_is_unknown_of_what_was_wholly_seen(record_of):
    covered = "boards parts interconnects controls indicators sensors actuators antennas shields enclosure joints paths opening power"
    text = f"coverage: {{{', '.join(f'{name}: whole' for name in covered.split())}}}\n" + LEFT.split("\n", 2)[2]
    record = record_of(text)
    found = compare(record, record).unknowns
    assert not [u for u in found if "looked" in u.why], found


def test_one_fact_of_many_things_is_one_look(record_of):
    empty = record_of("coverage: {}")
    same = tuple(Unknown("left", f"U{n}: price", "not stated in the record", ("figure: Prices",)) for n in range(9))
    other = Unknown("left", "U9: price", "not stated in the record", ("figure: Prices", "figure: Share"))
    alone = Unknown("right", "U1: mass", "not stated in the record", ("figure: Mass",))
    gap = Unknown("left", "parts on the underside of Main board", "not looked at", ("figure: Prices",))
    found = look_at((*same, other, alone, gap), empty, empty)
    where = {entry.where for entry in found}
    assert where == {
        "price of U0, U1, U2, U3, U4 and 4 more",
        "U9: price",
        "U1: mass",
        "parts on the underside of Main board",
    }
    assert sum(len(entry.waiting) for entry in found) == 1 + 2 + 1 + 1
