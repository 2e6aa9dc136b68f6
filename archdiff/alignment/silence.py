"""What may be said where a seat has no partner, and how far a count can be trusted."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from archdiff.alignment.seats import seat_sections
from archdiff.quantities import Bounds
from archdiff.record.silence import Silence, Silent, silence_about

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.alignment.model import Seat
    from archdiff.record import Record


class Silences:
    """Answers for one side's record what its silence about the other side's seats means."""

    def __init__(self, record: Record, seats: Iterable[Seat], ignored: Iterable[str]) -> None:
        self.record = record
        self.listed: Counter[str] = Counter()
        self.by_means: Counter[tuple[str, str]] = Counter()
        for seat in (seat for seat in seats if seat.first.populated):
            self.by_means[seat.function, seat.means] += seat.count
        for (function, _), count in self.by_means.items():
            self.listed[function] += count
        self.left_out = {f for name in ignored if name in record.elements for f in record.elements[name].functions}
        self.brief = _brief(record)
        self.about = lru_cache(maxsize=None)(self._about)

    def alike(self, seat: Seat) -> int:
        """How many are listed here that may be of the seat's function and means."""
        if not seat.means:
            return self.listed[seat.function]
        return self.by_means[seat.function, seat.means] + self.by_means[seat.function, ""]

    def of(self, seat: Seat, there: Silences) -> Silent:
        """What may be said of a seat of the other product, whose own listing is `there`."""
        if seat.function in self.left_out:
            return Silent(Silence.NOT_LOOKED_AT, "the notes leave out what does this here")
        if not seat.first.populated and not self.record.coverage.is_whole(seat.section):
            return Silent(Silence.NOT_LOOKED_AT, "not all places were looked at where such an empty site may be")
        if not seat.first.populated and self.listed[seat.function]:
            return Silent(Silence.NOT_LOOKED_AT, "the site is left empty; what does this here is paired with others")
        listed = self.alike(seat)
        if listed and listed >= there.alike(seat):
            return Silent(
                Silence.NOT_LOOKED_AT,
                f"{listed} in all do this in the same way there; whether one of them corresponds is not clear",
            )
        silent = self.about(seat.function, seat.section, bool(seat.embedded_in))
        if seat.embedded_in and silent.silence is Silence.NO_SEPARATE_PART:
            # Neither has a part of its own for it: nothing is known to differ.
            return replace(silent, silence=Silence.NOT_LOOKED_AT)
        return silent

    def _about(self, function: str, section: str, embedded: bool) -> Silent:  # noqa: FBT001 - keeps the cache's key short
        silent, listed = silence_about(self.brief, function, section, embedded=embedded), self.listed[function]
        if silent.silence is Silence.NOT_LOOKED_AT or not listed:
            return silent
        why = f"what does this here ({listed} in all) is paired with others; no further one was found"
        return replace(silent, why=why, further=listed)


def _brief(record: Record) -> Record:
    """The record with only what bears on silence: empty sites, unknown purposes, and what an absence names.

    The question is put for every function of the other product; going through all elements each time takes longer
    than the whole alignment.
    """
    named = {name for absence in record.absences for name in (absence.embedded_in, absence.on)}
    kept = {
        name: element
        for name, element in record.elements.items()
        if name in named
        or not element.populated
        or not element.functions
        or _purpose_unknown(record, element.functions)
    }
    return replace(record, elements=kept, _sections={})


class Counts:
    """Answers for one record how far a count can be trusted."""

    def __init__(self, record: Record) -> None:
        self.record = record
        self.unclear = {
            element.section
            for section in seat_sections()
            for element in record.section(section)
            if element.populated and (not element.functions or _purpose_unknown(record, element.functions))
        }
        # Functions that something does by a means that is not stated: it may be one more of any of the stated means.
        self.by_whatever = {e.function for name in seat_sections() for e in record.section(name) if not e.means}
        self.all_seen = lru_cache(maxsize=None)(self._all_seen)

    def of(self, seat: Seat) -> Bounds:
        """How many a seat stands for: exact only where nothing of its kind can have been overlooked."""
        host = seat.hosts[0] if len(seat.hosts) == 1 and "between" not in seat.first.facts else ""
        seen = self.all_seen(seat.function, seat.section, host) and seat.function not in self.by_whatever
        return Bounds.exact(seat.count) if seen else Bounds.at_least(seat.count)

    def _all_seen(self, function: str, section: str, host: str) -> bool:
        term = self.record.function_term(function)
        places = {section, *(term.found_in if term else ())}
        whole = all(self.record.coverage.is_whole(place, host) for place in places)
        return whole and places.isdisjoint(self.unclear)


def _purpose_unknown(record: Record, functions: tuple[str, ...]) -> bool:
    return any((term := record.function_term(function)) is not None and term.unknown for function in functions)
