"""What cannot be said, why not, and what to look at next on the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from archdiff.page.anchors import element_anchor, pair_anchor
from archdiff.page.seats import called, records
from archdiff.record import sections
from archdiff.unknowns import first_of, telling, thing_of
from archdiff.wording import bears_words, chance_words, counted, coverage_words, names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.alignment import Pair
    from archdiff.comparison import Comparison
    from archdiff.record import Record
    from archdiff.unknowns import LookAt

TITLE = "What is not known, and what to look at next"
SHORT = "Not known"
ORDER = 130
_FIRST = 10
_FEW = 2  # a look that bears on no more statements is folded away as one of the lesser


def view(comparison: Comparison) -> dict[str, Any]:
    """The ranked look-at list, what hangs on each gap, open questions, and how far each section was looked at."""
    ranked = telling(comparison.look_at)
    return {
        "look_at": [_look(entry) for entry in ranked[:_FIRST]],
        "lesser": [_look(entry) for entry in ranked[_FIRST:]],
        "lesser_words": _lesser(ranked[_FIRST:]),
        # What the analyst asked stands under its own heading.
        "rest": [entry for entry in comparison.look_at if not entry.settles and not entry.asked],
        "to_confirm": [_doubtful(comparison, pair) for pair in comparison.to_confirm],
        "questions": [
            _question(side, record, question) for side, record in records(comparison) for question in record.questions
        ],
        "coverage": _coverage(comparison),
        "called": names(comparison),
    }


def _look(entry: LookAt) -> dict[str, Any]:
    """One look as a row: the things that are named, the rest as a number, and what waits for it."""
    things, more = first_of(entry.things)
    return {
        "side": entry.side,
        "things": things,
        "more": more,
        "where": "" if things else entry.where,
        "spot": entry.spot,
        "what": entry.what,
        "how": entry.how,
        "bears": bears_words(entry),
        "waiting": [hang.removeprefix("figure: ") for hang in entry.waiting],
    }


def _lesser(looks: list[LookAt]) -> str:
    """'46 more looks that bear on one or two statements each'."""
    most = max((look.settles for look in looks), default=0)
    each = "one or two statements" if most <= _FEW else f"at most {counted(most, 'statement')}"
    return f"{counted(len(looks), 'more look')} that {'bears' if len(looks) == 1 else 'bear'} on {each}" + (
        " each" if len(looks) > 1 else ""
    )


def _doubtful(comparison: Comparison, pair: Pair) -> dict[str, str]:
    """One pair that the analyst should confirm: what it is, who is paired with whom, and how sure that is."""
    sides = zip(pair.seats, (comparison.left, comparison.right), strict=True)
    left, right = (", ".join(str(thing_of(record, name)) for name in seat.ids) for seat, record in sides)
    return {
        "function": pair.function,
        "anchor": pair_anchor(comparison, pair),
        "left": left,
        "right": right,
        "chance": chance_words(pair),
    }


def _question(side: str, record: Record, question: Mapping[str, Any]) -> dict[str, str]:
    about = str(question.get("about", ""))
    return {
        "side": side,
        "about": called(record, about) if about else "",
        "anchor": element_anchor(side, about),
        "ask": str(question.get("ask", "")),
        "settle_by": str(question.get("settle_by", "")),
    }


def _coverage(comparison: Comparison) -> list[dict[str, Any]]:
    """One row a section of the record: how far it was looked at on either side, and where not."""
    titles = {section.covered_by: section.title for section in sections() if "." not in section.name}
    titles |= {"power": "Power", "opening": "Opening", "links": "What each thing is joined to and fed by"}
    rows = []
    for name, title in titles.items():
        cells = []
        for _, record in records(comparison):
            word = record.coverage.of(name)
            cells.append({"word": word, "words": coverage_words(word), "gaps": _gaps(record, name)})
        rows.append({"title": title, "cells": cells})
    return rows


def _gaps(record: Record, name: str) -> list[str]:
    """Where a partly covered section was not looked at: 'Main board, top: looked at in part'."""
    said = []
    for section, host, side, word in record.coverage.gaps():
        if section == name and host:
            where = f"{called(record, host)}, {side}" if side else called(record, host)
            said.append(f"{where}: {coverage_words(word)}")
    return said
