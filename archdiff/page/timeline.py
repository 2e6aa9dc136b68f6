"""Two sequences of steps as strips on one time scale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from archdiff.page.diagrams.textwidth import width as width_of
from archdiff.page.scales import round_steps
from archdiff.quantities import plain
from archdiff.wording import counted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_WIDTH, _EDGE, _LANE, _TOP, _GAP = 1000.0, 20.0, 26.0, 15.0, 19.0
_STUB = 14.0  # width of a field that has no time, and of a tail that has no end
_SIZE, _ROOM, _ABOVE = 11.0, 3.0, 4.0  # of the numbers; between a number and its field's edges, or the lane below it
_SHORTEST_TAIL = 1.0
_DASHED = ' stroke-dasharray="7 4"'
_SIDES = ("left", "right")
_MINUTE = 60
_LAST_IN_SECONDS = 300


@dataclass(frozen=True, slots=True)
class Step:
    """One action: its words, its shortest and longest time in s, whether its place had to be found.

    Both times are None where there is none; the longest is infinite where only the shortest is known. `estimated` where
    they come from predetermined times and not from a stopwatch.
    """

    words: str
    least: float | None
    most: float | None
    hidden: bool
    estimated: bool = False

    @property
    def is_endless(self) -> bool:
        """Whether no longest time is known."""
        return self.most is not None and math.isinf(self.most)

    @property
    def latest(self) -> float:
        """The time up to which it is drawn to scale."""
        return (self.least if self.is_endless else self.most) or 0.0

    @property
    def stubs(self) -> bool:
        """Whether a part of its field has a width that says nothing."""
        return self.least is None or self.is_endless


@dataclass(frozen=True, slots=True)
class _Field:
    """An action in its lane: from where, how far for certain, and how far at most, in px."""

    step: Step
    number: int
    x: float
    certain: float
    end: float

    @property
    def middle(self) -> float:
        """Where its number stands: in the certain part where that holds it."""
        return (self.x + (self.certain if self._holds(self.certain) else self.end)) / 2

    @property
    def holds_number(self) -> bool:
        return self._holds(self.end)

    def _holds(self, end: float) -> bool:
        return end - self.x >= width_of(str(self.number), _SIZE, bold=True) + 2 * _ROOM


def timeline(sides: Sequence[Sequence[Step]]) -> Markup:
    """Both strips and their axis as SVG; '' where no step has a time.

    What follows an action of uncertain length begins at the end of its longest time.
    """
    longest = max((sum(step.latest for step in steps) for steps in sides), default=0)
    if longest <= 0:
        return Markup("")
    stubs = max(sum(step.stubs for step in steps) for steps in sides)
    per_second = (_WIDTH - 2 * _EDGE - stubs * _STUB) / longest
    unit, seconds = ("s", 1) if longest <= _LAST_IN_SECONDS else ("min", _MINUTE)
    named = list(zip(_SIDES, sides, strict=True))
    lanes = "".join(_lane(side, steps, index, per_second) for index, (side, steps) in enumerate(named))
    base = _TOP + 2 * _LANE + _GAP + 6
    ticks = round_steps(0, longest / seconds)
    axis = "".join(_tick(value, unit, _EDGE + value * seconds * per_second, base) for value in ticks)
    words = "; ".join(f"{side}: {counted(len(steps), 'action')}" for side, steps in named)
    return Markup(  # noqa: S704 - every word in it is escaped
        f'<svg class="timeline" viewBox="0 0 {_WIDTH:g} {base + 20:g}" role="img" aria-label="Time strips, {words}">'
        f'{lanes}<line class="base" x1="{_EDGE:g}" x2="{_WIDTH - _EDGE:g}" y1="{base:g}" y2="{base:g}"/>{axis}</svg>'
    )


def _lane(side: str, steps: Sequence[Step], index: int, per_second: float) -> str:
    y = _TOP + index * (_LANE + _GAP)
    fields = list(_fields(steps, per_second))
    above = set(_numbered_above(fields))
    return _sign(side, y + _LANE / 2) + "".join(_drawn(side, field, y, above=field.number in above) for field in fields)


def _sign(side: str, y: float) -> str:
    """Whose lane it is: the ring or the square of its side before it."""
    if side == "left":
        return f'<circle class="band-sign left" cx="8" cy="{y:g}" r="4.5"/>'
    return f'<rect class="band-sign right" x="3" y="{y - 5:g}" width="10" height="10"/>'


def _fields(steps: Sequence[Step], per_second: float) -> Iterator[_Field]:
    x = _EDGE
    for number, step in enumerate(steps, 1):
        certain = x + (_STUB if step.least is None else step.least * per_second)
        end = max(certain, x + step.latest * per_second) + (_STUB if step.is_endless else 0.0)
        yield _Field(step, number, x, certain, end)
        x = end


def _numbered_above(fields: Sequence[_Field]) -> Iterator[int]:
    """The fields too narrow for their number that can have it above them without running into another."""
    free = -math.inf
    for field in fields:
        half = width_of(str(field.number), _SIZE) / 2
        if not field.holds_number and field.middle - half >= free:
            free = field.middle + half + _ROOM
            yield field.number


def _drawn(side: str, field: _Field, y: float, *, above: bool) -> str:
    step, wide = field.step, field.certain - field.x
    kind = "untimed" if step.least is None else "estimated" if step.estimated else "timed"
    box = f'x="{field.x:.1f}" y="{y:g}" width="{wide:.1f}" height="{_LANE:g}"'
    solid = f'<rect class="step-field"{_DASHED if step.estimated else ""} {box}/>' if wide > 0 else ""
    hatch = f'<rect fill="url(#hatch-{side})" {box}/>' if step.hidden and wide > 0 else ""
    return (
        f'<g class="{side} {kind}"><title>{field.number}. {escape(step.words)}</title>{_tail(field, y)}{solid}{hatch}'
        f"{_number(field, y, above=above)}</g>"
    )


def _tail(field: _Field, y: float) -> str:
    """What may or may not be part of the action's time; without a right edge where no longest time is known."""
    wide = field.end - field.certain
    if wide < _SHORTEST_TAIL:
        return ""
    close = f"M{field.certain:.1f} {y + _LANE:g}h{wide:.1f}" if field.step.is_endless else f"v{_LANE:g}h{-wide:.1f}"
    return f'<path class="step-tail" d="M{field.certain:.1f} {y:g}h{wide:.1f}{close}"/>'


def _number(field: _Field, y: float, *, above: bool) -> str:
    if field.holds_number:
        return f'<text x="{field.middle:.1f}" y="{y + _LANE / 2 + 4:g}">{field.number}</text>'
    return f'<text class="above" x="{field.middle:.1f}" y="{y - _ABOVE:g}">{field.number}</text>' if above else ""


def _tick(value: float, unit: str, x: float, y: float) -> str:
    return (
        f'<line class="tick" x1="{x:.1f}" x2="{x:.1f}" y1="{y:g}" y2="{y + 4:g}"/>'
        f'<text x="{x:.1f}" y="{y + 16:g}">{plain(value)} {unit}</text>'
    )
