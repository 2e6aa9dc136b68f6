"""The partition of two products, against published values, exhaustive search and scikit-learn."""

from collections import Counter, deque
from collections.abc import Iterable
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import adjusted_rand_score

from archdiff.alignment import align, partition_of
from archdiff.alignment.hosts import least_moves
from archdiff.alignment.partition import adjusted_rand
from archdiff.notes import Match, Notes
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


Grouping = tuple[int, ...]  # the group of each thing, groups numbered in the order in which they are met


def numbered(labels: Iterable[object]) -> Grouping:
    order: dict[object, int] = {}
    return tuple(order.setdefault(label, len(order)) for label in labels)


def by_single_moves(left: str, right: str) -> int:
    """The least number of things to move one at a time, each to any group or to one of its own: by breadth first."""
    start, goal = numbered(left), numbered(right)
    seen, waiting = {start: 0}, deque([start])
    while goal not in seen:
        now = waiting.popleft()
        for place in range(len(now)):
            for group in range(max(now) + 2):
                moved = numbered((*now[:place], group, *now[place + 1 :]))
                if moved not in seen:
                    seen[moved] = seen[now] + 1
                    waiting.append(moved)
    return seen[goal]


@settings(deadline=None, max_examples=60)
@given(st.integers(1, 6).flatmap(lambda n: st.tuples(*[st.text("abcd", min_size=n, max_size=n)] * 2)))
def test_no_way_of_moving_single_things_takes_fewer_moves(cuts: tuple[str, str]) -> None:
    table = from_labels(*cuts)
    assert sum(table.values()) - sum(table[pair] for pair in least_moves(table).items()) == by_single_moves(*cuts)


@settings(deadline=None, max_examples=60)
@given(products(), products())
def test_the_moves_done_in_the_left_product_give_the_cut_of_the_right(a: dict[str, Any], b: dict[str, Any]) -> None:
    left, right = record_from(a), record_from(b)
    partition = partition_of(align(left, right), left, right)
    place = {pair: hosts[0] for hosts, pairs in partition.table.items() for pair in pairs}
    for move in partition.moves:
        for pair in move.pairs:
            assert place[pair] == move.left_host
            place[pair] = move.into or f"of its own: {move.right_host}"
    wanted = {pair: hosts[1] for hosts, pairs in partition.table.items() for pair in pairs}
    pairs = list(place)
    assert numbered(place[pair] for pair in pairs) == numbered(wanted[pair] for pair in pairs)
    assert sum(len(move.pairs) for move in partition.moves) == partition.distance


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
    assert (move.into, move.way) == ("m", "from the front board to the main board")


def test_what_answers_to_no_board_of_the_left_moves_to_one_of_its_own() -> None:
    def built(keys_on: str) -> dict[str, Any]:
        data = two_boards(keys_on)
        data["boards"]["k"] = {"name": "Key board"}
        return data

    data = two_boards("f")
    data["parts"]["U4"] = {"on": "f", "function": "light driving", "means": "LED driver"}
    data["parts"]["U5"] = {"on": "f", "function": "touch sensing", "means": "touch controller"}
    more = built("k")
    more["parts"] |= {name: data["parts"][name] for name in ("U4", "U5")}
    left, right = record_from(data, "left.yaml"), record_from(more, "right.yaml")
    (move,) = partition_of(align(left, right), left, right).moves
    assert (move.left_host, move.right_host, move.into) == ("f", "k", "")
    assert move.way == "from the front board to a board of their own, in Some the key board"


def test_a_seat_of_which_one_member_has_no_known_place_is_unplaced() -> None:
    def built(on: dict[str, str]) -> dict[str, Any]:
        data = two_boards("f")
        data["controls"]["k1"] = {"function": "mode selection", "means": "tactile switch", **on}
        data["controls"]["k2"] = {"function": "mode selection", "means": "tactile switch", "on": "f"}
        return data

    left, right = record_from(built({"on": "f"}), "left.yaml"), record_from(built({}), "right.yaml")
    tied = Notes(tie=(Match(("k1", "k2"), ("k1", "k2")),))
    partition = partition_of(align(left, right, tied), left, right)
    assert [pair.ids for pair in partition.unplaced] == [(("k1", "k2"), ("k1", "k2"))]


def test_hosts_that_the_notes_tie_may_ask_for_more_moves_and_this_is_said() -> None:
    left, right = record_from(two_boards("f"), "left.yaml"), record_from(two_boards("m"), "right.yaml")
    free = partition_of(align(left, right), left, right)
    assert (free.distance, free.untied) == (2, None)
    crossed = Notes(same_board=(Match(("m",), ("f",)), Match(("f",), ("m",))))
    tied = partition_of(align(left, right, crossed), left, right)
    assert (tied.distance, tied.untied) == (3, 2)  # the two chips of m and the driver of f, against the two keys


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
