"""What is said of single stages and paths, case by case, and in which words."""

import pytest

from archdiff.alignment import Agreement, align
from archdiff.notes import Match, Notes
from archdiff.paths import Finding, compare_paths
from archdiff.record.silence import Silence
from archdiff.wording import (
    column_words,
    end_words,
    facing_words,
    gap_words,
    larger_words,
    path_silence_words,
)

NB = "\N{NO-BREAK SPACE}"
NAMES = ("Tarvo", "Ledo")
SECTIONS = "boards: whole, parts: whole, enclosure: whole, shields: whole, actuators: whole, sensors: whole"
PARTS = """
parts:
  U1: {on: main, function: host processing, means: microcontroller}
  pad: {on: main, function: thermal coupling, means: thermal pad}
  pad2: {on: main, function: thermal coupling, means: thermal pad}
  blob: {name: Blob, on: main}
shields: {can: {on: main, function: radio shielding, means: soldered can}}
enclosure:
  shell: {function: housing, means: moulded shell, material: ABS}
  mesh: {in: shell, function: dust sealing, means: air filter}
actuators: {speaker: {in: shell, function: sound output, means: moving-coil loudspeaker}}
sensors: {mic: {on: main, function: voice capture, means: bottom-port MEMS microphone}}
"""


@pytest.fixture
def compared(record_of):
    """The pairs of two records' paths, given as YAML; `whole` and the like say how far paths were looked at."""

    def make(left, right, words=("whole", "whole"), notes=Notes(), more=("", "")):  # noqa: B008 - Notes is frozen
        records = [
            record_of(f"coverage: {{{SECTIONS}, paths: {word}}}\nboards: {{main: {{}}}}{PARTS}paths: {paths}\n{rest}")
            for paths, word, rest in zip((left, right), words, more, strict=True)
        ]
        return compare_paths(*records, align(*records, notes), notes)

    return make


def heat(*stages, sure="measured", **facts):
    rest = "".join(f", {name}: {value}" for name, value in facts.items())
    return f"{{heat: {{kind: heat, from: U1, to: air, sure: {sure}{rest}, through: [{', '.join(stages)}]}}}}"


def findings(pairs):
    (pair,) = pairs
    return [column.finding for column in pair.columns]


PAD, CAN, SHELL, MESH = "{what: pad}", "{what: can}", "{what: shell}", "{what: mesh}"


def test_a_number_that_differs_has_a_ratio_with_bounds(compared):
    left, right = "{what: pad, thickness: 1.5 ± 0.1 mm}", "{what: pad, thickness: 0.6 ± 0.1 mm}"
    ((pair,),) = [compared(heat(left), heat(right))]
    (column,) = pair.columns
    (amount,) = column.amounts
    assert column.finding is Finding.NUMBERS
    # By hand: 0.6/1.5 = 0.4; at least 0.5/1.6 = 0.3125, at most 0.7/1.4 = 0.5.
    assert (amount.ratio.best, amount.ratio.low, amount.ratio.high) == pytest.approx((0.4, 0.3125, 0.5))
    # Turned round 1/0.5 = 2 to 1/0.3125 = 3.2 (by hand).
    assert larger_words(amount, NAMES) == f"thickness 2.0…3.2{NB}\N{MULTIPLICATION SIGN} in Tarvo"
    assert column_words(column, NAMES) == "other numbers"


@pytest.mark.parametrize(("sensors", "told"), [("whole", True), ("part", False)])
def test_a_gap_says_where_the_other_product_is_known_to_have_it_nowhere(record_of, sensors, told):
    """Its paths were looked at in part, but boards, parts and sensors were, and nothing there counts particles."""
    duct = "enclosure: {duct: {function: air guiding, means: air duct}}\n"
    counter = "sensors: {pm: {in: duct, function: particle sensing, means: laser scattering}}\n"

    def with_path(rest, through, coverage):
        text = f"coverage: {{boards: whole, parts: whole, sensors: {coverage}, paths: part}}\n{duct}{rest}"
        return record_of(f"{text}paths: {{air: {{kind: air, from: room, to: room, through: [{through}]}}}}\n")

    left = with_path(counter, "{what: duct}, {what: pm}", "whole")
    right = with_path("", "{what: duct}", sensors)
    (pair,) = compare_paths(left, right, align(left, right, Notes()), Notes())
    (column,) = [column for column in pair.columns if column.right is None]
    assert column.finding is Finding.UNKNOWN
    assert ("found elsewhere in the product" in column.silent.why) is told


