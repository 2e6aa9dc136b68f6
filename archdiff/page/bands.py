"""The picture of a partition: left boards on one edge, right boards on the other, bands of functions between."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from archdiff.page.diagrams.textwidth import shorten, wrap
from archdiff.wording import counted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

_WIDTH, _BOX, _EDGE = 620.0, 168.0, 1.0
_GAP, _LOWEST, _PER_FUNCTION = 14.0, 40.0, 13.0
_TALLEST = 420.0
_TEXT, _STEP, _PAD = 12.0, 14.0, 9.0
_HEAD = 24.0  # the products' names over the two edges
_SHARES = (0.13, 0.24, 0.35, 0.46, 0.57, 0.68)  # of the way from left to right, in the order in which they are tried
_APART = 17.0
_RING, _BESIDE = 8.0, 16.0  # the circle round a move's letter, and how far beside it the number stands


@dataclass(frozen=True, slots=True)
class Band:
    """So many functions that sit on `left` there and on `right` here; `moved` where the two do not correspond.

    `letter` is what the list of moves calls it by.
    """

    left: str
    right: str
    count: int
    moved: bool
    letter: str = ""


@dataclass(frozen=True, slots=True)
class _Box:
    label: str
    count: int
    top: float
    height: float


def bands(
    lefts: Mapping[str, str],
    rights: Mapping[str, str],
    flows: Sequence[Band],
    matched: Mapping[str, str],
    names: tuple[str, str] = ("", ""),
) -> Markup:
    """The picture as SVG; `lefts` and `rights` map host ids to labels, `matched` left hosts to right ones.

    `names` are the products' and stand over their boards.
    """
    thick = min(_PER_FUNCTION, _TALLEST / max(1, sum(flow.count for flow in flows)))
    left_order = list(lefts)
    partners = [matched[host] for host in left_order if matched.get(host) in rights]
    right_order = [*partners, *(host for host in rights if host not in partners)]
    boxes_left = _boxes({host: lefts[host] for host in left_order}, flows, "left", thick)
    boxes_right = _boxes({host: rights[host] for host in right_order}, flows, "right", thick)
    height = max(box.top + box.height for box in (*boxes_left.values(), *boxes_right.values())) + _EDGE
    drawn = [
        *_heads(names),
        *_flows(flows, (boxes_left, boxes_right), thick),
        *(_box(box, "left", _EDGE) for box in boxes_left.values()),
        *(_box(box, "right", _WIDTH - _EDGE - _BOX) for box in boxes_right.values()),
    ]
    words = "; ".join(f"{f.count} from {lefts[f.left]} to {rights[f.right]}" for f in flows if f.moved)
    label = f"Functions by board. {'Would move: ' + words if words else 'Nothing would move'}."
    return Markup(  # noqa: S704 - every word in it is escaped
        f'<svg class="bands" viewBox="0 0 {_WIDTH:g} {height:g}" role="img" aria-label="{escape(label)}">'
        f"{''.join(drawn)}</svg>"
    )


def _boxes(labels: Mapping[str, str], flows: Sequence[Band], side: str, thick: float) -> dict[str, _Box]:
    boxes: dict[str, _Box] = {}
    top = _HEAD
    for host, label in labels.items():
        count = sum(flow.count for flow in flows if getattr(flow, side) == host)
        height = max(_LOWEST, count * thick)
        boxes[host] = _Box(label, count, top, height)
        top += height + _GAP
    return boxes


def _heads(names: tuple[str, str]) -> Iterator[str]:
    """Each product's name with its sign over its own edge, so that no colour is needed to tell the sides apart."""
    left, right = (escape(shorten(name, _TEXT, _WIDTH / 2 - 30, bold=True)) for name in names)
    y, sign = _HEAD - 9, _TEXT / 2 - 1
    if left:
        yield f'<circle class="band-sign left" cx="{_EDGE + sign:g}" cy="{y - 4:g}" r="{sign - 1:g}"/>'
        yield f'<text class="band-name left" x="{_EDGE + 16:g}" y="{y:g}">{left}</text>'
    if right:
        at = _WIDTH - _EDGE - 2 * sign
        yield f'<rect class="band-sign right" x="{at:g}" y="{y - 9:g}" width="{2 * sign:g}" height="{2 * sign:g}"/>'
        yield f'<text class="band-name right" x="{at - 6:g}" y="{y:g}" text-anchor="end">{right}</text>'


