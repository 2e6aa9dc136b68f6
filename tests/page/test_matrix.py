"""The picture of the matrices: one order for both sides, one shape a layer, and nothing unknown drawn as absent."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from archdiff.alignment import align
from archdiff.notes import Notes
from archdiff.page import render_page
from archdiff.page.matrix import fields, names
from archdiff.page.matrix_grid import BOTH, ROOM, grid_of
from archdiff.page.matrix_marks import marks, presence_sign, sign
from archdiff.page.sections import structure
from archdiff.structure import Layer, matrix_of
from archdiff.structure.rows import Presence, Row, Tie, by_function, rows_of
from tests.page.conftest import record_of
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison

THERE, NONE, INSIDE, UNKNOWN = Presence.THERE, Presence.NONE, Presence.INSIDE, Presence.UNKNOWN


def row(label: str, group: str = "power", right: Presence = THERE) -> Row:
    return Row(label, group, ((f"l {label}",), (f"r {label}",) if right is THERE else ()), (THERE, right))


def tie(*layers: Layer, pairs: int = 1) -> Tie:
    return Tie(pairs, dict.fromkeys(layers, ()))


def painted(svg: str) -> list[tuple[str, str]]:
    """Class and path of every mark and ground; the class is the path's own or that of the group it stands in."""
    return [
        (path.get("class") or parent.get("class") or "", path.get("d", ""))
        for parent in ET.fromstring(svg).iter()
        for path in parent.findall("path")
    ]


def classes(svg: str) -> list[str]:
    return [attributes["class"] for _, attributes in Page(svg).tags if "class" in attributes]


# ---- fields --------------------------------------------------------------------------------------------------------


def test_every_layer_has_a_shape_of_its_own() -> None:
    drawn = [marks([layer], 0, 0, 10) for layer in Layer]
    assert len(set(drawn)) == len(Layer)
    # A shape is told by its kind and its place, not by a colour: without classes they still differ.
    bare = {re.sub(r' class="[^"]*"', "", shape) for shape in drawn}
    assert len(bare) == len(Layer)
    assert len({str(sign(layer)) for layer in Layer}) == len(Layer)


def test_layers_lie_on_each_other() -> None:
    together = marks([Layer.JOINED, Layer.SITS], 0, 0, 10)
    assert together == marks([Layer.SITS], 0, 0, 10) + marks([Layer.JOINED], 0, 0, 10)
    assert together == marks([Layer.SITS, Layer.JOINED], 0, 0, 10)


def test_a_mark_stands_in_the_row_of_what_depends_and_the_column_of_what_it_depends_on() -> None:
    grid = grid_of([row("a"), row("b"), row("c", "audio")], {}, counted=False)
    svg = str(fields(grid, 0, {(2, 0): tie(Layer.JOINED)}, {(2, 0): "c: joined to a"}, "words"))
    (disc,) = [d for kind, d in painted(svg) if kind == "mark-joined"]
    x, y = (float(value) for value in disc.removeprefix("M").split("h")[0].split())
    assert x == pytest.approx(grid.starts[0] + grid.pitch / 2, abs=0.06)
    assert y == pytest.approx(grid.starts[2] + grid.pitch / 2, abs=0.06)
    assert "c: joined to a" in Page(svg).text


def test_what_is_not_known_is_never_drawn_as_none() -> None:
    drawn = {}
    for presence in (NONE, INSIDE, UNKNOWN):
        grid = grid_of([row("a"), row("b", right=presence)], {}, counted=False)
        drawn[presence] = str(fields(grid, 1, {}, {}, "words"))
    assert "matrix-unknown" in classes(drawn[UNKNOWN])
    assert not {"matrix-none", "matrix-inside"} & set(classes(drawn[UNKNOWN]))
    assert "b: not known whether it has one" in Page(drawn[UNKNOWN]).text
    assert "matrix-unknown" not in classes(drawn[NONE] + drawn[INSIDE])
    assert "b: none found" in Page(drawn[NONE]).text
    assert "b: no part of its own" in Page(drawn[INSIDE]).text
    assert len({str(presence_sign(presence)) for presence in drawn}) == 3
    # On the side that has it, nothing of the kind.
    assert "matrix-ghost" not in classes(str(fields(grid_of([row("a", right=NONE)], {}, counted=False), 0, {}, {}, "")))


