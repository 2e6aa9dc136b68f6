"""Reading `terms.yaml`."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

import yaml

from archdiff.vocabulary.fields import Choices
from archdiff.vocabulary.lookup import Vocabulary, empty_vocabulary
from archdiff.vocabulary.terms import Subsystem

if TYPE_CHECKING:
    from collections.abc import Iterator

_TERMS = Path(__file__).with_name("terms.yaml")
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_ENDS = (yaml.MappingEndEvent, yaml.SequenceEndEvent)
_TRUTH = {"true": True, "false": False}


@lru_cache(maxsize=1)
def load_vocabulary() -> Vocabulary:
    """Give the vocabulary that comes with archdiff, read once; ValueError where it contradicts itself."""
    data = _plain_data(_TERMS.read_text(encoding="utf-8"))
    subsystems = {name: Subsystem(name, **fields) for name, fields in data["subsystems"].items()}
    choices = Choices(
        MappingProxyType(subsystems),
        tuple(data["sections"]),
        letters=MappingProxyType(data["letters"]),
        drawings=MappingProxyType(data["drawings"]),
        traits=MappingProxyType(data["traits"]),
    )
    return empty_vocabulary(choices).with_terms({name: data[name] for name in ("functions", "means")})


def _plain_data(text: str) -> Any:
    """Read mappings, lists, texts, true and false: all that `terms.yaml` holds.

    Built from the parser's events, since the library's own construction takes three times as long and this
    stands in the way of every run. Everything but true and false stays text; a key that stands twice is a
    ValueError.
    """
    events = iter(yaml.parse(text, Loader=_LOADER))
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            break
    return _value(next(events), events)


def _value(event: Any, events: Iterator[Any]) -> Any:
    kind = type(event)
    if kind is yaml.ScalarEvent:
        return event.value if event.style else _TRUTH.get(event.value, event.value)
    if kind is yaml.MappingStartEvent:
        return _mapping(events)
    if kind is yaml.SequenceStartEvent:
        return [_value(item, events) for item in _until_end(events)]
    raise ValueError(f"terms.yaml, line {event.start_mark.line + 1}: {kind.__name__} is not used here")


def _mapping(events: Iterator[Any]) -> dict[str, Any]:
    table: dict[str, Any] = {}
    for key in _until_end(events):
        if key.value in table:
            raise ValueError(f"terms.yaml, line {key.start_mark.line + 1}: '{key.value}' stands twice")
        table[key.value] = _value(next(events), events)
    return table


def _until_end(events: Iterator[Any]) -> Iterator[Any]:
    for event in events:
        if isinstance(event, _ENDS):
            return
        yield event
