from archdiff.knockons import follow
from archdiff.pipeline import compare

LEFT = """
coverage: {boards: whole, parts: whole, interconnects: whole, controls: whole, shields: whole, power: whole}
boards: {main: {name: Main, outline: 60 x 40 mm}, front: {name: Front, outline: 30 x 20 mm}}
parts:
  U1: {on: main, function: host processing, means: microcontroller}
  U2: {on: main, function: voltage conversion, means: step-down converter}
controls:
  key: {on: front, function: mode selection, means: tactile switch}
interconnects:
  ribbon: {name: Ribbon, between: [main, front], means: flat flexible cable, ways: 10}
power:
  entry: {jack: {name: Jack, on: main, means: coaxial dc plug}}
  rails: {v33: {name: 3.3 V, from: jack, made_by: U2, feeds: [U1]}}
decisions:
  d1: {choice: keys on a board of their own, forces: [ribbon, nothing_there], because: thin front}
"""
RIGHT = """
coverage: {boards: whole, parts: whole, interconnects: whole, controls: whole, shields: whole, power: whole}
boards: {one: {name: One, outline: 60 x 40 mm}}
parts:
  IC1: {on: one, function: host processing, means: microcontroller}
  IC2: {on: one, function: voltage conversion, means: linear regulator}
controls:
  pad: {on: one, function: mode selection, means: capacitive touch electrode}
power:
  entry: {usb: {on: one, means: USB Type-C receptacle}}
  rails: {vcc: {from: usb, made_by: IC2, feeds: [IC1]}}
"""


def chains(record_of, left, right):
    comparison = compare(record_of(left), record_of(right))
    return comparison.chains


def test_a_board_of_its_own_brings_what_joins_it_and_what_sits_on_it(record_of):
    (found,) = [c for c in chains(record_of, LEFT, RIGHT) if c.root == "an additional board: Front"]
    assert {(link.effect_id, link.because) for link in found.links} == {
        ("ribbon", "joins it to the rest"),
        ("key", "sits on it"),
    }
    assert (found.side, found.analyst) == ("left", False)


def test_no_board_is_called_one_sided_where_the_other_products_boards_were_not_all_looked_at(record_of):
    partly = RIGHT.replace("boards: whole", "boards: part")
    assert not [c for c in chains(record_of, LEFT, partly) if c.root.startswith("an additional board")]


def test_the_supply_comes_before_what_converts_it(record_of):
    found = [c for c in chains(record_of, LEFT, RIGHT) if "makes" in c.links[0].because]
    assert {(c.side, c.links[0].effect_id) for c in found} == {("left", "U2"), ("right", "IC2")}


def test_the_analysts_own_chain_comes_first_and_names_only_what_exists(record_of):
    first = chains(record_of, LEFT, RIGHT)[0]
    assert (first.root, first.analyst) == ("keys on a board of their own", True)
    assert [link.effect_id for link in first.links] == ["ribbon"]


def test_alike_products_have_no_chains_but_the_analysts(record_of):
    left = record_of(LEFT)
    comparison = compare(left, record_of(LEFT))
    assert all(chain.analyst for chain in follow(comparison.alignment, left, left))


def test_a_chain_says_what_its_choice_is_about_as_far_as_that_is_stated(record_of):
    stated = LEFT.replace("forces: [ribbon, nothing_there]", "about: [front, gone], forces: [ribbon]")
    found = {chain.root: chain.about for chain in chains(record_of, stated, RIGHT) if chain.side == "left"}
    assert found["keys on a board of their own"] == ("front",)
    assert found["an additional board: Front"] == ("front",)
    assert found["Jack, coaxial dc socket"] == ("jack",)
    assert chains(record_of, LEFT, RIGHT)[0].about == ()