@pytest.mark.parametrize("count", [1, 14, 57, 60])
@pytest.mark.parametrize(
    "label", ["a name", "a long name of function", "a name as long as nobody would give a function"]
)
def test_words_are_nine_px_or_more_and_both_sides_fit(count: int, label: str) -> None:
    groups = ["boards", "compute", "power", "user output"]
    rows = [row(f"{label} {n}", groups[n * len(groups) // count]) for n in range(count)]
    grid = grid_of(rows, {}, counted=False)
    assert grid.width <= ROOM + 1e-6
    assert 2 * grid.width + grid.names <= BOTH < 1206  # what a window of 1280 px leaves
    for svg in (str(fields(grid, 0, {}, {}, "")), str(names(grid))):
        sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)]
        assert sizes
        assert min(sizes) >= 9
    assert grid.pitch >= 8.4


def test_names_have_the_room_they_need() -> None:
    """A name of two boards of 35 signs is 141.1 px wide at 9 px (by the metrics of Helvetica) and stands whole."""
    label = "Front board / Touch and light board"
    grid = grid_of([row(label), *(row(f"function {n}") for n in range(56))], {}, counted=False)
    assert label in Page(str(names(grid))).text
    assert grid.names >= 142


def test_a_name_that_had_to_be_cut_keeps_the_whole_in_its_tip() -> None:
    label = "a name as long as nobody would give a function of anything"
    grid = grid_of([row(label), *(row(f"function {n}") for n in range(59))], {}, counted=False)
    (tip,) = [element.text for element in ET.fromstring(str(names(grid))).iter("title")]
    assert tip == label


def test_what_holds_both_ways_is_one_path_under_one_tip() -> None:
    grid = grid_of([row("a"), row("b")], {}, counted=False)
    ties = {(0, 1): tie(Layer.JOINED), (1, 0): tie(Layer.JOINED)}
    svg = str(fields(grid, 0, ties, dict.fromkeys(ties, "a and b: joined to each other"), ""))
    (discs,) = [d for kind, d in painted(svg) if kind == "mark-joined"]
    assert discs.count("M") == 2
    assert Page(svg).text.count("joined to each other") == 1


def test_a_counted_field_says_how_many() -> None:
    grid = grid_of([row("a"), row("b")], {}, counted=True)
    ties = {(0, 1): tie(Layer.FED, pairs=7), (1, 1): tie(Layer.JOINED, pairs=4)}
    page = Page(str(fields(grid, 0, ties, dict.fromkeys(ties, "tip"), "")))
    assert {"7", "4"} <= set(page.text.split())


def test_hostile_names_make_no_tag() -> None:
    evil = "<script>alert(1)</script>"
    grid = grid_of([row(evil, evil)], {evil: evil}, counted=False)
    tip = {(0, 0): evil}
    page = Page(str(fields(grid, 0, {(0, 0): tie(Layer.SITS)}, tip, evil)) + str(names(grid)))
    assert page.faults == []
    assert "script" not in {tag for tag, _ in page.tags}


# ---- the section ---------------------------------------------------------------------------------------------------


def test_both_sides_have_the_same_rows(air_monitors: Comparison) -> None:
    view = structure.view(air_monitors)
    assert view is not None
    left, right = (str(side["picture"]) for side in view["sides"])
    ground = ET.fromstring(left).find(".//g[@id='matrix-ground']")
    assert ground is not None
    assert len(list(ground.iter("text"))) > 40
    assert [use.get("href") for use in ET.fromstring(right).iter("use")] == ["#matrix-ground"]
    ends = [re.search(r'viewBox="([^"]*)"', svg) for svg in (left, right)]
    assert ends[0] is not None
    assert ends[1] is not None
    assert ends[0][1] == ends[1][1]
    again = ET.fromstring(str(view["row_names_again"]))
    assert [use.get("href") for use in again.iter("use")] == ["#matrix-rows"]
    assert again.get("viewBox") == ET.fromstring(str(view["row_names"])).get("viewBox")


def test_rows_are_folded_until_they_can_be_read(
    air_monitors: Comparison, bike_lights: Comparison, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert structure.view(bike_lights)["unit"] == "pair"  # type: ignore[index]
    rows = rows_of(air_monitors.alignment, air_monitors.left, air_monitors.right)
    assert len(rows) > 60 >= len(by_function(rows))
    assert structure.view(air_monitors)["unit"] == "function"  # type: ignore[index]
    monkeypatch.setattr(structure, "_MOST", 20)
    view = structure.view(air_monitors)
    assert view is not None
    assert view["unit"] == "subsystem"
    assert "matrix-count" in str(view["sides"][0]["picture"])


def test_every_relation_of_the_build_is_drawn_or_lies_within_one_row(air_monitors: Comparison) -> None:
    view = structure.view(air_monitors)
    assert view is not None
    rows = by_function(rows_of(air_monitors.alignment, air_monitors.left, air_monitors.right))
    for side, record in ((0, air_monitors.left), (1, air_monitors.right)):
        matrix = matrix_of(record)
        place = {name: at for at, found in enumerate(rows) for name in found.ids[side]}
        spots = {
            (layer, place[matrix.ids[a]], place[matrix.ids[b]])
            for layer, found in matrix.marks.items()
            for a, b in found
        }
        wanted = sum(a != b for _, a, b in spots)
        marks_drawn = [d for kind, d in painted(str(view["sides"][side]["picture"])) if kind.startswith("mark-")]
        assert sum(d.count("M") for d in marks_drawn) == wanted


def test_an_empty_field_says_what_it_means(bike_lights: Comparison) -> None:
    view = structure.view(bike_lights)
    assert view is not None
    assert [side["traced"] for side in view["sides"]] == [False, True]
    text = Page(render_page(bike_lights)).text
    assert "an empty field says that no relation is recorded, not that there is none" in text
    assert "an empty field says that there is no relation" in text


def test_tables_tell_the_same_in_numbers(air_monitors: Comparison) -> None:
    view = structure.view(air_monitors)
    assert view is not None
    for table, record in zip(view["tables"], (air_monitors.left, air_monitors.right), strict=True):
        cells = [line["cells"] for line in table["lines"]]
        numbers = [[int(cell) if cell.isdigit() else 0 for cell in line] for line in cells]
        assert all(len(line) == len(cells) == len(table["heads"]) for line in cells)
        assert numbers == [list(column) for column in zip(*numbers, strict=True)]
        upper = sum(numbers[a][b] for a in range(len(cells)) for b in range(a, len(cells)))
        assert upper == matrix_of(record).linked()
    # Nothing of unknown purpose is listed in the left product, and not all of it was looked at.
    left = view["tables"][0]
    assert set(left["lines"][left["heads"].index("Not known")]["cells"]) == {"?"}


def test_a_page_without_relations_has_no_such_section(make: Callable[..., Comparison]) -> None:
    text = "archdiff: 1\nproduct: {{name: {}}}\nparts: {{U1: {{function: expansion{}}}, U2: {{function: expansion}}}}\n"
    bare, tied = (
        record_of(text.format("Bare", ""), "b.yaml"),
        record_of(text.format("Tied", ", joined_to: [U2]"), "t.yaml"),
    )
    for right, shown in ((bare, False), (tied, True)):
        view = structure.view(make(left=bare, right=right, alignment=align(bare, right, Notes())))
        assert (view is not None) is shown


def test_the_picture_is_named_and_the_names_are_left_to_the_table(air_monitors: Comparison) -> None:
    html = render_page(air_monitors)
    pictures = [a for tag, a in Page(html).tags if tag == "svg" and a.get("class", "").startswith("matrix ")]
    assert [a["role"] for a in pictures] == ["img", "img"]
    assert "Vornip Three" in pictures[0]["aria-label"]
    assert f"linked pairs of {matrix_of(air_monitors.left).size} things" in pictures[0]["aria-label"]
    beside = [a for tag, a in Page(html).tags if tag == "svg" and a.get("class", "").startswith("matrix-names")]
    assert {a["aria-hidden"] for a in beside} == {"true"}
