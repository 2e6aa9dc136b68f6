"""What goes with a headline: what its subject made necessary elsewhere, and what the figures of its subject show.

Nothing is concluded here. A chain is told where the analyst or the record ties it to what the headline speaks of; a
figure where it is known on which side it is higher. What is not known gives no line, and nothing is told twice.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from archdiff.alignment.verdict import weakest
from archdiff.headlines.headline import Consequence
from archdiff.headlines.shown import Shown
from archdiff.unknowns.asked import in_a_sentence

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from archdiff.alignment import Partition
    from archdiff.figures import FigureResult
    from archdiff.headlines.headline import Headline
    from archdiff.knockons import Chain
    from archdiff.record import Element, Record

    Subject = tuple[frozenset[str], frozenset[str]]  # ids on the left and on the right

MOST_LINES = 2
_LENGTH = 160  # what is named beyond the second thing must fit into a line of so many characters
_FEWEST_NAMED = 2


def consequences_of(
    headlines: Sequence[Headline],
    partition: Partition,
    chains: Sequence[Chain],
    figures: Sequence[FigureResult],
    records: tuple[Record, Record],
) -> list[tuple[Consequence, ...]]:
    """The lines under each headline, at most two each, in the order of the headlines.

    First come choices that the analyst stated, one a side; then figures; then what the record itself ties together. A
    choice goes to the headline that speaks of the fewest things it is about, else to a pair that it made necessary.
    """
    subjects = [_subject(headline, partition, records) for headline in headlines]
    narrow_first = sorted(range(len(headlines)), key=lambda at: sum(map(len, subjects[at])))
    own, shown = _Chains(chains, records), Shown(figures, records, {headline.figure for headline in headlines})
    lines = {at: own.stated_of(subjects[at]) for at in narrow_first}
    for at in narrow_first:
        if headlines[at].pair is not None and not lines[at]:
            lines[at] = own.stated_before(subjects[at])
    for at in narrow_first:
        lines[at] += shown.line(headlines[at]) if len(lines[at]) < MOST_LINES else []
        lines[at] += own.tied_to(subjects[at], MOST_LINES - len(lines[at]))
    return [tuple(lines[at]) for at in range(len(headlines))]


def _subject(headline: Headline, partition: Partition, records: tuple[Record, Record]) -> Subject:
    """The ids that a headline speaks of on either side."""
    if headline.pair is not None:
        left, right = (frozenset(seat.ids if seat else ()) for seat in (headline.pair.left, headline.pair.right))
        return left, right
    if headline.figure == "board-count":
        left, right = (frozenset(board.id for board in record.boards) for record in records)
        return left, right
    if headline.section == "partition":
        largest = max(partition.moves, key=lambda move: len(move.pairs))
        seats = [(pair.left, pair.right) for pair in largest.pairs]
        lefts = {name for seat, _ in seats if seat for name in seat.ids}
        rights = {name for _, seat in seats if seat for name in seat.ids}
        return frozenset(lefts | {largest.left_host}), frozenset(rights | {largest.right_host})
    return frozenset(), frozenset()


class _Chains:
    """All chains; each is told once."""

    def __init__(self, chains: Sequence[Chain], records: tuple[Record, Record]) -> None:
        self.records = records
        # By their words, not by side, so that the same is told whichever product stands on the left.
        self.left_over = sorted(chains, key=lambda chain: (-len(chain.links), chain.root, chain.about))

    def stated_of(self, subject: Subject) -> list[Consequence]:
        """The analyst's choices about the subject, one a side."""
        return self._taken([c for c in self.left_over if c.analyst and _of(subject, c).intersection(c.about)], subject)

    def stated_before(self, subject: Subject) -> list[Consequence]:
        """The analyst's choices that made the subject necessary, one a side."""
        own = [c for c in self.left_over if c.analyst and _of(subject, c).intersection(_effects(c))]
        return self._taken(own, subject)

    def tied_to(self, subject: Subject, most: int) -> list[Consequence]:
        """What else the record ties to the subject, at most so many chains and one a side."""
        own = [c for c in self.left_over if not c.analyst and _of(subject, c).intersection(c.about)]
        return self._taken([c for c in own if not _of(subject, c).issuperset(_effects(c))], subject, most)

    def _taken(self, found: Sequence[Chain], subject: Subject, most: int = MOST_LINES) -> list[Consequence]:
        """The first of them on each side, told, and told no more."""
        first: dict[str, Chain] = {}
        for chain in found:
            first.setdefault(chain.side, chain)
        chosen = list(first.values())[:most]
        self.left_over = [chain for chain in self.left_over if chain not in chosen]
        return [self._told(chain, subject) for chain in chosen]

    def _told(self, chain: Chain, subject: Subject) -> Consequence:
        record = self.records[chain.side == "right"]
        own = _of(subject, chain)
        # What the headline speaks of stands first among what was forced; what is tied to it is something else.
        links = [link for link in chain.links if chain.analyst or link.effect_id not in own]
        links.sort(key=lambda link: link.effect_id not in own)
        names = _counted([record.elements[link.effect_id] for link in links])
        begin = _stated_begin(chain, record) if chain.analyst else _tied_begin(chain, record)
        sure = weakest(*(link.sure for link in links))
        return Consequence(f"{begin}: {_listed(names, _LENGTH - len(begin))}.", sure, chain)


def _of(subject: Subject, chain: Chain) -> frozenset[str]:
    return subject[chain.side == "right"]


def _effects(chain: Chain) -> Iterator[str]:
    return (link.effect_id for link in chain.links)


def _stated_begin(chain: Chain, record: Record) -> str:
    because = chain.links[0].because
    return f"In {record.name}, {chain.root}{f' ({because})' if because else ''}. This required"


def _tied_begin(chain: Chain, record: Record) -> str:
    about = " and ".join(dict.fromkeys(_named(record.elements[name]) for name in chain.about))
    return f"Tied to the {about} in {record.name}"


def _named(element: Element) -> str:
    """Its name within a sentence, else what it is."""
    if element.facts.get("name"):
        return in_a_sentence(element.label)
    return element.means or in_a_sentence(element.label)


def _counted(elements: Sequence[Element]) -> list[str]:
    """Names in the order given, alike ones once: 'front flex', '2 × film connector'."""  # noqa: RUF002 - meant
    many: Counter[str] = Counter()
    for element in elements:
        many[_named(element)] += 1 if element.facts.get("name") else element.count
    return [name if count == 1 else f"{count} × {name}" for name, count in many.items()]  # noqa: RUF001 - meant


def _listed(names: Sequence[str], room: int) -> str:
    """As many names as fit, two at least: 'a, b and 2 more'."""
    kept = len(names)
    while kept > _FEWEST_NAMED and len(_joined(names, kept)) > room:
        kept -= 1
    return _joined(names, kept)


def _joined(names: Sequence[str], kept: int) -> str:
    rest = [f"{len(names) - kept} more"] if kept < len(names) else []
    *most, last = [*names[:kept], *rest]
    return f"{', '.join(most)} and {last}" if most else last
