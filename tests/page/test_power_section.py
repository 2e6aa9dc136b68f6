"""The supply trees on the page tell what the figures work out rail by rail."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.page import render_page
from archdiff.page.sections import power
from tests.page.reading import Page

if TYPE_CHECKING:
    from archdiff.comparison import Comparison


def test_each_rail_has_its_loss_and_its_headroom(air_monitors: Comparison) -> None:
    html = render_page(air_monitors)
    start = html.index('<section id="power"')
    text = Page(html[start : html.index("</section>", start)]).text
    # 3.3 V x 0.180 to 0.190 A at 88 %, and a limit of 1 A, by hand: 81.0 to 85.5 mW, 5.26 to 5.56 times.
    assert "81.0…85.5 mW lost in making it, limit 5.26…5.56 times the current" in text
    # 3.3 V x 0.148 A is made by a linear regulator at 66 to 66.7 %: 0.241 to 0.255 W, by hand.
    assert "0.240…0.255 W lost in making it" in text


def test_what_is_not_known_or_costs_nothing_is_not_told(bike_lights: Comparison) -> None:
    view = power.view(bike_lights)
    assert view is not None
    nodes = {
        node["id"]: node["worked_out"].replace("\N{NO-BREAK SPACE}", " ")
        for side in view["sides"]
        for node in power._all(side["tree"])
    }
    assert nodes["lamp_rail"] == "93.2 mW lost in making it"  # 0.528 W / 0.85 - 0.528 W, by hand; no limit stated
    assert nodes["cell_rail"] == nodes["vbat"] == nodes["pouch"] == ""
