import pytest

from archdiff.notes import Notes, read_notes

RECORD = """
boards: {main: {outline: 40 x 30 mm}, front: {outline: 20 x 10 mm}}
parts:
  U1: {on: main, function: host processing, means: microcontroller}
  U2: {on: main, function: program storage, means: serial flash}
"""


@pytest.fixture
def read(record_of, tmp_path):
    def do(text):
        file = tmp_path / "notes.yaml"
        file.write_text("archdiff_notes: 1\n" + text)
        left = record_of(RECORD)
        return read_notes(file, left, left)

    return do


def test_everything_is_read(read):
    notes, problems = read(
        "title: A title\ntie: [{left: U1, right: U1, because: same chip}]\nnever: [{left: U1, right: [U2]}]\n"
        "same_board: [{left: main, right: front}]\nignore: {left: U2}\ncomments: [{on: power, text: hm}]\n"
        "weights: {power: 2}\n"
    )
    assert not problems
    assert (notes.title, notes.tie[0].left, notes.tie[0].because) == ("A title", ("U1",), "same chip")
    assert (notes.never[0].right, notes.ignore_left, notes.weights) == (("U2",), frozenset({"U2"}), {"power": 2})


def test_an_unknown_name_is_reported_at_its_place_with_the_nearest_one(read):
    _, (problem,) = read("tie:\n  - {left: U1, right: U11}\n")
    assert (problem.line, problem.column, problem.rule) == (3, 23, "no-such-element")
    assert "U1" in problem.hint


def test_boards_must_be_boards(read):
    _, (problem,) = read("same_board: [{left: U1, right: main}]\n")
    assert "board or enclosure piece" in problem.message


@pytest.mark.parametrize(
    ("text", "line", "other"),
    [
        ("tie:\n  - {left: U1, right: U1}\nnever:\n  - {left: U1, right: U1}\n", 5, "line 3"),
        ("tie:\n  - {left: U1, right: U1}\n  - {left: U1, right: U2}\n", 4, "line 3"),
        ("tie:\n  - {left: U1, right: U1}\nignore:\n  left: [U1]\n", 3, "line 5"),
    ],
)
def test_a_contradiction_names_both_places(read, text, line, other):
    _, problems = read(text)
    assert [(p.rule, p.line) for p in problems] == [("contradiction", line)]
    assert other in problems[0].message


def test_a_typo_in_the_notes_is_a_fault(read):
    _, (problem,) = read("titel: A title\n")
    assert (problem.rule, problem.hint) == ("unknown-entry", "did you mean 'title'?")


def test_mirrored_twice_is_the_same(read):
    notes, _ = read("tie: [{left: U1, right: U2}]\nignore: {left: U1}\ncomments: [{left: U1, text: hm}]\n")
    assert notes.mirrored() != notes
    assert notes.mirrored().mirrored() == notes
    assert Notes().mirrored() == Notes()


def test_records_the_other_way_round_are_told(read):
    _, problems = read("left: other.yaml\ntie: [{left: U9, right: U9}]\n")
    assert [(p.line, p.rule) for p in problems] == [(2, "other-record")]
