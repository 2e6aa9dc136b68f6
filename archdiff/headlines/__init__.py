"""What differs most, as sentences, and what goes with each."""

from archdiff.headlines.headline import Consequence, Headline
from archdiff.headlines.ranking import MOST, headlines_of
from archdiff.headlines.sentences import sentence

__all__ = ["MOST", "Consequence", "Headline", "headlines_of", "sentence"]
