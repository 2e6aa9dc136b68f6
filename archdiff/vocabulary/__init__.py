"""The vocabulary: every function and means term with its meaning, synonyms, subsystem and traits.

The terms themselves are data, in `terms.yaml`; a new kind of thing is a new entry there and no code.
"""

from archdiff.vocabulary.folding import fold
from archdiff.vocabulary.loading import load_vocabulary
from archdiff.vocabulary.lookup import Vocabulary
from archdiff.vocabulary.terms import FunctionTerm, MeansTerm, Subsystem

__all__ = ["FunctionTerm", "MeansTerm", "Subsystem", "Vocabulary", "fold", "load_vocabulary"]
