"""The words of a project's own list, which win over the table and the rules."""

from collections.abc import Mapping
from functools import lru_cache

from saywright.speech.common_words import rarity
from saywright.speech.model import (
    WordSounds,
    coefficients,
    seconds_elsewhere,
    seconds_of_sounds,
    word_sounds,
)
from saywright.speech.pronunciation import long_vowels, pronounce

Told = str | int
"""What a word sounds like, or how many syllables it has."""

_POSSESSIVE = "'s"


@lru_cache(maxsize=8)
def own_words(words: tuple[tuple[str, Told], ...]) -> Mapping[str, Told]:
    return dict(words)


def told_of(written: str, words: Mapping[str, Told]) -> Told | None:
    """What the list tells of a word as it is written, its possessive read as the word."""
    key = written.casefold().replace("’", "'")
    told = words.get(key)
    if told is None and key.endswith(_POSSESSIVE):
        told = words.get(key.removesuffix(_POSSESSIVE))
    return told


@lru_cache(maxsize=4096)
def told_sound(written: str, told: Told, language: str, *, stressed: bool) -> tuple[float, int]:
    """The seconds and the syllables of a word of the list, at the usual pace.

    A respelling is read as words are, a hyphen in it parts syllables, and the word's stress is
    on the syllable in capitals, or else the first. A count leaves the consonants as written.
    """
    if isinstance(told, int):
        counts = [_counted(written, told, language)]
    else:
        counts = [_respelt(word, language) for word in told.split()]
    syllables = sum(each.syllables for each in counts)
    if language[:2].lower() == "en":
        rare = rarity(written.lower().replace("’", "'"))  # as it is written, however it is said
        counts = [each._replace(rare=each.syllables * rare) for each in counts]
        seconds = sum(map(seconds_of_sounds, counts))
    else:
        seconds = seconds_elsewhere(syllables, language)
    factor = coefficients().other["marked_stress_factor"] if stressed else 1.0
    return seconds * factor, syllables


def _counted(written: str, syllables: int, language: str) -> WordSounds:
    return WordSounds(1, 0, syllables - 1, 0, pronounce(written.lower(), language).consonants)


def _respelt(word: str, language: str) -> WordSounds:
    if "-" not in word:
        if language[:2].lower() == "en":
            return word_sounds((word.lower(),))
        return _counted(word, max(pronounce(word.lower(), language).syllables, 1), language)
    parts = [part for part in word.split("-") if part]
    leading = next((part for part in parts if part.isupper()), parts[0] if parts else "")
    sounds = [pronounce(part.lower(), language) for part in parts]
    vowels = sum(each.syllables for each in sounds)
    stressed = min(vowels, 1)
    return WordSounds(
        stressed,
        min(long_vowels(leading.lower(), language), stressed),
        vowels - stressed,
        0,
        sum(each.consonants for each in sounds),
    )
