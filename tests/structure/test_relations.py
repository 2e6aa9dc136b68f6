"""What a record's facts make of a matrix: which rows there are, which marks, and in which direction."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from archdiff.structure import IN_USE, OF_THE_BUILD, Layer, all_traced, matrix_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record
    from archdiff.structure import Matrix

    RecordOf = Callable[[str], Record]

BUILD = """
boards: {main: {in: shell}, front: {}}
parts:
  U1: {on: main, function: host processing, fed_by: v3, joined_to: [U2, ribbon]}
  U2: {on: main, function: program storage, fed_by: v3}
  U3: {on: main, function: voltage conversion, fed_by: v5}
  pad: {function: thermal coupling, sits_in: can}
  tall: {on: front, function: bulk capacitance, laid_through: front, joined_to: [U9]}
  U9: {on: main, function: expansion, populated: false}
interconnects:
  ribbon: {between: [main, front]}
  lead: {between: [horn, main]}
sensors: {hot: {on: front, function: temperature sensing}}
actuators: {horn: {in: shell, function: sound output, count: 2}}
antennas: {wire: {on: main, function: wireless networking, serves: U1}}
shields: {can: {on: main, covers: [U1, U2]}}
power:
  entry: {jack: {in: shell}}
  rails:
    v5: {from: jack, feeds: [horn]}
    v3: {from: v5, made_by: U3}
enclosure: {shell: {function: housing}, lid: {function: housing}}
joints: {s1: {between: [shell, lid]}, s2: {between: [main, shell]}}
paths:
  heat: {kind: heat, from: U1, through: [{what: gap of air}, {what: can}, {what: pad}, {what: shell}], to: air}
  air: {kind: air, from: room, through: [{what: slots}, {what: ribbon}], to: hot}
decisions: {d1: {choice: a can, about: [U1], forces: [can, s1]}}
"""


def marks(matrix: Matrix, layer: Layer) -> set[str]:
    return {f"{matrix.ids[row]}>{matrix.ids[column]}" for row, column in matrix.marks[layer]}


@pytest.fixture
def matrix(record_of: RecordOf) -> Matrix:
    return matrix_of(record_of(BUILD))


def both(*pairs: str) -> set[str]:
    return {*pairs, *(">".join(reversed(pair.split(">"))) for pair in pairs)}


@pytest.mark.parametrize(
    ("layer", "wanted"),
    [
        (
            Layer.SITS,
            {"main>shell", "U1>main", "U2>main", "U3>main", "pad>can", "tall>front", "hot>front", "horn>shell"}
            | {"wire>main", "can>main", "can>U1", "can>U2", "jack>shell"},
        ),
        # What is joined to a link is joined to its ends; an empty site has no row.
        (Layer.JOINED, both("main>front", "horn>main", "U1>U2", "U1>main", "U1>front", "wire>U1")),
        # Loads of v3 depend on what makes it; that depends on where v5 comes from, as a load of v5 does.
        (Layer.FED, {"U1>U3", "U2>U3", "U3>jack", "horn>jack"}),
        # A stage in plain words is passed over, and so is a link.
        (Layer.PATH, {"can>U1", "pad>can", "shell>pad"}),
        (Layer.FASTENED, both("shell>lid", "main>shell")),
        # A joint is no thing and has no row.
        (Layer.FORCED, {"can>U1"}),
    ],
)
def test_each_layer_takes_what_is_stated(layer: Layer, wanted: set[str], matrix: Matrix) -> None:
    assert marks(matrix, layer) == wanted


def test_rows_are_things_and_entries_count_for_all_they_stand_for(matrix: Matrix) -> None:
    assert "U9" not in matrix.ids
    assert not {"ribbon", "s1", "v5", "heat"} & set(matrix.ids)
    assert len(matrix.ids) == 14
    assert matrix.size == 15


@pytest.mark.parametrize("layer", list(Layer))
def test_layers_that_hold_both_ways_are_symmetric_and_the_others_are_not(layer: Layer, matrix: Matrix) -> None:
    found = set(matrix.marks[layer])
    mirrored = {(column, row) for row, column in found}
    assert (found == mirrored) is layer.is_symmetric


def test_a_mark_knows_what_makes_the_relation(matrix: Matrix) -> None:
    place = matrix.number
    assert matrix.marks[Layer.JOINED][place["main"], place["front"]] == "ribbon"
    assert matrix.marks[Layer.FED][place["U1"], place["U3"]] == "v3"
    assert matrix.marks[Layer.FASTENED][place["lid"], place["shell"]] == "s1"
    assert matrix.marks[Layer.SITS][place["U1"], place["main"]] == ""


def test_pairs_tied_in_several_ways_count_once(matrix: Matrix) -> None:
    place = matrix.number
    # can and U1: lies over it, next on a path; main and shell: in it, fastened to it.
    pairs = matrix.pairs()
    assert sum({a, b} == {place["can"], place["U1"]} for a, b in pairs) == 1
    assert matrix.linked([Layer.SITS]) == 13 + 1  # two horns sit in the shell
    assert matrix.linked([Layer.FASTENED]) == 2
    assert matrix.linked() == sum(matrix.counts[a] * matrix.counts[b] for a, b in pairs)


def test_what_a_choice_forced_is_in_no_measure_of_the_build() -> None:
    assert Layer.FORCED not in OF_THE_BUILD
    assert set(IN_USE) < set(OF_THE_BUILD)


def test_a_thing_is_never_tied_to_itself(record_of: RecordOf) -> None:
    record = record_of("parts: {U1: {function: host processing, joined_to: [U1]}}\n")
    assert matrix_of(record).pairs() == frozenset()


WHOLE = [
    *("boards", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas"),
    *("shields", "enclosure", "joints", "paths", "power", "links"),
]


def test_empty_fields_mean_none_only_where_everything_was_traced(record_of: RecordOf) -> None:
    def traced(words: dict[str, str]) -> bool:
        text = ", ".join(f"{name}: {word}" for name, word in words.items())
        return all_traced(record_of(f"coverage: {{{text}}}\n"))

    every = dict.fromkeys(WHOLE, "whole")
    assert traced(every)
    for name in WHOLE:
        assert not traced({**every, name: "part"}), name
        assert not traced({key: word for key, word in every.items() if key != name}), name
