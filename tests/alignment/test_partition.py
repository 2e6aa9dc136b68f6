"""The partition of two products, against published values, exhaustive search and scikit-learn."""

from collections import Counter
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import adjusted_rand_score

from archdiff.alignment import align, partition_of
from archdiff.alignment.hosts import least_moves
from archdiff.alignment.partition import adjusted_rand
from tests.alignment.strategies import products, record_from

Table = dict[tuple[str, str], int]
tables = st.dictionaries(st.tuples(st.sampled_from("abcde"), st.sampled_from("vwxyz")), st.integers(1, 9), max_size=14)


def from_labels(left: str, right: str) -> Table:
    return dict(Counter(zip(left, right, strict=True)))


def from_rows(*rows: list[int]) -> Table:
    return {(f"r{a}", f"c{b}"): n for a, row in enumerate(rows) for b, n in enumerate(row) if n}


def fewest_moves(table: Table) -> int:
    """By trying every way to let hosts correspond."""
    rows, columns = sorted({a for a, _ in table}), sorted({b for _, b in table})
    columns += [""] * max(0, len(rows) - len(columns))
    kept = (
        sum(table.get(pair, 0) for pair in zip(rows, order, strict=False)) for order in permutations(columns, len(rows))
    )
    return sum(table.values()) - max(kept, default=0)


# Values recomputed with scikit-learn (adjusted_rand_score); the last two rows are worked examples whose tables are
# quoted from memory: Manning, Raghavan, Schuetze 2008, Introduction to Information Retrieval, ch. 16 (first), and
# a published worked example of the index, 0.313 (second).
@pytest.mark.parametrize(
    ("table", "expected"),
    [
        (from_labels("0011", "0012"), 0.571429),
        (from_labels("000111", "001122"), 0.242424),
        (from_labels("0000111222", "0001111122"), 0.352518),
        (from_labels("00001111", "00000000"), 0.0),
        (from_labels("00000000", "01234567"), 0.0),
        (from_rows([5, 1, 0], [1, 4, 1], [2, 0, 3]), 0.242915),
        (from_rows([1, 1, 0], [1, 2, 1], [0, 0, 4]), 0.312573),
    ],
)
def test_adjusted_rand_of_published_tables(table: Table, expected: float) -> None:
    assert adjusted_rand(table) == pytest.approx(expected, abs=1e-6)


@settings(deadline=None)
@given(tables)
def test_adjusted_rand_equals_scikit_learn(table: Table) -> None:
    labels = [pair for pair, count in table.items() for _ in range(count)]
    mine = adjusted_rand(table)
    if len(labels) < 2:
        assert mine is None
    else:
        expected = adjusted_rand_score([a for a, _ in labels], [b for _, b in labels])
        assert mine == pytest.approx(expected, abs=1e-9)


@settings(deadline=None)
@given(tables)
def test_least_moves_equal_exhaustive_search(table: Table) -> None:
    matched = least_moves(table)
    assert len(set(matched.values())) == len(matched)
    assert sum(table.values()) - sum(table[pair] for pair in matched.items()) == fewest_moves(table)


@settings(deadline=None, max_examples=60)
@given(products(), products())
def test_distance_of_an_alignment_equals_exhaustive_search(a: dict[str, Any], b: dict[str, Any]) -> None:
    left, right = record_from(a), record_from(b)
    partition = partition_of(align(left, right), left, right)
    on_boards = {pair: len(found) for pair, found in partition.table.items() if "shell" not in pair}
    in_shells = {pair: len(found) for pair, found in partition.table.items() if pair == ("shell", "shell")}
    mixed = partition.placed - sum(on_boards.values()) - sum(in_shells.values())
    assert partition.distance == fewest_moves(on_boards) + mixed
    assert partition.distance == sum(len(move.pairs) for move in partition.moves)


def two_boards(keys_on: str) -> dict[str, Any]:
    return {
        "boards": {"m": {"name": "Main board"}, "f": {"name": "Front board"}},
        "coverage": {"boards": "whole", "parts": "whole", "controls": "whole"},
        "parts": {
            "U1": {"on": "m", "function": "host processing", "means": "microcontroller"},
            "U2": {"on": "m", "function": "program storage", "means": "serial flash"},
            "U3": {"on": "f", "function": "display driving", "means": "LED driver"},
        },
        "controls": {
            "k1": {"on": keys_on, "function": "mode selection", "means": "tactile switch"},
            "k2": {"on": keys_on, "function": "volume adjustment", "means": "tactile switch"},
        },
    }


def test_a_move_is_told_in_plain_words_that_praise_no_side() -> None:
    left, right = record_from(two_boards("f"), "left.yaml"), record_from(two_boards("m"), "right.yaml")
    partition = partition_of(align(left, right), left, right)
    assert partition.distance == 2
    (move,) = partition.moves
    assert (move.left_host, move.right_host) == ("f", "m")
    assert {pair.function for pair in move.pairs} == {"mode selection", "volume adjustment"}
    assert move.text.endswith(": on the front board in Some, on the main board in Some")


def test_one_placed_pair_has_no_index() -> None:
    data = {"boards": {"m": {}}, "parts": {"U1": {"on": "m", "function": "host processing"}}}
    left, right = record_from(data), record_from(data)
    partition = partition_of(align(left, right), left, right)
    assert (partition.placed, partition.ari, partition.distance) == (1, None, 0)


def test_a_pair_without_a_stated_host_is_unplaced_and_moves_nothing() -> None:
    data = two_boards("f")
    other = two_boards("f")
    del other["controls"]["k1"]["on"]
    left, right = record_from(data), record_from(other)
    partition = partition_of(align(left, right), left, right)
    assert [pair.function for pair in partition.unplaced] == ["mode selection"]
    assert partition.distance == 0


def test_sites_left_empty_decide_no_board() -> None:
    def built(empty_on: str) -> dict[str, Any]:
        data = two_boards("m")
        data["parts"] = {
            "U1": {"on": "m", "function": "host processing", "means": "microcontroller"},
            "U2": {"on": empty_on, "function": "program storage", "means": "serial flash", "populated": False},
            "U3": {"on": empty_on, "function": "display driving", "means": "LED driver", "populated": False},
        }
        return data

    left, right = record_from(built("m")), record_from(built("f"))
    alignment = align(left, right)
    assert alignment.host_of["m"] == "m"
    assert partition_of(alignment, left, right).distance == 0
