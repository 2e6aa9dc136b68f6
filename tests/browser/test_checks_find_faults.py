"""Every check of this folder finds the fault it is for, and finds none on a page without faults."""

from typing import Any

import pytest

from tests.browser.conftest import Opener, StandIn
from tests.browser.real_browser import Page

pytestmark = pytest.mark.browser
FAULTS = [
    ("sidewaysScroll", (), ["2008 px in a window of 1280 px", "p.wide"]),
    ("repeatedIds", (), ["top"]),
    ("lostLinks", (), ["#nowhere", "#hidden"]),
    ("spilledText", (), ["spilled over the edge"]),
    ("collidingText", (), ["collides"]),
    ("coveredText", (), ["struck through"]),
    ("breaches", (), ["color-contrast"]),
]


def _ready(opened: Page) -> Page:
    opened.load_axe()
    return opened


@pytest.mark.parametrize(("check", "arguments", "told"), FAULTS, ids=[name for name, *_ in FAULTS])
def test_finds_its_fault(
    page: Opener, stand_in: StandIn, check: str, arguments: tuple[Any, ...], told: list[str]
) -> None:
    found = _ready(page(stand_in("faulty"))).check(check, *arguments)
    assert all(any(word in fault for fault in found) for word in told)
    assert _ready(page(stand_in("sound"))).check(check, *arguments) == []


def test_spilled_words_are_the_only_ones(page: Opener, stand_in: StandIn) -> None:
    assert len(page(stand_in("faulty")).check("spilledText")) == 1


def test_finds_faint_words(page: Opener, stand_in: StandIn) -> None:
    answer = _ready(page(stand_in("faulty"))).check("faintText", 4.5)
    assert {fault.split('"')[1] for fault in answer["faint"]} == {"dim words", "on a weave"}
    # "#999999 on white" is 2.85:1 by the formula of WCAG 2.2 (recomputed by hand from its definition).
    assert any(fault.startswith("2.85:1") for fault in answer["faint"])
    assert _ready(page(stand_in("sound"))).check("faintText", 4.5) == {"faint": [], "looked": 5}


def test_finds_faint_ghosts(page: Opener, stand_in: StandIn) -> None:
    answer = _ready(page(stand_in("faulty"))).check("faintGhosts", 3)
    assert ["k2" in fault or "faint ghost" in fault for fault in answer["faint"]] == [True]
    assert _ready(page(stand_in("sound"))).check("faintGhosts", 3) == {"faint": [], "looked": 1}


def test_finds_a_partner_that_stays_dark(page: Opener, stand_in: StandIn) -> None:
    dark = page(stand_in("faulty")).check("lighting", "left", "k1")
    assert dark == {"own": False, "partners": ["k1"], "during": [], "after": []}
    lit = page(stand_in("sound")).check("lighting", "left", "k1")
    assert lit == {"own": True, "partners": ["k1"], "during": ["k1"], "after": []}


def test_finds_requests_and_console_errors(page: Opener, stand_in: StandIn) -> None:
    faulty, sound = page(stand_in("faulty")), page(stand_in("sound"))
    assert "https://outside.invalid/picture.png" in faulty.requests()
    assert any("something went wrong" in line for line in faulty.trouble())
    assert sound.requests() == [stand_in("sound").as_uri()]
    assert sound.trouble() == []
