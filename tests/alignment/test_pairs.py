"""What is said of single pairs: verdicts, reasons, changes and counts, each on a record small enough to check by eye."""

from typing import Any

import pytest

from archdiff.alignment import Agreement, Alignment, Pair, Verdict, align
from archdiff.alignment.verdict import Doubt, means_of, verdict_alone, verdict_of, weakest
from archdiff.notes import Match, Notes
from archdiff.record.silence import Silence
from tests.alignment.strategies import record_from

ALL = ("boards", "parts", "interconnects", "controls", "indicators", "sensors", "actuators", "antennas", "shields",
       "power", "enclosure", "joints", "paths")  # fmt: skip
WHOLE = dict.fromkeys(ALL, "whole")


def aligned(left: dict[str, Any], right: dict[str, Any], notes: Notes | None = None) -> Alignment:
    base = {"coverage": WHOLE, "boards": {"m": {}}}
    return align(record_from({**base, **left}), record_from({**base, **right}), notes or Notes())


def only(alignment: Alignment, function: str) -> Pair:
    (pair,) = [pair for pair in alignment.pairs if pair.function == function]
    return pair


def part(function: str, means: str = "", **more: Any) -> dict[str, Any]:
    return {"on": "m", "function": function, **({"means": means} if means else {}), **more}


def test_four_entries_are_one_entry_of_four() -> None:
    lamp = {"on": "m", "function": "status display", "means": "LED"}
    four = {f"D{k}": {**lamp, "at": [f"{k} mm", "2 mm"]} for k in range(1, 5)}
    pair = only(aligned({"indicators": four}, {"indicators": {"ring": {**lamp, "count": 4}}}), "status display")
    assert pair.left is not None
    assert pair.left.ids == ("D1", "D2", "D3", "D4")
    assert pair.verdict is Verdict.ALIKE
    assert pair.changes == ()


def test_what_differs_in_a_fact_or_link_is_no_twin() -> None:
    lamp = part("status display", "LED")
    lamps = {"a": {**lamp, "size": "3 x 3 mm"}, "b": {**lamp, "size": "5 x 5 mm"}, "c": {**lamp, "joined_to": ["a"]}}
    alignment = aligned({"indicators": lamps}, {})
    assert sorted(pair.left.ids for pair in alignment.pairs if pair.left) == [("a",), ("b",), ("c",)]


@pytest.mark.parametrize(
    ("left", "right", "right_coverage", "told"),
    [
        (4, 3, "whole", ("4", "3")),
        (4, 3, "part", None),  # three or more may well be four
        (3, 4, "part", ("3", "4 or more seen")),
    ],
)
def test_counts_from_what_was_not_wholly_looked_at_are_lower_bounds(
    left: int, right: int, right_coverage: str, told: tuple[str, str] | None
) -> None:
    lamps = [{"indicators": {"D": part("status display", "LED", count=n)}} for n in (left, right)]
    covered = {"coverage": {**WHOLE, "indicators": right_coverage}}
    pair = only(aligned(lamps[0], {**lamps[1], **covered}), "status display")
    found = [(change.left, change.right) for change in pair.changes if change.what == "how many"]
    assert found == ([told] if told else [])


def test_embedded_on_one_side_and_a_part_of_its_own_on_the_other() -> None:
    left = {"parts": {"U1": part("host processing", "system on chip", also=["program storage"])}}
    right = {
        "parts": {
            "IC1": part("host processing", "microcontroller"),
            "IC2": part("program storage", "serial flash", joined_to=["IC1"]),
        }
    }
    alignment = aligned(left, right)
    pair = only(alignment, "program storage")
    assert pair.left is not None
    assert pair.left.embedded_in == "U1"
    assert pair.right is not None
    assert pair.right.ids == ("IC2",)
    assert (pair.verdict, pair.means) == (Verdict.DIFFERENT, Agreement.DIFFERENT)
    assert any(reason.text.startswith("embedded in ") for reason in pair.reasons)


def test_an_empty_site_is_not_the_part() -> None:
    site = {"parts": {"J1": part("expansion", "pin header", populated=False)}}
    there = {"parts": {"J1": part("expansion", "pin header")}}
    pair = only(aligned(site, there), "expansion")
    assert pair.verdict is Verdict.ONLY_RIGHT
    assert (pair.left, pair.ids) == (None, (("J1",), ("J1",)))
    assert "left empty" in pair.silent.why
    partly = aligned({**site, "coverage": {**WHOLE, "parts": "part"}}, there)
    assert only(partly, "expansion").verdict is Verdict.UNKNOWN
    assert only(aligned(site, site), "expansion").verdict is Verdict.ALIKE


