"""What several families ask of a path: its stages, and what each of them states."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from archdiff.record import as_bounds

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from archdiff.figures.counting import Ledger
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of a path; `place` counts from 1. `thing` is the element it names, where it names one."""

    path: Element
    place: int
    facts: Mapping[str, Any]
    thing: Element | None

    @property
    def name(self) -> str:
        """What to call it: the element's name, else the words as written."""
        return self.thing.label if self.thing is not None else str(self.facts.get("what", ""))

    @property
    def address(self) -> str:
        """Where its facts are, as a ledger names them: 'heat_radio stage 2'."""
        return f"{self.path.id} stage {self.place}"

    def text(self, name: str) -> str:
        """A fact as written, of the stage or else of the element it names; '' where neither states it."""
        value = self.facts.get(name)
        if value is None and self.thing is not None:
            return self.thing.text(name)
        return "" if value is None else str(value)

    def bounds(self, ledger: Ledger, name: str) -> Bounds | None:
        """A quantity of the stage, else of the element it names; noted as used or lacking at the stage."""
        stated = as_bounds(self.facts.get(name))
        if stated is None and self.thing is not None:
            stated = self.thing.bounds(name)
            if stated is not None:
                ledger.use(self.thing.id, name)
                return stated
        ledger.note(self.address, name, known=stated is not None)
        return stated


def paths_of(record: Record, kind: str) -> tuple[Element, ...]:
    """The paths of a kind: 'heat', 'sound', 'light', 'air', 'radio', 'touch', 'force'."""
    return tuple(path for path in record.section("paths") if path.facts.get("kind") == kind)


def stages_of(record: Record, path: Element) -> Iterator[Stage]:
    """The stages in the order in which energy or matter takes them."""
    for place, facts in enumerate(path.facts.get("through", ()), start=1):
        yield Stage(path, place, facts, record.elements.get(str(facts.get("what", ""))))
