"""All spellings of a list of terms: which term has one, and which terms are near to one that nobody has."""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import TYPE_CHECKING

from archdiff.vocabulary.folding import fold, words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from archdiff.vocabulary.terms import FunctionTerm, MeansTerm

# Chosen on the misspellings in the tests: a typo or two scores above .85, one shared word of two below .6.
_NEAR_ENOUGH = 0.6
_SAME_WORD = 0.8
# Words in another order or among others are a weaker hint than the same letters in the same order.
_SHARED_WORDS = 0.95
# Spellings that share most three-letter groups are compared letter by letter, the others not at all.
_COMPARED = 60


class Aliases:
    """Every name and synonym of one list of terms; never changed once made."""

    __slots__ = ("_grams", "names", "spellings")

    def __init__(self) -> None:
        self.names: dict[str, str] = {}  # folded spelling -> name of the term
        self.spellings: list[tuple[str, str]] = []  # spelling in lower case, single spaces -> name
        self._grams: dict[str, list[int]] | None = None

    def joined(self, terms: Iterable[FunctionTerm | MeansTerm]) -> Aliases:
        """Join the spellings of more terms to these; ValueError where two terms claim one spelling."""
        more = Aliases()
        more.names = dict(self.names)
        more.spellings = list(self.spellings)
        for term in terms:
            for spelling in (term.name, *term.synonyms):
                more._claim(spelling, term.name)
        return more

    def _claim(self, spelling: str, name: str) -> None:
        folded = fold(spelling)
        if not folded:
            raise ValueError(f"'{spelling}' of the term '{name}' has no letter")
        holder = self.names.setdefault(folded, name)
        if holder != name:
            raise ValueError(f"the term '{name}' claims '{spelling}', which already means '{holder}'")
        self.spellings.append((" ".join(words(spelling)), name))

    def near(self, text: str, n: int) -> list[str]:
        """Up to n names of terms, the likeliest first, by letters in common and by words in common."""
        from difflib import SequenceMatcher  # here, since only a word that nobody knows needs it

        wanted = " ".join(words(text))
        matcher = SequenceMatcher(None, b=wanted, autojunk=False)
        best: dict[str, float] = {}
        for spelling, name in self._candidates(wanted):
            matcher.set_seq1(spelling)
            likeness = max(matcher.ratio(), _SHARED_WORDS * _words_shared(wanted.split(), spelling.split()))
            best[name] = max(best.get(name, 0.0), likeness)
        ranked = sorted((-likeness, name) for name, likeness in best.items() if likeness >= _NEAR_ENOUGH)
        return [name for _, name in ranked[:n]]

    def _candidates(self, wanted: str) -> list[tuple[str, str]]:
        if self._grams is None:
            self._grams = _indexed(spelling for spelling, _ in self.spellings)
        hits: Counter[int] = Counter()
        grams = _three_letters(wanted)
        for gram in grams:
            hits.update(self._grams.get(gram, ()))
        share = {at: 2 * count / (len(grams) + len(self.spellings[at][0])) for at, count in hits.items()}
        return [self.spellings[at] for at in sorted(share, key=lambda at: (-share[at], at))[:_COMPARED]]


def _indexed(spellings: Iterable[str]) -> dict[str, list[int]]:
    grams: defaultdict[str, list[int]] = defaultdict(list)
    for at, spelling in enumerate(spellings):
        for gram in _three_letters(spelling):
            grams[gram].append(at)
    return grams


def _three_letters(text: str) -> set[str]:
    padded = f" {text} "
    return {padded[at : at + 3] for at in range(len(padded) - 2)}


def _words_shared(left: list[str], right: list[str]) -> float:
    """Twice the words in common over all words of both (Dice), where a word with a typo still counts."""
    rest, common = list(right), 0
    for word in left:
        twin = next((other for other in rest if _same_word(word, other)), None)
        if twin is not None:
            rest.remove(twin)
            common += 1
    return 2 * common / (len(left) + len(right)) if left or right else 0.0


def _same_word(left: str, right: str) -> bool:
    from difflib import SequenceMatcher

    if left == right:
        return True
    matcher = SequenceMatcher(None, left, right, autojunk=False)
    return matcher.real_quick_ratio() >= _SAME_WORD and matcher.ratio() >= _SAME_WORD