def test_bounds_that_overlap_show_no_difference(compared):
    (pair,) = compared(heat("{what: pad, thickness: 1..2 mm}"), heat("{what: pad, thickness: 1.9..3 mm}"))
    (column,) = pair.columns
    assert (column.finding, column_words(column, NAMES)) == (Finding.ALIKE, "alike in means")
    assert column.amounts[0].agreement is Agreement.UNKNOWN
    assert larger_words(column.amounts[0], NAMES) == ""


def test_a_number_that_one_side_does_not_state_is_no_difference(compared):
    (pair,) = compared(heat("{what: pad, thickness: 1 mm}"), heat(PAD))
    assert pair.columns[0].finding is Finding.ALIKE
    assert pair.columns[0].amounts[0].right is None


@pytest.mark.parametrize(
    ("left", "right", "finding", "said"),
    [
        ("{what: pad}", "{what: pad, means: thermal grease}", Finding.DIFFERENT, "done differently: means"),
        ("{what: pad, material: silicone}", "{what: pad, material: acrylic}", Finding.DIFFERENT, "done differently: material"),
        ("{what: pad, material: silicone}", "{what: pad, material: silicone}", Finding.ALIKE, "alike in means and material"),
        ("{what: pad, material: filled silicone}", "{what: pad, material: silicone}", Finding.ALIKE, "alike in means"),
        ("{what: pad, facing: up}", "{what: pad, facing: down}", Finding.DIFFERENT, "done differently: facing"),
        ("{what: gap}", "{what: slit}", Finding.UNKNOWN, "not known whether alike"),
        ("{what: Gap}", "{what: gap}", Finding.ALIKE, "alike in words"),
        ("{what: foam gasket}", "{what: rubber gasket}", Finding.DIFFERENT, "done differently: means"),
        ("{what: foam ring}", "{what: foam seal}", Finding.ALIKE, "alike in means"),
    ],
)  # fmt: skip
def test_what_two_stages_have_in_common(compared, left, right, finding, said):
    (pair,) = compared(heat(left), heat(right))
    assert [(c.finding, column_words(c, NAMES)) for c in pair.columns] == [(finding, said)]


def test_a_stage_that_the_other_path_surely_lacks(compared):
    pairs = compared(heat(PAD, CAN, SHELL), heat(PAD, SHELL))
    assert findings(pairs) == [Finding.ALIKE, Finding.ONLY_LEFT, Finding.ALIKE]
    column = pairs[0].columns[1]
    assert (column_words(column, NAMES), gap_words(column)) == ("only in Tarvo", "none")
    turned = compared(heat(PAD, SHELL), heat(PAD, CAN, SHELL))[0].columns[1]
    assert (turned.finding, column_words(turned, NAMES)) == (Finding.ONLY_RIGHT, "only in Ledo")


SHORT = heat(PAD, SHELL)