@pytest.mark.parametrize(
    ("right", "verdict"),
    [
        ({}, Verdict.ONLY_LEFT),
        ({"coverage": {**WHOLE, "actuators": "part"}}, Verdict.UNKNOWN),
        ({"coverage": {}}, Verdict.UNKNOWN),
        ({"actuators": {"x": part("purpose not known")}}, Verdict.UNKNOWN),
        ({"coverage": {}, "absent": [{"function": "sound output"}]}, Verdict.ONLY_LEFT),
        ({"coverage": {}, "absent": [{"function": "sound output", "as": "separate part"}]}, Verdict.SEPARATE_LEFT),
    ],
)
def test_one_side_alone_is_told_by_what_silence_means(right: dict[str, Any], verdict: Verdict) -> None:
    left = {"actuators": {"driver": part("sound output", "moving-coil loudspeaker")}}
    pair = only(aligned(left, right), "sound output")
    assert pair.verdict is verdict
    assert pair.silent is not None


def test_a_function_that_may_hide_in_another_part_is_only_not_separate() -> None:
    pair = only(aligned({"parts": {"U": part("program storage", "serial flash")}}, {}), "program storage")
    assert pair.verdict is Verdict.SEPARATE_LEFT


def test_what_the_notes_leave_out_is_not_called_absent() -> None:
    driver = {"actuators": {"driver": part("sound output", "moving-coil loudspeaker")}}
    pair = only(aligned(driver, driver, Notes(ignore_right=frozenset({"driver"}))), "sound output")
    assert pair.verdict is Verdict.UNKNOWN


def test_quantities_differ_only_when_their_bounds_do_not_overlap() -> None:
    left = part("host processing", "microcontroller", size="7 x 7 mm", voltage="about 3.3 V", pins=48, package="QFN")
    right = part("host processing", "microcontroller", size="5 x 7 mm", voltage="3.2..3.4 V", pins=48, package="LQFP")
    pair = only(aligned({"parts": {"a": left}}, {"parts": {"b": right}}), "host processing")
    assert [(c.what, c.left, c.right) for c in pair.changes] == [
        ("package", "QFN", "LQFP"),
        ("size", "7 x 7 mm", "5 x 7 mm"),
    ]
    assert pair.verdict is Verdict.ALIKE


def test_differences_inside_a_mapping_carry_the_way_to_them() -> None:
    ports = [{"diameter": "1 mm", "length": "1.6 mm"}, {"diameter": "1.0 mm", "length": "3 mm"}]
    sides = [{"sensors": {"s": part("voice capture", "bottom-port MEMS microphone", port=port)}} for port in ports]
    pair = only(aligned(*sides), "voice capture")
    assert [(c.what, c.left, c.right) for c in pair.changes] == [("port length", "1.6 mm", "3 mm")]


def test_place_is_not_known_where_a_host_is_not_stated() -> None:
    loose = {"function": "mode selection", "means": "tactile switch"}
    pair = only(aligned({"controls": {"k": {**loose, "on": "m"}}}, {"controls": {"k": loose}}), "mode selection")
    assert (pair.place, pair.verdict) == (Agreement.UNKNOWN, Verdict.UNKNOWN)


def test_what_joins_hosts_is_placed_by_all_its_ends() -> None:
    boards = {"boards": {"m": {}, "f": {}, "s": {}}, "parts": {}}
    for board, function in (("m", "host processing"), ("f", "display driving"), ("s", "voltage conversion")):
        boards["parts"][f"U{board}"] = {"on": board, "function": function}
    thin = {**boards, "parts": {**boards["parts"]}}
    for board, function in (("m", "clock generation"), ("f", "status display"), ("s", "supply smoothing")):
        boards["parts"][f"V{board}"] = {"on": board, "function": function}
    flex = {"means": "flexible printed circuit", "ways": 14}
    one = {**boards, "interconnects": {"x": {"between": ["m", "f"], **flex}}}
    two = {**boards, "interconnects": {"y": {"between": ["s", "m"], **flex}}}
    assert only(aligned(one, one), "board joining").place is Agreement.SAME
    assert only(aligned(one, two), "board joining").place is Agreement.DIFFERENT
    # Boards that go together by a single seat may go with another one as soon as more is known.
    assert only(aligned({**one, **thin}, {**two, **thin}), "board joining").place is Agreement.UNKNOWN


def test_sure_is_the_weakest_word() -> None:
    sides = [
        {"parts": {"U": part("host processing", "microcontroller", sure=word)}} for word in ("measured", "guessed")
    ]
    assert only(aligned(*sides), "host processing").sure == "guessed"
    assert weakest("measured", "read") == "read"
    assert weakest("measured", "") == "seen"


