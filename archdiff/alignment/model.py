"""What alignment yields: seats, pairs with their reasons, and paired hosts."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.record import Element
    from archdiff.record.silence import Silent


class Agreement(StrEnum):
    """Whether the two sides agree in something.

    >>> archdiff.alignment.Agreement("not known")
    <Agreement.UNKNOWN: 'not known'>
    """

    SAME = "same"
    DIFFERENT = "different"
    UNKNOWN = "not known"


class Verdict(StrEnum):
    """What is said of a pair as a whole.

    >>> print(archdiff.alignment.Verdict.DIFFERENT)
    done differently
    """

    ALIKE = "alike"
    DIFFERENT = "done differently"
    ELSEWHERE = "placed elsewhere"
    BOTH = "done differently and placed elsewhere"
    ONLY_LEFT = "only in left"
    ONLY_RIGHT = "only in right"
    SEPARATE_LEFT = "separate part only in left"
    SEPARATE_RIGHT = "separate part only in right"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True, eq=False)
class Seat:
    """One function realised by one element, or by several interchangeable ones, on one host.

    `hosts` is empty where the host is not stated and has several entries for what joins hosts.
    `embedded_in` is the id of the element inside which the function lives, '' for a part of its own.

    >>> keys = [pair.left for pair in result.comparison.pairs if pair.function == "mode selection"]
    >>> keys[0].ids, keys[0].hosts
    (('push',), ('control',))
    """

    function: str
    members: tuple[Element, ...]
    means: str
    hosts: tuple[str, ...]
    embedded_in: str = ""

    @property
    def first(self) -> Element:
        """The element that stands for all members."""
        return self.members[0]

    @property
    def ids(self) -> tuple[str, ...]:
        """The ids of all members."""
        return tuple(member.id for member in self.members)

    @property
    def section(self) -> str:
        """The section of the record its members stand in."""
        return self.first.section

    @property
    def count(self) -> int:
        """How many things it stands for, counted entries included."""
        return sum(member.count for member in self.members)


@dataclass(frozen=True, slots=True)
class Reason:
    """One term of a pair's score: what agreed or not, in words, and its weight in nats (natural log units)."""

    text: str
    weight: float


@dataclass(frozen=True, slots=True)
class RunnerUp:
    """The best pairing that was not chosen for one of the two seats."""

    left: str
    right: str
    score: float
    margin: float  # the chosen score less this one, in nats


@dataclass(frozen=True, slots=True)
class Change:
    """One fact that differs within a pair, as written on each side; `how many` carries bounds in words."""

    what: str
    left: str
    right: str


@dataclass(frozen=True, slots=True, eq=False)
class Pair:
    """A left seat and a right seat that do the same job, or one of them alone (then `silent` says why).

    >>> pair = next(pair for pair in result.comparison.pairs if pair.function == "tail light")
    >>> pair.left.means, pair.right.means
    ('LED', 'LED')
    """

    left: Seat | None
    right: Seat | None
    function: str
    subsystem: str
    verdict: Verdict
    means: Agreement
    place: Agreement
    score: float = 0.0
    confidence: float = 1.0  # probability that the pairing is right, 0..1
    reasons: Sequence[Reason] = ()
    runner_up: RunnerUp | None = None
    changes: tuple[Change, ...] = ()
    silent: Silent | None = None
    sure: str = "seen"  # the weakest of the facts it rests on
    tied: bool = False  # tied by the analyst's notes
    site: Seat | None = None  # a site on the silent side that was laid out for it and left empty

    @property
    def seats(self) -> tuple[Seat, ...]:
        """The one or two seats."""
        return tuple(seat for seat in (self.left, self.right) if seat is not None)

    @property
    def ids(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """The ids of left and right members, those of an empty site included."""
        left, right = (seat if seat is not None else self.site for seat in (self.left, self.right))
        return (left.ids if left else ()), (right.ids if right else ())

    @property
    def is_complete(self) -> bool:
        """Whether both sides have a seat."""
        return self.left is not None and self.right is not None


@dataclass(frozen=True, slots=True, eq=False)
class HostPair:
    """A left and a right board (or enclosure piece) that correspond, or one alone.

    >>> sorted(hosts.left for hosts in result.comparison.alignment.hosts if hosts.is_board and hosts.left)
    ['control', 'light']
    """

    left: str | None
    right: str | None
    is_board: bool
    shared: int = 0  # paired seats that lie on both
    silent: Silent | None = None  # of one alone: what may be said of the other side


@dataclass(frozen=True, slots=True, eq=False)
class HostGroup:
    """Boards that one team split and the other merged: several on one side carry what one carries on the other."""

    left: tuple[str, ...]
    right: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Alignment:
    """All pairs, each seat exactly once, and all hosts, each exactly once."""

    pairs: tuple[Pair, ...]
    hosts: tuple[HostPair, ...]
    groups: tuple[HostGroup, ...] = ()
    host_of: dict[str, str] = field(default_factory=dict)  # left host id to the right host id that corresponds
