"""The words that a reader may not know, from `glossary.yaml`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Word:
    """One entry: what the word means, in plain sentences, and where it is used ('record', 'page', 'code')."""

    name: str
    group: str
    meaning: str
    where: tuple[str, ...]


@cache
def glossary() -> Mapping[str, Word]:
    """Every word by its name, in the order of the file.

    >>> glossary()["means"].meaning
    'By what a function is carried out, such as a tactile switch.'
    """
    import yaml

    loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    groups = yaml.load(Path(__file__).with_name("glossary.yaml").read_text("utf-8"), Loader=loader)  # noqa: S506 - safe
    words = [
        Word(n, group, e["meaning"], tuple(e["where"])) for group, found in groups.items() for n, e in found.items()
    ]
    return {word.name: word for word in words}
