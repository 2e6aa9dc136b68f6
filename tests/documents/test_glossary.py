"""The glossary: every word is used where it says, explained once, in short plain sentences, and quoted as it stands."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import yaml

from archdiff.page.render import render_page
from archdiff.vocabulary import glossary as package
from archdiff.vocabulary.glossary import Word, glossary
from tests.page.reading import Page

if TYPE_CHECKING:
    from archdiff.comparison import Comparison

TOP = Path(__file__).parents[2]
WORDS = list(glossary().values())
MOST_WORDS = 25  # of a sentence; common advice for technical English


@pytest.fixture(scope="module")
def texts(air_monitors: Comparison, bike_lights: Comparison) -> dict[str, str]:
    """All text of each place where words are used; the page without the section that explains them."""
    pages = [re.sub(r'(?s)<section id="method".*?</section>', "", render_page(c)) for c in (air_monitors, bike_lights)]
    record = [*(TOP / "schema").glob("*.json"), TOP / "README.md", *(TOP / "site" / "pages").glob("*.md")]
    code = (TOP / "archdiff").rglob("*.py")
    return {
        "page": " ".join(Page(html).text for html in pages),
        "record": " ".join(path.read_text("utf-8") for path in record),
        "code": " ".join(path.read_text("utf-8") for path in code),
    }


@pytest.mark.parametrize("word", WORDS, ids=lambda word: word.name)
def test_every_word_is_used_where_it_says(word: Word, texts: dict[str, str]) -> None:
    assert word.where
    wanted = rf"\b{re.escape(word.name.removesuffix(' …'))}"
    for place in word.where:
        assert re.search(wanted, texts[place], re.IGNORECASE), place


def test_no_word_is_explained_twice() -> None:
    """By the raw events, for reading into a mapping would keep the last of two."""
    text = Path(package.__file__).with_name("glossary.yaml").read_text("utf-8")
    root = yaml.compose(text)
    assert isinstance(root, yaml.MappingNode)
    names = [name.value.casefold() for _, words in root.value for name, _ in words.value]
    assert [name for name, times in Counter(names).items() if times > 1] == []
    assert len(names) == len(WORDS)


@pytest.mark.parametrize("word", WORDS, ids=lambda word: word.name)
def test_a_meaning_is_short_plain_sentences(word: Word) -> None:
    assert re.fullmatch(r"[A-Z0-9].*\.", word.meaning)
    for sentence in re.split(r"(?<=\.) (?=[A-Z0-9])", word.meaning):
        assert len(sentence.split()) <= MOST_WORDS, sentence
    assert not re.search(r"[;<>*_`]", word.meaning)


def test_the_readme_quotes_the_glossary() -> None:
    text = (TOP / "README.md").read_text("utf-8")
    section = text[text.index("## Words") :].split("\n## ", 1)[0]
    rows = re.findall(r"^\| ([^|-][^|]*) \| ([^|]+) \|$", section, re.MULTILINE)[1:]
    assert len(rows) > 5
    for name, meaning in rows:
        assert glossary()[name].meaning == meaning