def test_a_tie_of_several_makes_them_one_seat() -> None:
    left = {
        "controls": {"a": part("volume adjustment", "tactile switch"), "b": part("mode selection", "rotary encoder")}
    }
    right = {"controls": {"wheel": part("volume adjustment", "rotary encoder")}}
    notes = Notes(tie=(Match(("a", "b"), ("wheel",), "one wheel does both"),))
    (pair,) = aligned(left, right, notes).pairs
    assert pair.left is not None
    assert set(pair.left.ids) == {"a", "b"}
    assert pair.tied
    assert pair.confidence == 1
    assert pair.reasons[0].text == "tied by the analyst: one wheel does both"


def test_tied_boards_draw_their_seats_after_them() -> None:
    """Two boards that look alike: only the notes can say which is which, and then place follows."""
    boards = {"boards": {"p": {}, "q": {}}, "controls": {}}
    for board in ("p", "q"):
        boards["controls"][f"k{board}"] = {"on": board, "function": "mode selection", "means": "tactile switch"}
    crossed = Notes(same_board=(Match(("p",), ("q",)), Match(("q",), ("p",))))
    alignment = align(record_from(boards), record_from(boards), crossed)
    assert alignment.host_of == {"p": "q", "q": "p"}
    assert {(p.left.first.id, p.right.first.id) for p in alignment.pairs if p.left and p.right} == {
        ("kp", "kq"),
        ("kq", "kp"),
    }
    assert all(pair.place is Agreement.SAME for pair in alignment.pairs)


def test_two_boards_against_one_are_offered_as_a_group() -> None:
    functions = ["host processing", "program storage", "clock generation", "display driving", "voltage conversion"]
    many = {
        "boards": {"m": {}, "f": {}},
        "parts": {f"U{k}": {"on": "mmmff"[k], "function": f} for k, f in enumerate(functions)},
    }
    one = {"boards": {"x": {}}, "parts": {f"IC{k}": {"on": "x", "function": f} for k, f in enumerate(functions)}}
    for left, right, expected in ((many, one, (("f", "m"), ("x",))), (one, many, (("x",), ("f", "m")))):
        (group,) = align(record_from(left), record_from(right)).groups
        assert (group.left, group.right) == expected


def test_a_board_alone_is_absent_from_the_other_only_where_all_boards_were_looked_at() -> None:
    two, one = {"boards": {"m": {}, "f": {}}}, {"boards": {"m": {}}}
    for right, silence in (("whole", Silence.NOT_THERE), ("part", Silence.NOT_LOOKED_AT)):
        parts = {"parts": {"U": part("host processing")}}
        alignment = aligned({**two, **parts}, {**one, **parts, "coverage": {"boards": right}})
        (alone,) = [host for host in alignment.hosts if host.right is None]
        assert alone.left == "f"
        assert alone.silent is not None
        assert alone.silent.silence is silence


def test_purposes_that_are_not_known_pair_last_and_leave_all_open() -> None:
    sides = [{"parts": {"U": part("purpose not known", "microcontroller", package="QFN", pins=32)}} for _ in range(2)]
    (pair,) = aligned(*sides).pairs
    assert pair.is_complete
    assert pair.verdict is Verdict.UNKNOWN


def test_every_verdict_of_a_complete_pair() -> None:
    same, other, unknown = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN
    assert verdict_of(same, same, Doubt()) is Verdict.ALIKE
    assert verdict_of(same, other, Doubt()) is Verdict.ELSEWHERE
    assert verdict_of(other, same, Doubt()) is Verdict.DIFFERENT
    assert verdict_of(other, other, Doubt()) is Verdict.BOTH
    assert verdict_of(unknown, same, Doubt()) is Verdict.UNKNOWN
    assert verdict_of(same, unknown, Doubt()) is Verdict.UNKNOWN
    assert verdict_of(same, same, Doubt(purpose_unknown=True)) is Verdict.UNKNOWN
    assert verdict_of(same, same, Doubt(other_function=True)) is Verdict.DIFFERENT
    assert verdict_alone(Silence.NOT_THERE, on_left=False, purpose_unknown=True) is Verdict.UNKNOWN


def test_means_that_are_not_stated_leave_it_open() -> None:
    assert means_of("LED", "LED") is Agreement.SAME
    assert means_of("LED", "lamp") is Agreement.DIFFERENT
    assert means_of("LED", "") is means_of("", "") is Agreement.UNKNOWN
