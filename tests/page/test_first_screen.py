"""The first screen: what goes with each headline, and the looks in the same words as in their own section."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from archdiff.page import render_page
from archdiff.page.sections import headlines, not_known
from archdiff.unknowns import telling
from tests.page.reading import Page

if TYPE_CHECKING:
    from archdiff.comparison import Comparison


@pytest.fixture(scope="module", params=["air_monitors", "bike_lights"])
def whole(request: pytest.FixtureRequest) -> Comparison:
    comparison: Comparison = request.getfixturevalue(request.param)
    return comparison


@pytest.fixture(scope="module")
def html(whole: Comparison) -> str:
    return render_page(whole)


def test_every_line_under_a_headline_leads_to_its_chain_or_figure(whole: Comparison, html: str) -> None:
    lines = [entry for _, _, under in headlines.view(whole)["headlines"] for entry in under]
    assert len(lines) > 4
    ids = set(Page(html).ids)
    for then, anchor in lines:
        assert anchor in ids
        if then.chain is not None:
            card = html[html.index(f'id="{anchor}"') :].split("</article>", 1)[0]
            assert then.chain.root in Page(f"<article {card}</article>").text
    assert {anchor for then, anchor in lines if then.chain} <= {f"chain-{n + 1}" for n in range(len(whole.chains))}


def test_the_looks_of_the_first_screen_are_the_first_of_their_section_in_the_same_words(whole: Comparison) -> None:
    first = headlines.view(whole)["look_next"]
    rows = not_known.view(whole)["look_at"]
    assert len(first) == 3
    for look, row in zip(first, rows, strict=False):
        assert (look.what, look.how) == (row["what"], row["how"])
        assert look.where.startswith(str(row["things"][0]))


def test_ten_looks_stand_open_and_the_rest_are_folded_with_none_lost(whole: Comparison, html: str) -> None:
    view = not_known.view(whole)
    ranked = telling(whole.look_at)
    assert len(view["look_at"]) == 10
    assert len(view["look_at"]) + len(view["lesser"]) == len(ranked)
    assert view["lesser_words"].startswith(f"{len(ranked) - 10} more looks")
    assert re.search(rf"<details data-print><summary>{view['lesser_words']}</summary>", html)
    most = max(row.settles for row in ranked[10:])
    assert ("one or two statements" in view["lesser_words"]) == (most <= 2)


def test_a_row_says_how_many_verdicts_and_figures_it_is_ranked_by(whole: Comparison) -> None:
    for look, row in zip(telling(whole.look_at), not_known.view(whole)["look_at"], strict=False):
        told = {word: int(count) for count, word in re.findall(r"(\d+) (verdict|figure)", row["bears"])}
        assert (told.get("verdict", 0), told.get("figure", 0)) == (look.verdicts, look.figures)
        assert look.verdicts + look.figures == len(row["waiting"])


def test_the_method_states_how_headlines_are_ranked(html: str) -> None:
    method = html[html.index('<section id="method"') :].split("</section>", 1)[0]
    assert re.search(r"<li><b>Headlines\.</b> At most five", method)
