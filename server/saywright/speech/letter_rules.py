"""How many vowels and consonants English letters stand for.

Each letter's share of a word's sounds is read from its context: a rule's key is a letter with the
letters around it, `_` being the word's edge, and its value the vowels and consonants that the
letter stands for there. A longer key beats a shorter one. The length of a key tells where its
letter stands in it (`CONTEXTS`), so that a key needs no mark for it.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple


class Sounds(NamedTuple):
    """Vowels (one a syllable) and consonant phones; the `long` of the vowels are stressed and long.

    Long are those of fate, feet, fight, foal, food, fowl, foil, far, fall and fur.
    """

    vowels: int
    consonants: int
    long: int = 0


# Letters to the left and right of the letter meant, in the order in which a context grows.
CONTEXTS = (
    (0, 0), (0, 1), (1, 1), (1, 2), (1, 3), (2, 3), (3, 3), (3, 4), (4, 4), (4, 5), (5, 5),
)  # fmt: skip
# Most letters are settled by their neighbours, so these are tried first. A letter's contexts that
# have a rule are the shortest ones: none is skipped.
_WIDER_CONTEXTS = tuple((left, right + 1) for left, right in CONTEXTS[3:])
_WIDEST = 5
_EDGE = "_" * _WIDEST

_SHORTEST_STEM = 3
_TAKES_ES = re.compile(r"(?:ch|sh|x|zz|ss)e$")
_SIBILANT = re.compile(r"(?:[sxz]|[cs]h|[cgsz]e)$")
_VOWEL_LETTER = re.compile(r"[aeiouy]")
_ENDINGS = {
    "ness": Sounds(1, 2),
    "less": Sounds(1, 2),
    "ful": Sounds(1, 2),
    "ship": Sounds(1, 2),
    "hood": Sounds(1, 2),
    "ment": Sounds(1, 3),
}
_ANY_ENDING = tuple(_ENDINGS)

_BITS = 10  # of a count: three of them make an integer of the size that is added fastest
_MOST_LETTERS = 500  # whose sums fit: a letter has at most two sounds of a kind


def packed(sounds: Sounds) -> int:
    """Counts in one number, so that adding such numbers adds them all."""
    return (sounds.long << _BITS | sounds.consonants) << _BITS | sounds.vowels


def unpacked(sums: int) -> Sounds:
    mask = (1 << _BITS) - 1
    return Sounds(sums & mask, sums >> _BITS & mask, sums >> 2 * _BITS)


@lru_cache(maxsize=512)
def _word_of(sums: int) -> Sounds:
    """The sounds of a word by the sums over its letters; most words share a few hundred sums."""
    vowels, consonants, long = unpacked(sums)
    return Sounds(max(vowels, 1), consonants, min(long, 1))


_ONE_CONSONANT = packed(Sounds(0, 1))


def contexts_of(word: str) -> list[list[str]]:
    """For each letter of `word` its keys, shortest first."""
    padded = f"{_EDGE}{word}{_EDGE}"
    places = range(_WIDEST, _WIDEST + len(word))
    return [[padded[at - left : at + right + 1] for left, right in CONTEXTS] for at in places]


class LetterRules:
    """Rules, each with its letter's `packed` sounds, and the words they get wrong."""

    def __init__(self, rules: Mapping[str, int], exceptions: Mapping[str, Sounds]) -> None:
        self.rules = rules
        self.exceptions = exceptions

    def sounds(self, word: str) -> Sounds:
        """Sounds of a lower-case word of the letters a to z and apostrophes."""
        known = self.exceptions.get(word)
        if known:
            return known
        stripped = without_ending(word)
        if stripped:
            stem, (vowels, consonants, _) = stripped
            of_stem = self.sounds(stem)
            return Sounds(of_stem.vowels + vowels, of_stem.consonants + consonants, of_stem.long)
        return self.by_letters(word)

    def by_letters(self, word: str) -> Sounds:
        """The sum over the letters, each by its longest known context; at least one vowel."""
        if len(word) > _MOST_LETTERS:
            return self._by_halves(word)
        padded = f"{_EDGE}{word}{_EDGE}"
        find = self.rules.get
        sums = 0
        for at in range(_WIDEST, _WIDEST + len(word)):
            best = find(padded[at - 1 : at + 2])
            if best is None:
                best = find(padded[at : at + 2])
                if best is None:
                    best = find(padded[at], _ONE_CONSONANT)
            else:
                for left, right in _WIDER_CONTEXTS:
                    found = find(padded[at - left : at + right])
                    if found is None:
                        break
                    best = found
            sums += best
        return _word_of(sums)

    def _by_halves(self, word: str) -> Sounds:
        half = len(word) // 2
        first, second = self.by_letters(word[:half]), self.by_letters(word[half:])
        return Sounds(
            first.vowels + second.vowels, first.consonants + second.consonants, first.long
        )


def without_ending(word: str) -> tuple[str, Sounds] | None:
    """The stem of a plural, possessive or derived word, and what its ending adds."""
    if word[-1] in "s'":
        stem = _stem_before_s(word)
        if stem:
            return stem
    if not word.endswith(_ANY_ENDING):
        return None
    for ending, sounds in _ENDINGS.items():
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST_STEM:
            before = word[: -len(ending)]
            if _VOWEL_LETTER.search(before):
                return (f"{before[:-1]}y" if before.endswith("i") else before), sounds
    return None


def _stem_before_s(word: str) -> tuple[str, Sounds] | None:
    if word.endswith("s'") and len(word) > _SHORTEST_STEM:
        return word[:-1], Sounds(0, 0)
    if word.endswith("'s") and len(word) > _SHORTEST_STEM:
        stem = word[:-2]
    elif word.endswith("s") and len(word) > _SHORTEST_STEM and word[-2] not in "suiy'":
        stem = word[:-1]
        if stem.endswith("ie") and len(stem) > _SHORTEST_STEM + 1:
            return f"{stem[:-2]}y", Sounds(0, 1)
        if _TAKES_ES.search(stem):
            return stem[:-1], Sounds(1, 1)
    else:
        return None
    return stem, Sounds(1, 1) if _SIBILANT.search(stem) else Sounds(0, 1)
