"""Paths in the data and the text forms."""

import json
import re

import pytest

from archdiff.exports import export
from archdiff.notes import Comment, Notes
from archdiff.pipeline import compare
from tests.exports.test_markdown import rows_of, under

LEFT = """\
archdiff: 1
product: {name: Tarvo, kind: test object}
coverage: {boards: whole, parts: whole, enclosure: whole, paths: whole}
boards: {main: {}}
parts: {U1: {name: Chip, on: main, function: host processing}, pad: {name: Soft *pad*, on: main, function: thermal coupling, means: thermal pad}}
enclosure: {shell: {name: Shell, function: housing}, mesh: {name: Mesh, function: dust sealing}}
paths:
  heat: {name: Heat out, kind: heat, from: U1, to: air, facing: up, sure: seen, through: [{what: pad, thickness: 1.5 mm}, {what: mesh}, {what: shell}]}
  glow: {name: Glow, kind: light, from: U1, to: user, through: [{what: shell}]}
"""
RIGHT = (
    re.sub(r"  glow.*\n", "", LEFT).replace("Tarvo", "Ledo").replace("1.5 mm", "0.6 mm").replace("{what: mesh}, ", "")
)
PART = RIGHT.replace("paths: whole", "paths: part")


@pytest.fixture(params=["air_monitors", "bike_lights"])
def comparison(request):
    return request.getfixturevalue(request.param)


def test_json_holds_every_path_and_stage_once(comparison):
    data = json.loads(export(comparison, "json"))["paths"]
    for side, record in (("left", comparison.left), ("right", comparison.right)):
        assert sorted(p[side] for p in data if p[side]) == sorted(path.id for path in record.section("paths"))
        for pair in data:
            if pair[side]:
                places = [stage[side]["place"] for stage in pair["stages"] if stage[side]]
                path = record.elements[pair[side]]
                assert places == list(range(1, 1 + len(path.facts.get("through", ()))))


def test_json_tells_numbers_and_silence(record_of):
    heat, light = json.loads(export(compare(record_of(LEFT), record_of(RIGHT)), "json"))["paths"]
    pad, mesh, _ = heat["stages"]
    # 0.6/1.5 = 0.4 by hand.
    (amount,) = pad["amounts"]
    assert amount.pop("ratio") == pytest.approx({"value": 0.4, "low": 0.4, "high": 0.4})
    assert amount == {"what": "thickness", "left": "1.5 mm", "right": "0.6 mm", "agreement": "different"}
    assert (pad["finding"], pad["answers"][0]["agreement"]) == ("other numbers", "same")
    assert (mesh["right"], mesh["finding"], mesh["silence"]["kind"]) == (None, "only in left", "not there")
    assert (light["right"], light["silence"]["kind"]) == (None, "not there")
    heat, light = json.loads(export(compare(record_of(LEFT), record_of(PART)), "json"))["paths"]
    assert heat["stages"][1]["finding"] == "not known"
    assert {p["silence"]["kind"] for p in (heat["stages"][1], light)} == {"not looked at"}


def test_markdown_tells_stages_in_a_table(record_of):
    text = export(compare(record_of(LEFT), record_of(RIGHT)), "markdown")
    told = under(text, "### Heat: Heat out of Tarvo and Heat out of Ledo")
    assert "From Chip and Chip (paired) to air and air (the same); both faces up." in told.replace("\\", "")
    rows = rows_of(text)
    assert rows["1 Soft *pad*"] == [
        "1 Soft *pad*",
        "other numbers; thickness 2.5\N{NO-BREAK SPACE}\N{MULTIPLICATION SIGN} in Tarvo",
    ]
    assert rows["2 Mesh"] == ["none", "only in Tarvo"]
    assert "Ledo: none: paths looked at whole. Tarvo: Shell." in text


def test_markdown_never_calls_missing_what_was_not_looked_at(record_of):
    text = export(compare(record_of(LEFT), record_of(PART)), "markdown")
    assert rows_of(text)["2 Mesh"] == ["not recorded", "not known; paths looked at only in part"]
    assert "only in Tarvo" not in under(text, "## Paths")
    assert "Ledo: not known: paths looked at in part." in text


def test_words_on_the_paths_stand_under_their_heading_or_alone(record_of):
    notes = Notes(comments=(Comment("Words on the ways.", on="paths"),))
    text = export(compare(record_of(LEFT), record_of(RIGHT), notes), "markdown")
    assert "> Words on the ways." in under(text, "## Paths")
    assert text.count("Words on the ways.") == 1
    bare = LEFT[: LEFT.index("paths:\n")]
    assert export(compare(record_of(bare), record_of(bare), notes), "markdown").count("Words on the ways.") == 1
    assert "## Paths" not in export(compare(record_of(bare), record_of(bare)), "markdown")
