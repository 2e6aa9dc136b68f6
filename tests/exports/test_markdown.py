"""The comparison as Markdown, read back through a Markdown parser."""

import re
from dataclasses import replace

import pytest
from markdown_it import MarkdownIt

from archdiff.exports import export
from archdiff.notes import Comment, Notes
from archdiff.pipeline import compare
from archdiff.wording import chance_words

NB = "\N{NO-BREAK SPACE}"
LEFT = """\
archdiff: 1
product: {name: Tarvo, kind: test object, price: 129 EUR, mass: 11 ± 1 g, supply: [mains]}
coverage: {boards: whole, parts: part}
boards: {main: {name: Upper board, outline: 60 x 40 mm}}
parts:
  U1: {on: main, function: host processing, means: microcontroller, pins: 32}
"""
RIGHT = (
    LEFT.replace("Tarvo", "Ledo").replace("129 EUR", "99 EUR").replace("[mains]", "[external supply]")
    .replace("60 x 40", "30 x 40").replace("microcontroller", "system on chip").replace("mass: 11 ± 1 g, ", "")
)  # fmt: skip
COMMENTS = {
    "on the whole": Comment("Words on the whole."),
    "on a heading": Comment("Words on the cut.\n\nIn two paragraphs.", on="partition"),
    "on a subsystem": Comment("Words on computing.", on="compute"),
    "on the page alone": Comment("Words on the boards.", on="boards"),
    "on a pair": Comment("Words on the chip.", left="U1"),
    "on a board": Comment("Words on the upper board.", left="main"),
}


@pytest.fixture(params=["air_monitors", "bike_lights"])
def comparison(request):
    return request.getfixturevalue(request.param)


@pytest.fixture
def made(record_of):
    return compare(
        record_of(LEFT), record_of(RIGHT), Notes(headline="In **short**.", comments=tuple(COMMENTS.values()))
    )


def rows_of(text):
    """Cells of every table row by the first cell, as a Markdown parser sees them."""
    rows, cells = {}, []
    for token in MarkdownIt("commonmark").enable("table").parse(text):
        if token.type == "tr_open":
            cells = []
        elif token.type == "inline":
            cells.append("".join(child.content for child in token.children))
        elif token.type == "tr_close":
            rows[cells[0]] = cells[1:]
    return rows


def under(text, heading):
    return re.split(r"\n#+ ", text.split(heading + "\n", 1)[1], maxsplit=1)[0]


def test_every_figure_stands_in_a_table(comparison):
    rows = rows_of(export(comparison, "markdown"))
    assert rows["Figure"] == [comparison.left.name, comparison.right.name, "What it shows"]
    for result in comparison.figures:
        assert len(rows[result.figure.title]) == (1 if result.pair else 3)


def test_numbers_are_those_of_the_page(made):
    text = export(made, "markdown")
    rows = rows_of(text)
    assert rows["Board area"][:2] == [f"24{NB}cm²", f"12{NB}cm²"]  # 60 x 40 and 30 x 40 mm
    assert rows["Board area"][2].startswith("Tarvo: 2")
    assert rows["Price"][:2] == [f"129{NB}EUR", f"99{NB}EUR"]
    assert rows["Mass"] == [f"11{NB}g (10…12{NB}g)", "not known", "not known"]
    assert rows["Parts listed"][0].startswith("≥")
    assert "Bounds(" not in text


def test_a_price_in_another_currency_is_told_and_not_compared(record_of):
    text = export(compare(record_of(LEFT), record_of(RIGHT.replace("99 EUR", "99 USD"))), "markdown")
    assert rows_of(text)["Price"] == [f"129{NB}EUR", f"99{NB}USD", "not known"]


def test_every_comment_stands_once_beside_what_it_speaks_of(made):
    text = export(made, "markdown")
    for comment in COMMENTS.values():
        assert text.count(comment.text.split("\n")[0]) == 1
    assert "> Words on the cut.\n>\n> In two paragraphs." in under(text, "## Which board carries what")
    assert "> Words on computing." in under(text, "### Compute")
    assert "  > Words on the chip." in under(text, "### Compute")
    assert "> **On boards**\n>\n> Words on the boards." in text
    assert "> **On Upper board of Tarvo**\n>\n> Words on the upper board." in text
    assert "In **short**." in text


def test_the_comments_of_the_examples_stand_once(comparison):
    text = " ".join(re.sub(r"(?m)^ *> ?", "", export(comparison, "markdown")).split())
    for comment in comparison.notes.comments:
        assert text.count(" ".join(comment.text.split())) == 1


@pytest.mark.parametrize(
    ("confidence", "told"),
    [(0.99, ""), (0.9, "probably the same job"), (0.6, "possibly the same job"), (0.3, "a weak match: look again")],
)
def test_a_doubtful_pairing_is_told_in_the_words_of_the_page(made, confidence, told):
    (pair,) = [pair for pair in made.pairs if pair.function == "host processing"]
    sure = replace(pair, confidence=confidence)
    pairs = tuple(sure if each is pair else each for each in made.pairs)
    text = under(export(replace(made, alignment=replace(made.alignment, pairs=pairs)), "markdown"), "### Compute")
    (line,) = [line for line in text.splitlines() if line.startswith("- Host processing")]
    assert "microcontroller in Tarvo, system on chip in Ledo" in line
    assert ("same job" in line or "weak match" in line) == bool(told)
    assert told in line
    assert chance_words(sure) == (told or "almost certainly the same job")


def test_no_pair_is_left_out_of_the_count(comparison):
    text = export(comparison, "markdown")
    found = re.findall(r"(?m)^(\d+|no) functions?: differing (\d+), alike (\d+), not known (\d+)\.$", text)
    assert sum(int(whole) for whole, *_ in found) == len(comparison.pairs)
    assert all(int(whole) == sum(map(int, parts)) for whole, *parts in found)
    unknown = sum(pair.verdict.value == "not known" for pair in comparison.pairs)
    assert sum(int(last) for *_, last in found) == unknown
    assert f"- Without a verdict: {unknown} of {len(comparison.pairs)} functions." in text


def test_the_moves_are_listed(comparison):
    listed = under(export(comparison, "markdown"), "## Which board carries what")
    assert len(re.findall("(?m)^- ", listed)) == len(comparison.partition.moves)


@pytest.mark.parametrize(
    ("supply", "cautioned"),
    [
        ("supply: [mains]", True),
        ("supply: [battery]", True),
        ("supply: [external supply]", False),
        ("year: 2020", True),
    ],
)
def test_a_caution_closes_it_where_the_supply_can_hurt_or_is_not_stated(record_of, supply, cautioned):
    left = LEFT.replace("supply: [mains]", supply)
    text = export(compare(record_of(left), record_of(RIGHT)), "markdown")
    last = text.rstrip().splitlines()[-1]
    assert last.startswith("**Caution") == cautioned
    if cautioned:
        assert "Tarvo" in last
        assert "Ledo" not in last
    assert ("whose supply is not stated" in last) == (supply == "year: 2020")
