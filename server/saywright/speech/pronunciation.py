"""How many vowels and consonants are said for a word.

English words are looked up among the exceptions of `english_pronunciations.txt` (made from the CMU
Pronouncing Dictionary) and otherwise read by its letter rules; other languages by their spelling.
"""

import re
import unicodedata
from functools import lru_cache
from importlib.resources import files
from typing import NamedTuple

from saywright.speech.letter_rules import LetterRules, Sounds, packed
from saywright.speech.vowel_nuclei import count_vowels


class Pronunciation(NamedTuple):
    """Counts of a word's vowels by stress, one vowel a syllable, and of its consonant phones.

    `primary` is 1 but for words without a stress of their own ("the") and for compounds written
    with a hyphen. `secondary` is an estimate from the number of syllables.
    """

    primary: int
    secondary: int
    unstressed: int
    consonants: int

    @property
    def syllables(self) -> int:
        return self.primary + self.secondary + self.unstressed


_SILENT = Pronunciation(0, 0, 0, 0)
_NO_ENGLISH_LETTER = re.compile(r"[^a-z']+")
_PART = re.compile(r"[^\W_]+(?:'[^\W_]+)*'?")
# Letters that no decomposition takes to a to z, and the typographic apostrophe.
_PLAIN = str.maketrans({
    "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ð": "th", "þ": "th", "ł": "l", "đ": "d", "ı": "i",
    "’": "'", "ʼ": "'",
})  # fmt: skip
_LETTER_NAMES = {
    letter: sounds
    for letters, sounds in (
        ("AEIO", Sounds(1, 0, 1)),
        ("BCDGHJKPRTUVYZ", Sounds(1, 1, 1)),
        ("FLMNS", Sounds(1, 1)),
        ("Q", Sounds(1, 2, 1)),
        ("X", Sounds(1, 2)),
        ("W", Sounds(3, 4)),
    )
    for letter in letters
}
# Of the dictionary's words of four syllables and more, more than half have a secondary stress.
_SYLLABLES_WITH_SECONDARY = 4


def _package_text(name: str) -> str:
    return files(__package__).joinpath(name).read_text(encoding="utf-8")


@lru_cache(maxsize=1)
def english_letter_rules() -> LetterRules:
    """The rules and exceptions of the table, read once."""
    rules: dict[str, int] = {}
    exceptions: dict[str, Sounds] = {}
    is_rule = True
    for line in _package_text("english_pronunciations.txt").splitlines():
        if line.startswith("#"):
            continue
        if line.startswith("["):
            is_rule = line == "[rules]"
            continue
        vowels, consonants, long, *keys = line.split(" ")
        sounds = Sounds(int(vowels), int(consonants), int(long))
        if is_rule:
            rules.update(dict.fromkeys(keys, packed(sounds)))
        else:
            exceptions.update(dict.fromkeys(keys, sounds))
    return LetterRules(rules, exceptions)


@lru_cache(maxsize=1)
def _function_words() -> frozenset[str]:
    lines = _package_text("function_words.txt").splitlines()
    return frozenset(word for line in lines if not line.startswith("#") for word in line.split())


@lru_cache(maxsize=16384)
def pronounce(word: str, language: str = "en") -> Pronunciation:
    """The sounds of one word as it is said, in a language named by a BCP 47 tag.

    A single capital letter is the letter's name in English; a text without letters is silent.
    """
    parts = [_stressed(part) for part in parts_of(word, language)]
    if len(parts) == 1:
        return parts[0]
    return Pronunciation(*map(sum, zip(*parts, strict=True))) if parts else _SILENT


def long_vowels(word: str, language: str = "en") -> int:
    """How many of the stressed vowels of an English word are long; 0 for other languages."""
    return sum(part.sounds.long for part in parts_of(word, language) if not part.is_light)


class Part(NamedTuple):
    """A part of a hyphenated word, or a whole one: its small letters, its sounds, and whether it
    is a word without a stress of its own."""

    letters: str
    sounds: Sounds
    is_light: bool


def parts_of(word: str, language: str = "en") -> list[Part]:
    if language[:2].lower() == "en":
        return english_parts_of(word)
    return [Part(each, count_vowels(each, language), False) for each in _lower_parts(word)]


def english_parts_of(word: str) -> list[Part]:
    """The same for a word of English."""
    if not (word.isascii() and word.isalpha()):
        return [_written_part(part) for part in _lower_parts(word)]
    if word in _LETTER_NAMES:
        return [Part(word.lower(), _LETTER_NAMES[word], False)]
    return [_english(word.lower())]


def _lower_parts(word: str) -> list[str]:
    return _PART.findall(word.lower().translate(_PLAIN))


def _english(letters: str) -> Part:
    return Part(letters, english_letter_rules().sounds(letters), letters in _function_words())


def _written_part(part: str) -> Part:
    letters = part if part.isascii() and part.isalpha() else _to_ascii(part)
    return _english(letters) if letters else Part(part, count_vowels(part, "und"), False)


def _to_ascii(part: str) -> str:
    if not part.isascii():
        part = unicodedata.normalize("NFKD", part)
    return _NO_ENGLISH_LETTER.sub("", part)


def _stressed(part: Part) -> Pronunciation:
    vowels, consonants, _ = part.sounds
    primary = 0 if part.is_light else min(vowels, 1)
    secondary = int(vowels >= _SYLLABLES_WITH_SECONDARY)
    return Pronunciation(primary, secondary, vowels - primary - secondary, consonants)
