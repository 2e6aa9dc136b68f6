"""What may be said of a function that a record does not list: the worst mistake is made or avoided here."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from archdiff.record.coverage import NONE
from archdiff.record.plan import section as of_name

if TYPE_CHECKING:
    from archdiff.record.model import Absence, Element, Record


class Silence(StrEnum):
    """Why one side shows nothing for a function."""

    NOT_THERE = "not there"
    NO_SEPARATE_PART = "no separate part"
    NOT_LOOKED_AT = "not looked at"

    @property
    def is_known(self) -> bool:
        """Whether anything definite may be said."""
        return self is not Silence.NOT_LOOKED_AT


@dataclass(frozen=True, slots=True)
class Silent:
    """The answer with its reason as a sentence, how sure it is, and where the function may hide."""

    silence: Silence
    why: str
    sure: str = "seen"
    may_be: str = ""  # id of an element that may be it
    places: tuple[str, ...] = ()  # sections that would have to be looked at, where that is why


def silence_about(record: Record, function: str, section: str) -> Silent:
    """What the record lets one say of `function`, which the other product has under `section`.

    'Not there' needs a stated absence, or that every section where the function may be recorded was wholly
    looked at and nothing of unknown purpose lies there. A function that can live inside another part is then
    still only 'no separate part'.
    """
    stated = next((said for said in record.absences if said.function == function and not said.on), None)
    if stated is not None:
        return _stated(record, stated)
    term = record.function_term(function)
    # A function that the vocabulary does not know may be recorded anywhere.
    places = dict.fromkeys((section, *(term.found_in if term else record.vocabulary.choices.sections)))
    unknown = next((e for place in places for e in record.section(place) if _may_be_anything(record, e)), None)
    if unknown is not None:
        why = f"the purpose of {unknown.label} ({unknown.id}) is not known; it may be this"
        return Silent(Silence.NOT_LOOKED_AT, why, may_be=unknown.id)
    open_places = [place for place in places if not record.coverage.is_whole(place)]
    if open_places:
        return Silent(Silence.NOT_LOOKED_AT, _not_covered(record, open_places), places=tuple(open_places))
    listed = ", ".join(_words(place) for place in places)
    if term is None or term.may_be_embedded:
        why = f"all {listed} were looked at and no part of its own was found; it may live inside another part"
        return Silent(Silence.NO_SEPARATE_PART, why)
    return Silent(Silence.NOT_THERE, f"all {listed} were looked at and none was found")


def _stated(record: Record, absence: Absence) -> Silent:
    because = f": {absence.because}" if absence.because else ""
    sure = absence.sure or "seen"
    if not absence.separate:
        return Silent(Silence.NOT_THERE, f"looked for and not found{because}", sure)
    inside = record.elements.get(absence.embedded_in)
    where = f"; believed to live in {inside.label} ({inside.id})" if inside else ""
    why = f"looked for and no part of its own found{where}{because}"
    return Silent(Silence.NO_SEPARATE_PART, why, sure, absence.embedded_in)


def _may_be_anything(record: Record, element: Element) -> bool:
    """Whether it is not known what this is for; an empty site does nothing, whatever it was meant for."""
    if not element.populated:
        return False
    if not element.functions:
        return of_name(element.section).holds_seats
    return any((term := record.function_term(function)) is not None and term.unknown for function in element.functions)


def _not_covered(record: Record, sections: list[str]) -> str:
    none = [_words(s) for s in sections if record.coverage.of(s) == NONE]
    part = [_words(s) for s in sections if record.coverage.of(s) != NONE]
    said = [f"{' and '.join(none)} not looked at"] if none else []
    said += [f"{' and '.join(part)} looked at only in part"] if part else []
    return "; ".join(said)


def _words(section: str) -> str:
    return section.replace(".", " ")