def _box(box: _Box, side: str, x: float) -> str:
    lines, whole = wrap(box.label, _TEXT, (_BOX - 2 * _PAD - 6,) * 2, bold=True)
    middle = box.top + box.height / 2 - (len(lines) - 1) * _STEP / 2 - 2
    strip = x if side == "left" else x + _BOX - 6
    words = "".join(
        f'<text class="band-host" x="{x + _PAD + (6 if side == "left" else 0):g}" y="{middle + i * _STEP:g}">'
        f"{escape(line)}</text>"
        for i, line in enumerate(lines)
    )
    below = middle + len(lines) * _STEP
    title = "" if whole else f"<title>{escape(box.label)}</title>"
    return (
        f'<g>{title}<rect class="band-box {side}" x="{x:g}" y="{box.top:g}" width="{_BOX:g}" height="{box.height:g}"/>'
        f'<rect class="band-strip" fill="url(#hatch-{side})" x="{strip:g}" y="{box.top:g}" width="6" '
        f'height="{box.height:g}"/>{words}'
        f'<text class="band-count" x="{x + _PAD + (6 if side == "left" else 0):g}" y="{below:g}">'
        f"{counted(box.count, 'function')}</text></g>"
    )


def _flows(flows: Iterable[Band], boxes: tuple[dict[str, _Box], dict[str, _Box]], thick: float) -> list[str]:
    used: dict[tuple[str, str], float] = {}
    orders = [list(side) for side in boxes]
    drawn: list[tuple[bool, str]] = []
    numbers: list[str] = []
    taken: list[tuple[float, float]] = []
    starts: dict[Band, float] = {}
    by_left = sorted(flows, key=lambda f: (orders[0].index(f.left), orders[1].index(f.right)))
    for flow in by_left:
        starts[flow] = _take(used, ("left", flow.left), boxes[0][flow.left], flow.count * thick, thick)
    for flow in sorted(by_left, key=lambda f: (orders[1].index(f.right), orders[0].index(f.left))):
        end = _take(used, ("right", flow.right), boxes[1][flow.right], flow.count * thick, thick)
        titles = (boxes[0][flow.left].label, boxes[1][flow.right].label)
        drawn.append((flow.moved, _flow(flow, starts[flow], end, flow.count * thick, titles)))
        x, y = _free_spot(starts[flow], end, flow.count * thick, taken)
        taken += [(x, y), (x + _BESIDE, y)] if flow.letter else [(x, y)]
        numbers.append(_number(flow, x, y))
    # Moves lie on top, for they are what is looked for, and the numbers over everything.
    return [*(svg for _, svg in sorted(drawn, key=lambda entry: entry[0])), *numbers]


def _number(flow: Band, x: float, y: float) -> str:
    """How many functions a band holds, behind the letter of its move."""
    if not flow.letter:
        return f'<text class="band-number" x="{x:g}" y="{y + 4:g}">{flow.count}</text>'
    return (
        f'<circle class="band-ring" cx="{x:g}" cy="{y:g}" r="{_RING:g}"/>'
        f'<text class="band-letter" x="{x:g}" y="{y + 4:g}">{escape(flow.letter)}</text>'
        f'<text class="band-number" x="{x + _BESIDE:g}" y="{y + 4:g}">{flow.count}</text>'
    )


def _free_spot(top: float, end: float, size: float, taken: list[tuple[float, float]]) -> tuple[float, float]:
    """A place for the number on the middle line of a band, near the left end, off the numbers already set."""
    spots = []
    for share in _SHARES:
        x = _EDGE + _BOX + (_WIDTH - 2 * (_EDGE + _BOX)) * share
        spots.append((x, top + (end - top) * (3 * share**2 - 2 * share**3) + size / 2))
    free = (
        s
        for s in spots
        if all(abs(s[0] + beside - x) > _APART or abs(s[1] - y) > _APART for x, y in taken for beside in (0, _BESIDE))
    )
    return next(free, spots[0])


def _take(used: dict[tuple[str, str], float], key: tuple[str, str], box: _Box, size: float, thick: float) -> float:
    top = used.get(key, box.top + (box.height - box.count * thick) / 2)
    used[key] = top + size
    return top


def _flow(flow: Band, top: float, end: float, size: float, titles: tuple[str, str]) -> str:
    x0, x1 = _EDGE + _BOX, _WIDTH - _EDGE - _BOX
    middle = (x0 + x1) / 2
    path = (
        f"M{x0:g} {top:g}C{middle:g} {top:g} {middle:g} {end:g} {x1:g} {end:g}V{end + size:g}"
        f"C{middle:g} {end + size:g} {middle:g} {top + size:g} {x0:g} {top + size:g}z"
    )
    kind = "moved" if flow.moved else "stays"
    says = f"{counted(flow.count, 'function')}: {titles[0]} on the left, {titles[1]} on the right"
    # What lies under a move's hatching would show through it.
    under = f'<path class="under" d="{path}"/>' if flow.moved else ""
    return f'<g class="band {kind}"><title>{escape(says)}</title>{under}<path d="{path}"/></g>'
