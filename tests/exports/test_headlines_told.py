"""What goes with the headlines, and the looks, in the exports."""

import json

import pytest

from archdiff.exports import export


@pytest.fixture(params=["air_monitors", "bike_lights"])
def comparison(request):
    return request.getfixturevalue(request.param)


def test_json_ties_every_line_to_its_chain_or_its_figures(comparison):
    data = json.loads(export(comparison, "json"))
    figures = {figure["id"] for figure in data["figures"]}
    lines = [then for headline in data["headlines"] for then in headline["then"]]
    assert len(lines) == sum(len(headline.then) for headline in comparison.headlines) > 4
    for then in lines:
        assert (then["knock_on"] is None) == (then["sure"] is None) == bool(then["figures"])
        assert set(then["figures"]) <= figures
        if then["knock_on"] is not None:
            chain = data["knock_ons"][then["knock_on"]]
            assert (chain["root"] in then["text"]) == chain["stated_by_analyst"]


def test_json_tells_what_a_choice_is_about(comparison):
    data = json.loads(export(comparison, "json"))
    about = {"left": comparison.left, "right": comparison.right}
    assert any(chain["about"] for chain in data["knock_ons"])
    assert all(name in about[chain["side"]].elements for chain in data["knock_ons"] for name in chain["about"])


def test_json_tells_how_to_look_and_what_the_ranking_rests_on(comparison):
    looks = json.loads(export(comparison, "json"))["look_at"]
    assert all(look["how"] for look in looks)
    assert all(look["verdicts"] + look["figures"] == look["settles"] == len(look["waiting"]) for look in looks)
    weights = [2 * look["verdicts"] + look["figures"] + 4 * look["asked_by_analyst"] for look in looks]
    assert weights == sorted(weights, reverse=True)


def test_markdown_tells_the_lines_under_their_headlines_and_how_to_look(comparison):
    text = export(comparison, "markdown")
    for headline in comparison.headlines:
        for then in headline.then:
            assert f"\n  - {then.text[:20]}" in text
    first = next(look for look in comparison.look_at if look.settles)
    (line,) = [line for line in text.splitlines() if line.startswith("1. ")]
    assert f"(affects {first.verdicts} verdicts, {first.figures} figures). How: {first.how[:20]}" in line
