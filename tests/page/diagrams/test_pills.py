"""Pills and connectors: the last resort always fits, and width tells the number of ways."""

import pytest

from archdiff.page.diagrams.pills import connector_width, legends, line_width
from archdiff.page.diagrams.scene import Link, LinkFace, Mark


@pytest.mark.parametrize("ways", [None, 1, 2, 4, 6, 10, 14, 24, 40, 99, 120])
def test_a_bare_number_is_never_wider_than_its_connector(ways: int | None) -> None:
    label = LinkFace("flexible printed circuit", ways, mark=Mark.DIFFERENT)
    link = Link("j", ("a", "b"), label, label)
    assert legends(link)[-1].width <= connector_width(link)


def test_legends_go_from_words_to_a_number() -> None:
    label = LinkFace("flexible printed circuit, fourteen ways", 14)
    full, cut, number = (legend.lines[0][0] for legend in legends(Link("j", ("a", "b"), label, None)))
    assert full == "flexible printed circuit, fourteen ways"
    assert cut.endswith("…")
    assert number == "14"


def test_a_line_grows_by_the_same_step_with_every_doubling_of_its_ways() -> None:
    steps = [line_width(2 * ways) - line_width(ways) for ways in (2, 4, 8, 16, 32)]
    assert steps == pytest.approx([steps[0]] * 5)
    assert steps[0] > 0
    assert line_width(None) == line_width(1)
