"""What may be said of a function that a record does not list: the worst mistake is made or avoided here."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from archdiff.record.coverage import NONE
from archdiff.record.plan import section as of_name

if TYPE_CHECKING:
    from collections.abc import Mapping

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
    further: int = 0  # how many do the same here and are paired with others: only a further one is not there


def silence_about(record: Record, function: str, section: str, *, embedded: bool = False) -> Silent:
    """What the record lets one say of `function`, which the other product has under `section`.

    'Not there' needs a stated absence, or that every section where the function may be recorded was wholly
    looked at, nothing of unknown purpose lies there, and no question about it is open. A function that can live
    inside another part, or does so in the other product (`embedded`), is then still only 'no separate part'.
    """
    asked = next((str(q["ask"]) for q in record.questions if function in _asked_about(q)), "")
    if asked:
        return Silent(Silence.NOT_LOOKED_AT, f"an open question: {asked}")
    stated = [absence for absence in record.absences if absence.function == function]
    whole_product = next((absence for absence in stated if not absence.on), None)
    if whole_product is not None:
        return _stated(record, whole_product)
    term = record.function_term(function)
    # A function that the vocabulary does not know may be recorded anywhere.
    places = tuple(dict.fromkeys((section, *(term.found_in if term else record.vocabulary.choices.sections))))
    unknown = next((e for p in places for e in record.section(p) if _may_be_anything(record, e)), None)
    if unknown is not None:
        why = f"the purpose of {unknown.label} ({unknown.id}) is not known; it may be this"
        return Silent(Silence.NOT_LOOKED_AT, why, may_be=unknown.id)
    known = "".join(f"; on {record.hosts[a.on].label}: {_belief(record, a)}" for a in stated if a.on in record.hosts)
    known += _empty_sites(record, function, places)
    open_places = [place for place in places if not record.coverage.is_whole(place)]
    if open_places:
        return Silent(Silence.NOT_LOOKED_AT, _not_covered(record, open_places) + known, places=tuple(open_places))
    listed = ", ".join(_words(place) for place in places)
    if embedded or term is None or term.may_be_embedded:
        why = f"all {listed} were looked at and no part of its own was found; it may live inside another part"
        return Silent(Silence.NO_SEPARATE_PART, why + known)
    return Silent(Silence.NOT_THERE, f"all {listed} were looked at and none was found{known}")


def _asked_about(question: Mapping[str, object]) -> tuple[str, ...]:
    """The functions that a question leaves open: only the one it names, for one about a part says nothing else."""
    named = question.get("function")
    return (str(named),) if named else ()


def _belief(record: Record, absence: Absence) -> str:
    inside = record.elements.get(absence.embedded_in)
    where = f", believed to live in {inside.label} ({inside.id})" if inside else ""
    return f"looked for and not found{where}"


def _empty_sites(record: Record, function: str, places: tuple[str, ...]) -> str:
    empty = [e for p in places for e in record.section(p) if not e.populated and function in e.functions]
    return "".join(f"; a site for it ({element.id}) is laid out and left empty" for element in empty)


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
