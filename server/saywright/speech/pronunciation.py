"""Vowels and consonants of a word."""

import re
from functools import lru_cache
from typing import NamedTuple


class Pronunciation(NamedTuple):
    """Counts of vowels by stress, and of consonant phones."""

    primary: int
    secondary: int
    unstressed: int
    consonants: int

    @property
    def syllables(self) -> int:
        return self.primary + self.secondary + self.unstressed


_NUCLEI = re.compile(r"[aeiouyà-öø-ÿ]+")


@lru_cache(maxsize=16384)
def pronounce(word: str, language: str = "en") -> Pronunciation:
    """Counts for one word said."""
    letters = word.lower()
    vowels = max(1, len(_NUCLEI.findall(letters.removesuffix("e"))))
    consonants = sum(each.isalpha() for each in _NUCLEI.sub("", letters))
    return Pronunciation(1, 0, vowels - 1, consonants)
