"""Two sequences of steps as strips on one time scale."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from archdiff.page.scales import round_steps
from archdiff.quantities import plain
from archdiff.wording import counted

if TYPE_CHECKING:
    from collections.abc import Sequence

_WIDTH, _LANE, _TOP, _GAP = 1000.0, 26.0, 4.0, 10.0
_UNTIMED = 14.0
_NUMBER_ROOM = 15.0
_DASHED = ' stroke-dasharray="7 4"'
_SIDES = ("left", "right")
_MINUTE = 60
_LAST_IN_SECONDS = 180


@dataclass(frozen=True, slots=True)
class Step:
    """One action: its words, its seconds (None where there is no time for it), whether its place had to be found.

    `estimated` where the seconds come from predetermined times and not from a stopwatch.
    """

    words: str
    seconds: float | None
    hidden: bool
    estimated: bool = False


def timeline(sides: Sequence[Sequence[Step]]) -> Markup:
    """Both strips and their axis as SVG; '' where no step has a time."""
    longest = max((sum(step.seconds or 0 for step in steps) for steps in sides), default=0)
    if longest <= 0:
        return Markup("")
    untimed = max(sum(step.seconds is None for step in steps) for steps in sides)
    per_second = (_WIDTH - 40 - untimed * _UNTIMED) / longest
    named = list(zip(_SIDES, sides, strict=True))
    lanes = "".join(_lane(side, steps, index, per_second) for index, (side, steps) in enumerate(named))
    base = _TOP + 2 * _LANE + _GAP + 6
    axis = "".join(_tick(value, 20 + value * per_second, base) for value in round_steps(0, longest))
    words = "; ".join(f"{side}: {counted(len(steps), 'action')}" for side, steps in named)
    return Markup(  # noqa: S704 - every word in it is escaped
        f'<svg class="timeline" viewBox="0 0 {_WIDTH:g} {base + 20:g}" role="img" aria-label="Time strips, {words}">'
        f'{lanes}<line class="base" x1="20" x2="{_WIDTH - 20:g}" y1="{base:g}" y2="{base:g}"/>{axis}</svg>'
    )


def _lane(side: str, steps: Sequence[Step], index: int, per_second: float) -> str:
    x, y = 20.0, _TOP + index * (_LANE + _GAP)
    drawn = []
    for number, step in enumerate(steps, 1):
        width = _UNTIMED if step.seconds is None else step.seconds * per_second
        kind = "untimed" if step.seconds is None else "estimated" if step.estimated else "timed"
        hatch = f'<rect fill="url(#hatch-{side})" x="{x:.1f}" y="{y:g}" width="{width:.1f}" height="{_LANE:g}"/>'
        label = f'<text x="{x + width / 2:.1f}" y="{y + _LANE / 2 + 4:g}">{number}</text>'
        drawn.append(
            f'<g class="{side} {kind}"><title>{number}. {escape(step.words)}</title>'
            f'<rect class="step-field"{_DASHED if step.estimated else ""} x="{x:.1f}" y="{y:g}" width="{width:.1f}" '
            f'height="{_LANE:g}"/>'
            f"{hatch if step.hidden else ''}{label if width >= _NUMBER_ROOM else ''}</g>"
        )
        x += width
    return "".join(drawn)


def _tick(value: float, x: float, y: float) -> str:
    text = f"{plain(value)} s" if value <= _LAST_IN_SECONDS else f"{plain(value / _MINUTE)} min"
    return (
        f'<line class="tick" x1="{x:.1f}" x2="{x:.1f}" y1="{y:g}" y2="{y + 4:g}"/>'
        f'<text x="{x:.1f}" y="{y + 16:g}">{text}</text>'
    )
