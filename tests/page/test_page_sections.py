"""What single sections show."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import Alignment
from archdiff.figures.figure import Measure
from archdiff.notes import Comment, Notes
from archdiff.page import render_page
from archdiff.page.anchors import element_anchor, figure_anchor, pair_anchor, subsystem_anchor
from archdiff.page.bands import Band, bands
from archdiff.page.facts import fact_text, facts_of, set_quantity
from archdiff.page.scales import round_steps, scale
from archdiff.page.sections import cautions, differences, not_known, opening, partition, paths, power
from archdiff.page.timeline import Step, timeline
from archdiff.quantities import Bounds
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.comparison import Comparison


def section_text(html: str, anchor: str) -> str:
    start = html.index(f'<section id="{anchor}"')
    return Page(html[start : html.index("</section>", start)]).text


def test_anchors_follow_content(comparison: Comparison) -> None:
    assert [pair_anchor(comparison, pair) for pair in comparison.pairs[:2]] == [
        "pair-host-processing",
        "pair-program-storage",
    ]
    assert element_anchor("left", "U1") == "left-U1"
    assert figure_anchor("board area") == "figure-board-area"
    assert subsystem_anchor("user input") == "subsystem-user-input"


def test_twins_of_one_function_get_anchors_of_their_own(
    make: Callable[..., Comparison], comparison: Comparison
) -> None:
    pair = comparison.pairs[0]
    twins = (pair, replace(pair), replace(pair, function="host processing 2"), replace(pair))
    made = make(alignment=Alignment(twins, (), ()))
    anchors = [pair_anchor(made, twin) for twin in twins]
    assert anchors == [
        "pair-host-processing",
        "pair-host-processing-2",
        "pair-host-processing-2-2",
        "pair-host-processing-3",
    ]


def test_comments_stand_where_they_belong_and_only_there(comparison: Comparison) -> None:
    html = render_page(comparison)
    homes = {
        "Keys want a board of their own.": "partition",
        "Comment on a subsystem.": "differences",
        "Comment on a part.": "differences",
        "Comment on a board.": "parts",
        "Comment on the whole.": "headlines",
    }
    for comment, anchor in homes.items():
        assert comment in section_text(html, anchor)
        assert html.count(comment) == 1


def test_a_comment_on_a_part_with_several_jobs_stands_once(make: Callable[..., Comparison]) -> None:
    # IC1 sits in two pairs; the comment belongs with its main function, or where both named elements meet.
    html = render_page(
        make(
            notes=Notes(
                comments=(Comment("First remark.", right="IC1"), Comment("Second remark.", left="U2", right="IC1"))
            )
        )
    )
    rows = {row.split('"')[1]: row for row in html.split("<tr ") if row.startswith("id=")}
    assert (html.count("First remark."), html.count("Second remark.")) == (1, 1)
    assert "First remark." in rows["pair-host-processing"]
    assert "Second remark." in rows["pair-program-storage"]


def test_a_comment_on_a_name_shared_by_section_and_subsystem_stands_once(make: Callable[..., Comparison]) -> None:
    html = render_page(make(notes=Notes(comments=(Comment("About the supply.", on="power"),))))
    assert html.count("About the supply.") == 1
    assert "About the supply." in section_text(html, "power")


def test_a_comment_without_a_home_says_what_it_speaks_of(make: Callable[..., Comparison]) -> None:
    comments = (Comment("No subsystem of that name here.", on="thermal"), Comment("All in all."))
    text = section_text(render_page(make(notes=Notes(comments=comments))), "headlines")
    assert "On thermal No subsystem of that name here." in text
    assert text.count("On ") == 1


def test_a_figure_is_shown_in_the_unit_of_its_measure(make: Callable[..., Comparison]) -> None:
    price = make().figures[0]
    left, right = Measure(Bounds.exact(129), unit="EUR"), Measure(Bounds(99, 95, 103), unit="EUR")
    text = section_text(render_page(make(figures=(replace(price, left=left, right=right),))), "figures")
    assert "129 EUR" in text
    assert "99 EUR 95…103 EUR" in text
    assert "mm²" not in text


def test_alike_pairs_are_folded_but_counted(comparison: Comparison) -> None:
    view = differences.view(comparison)
    assert view is not None
    output = next(group for group in view["subsystems"] if group["name"] == "user output")
    assert (len(output["differing"]), len(output["alike"]), output["count"]) == (0, 1, 1)
    assert "1 function alike: illumination" in section_text(render_page(comparison), "differences")


def test_reasons_and_runner_up_are_told(comparison: Comparison) -> None:
    text = section_text(render_page(comparison), "differences")
    assert "for 3 function agrees" in text
    assert "against 0.4 pins differ" in text
    assert "Runner-up: U2" not in text
    assert "program storage (U2) with Host (IC1)" in text


def test_the_partition_picture_counts_and_hatches(comparison: Comparison) -> None:
    picture = str(partition.view(comparison)["picture"])  # type: ignore[index]
    page = Page(picture)
    assert page.faults == []
    kinds = [a["class"] for tag, a in page.tags if tag == "g" and "class" in a]
    assert sorted(kinds) == ["band moved", "band stays"]
    assert "1 from Key board to Core board" in picture
    assert "4 functions" in page.text


def test_bands_are_as_thick_as_their_number() -> None:
    picture = bands(
        {"a": "A"}, {"x": "X", "y": "Y"}, [Band("a", "x", 3, moved=False), Band("a", "y", 1, moved=True)], {"a": "x"}
    )
    thick = []
    for tag, attributes in Page(str(picture)).tags:
        if tag == "path":
            start = float(attributes["d"].split("C")[0].split()[1])
            end = float(attributes["d"].rsplit(" ", 1)[1].rstrip("z"))
            thick.append(end - start)
    assert thick[0] == pytest.approx(3 * thick[1])


def test_scale_puts_both_sides_on_one_axis() -> None:
    page = Page(str(scale(Bounds.exact(50), Bounds(100, 80, 100))))
    (left,) = [float(a["cx"]) for tag, a in page.tags if tag == "circle"]
    (right,) = [float(a["x"]) + float(a["width"]) / 2 for tag, a in page.tags if tag == "rect"]
    (zero,) = {
        float(a["d"].split()[0][1:]) for tag, a in page.tags if tag == "path" and a["class"] in {"left", "right"}
    }
    # 50 lies half way from 0 to 100.
    assert left - zero == pytest.approx((right - zero) / 2)
    assert scale(None, Bounds.unknown()) == ""


def test_scale_shows_open_ends_as_open() -> None:
    assert "onwards left" in scale(Bounds.at_least(5), Bounds.exact(3))
    assert "onwards" not in scale(Bounds.exact(5), Bounds.exact(3))
    assert "nothing" in scale(None, Bounds.exact(3))


def test_round_steps() -> None:
    assert round_steps(0, 100) == [0, 20, 40, 60, 80, 100]
    assert round_steps(-10, 10) == [-10, -5, 0, 5, 10]


def test_timeline_is_to_scale_and_marks_what_was_not_timed() -> None:
    page = Page(
        str(
            timeline(
                [
                    [Step("a", 10, 10, hidden=True), Step("b", 20, 20, hidden=False)],
                    [Step("c", None, None, hidden=False)],
                ]
            )
        )
    )
    widths = [float(a["width"]) for tag, a in page.tags if a.get("class") == "step-field"]
    assert widths[1] == pytest.approx(2 * widths[0], rel=1e-3)
    assert sum("untimed" in a.get("class", "") for _, a in page.tags) == 1
    assert timeline([[Step("a", None, None, hidden=False)], []]) == ""


def test_opening_tells_tools_hidden_steps_and_cautions(comparison: Comparison) -> None:
    left = opening.view(comparison)["sides"][0]  # type: ignore[index]
    assert left["tools"] == ["spudger", "hexalobular 8"]
    assert [step["hidden"] for step in left["steps"]] == [True, False, False]
    assert left["untimed"] == 1
    text = section_text(render_page(comparison), "opening")
    assert "Unscrew 4 ×" in text  # noqa: RUF001
    assert "Caution: the inlet may be live" in text
    assert "There may be more steps: not known: opening looked at in part" in text


def test_a_side_without_paths_says_why(comparison: Comparison) -> None:
    kinds = paths.view(comparison)["kinds"]  # type: ignore[index]
    (pair,) = kinds[0]["pairs"]
    left, right = pair["heads"]
    assert left["title"] == "Heat of the lamp"
    assert [column["cells"][0]["title"] for column in pair["columns"]] == ["Lamp", "pad", "Shell", "air"]
    assert right["why"] == "not known: paths not looked at"
    assert right["open"]


def test_the_supply_tree_runs_from_entry_to_load(comparison: Comparison) -> None:
    left, right = power.view(comparison)["sides"]  # type: ignore[index]
    rail = left["tree"][0]["rails"][0]
    assert (left["tree"][0]["label"], rail["label"]) == ("Inlet", "v5")
    assert [load["label"] for load in rail["feeds"]] == ["Controller", "Lamp"]
    assert [node["label"] for node in right["tree"]] == ["Cell"]


def test_coverage_is_told_for_both(comparison: Comparison) -> None:
    rows = {row["title"]: [cell["word"] for cell in row["cells"]] for row in not_known.view(comparison)["coverage"]}
    assert rows["Parts"] == ["part", "part"]
    assert rows["Joints"] == ["whole", "none"]
    assert rows["Opening"] == ["whole", "part"]
    assert rows["Power"] == ["whole", "whole"]


def test_cautions_follow_the_supply(comparison: Comparison, make: Callable[..., Comparison]) -> None:
    groups = {group.supply: group.products for group in cautions.view(comparison)["groups"]}
    assert groups == {"mains": "Veska One", "battery": "Orlim Two"}
    silent = comparison.left
    silent.product = {key: value for key, value in silent.product.items() if key != "supply"}
    groups = {group.supply: group.products for group in cautions.view(make(left=silent))["groups"]}
    assert groups["mains"] == "Veska One, whose supply is not stated"
    assert "Orlim Two" in groups["battery"]


def test_quantities_are_set_as_in_print() -> None:
    assert set_quantity("74 x 52 mm") == "74 × 52 mm"  # noqa: RUF001
    assert set_quantity("150 mm2") == "150 mm²"
    assert set_quantity("40..70 s") == "40…70 s"
    assert set_quantity("35 um") == "35 µm"
    assert set_quantity("0.9 m3/h") == "0.9 m³/h"


def test_facts_as_text(comparison: Comparison) -> None:
    assert fact_text(value=True) == "yes"
    assert fact_text(("a", "b")) == "a, b"
    assert fact_text({"joined_by": "tabs", "at": None}) == "joined by tabs"
    facts = dict(facts_of(comparison.left.elements["U1"]))
    assert facts["size"] == "5 × 5 mm"  # noqa: RUF001
    assert "name" not in facts


def test_a_bare_comparison_still_makes_a_page(make: Callable[..., Comparison]) -> None:
    bare = make(
        alignment=Alignment((), ()), figures=(), chains=(), unknowns=(), look_at=(), headlines=(), notes=Notes(),
        partition=make().partition.__class__((), ()),
    )  # fmt: skip
    page = Page(render_page(bare))
    assert page.faults == []
    assert "No difference could be shown" in page.text
