import pytest

from archdiff.pipeline import compare
from archdiff.quantities import DIMENSIONS
from archdiff.record import sections
from archdiff.record.schema import load_schema
from archdiff.unknowns import Unknown, look_at, telling
from archdiff.unknowns.ways import BY_DIMENSION, BY_SECTION

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


def test_the_look_at_list_is_ranked_by_what_bears_on_it_as_shown(comparison, air_monitors, bike_lights):
    for one in (comparison, air_monitors, bike_lights):
        shown = [(look.verdicts, look.figures) for look in one.look_at if not look.asked]
        assert len(shown) > 5
        worth = [2 * verdicts + figures for verdicts, figures in shown]
        assert worth == sorted(worth, reverse=True)
        assert all(look.verdicts + look.figures == look.settles == len(look.waiting) for look in one.look_at)


def test_what_the_analyst_asked_is_settled_as_the_analyst_says(comparison):
    (asked,) = [look for look in comparison.look_at if look.asked]
    assert (asked.where, asked.what, asked.how) == ("Host processing (IC1)", "what is it", "lift the can")


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
    assert {entry.where for entry in found} == {
        "U0, U1, U2, U3, U4 and 4 more",
        "U9",
        "U1",
        "Parts on the underside of Main board",
    }
    assert {entry.what for entry in found} == {"price", "mass", "not looked at"}
    assert sum(len(entry.waiting) for entry in found) == 1 + 2 + 1 + 1


BENCH = """
coverage: {boards: whole, parts: {main: {top: part, bottom: none}, elsewhere: whole}, sensors: {main: {top: whole, bottom: none}, elsewhere: whole}, shields: whole, joints: whole, opening: whole, antennas: part}
boards: {main: {name: Main board, outline: 60 x 40 mm, hidden_under: lid, placements: {top: 12}}}
parts: {U1: {name: Radio, on: main, side: top, function: wireless networking, means: radio transceiver chip, hidden_under: can}}
shields: {can: {name: Radio can, on: main, side: top, means: soldered can, covers: [U1]}}
enclosure: {shell: {means: moulded shell}, lid: {name: Lid, in: shell, means: moulded shell}}
joints: {glue: {name: Board glue, between: [main, shell], means: liquid adhesive}, clips: {between: [lid, shell], means: snap fit, reusable: true}}
opening: [{do: unclip, what: clips, frees: [lid]}, {do: lift, what: main, frees: [main]}]
power: {rails: {v5: {voltage: 5 V, feeds: [U1]}}}
"""


def looks_of(record_of, text):
    record = record_of(text)
    return {look.where: look for look in compare(record, record_of(RIGHT)).look_at if look.side == "left"}


def test_one_side_of_a_board_is_one_look_that_says_how_and_what_is_in_the_way(record_of):
    looks = looks_of(record_of, BENCH)
    under = looks["Main board (main), underside"]
    assert under.what == "parts, sensors, how many are placed there"
    assert under.how == (
        "turn the board over, lift the lid (moulded shell) and list what is there; the main board comes off with action "
        "2 of the opening; the board glue (liquid adhesive) cannot be undone without damage"
    )
    top = looks["Main board (main), top side"]
    assert top.what == "parts not listed yet"
    assert "the radio can (soldered can)" in top.how


def test_what_is_in_the_way_is_told_only_where_the_record_tells_it(record_of):
    bare = BENCH.replace(", hidden_under: lid", "").replace("opening: [", "absent: [] #").replace(", frees: [main]", "")
    bare = bare.replace(
        "between: [main, shell], means: liquid adhesive", "between: [lid, shell], means: liquid adhesive"
    )
    how = looks_of(record_of, bare)["Main board (main), underside"].how
    assert how == "turn the board over and list what is there"
    never = looks_of(record_of, BENCH.replace(", frees: [main]", ""))["Main board (main), underside"].how
    assert "no recorded action takes the main board off" in never


def test_a_section_looked_at_in_part_is_never_told_as_not_looked_at_nor_the_other_way(record_of):
    looks = compare(record_of(BENCH), record_of(RIGHT)).look_at
    whole = {(look.side, look.what): look for look in looks if look.where == "Whole product"}
    assert whole["left", "antennas not listed yet"].how == BY_SECTION["antennas"]
    assert ("left", "controls") in whole  # nothing is stated of controls there
    assert ("left", "controls not listed yet") not in whole


def test_things_stand_by_label_and_facts_by_the_schemas_words(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        records = {"left": comparison.left, "right": comparison.right}
        for look in telling(comparison.look_at):
            assert look.things
            assert look.how
            assert "_" not in look.what, look
            named = [thing for thing in look.things if thing.label in records[look.side].elements]
            assert not named, look


def test_a_fact_is_called_as_the_schema_calls_it_and_measured_by_its_dimension(record_of):
    empty = record_of(BENCH)
    unknowns = [
        Unknown("left", about, "not stated in the record", (f"figure: {about}",))
        for about in ("v5: efficiency", "U1: clock", "shell: mass", "U1: price", "U1: marking", "main: copper")
    ]
    found = {look.what: look for look in look_at(unknowns, empty, empty)}
    assert {what: look.where for what, look in found.items()} == {
        "efficiency": "Supply rail (v5)",
        "clock": "Radio (U1)",
        "mass": "Enclosure piece (shell)",
        "price": "Radio (U1)",
        "marking": "Radio (U1)",
        "copper thickness": "Main board (main)",
    }
    instruments = {"mass": "scale", "marking": "magnification", "price": "quotes", "copper thickness": "sample is lost"}
    assert all(word in found[what].how for what, word in instruments.items())
    # What covers a part is in the way of a reading, not of a price list.
    assert found["marking"].how.endswith("it lies under the radio can")
    assert "lies under" not in found["price"].how


def test_every_dimension_of_the_record_and_every_section_has_a_way_to_look():
    def dimensions(node):
        if isinstance(node, dict):
            yield from ([node["x-quantity"]] if isinstance(node.get("x-quantity"), str) else [])
        for inner in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
            yield from dimensions(inner)

    used = set(dimensions(load_schema("record")))
    assert len(used) > 20
    assert used <= set(BY_DIMENSION)
    assert set(BY_DIMENSION) <= {*DIMENSIONS, "size"}
    assert {section.covered_by for section in sections()} | {"opening"} <= set(BY_SECTION)
