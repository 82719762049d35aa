"""The consonants of an English word, in order, from its spelling: rules, and no dictionary.

A rough skeleton, for seeing which sounds meet: vowels are all alike, and `r` is counted only where
a vowel follows it. The consonants that begin a word are those of the CMU Pronouncing Dictionary
for 98 of 100 of the 19,000 commonest words, those that end it for 98, and in running text for 99.
"""

import re
from functools import lru_cache
from typing import NamedTuple

from saywright.language.english.consonant_rules import RULES, VOWEL_RULE, WHOLE_WORDS

VOWEL = "V"
_LONGEST_WORD = 24
_VOICED_TH = frozenset(
    "the this that these those they them their theirs they're they've they'll they'd there"
    " there's then than though thus thy thee with within without".split()
)
_VOWELS = frozenset("aeiouy")
_VOICELESS = frozenset(("P", "K", "F", "S", "SH", "CH", "TH"))
_BEFORE_S = frozenset(("P", "T", "K", "F", "TH"))


@lru_cache(maxsize=16384)
def consonants_of(word: str) -> tuple[str, ...]:
    """The sounds of `word`: consonants by name (TH as in thin, DH as in then, V_ as in vine) and
    `VOWEL` for each vowel. Empty for what is no word of plain letters, a very long one, or one in
    capitals, which may be said letter by letter.

    >>> consonants_of("sixths")
    ('S', 'V', 'K', 'S', 'TH', 'S')
    """
    capitals = word.isupper()
    word = word.lower().replace("’", "'")
    if (
        capitals
        or len(word) > _LONGEST_WORD
        or not (word.isascii() and word.replace("'", "").isalpha())
    ):
        return ()
    if word in WHOLE_WORDS:
        return WHOLE_WORDS[word]
    return _said(word) if not _VOWELS.isdisjoint(word) else ()


class _Rules(NamedTuple):
    """The rules of one letter as one pattern, and the sounds by the number of its group."""

    pattern: re.Pattern[str]
    sounds: tuple[tuple[str, ...], ...]


@lru_cache(maxsize=32)
def _rules(letter: str) -> _Rules | None:
    rules = (*RULES.get(letter, ()), *((VOWEL_RULE,) if letter in _VOWELS else ()))
    if not rules:
        return None
    pattern = re.compile("|".join(f"({pattern})" for pattern, _ in rules))
    return _Rules(pattern, ((), *(tuple(sounds.split()) for _, sounds in rules)))


def _by_letters(word: str) -> list[str]:
    sounds: list[str] = []
    at = 0
    while at < len(word):
        rules = _rules(word[at])
        found = rules.pattern.match(word, at) if rules else None
        if not rules or not found:
            at += 1
            continue
        for sound in rules.sounds[found.lastindex or 0]:
            if sound != "e":
                sounds.append(sound)
            elif VOWEL not in sounds:
                sounds.append(VOWEL)
        at = found.end()
    return sounds


def _said(word: str) -> tuple[str, ...]:
    sounds = _by_letters(word)
    if word.partition("'")[0] in _VOICED_TH:
        sounds = ["DH" if sound == "TH" else sound for sound in sounds]
    before, last = ("", "", *sounds)[-2:]
    if word.endswith("ed") and last == "D" and before in _VOICELESS:
        sounds[-1] = "T"
    if word.endswith("s") and last == "Z" and before in _BEFORE_S:
        sounds[-1] = "S"
    return tuple(sounds)