@pytest.mark.parametrize(
    ("right", "word", "rest", "why"),
    [
        (SHORT, "part", "", "paths looked at only in part"),
        (SHORT, "none", "", "paths not looked at"),
        (heat(PAD, SHELL, sure="inferred"), "whole", "", "heat is only inferred"),
        (heat(PAD, SHELL, sure="guessed"), "whole", "", "heat is only guessed"),
        (heat("{what: pad, sure: guessed}", SHELL), "whole", "", "thermal pad beside it is only guessed"),
        (heat(PAD, "{what: shell, sure: inferred}"), "whole", "", "shell beside it is only inferred"),
        (SHORT, "whole", "questions: [{about: heat, ask: is there foil?}]", "an open question: is there foil?"),
        ("{heat: {kind: heat, from: U1, to: air, sure: seen}}", "whole", "", "the stages of heat are not stated"),
        (heat(PAD, "{what: blob, thickness: 1 mm}", SHELL, "{what: blob}"), "whole", "", "stage 4 (Blob) may be it"),
    ],
)
def test_a_stage_that_the_other_record_may_only_not_have_listed(compared, right, word, rest, why):
    (pair,) = compared(heat(PAD, CAN, SHELL), right, ("whole", word), more=("", rest))
    column = next(c for c in pair.columns if c.left and c.left.facts["what"] == "can")
    if column.is_complete:  # laid beside what may be it
        assert (column.right.label, column.finding) == ("Blob", Finding.UNKNOWN)
        return
    assert column.finding is Finding.UNKNOWN
    assert column.silent.silence is Silence.NOT_LOOKED_AT
    assert column.silent.why == why
    assert (column_words(column, NAMES), gap_words(column)) == ("not known", "not recorded")


def test_what_may_be_it_lies_beside_it_or_keeps_the_question_open(compared):
    left = heat(MESH, PAD, CAN)
    right = heat("{what: blob, material: steel}", PAD, "{what: foil}", "{what: shell}")
    (pair,) = compared(left, right)
    said = {c.left.facts["what"]: c for c in pair.columns if c.left}
    assert said["mesh"].right.label == "Blob"
    assert said["mesh"].finding is Finding.UNKNOWN
    assert said["can"].right is None or said["can"].finding is Finding.UNKNOWN


def test_one_more_of_what_both_have(compared):
    (pair,) = compared(heat(PAD, CAN, "{what: pad2}", SHELL), heat(PAD, CAN, SHELL))
    only = [c for c in pair.columns if not c.is_complete]
    assert [(column_words(c, NAMES), gap_words(c)) for c in only] == [("one more in Tarvo", "no further one")]
    assert only[0].silent.further == 1


def test_what_stands_at_another_place_is_not_missing(compared):
    (pair,) = compared(heat(CAN, PAD, SHELL), heat(PAD, SHELL, CAN))
    elsewhere = [c for c in pair.columns if c.finding is Finding.ELSEWHERE]
    assert [(c.left or c.right).label for c in elsewhere] == ["soldered can", "soldered can"]
    assert {(column_words(c, NAMES), gap_words(c)) for c in elsewhere} == {
        ("in another order", "stands as stage 1"),
        ("in another order", "stands as stage 3"),
    }
    assert not [c for c in pair.columns if c.finding in (Finding.ONLY_LEFT, Finding.ONLY_RIGHT)]


def test_an_element_of_unknown_purpose_is_never_only_in_one(compared):
    (pair,) = compared(heat(PAD, "{what: blob}", SHELL), heat(PAD, SHELL))
    column = next(c for c in pair.columns if not c.is_complete)
    assert column.finding is Finding.UNKNOWN
    assert column.silent.why == "what Blob is there for is not known"


def test_a_loudspeaker_that_faces_up_or_into_a_plate(compared):
    sound = "{{sound: {{kind: sound, from: speaker, to: user, facing: {}, through: [{{what: shell}}]}}}}"
    (pair,) = compared(sound.format("up"), sound.format("into plate"))
    assert pair.facing.agreement is Agreement.DIFFERENT
    assert [facing_words(text) for text in (pair.facing.left, pair.facing.right)] == ["faces up", "faces into a plate"]
    (pair,) = compared(sound.format("up"), sound.replace("facing: {}, ", "").format())
    assert pair.facing.agreement is Agreement.UNKNOWN
    assert facing_words(pair.facing.right) == ""


def test_ends_are_paired_the_same_other_or_not_known(compared):
    path = "{{p: {{kind: light, from: {}, to: {}, through: [{{what: shell}}]}}}}"
    cases = {
        ("U1", "U1"): "paired", ("U1", "can"): "different jobs", ("U1", "Blob"): "not known whether the same",
        ("U1", "lamp"): "not known whether the same",
    }  # fmt: skip
    for (left, right), said in cases.items():
        (pair,) = compared(path.format(left, "user"), path.format(right, "User"))
        assert (end_words(pair.start), end_words(pair.end)) == (said, "the same")


