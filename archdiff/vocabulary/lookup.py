"""The vocabulary as one value that answers what a word means."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from archdiff.vocabulary.fields import Choices, function_term, means_term, named_entries
from archdiff.vocabulary.folding import fold
from archdiff.vocabulary.near import Aliases

if TYPE_CHECKING:
    from collections.abc import Mapping

    from archdiff.vocabulary.terms import FunctionTerm, MeansTerm, Subsystem


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All terms by name, in the order of `terms.yaml`, a record's own terms behind them.

    Functions and means are two look-up spaces. `choices` holds the fixed sets that terms draw from, with the
    meaning of each trait, drawing and class letter.
    """

    choices: Choices = field(repr=False)
    functions: Mapping[str, FunctionTerm] = field(repr=False)
    means: Mapping[str, MeansTerm] = field(repr=False)
    _functions: Aliases = field(repr=False, compare=False)
    _means: Aliases = field(repr=False, compare=False)

    @property
    def subsystems(self) -> Mapping[str, Subsystem]:
        """The twelve families of functions by name, in their fixed order."""
        return self.choices.subsystems

    def function(self, text: str) -> FunctionTerm | None:
        """Find a function by name or synonym, blind to case, hyphens, underscores, spaces and plural."""
        name = self._functions.names.get(fold(text))
        return None if name is None else self.functions[name]

    def means_term(self, text: str) -> MeansTerm | None:
        """Find a means by name or synonym, blind to case, hyphens, underscores, spaces and plural."""
        name = self._means.names.get(fold(text))
        return None if name is None else self.means[name]

    def subsystem_of(self, text: str) -> str | None:
        """Tell the subsystem of a function; None where the function, or what it is for, is not known."""
        term = self.function(text)
        return (term.subsystem or None) if term else None

    def near_functions(self, text: str, n: int = 3) -> list[str]:
        """Suggest up to n names of functions that may have been meant, the likeliest first; maybe none."""
        return self._functions.near(text, n)

    def near_means(self, text: str, n: int = 3) -> list[str]:
        """Suggest up to n names of means that may have been meant, the likeliest first; maybe none."""
        return self._means.near(text, n)

    def with_terms(self, added: Mapping[str, Any]) -> Vocabulary:
        """Join a record's own `terms` to these: {functions: {name: fields}, means: {name: fields}}.

        Of the fields only `meaning`, and `subsystem` for a function, are needed. A function that does not say
        where it is found may be in any section. ValueError names a term that claims a name or synonym another
        one has, or a field that does not hold what it may.
        """
        entries = named_entries(added)
        functions = {name: function_term(name, e, self.choices) for name, e in entries["functions"].items()}
        means = {name: means_term(name, e, self.choices) for name, e in entries["means"].items()}
        return Vocabulary(
            self.choices,
            functions=MappingProxyType({**self.functions, **functions}),
            means=MappingProxyType({**self.means, **means}),
            _functions=self._functions.joined(functions.values()),
            _means=self._means.joined(means.values()),
        )


def empty_vocabulary(choices: Choices) -> Vocabulary:
    """Make a vocabulary without any term, to add terms to."""
    return Vocabulary(choices, MappingProxyType({}), MappingProxyType({}), Aliases(), Aliases())
