"""Plans, strips, matrices and sketches as the browser draws them: words that can be read, and nothing on top of another."""

from pathlib import Path

import pytest

from tests.browser.conftest import Opener

pytestmark = pytest.mark.browser
OVERLAP = """(a, b, by = 0.6) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > by
  && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > by"""
INK = """(text) => { const box = text.getBoundingClientRect(), inner = box.height * 0.12;
  return { left: box.left, right: box.right, top: box.top + inner, bottom: box.bottom - inner, said: text.textContent }; }"""
"""A line box is higher than its letters by what is left free above capitals and below descenders."""
SIZES = """(what) => [...document.querySelectorAll(what)].filter((text) => text.checkVisibility()).map((text) => {
  const { a, b } = text.getScreenCTM();
  return parseFloat(getComputedStyle(text).fontSize) * Math.hypot(a, b);
})"""
COLLIDING = f"""(what) => {{
  const overlap = {OVERLAP}, ink = {INK};
  return [...document.querySelectorAll(what)].flatMap((svg) => {{
    const texts = [...svg.querySelectorAll("text")].filter((text) => text.checkVisibility()).map(ink);
    return texts.flatMap((one, at) => texts.slice(at + 1).filter((other) => overlap(one, other))
      .map((other) => `${{one.said.trim()}} / ${{other.said.trim()}}`));
  }});
}}"""
NAMES_OVER_THINGS = f"""(() => {{
  const overlap = {OVERLAP}, ink = {INK};
  const holds = (outer, inner) => outer.left <= inner.left && inner.right <= outer.right
    && outer.top <= inner.top && inner.bottom <= outer.bottom;
  return [...document.querySelectorAll("svg.plan")].flatMap((svg) => {{
    const frame = svg.getBoundingClientRect();
    const links = [...svg.querySelectorAll("a")];
    const shape = (link) => link.querySelector(".plan-body, .plan-cross").getBoundingClientRect();
    return links.filter((link) => link.querySelector("text")).flatMap((link) => {{
      const name = ink(link.querySelector("text")), own = shape(link);
      const faults = holds(frame, name) ? [] : ["cut off"];
      if (overlap(name, own) && !holds(own, name)) faults.push("over its own outline");
      for (const other of links) {{
        if (other === link || other.matches(".shield") && holds(shape(other), name)) continue;
        const below = link.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_PRECEDING;
        if (overlap(name, shape(other)) && !(below && holds(own, name))) faults.push(`over ${{other.textContent}}`);
      }}
      return faults.map((fault) => `${{name.said}} ${{fault}}`);
    }});
  }});
}})()"""
HINTS = """[...document.querySelectorAll(".scroll")].filter((box) => box.checkVisibility()).map((box) => [
  box.scrollWidth > box.clientWidth, getComputedStyle(box, "::before").content.includes("slide it sideways"),
])"""


@pytest.mark.parametrize("width", [1440, 820, 390])
@pytest.mark.parametrize("drawing", ["svg.plan", "svg.timeline", ".matrix, .matrix-names", "svg.build"])
def test_words_are_nine_px_or_more(page: Opener, example: Path, drawing: str, width: int) -> None:
    what = ", ".join(f"{part} text" for part in drawing.split(", "))
    sizes = page(example, width).unfold().evaluate(f"({SIZES})({what!r})")
    assert sizes
    assert min(sizes) >= 8.99


@pytest.mark.parametrize("width", [1440, 390])
@pytest.mark.parametrize("drawing", ["svg.plan", "svg.timeline", "svg.build"])
def test_words_do_not_run_into_each_other(page: Opener, example: Path, drawing: str, width: int) -> None:
    assert page(example, width).unfold().evaluate(f"({COLLIDING})({drawing!r})") == []


def test_names_on_plans_stand_clear_of_everything_else(page: Opener, example: Path) -> None:
    assert page(example, 1440).evaluate(NAMES_OVER_THINGS) == []


def test_the_ruler_of_the_plans_is_at_their_scale(page: Opener, example: Path) -> None:
    """The ruler shows 10 mm; the outline of a board says how wide it is in mm."""
    for width, printed in ((1440, False), (390, False), (700, True)):
        opened = page(example, width).unfold()
        if printed:
            opened.as_printed()
        ruler, boards = opened.evaluate(
            "[document.querySelector('.ruler svg').getBoundingClientRect().width,"
            " [...document.querySelectorAll('.plan-side')].filter((side) => side.querySelector('rect.plan-board'))"
            ".map((side) => [side.querySelector('.whose').textContent,"
            " side.querySelector('rect.plan-board').getBoundingClientRect().width])]"
        )
        assert boards
        for said, wide in boards:
            millimetres = float(said.split(" x ")[0].split()[-1])
            assert wide / millimetres == pytest.approx(ruler / 10, rel=0.02)


def test_matrices_stand_under_their_words(page: Opener, example: Path) -> None:
    left, right, text, inner = page(example, 1440).evaluate(
        "[document.querySelector('.matrix.left').getBoundingClientRect().left,"
        " document.querySelector('.matrix.right').getBoundingClientRect().right,"
        " document.querySelector('#structure .lead').getBoundingClientRect().left,"
        " document.querySelector('#structure .fold').getBoundingClientRect().right]"
    )
    assert left == pytest.approx(text, abs=1)
    assert right <= inner + 1


@pytest.mark.parametrize("width", [1280, 1440])
def test_names_of_rows_are_whole_and_clear_of_both_sides(page: Opener, example: Path, width: int) -> None:
    cut, names, fields = (
        page(example, width)
        .unfold()
        .evaluate(
            "[[...document.querySelectorAll('.matrix-names text')].filter((text) => text.textContent.includes('…')).length,"
            " [...document.querySelectorAll('.matrix-names text')].filter((text) => text.checkVisibility())"
            ".map((text) => text.getBoundingClientRect().right),"
            " [...document.querySelectorAll('.matrix')].map((svg) => svg.getBoundingClientRect().left)]"
        )
    )
    assert cut == 0
    assert max(names) < max(fields)


@pytest.mark.parametrize("width", [1440, 820, 390])
def test_what_slides_sideways_says_so_and_nothing_else_does(page: Opener, example: Path, width: int) -> None:
    boxes = page(example, width).unfold().evaluate(HINTS)
    assert len(boxes) > 8
    assert [slides for slides, _ in boxes] == [said for _, said in boxes]
    assert any(slides for slides, _ in boxes) or width > 390


def test_without_the_script_a_phone_is_told_of_the_drawings_alone(page: Opener, example: Path) -> None:
    said = (
        "[...document.querySelectorAll('.scroll')].filter((box) => getComputedStyle(box, '::before').content.includes('slide'))"
        ".map((box) => box.parentElement.className.split(' ')[0])"
    )
    assert page(example, 390, scripts=False).evaluate(said) == ["drawing", "drawing"]
    assert page(example, 1440, scripts=False).evaluate(said) == []