@pytest.mark.parametrize(
    ("word", "known", "said"),
    [
        ("whole", True, "none: paths looked at whole"),
        ("part", False, "not known: paths looked at in part"),
        ("none", False, "not known: paths not looked at"),
    ],
)
def test_a_kind_that_one_side_does_not_list(compared, word, known, said):
    (pair,) = compared(heat(PAD), "{}", ("whole", word))
    assert (pair.left.id, pair.right, pair.silent.silence.is_known) == ("heat", None, known)
    assert path_silence_words(pair, word) == said
    assert findings([pair]) == [Finding.ONLY_LEFT if known else Finding.UNKNOWN]


def test_ways_in_and_ways_out_are_never_paired(compared):
    out = "{kind: sound, from: speaker, to: user, through: [{what: shell}]}"
    inwards = "{kind: sound, from: room, to: mic, through: [{what: shell}]}"
    alone = compared(f"{{out: {out}}}", f"{{hear: {inwards}}}")
    assert [(p.left and p.left.id, p.right and p.right.id) for p in alone] in (
        [("out", None), (None, "hear")],
        [(None, "hear"), ("out", None)],
    )
    assert all(path_silence_words(p, "whole").startswith("none found: paths looked at whole; none of") for p in alone)
    both = compared(f"{{a: {inwards}, b: {out}}}", f"{{x: {out}, y: {inwards}}}")
    assert {(p.left.id, p.right.id) for p in both} == {("a", "y"), ("b", "x")}


def test_a_path_that_may_be_the_other_one_keeps_the_question_open(compared):
    left = "{heat: {kind: heat, from: U1, function: heat removal, to: air, through: [{what: pad}]}}"
    right = "{warm: {kind: heat, from: can, function: heating, to: shell, through: [{what: mesh}]}}"
    alone = compared(left, right)
    assert [pair.is_complete for pair in alone] == [False, False]
    assert {path_silence_words(pair, "whole") for pair in alone} == {
        "not known: heat removal may be the same path",
        "not known: heating may be the same path",
    }


def test_the_notes_tie_forbid_and_leave_out(compared):
    two = "{a: {kind: heat, from: U1, to: air, through: [{what: pad}]}, b: {kind: heat, from: can, to: air, through: [{what: can}]}}"
    assert {(p.left.id, p.right.id) for p in compared(two, two)} == {("a", "a"), ("b", "b")}
    tied = compared(two, two, notes=Notes(tie=(Match(("a",), ("b",)),)))
    assert ("a", "b") in {(p.left and p.left.id, p.right and p.right.id) for p in tied}
    assert [p.tied for p in tied if p.left and p.left.id == "a"] == [True]
    apart = compared(two, two, notes=Notes(never=(Match(("a",), ("a",)),)))
    assert ("a", "a") not in {(p.left and p.left.id, p.right and p.right.id) for p in apart}
    left_out = compared(two, two, notes=Notes(ignore_right=frozenset({"a"})))
    (alone,) = [p for p in left_out if not p.is_complete]
    assert path_silence_words(alone, "whole") == "not known: the notes leave out a"


def test_the_heat_paths_of_the_example(air_monitors):
    """By eye, from the two records: the radio's way goes with the system chip's, and pad lies by pad, can by plate."""
    pair = next(p for p in air_monitors.paths if p.kind == "heat" and p.is_complete)
    assert (pair.left.id, pair.right.id) == ("heat_radio", "warm_soc")
    beside = [(c.left and c.left.facts["what"], c.right and c.right.facts["what"]) for c in pair.columns]
    assert beside == [
        ("gap under the can lid", "gap_soc"), ("can1", "plate"), ("pad1", "gap_face"), ("back_shell", "face"),
    ]  # fmt: skip
    (other,) = [p for p in air_monitors.paths if p.kind == "heat" and not p.is_complete]
    assert other.right.id == "warm_reg"
    assert not other.silent.silence.is_known
