"""Seconds of words and of the silences between them, at the model's own pace.

A word's time is the sum over its sounds; a gap's depends on its punctuation. Every number is in
coefficients.toml, with its unit and source.
"""

import re
import tomllib
from functools import lru_cache
from importlib.resources import files
from operator import mul
from typing import NamedTuple

from saywright.language.english.filler_words import HESITATIONS
from saywright.language.english.tag import is_english
from saywright.speech.common_words import rarity
from saywright.speech.pronunciation import english_parts_of, pronounce


class WordSounds(NamedTuple):
    """What is counted in the words said for one written word.

    `stressed` are the vowels with primary stress; of these `long` are long. `light` are the vowels
    of words without a stress of their own; `faint` is that of "the". `rare` are syllables times
    the rarity of their word, `hesitations` are words such as "um".
    """

    stressed: int
    long: int
    other: int
    light: int
    consonants: int
    faint: int = 0
    rare: float = 0.0
    hesitations: int = 0

    @property
    def syllables(self) -> int:
        return self.stressed + self.other + self.light + self.faint


SOUND_NAMES = (
    "stressed_vowel",
    "long_vowel_extra",
    "other_vowel",
    "light_vowel",
    "consonant",
    "faint_vowel",
    "rare_syllable",
    "hesitation",
)
"""The coefficients of the fields of `WordSounds`, in their order."""


class Coefficients(NamedTuple):
    """The tables of coefficients.toml; see there."""

    sounds: tuple[float, ...]
    pauses: dict[str, float]
    other: dict[str, float]
    spread: dict[str, float]
    syllables_per_second: dict[str, float]


@lru_cache(maxsize=1)
def coefficients() -> Coefficients:
    """The coefficients, read once; those of sounds in the order of `WordSounds`."""
    path = files(__package__).joinpath("coefficients.toml")
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    return Coefficients(
        sounds=tuple(table["sounds"][name] for name in SOUND_NAMES),
        pauses=table["pauses"],
        other=table["other"],
        spread=table["spread"],
        syllables_per_second=table["syllables_per_second"],
    )


NOMINAL_WORDS_PER_MINUTE = coefficients().other["words_per_minute"]
"""Written words a minute, pauses included, that the model gives the many speakers' talks."""

NOMINAL_SYLLABLES_PER_SECOND = coefficients().other["syllables_per_second"]
"""Syllables a second of the same, pauses included."""

_FAINT_WORDS = frozenset({"the"})
_SAID_AGAIN_IN_EARNEST = frozenset(
    "very more most any only just up out over not what who you me him her them hundred".split()
)
_FIRST_SHORT_WORDS, _FIRST_LONG_WORDS = 5, 16
_GAP_KINDS = tuple(
    (kind, re.compile(pattern))
    for kind, pattern in (
        ("stop", r"[.!?…。！？]"),
        ("clause", r"[;:—–]|--|\s[-‐‑−]\s"),
        ("comma", r"[,،、]"),
        ("bracket", r"[()\[\]{}]"),
        ("quotation", r"[\"“”„«»]"),
    )
)


def word_sounds(said: tuple[str, ...]) -> WordSounds:
    """The counts of one written word of English."""
    stressed = long = other = light = consonants = faint = hesitations = 0
    rare = 0.0
    for word in said:
        vowels = own_stress = 0
        for letters, sounds, is_light in english_parts_of(word):
            of_part, more_consonants, is_long = sounds
            vowels += of_part
            rare += of_part * rarity(letters)
            consonants += more_consonants
            if not is_light and of_part:
                own_stress += 1
                long += is_long
        stressed += own_stress
        if own_stress:
            other += vowels - own_stress
        elif word in _FAINT_WORDS:
            faint += vowels
        else:
            light += vowels
        hesitations += word in HESITATIONS
    return WordSounds(stressed, long, other, light, consonants, faint, rare, hesitations)


def word_seconds(said: tuple[str, ...], language: str = "en", *, stressed: bool = False) -> float:
    """How long one written word sounds, by the words said for it.

    `stressed` is for a word that the writer marked as stressed. A language other than English
    has as many syllables a second as were measured for it, by publications named in the
    coefficients, in proportion to English.
    """
    return seconds_and_syllables(said, language, stressed)[0]


def seconds_and_syllables(
    said: tuple[str, ...], language: str, stressed: bool
) -> tuple[float, int]:
    """The same, and how many syllables the word has."""
    if language[:2].lower() == "en":
        sounds = word_sounds(said)
        syllables = sounds.syllables
        seconds = seconds_of_sounds(sounds)
    else:
        syllables = sum([pronounce(word, language).syllables for word in said])
        seconds = seconds_elsewhere(syllables, language)
    return seconds * (coefficients().other["marked_stress_factor"] if stressed else 1.0), syllables


def seconds_of_sounds(sounds: WordSounds) -> float:
    """How long the sounds of English last."""
    return float(sum(map(mul, coefficients().sounds, sounds)))


def seconds_elsewhere(syllables: int, language: str) -> float:
    """How long so many syllables of a language other than English last."""
    rates = coefficients().syllables_per_second
    rate = rates.get(language[:2].lower(), rates["en"])
    return syllables * coefficients().other["seconds_per_english_syllable"] * rates["en"] / rate


@lru_cache(maxsize=4096)
def gap_kind(between: str) -> str | None:
    """The strongest punctuation in the text between two words, None where there is none."""
    if between.isspace():
        return None
    return next((kind for kind, pattern in _GAP_KINDS if pattern.search(between)), None)


def pause_seconds(
    between: str,
    *,
    words_before: int,
    paragraph: bool = False,
    line_break: bool = False,
    stumbles: bool = False,
) -> float:
    """The silence that a speaker makes by nature in the gap that holds the text `between`.

    It holds what lies from the end of one written word to the start of the next. `words_before`
    counts the written words of the sentence so far: after a longer sentence the pause is longer.
    A line of verse that ends in the gap gives at least a comma's pause, a paragraph more than a
    sentence's. Where the speaker `stumbles` over the gap, a comma is no pause.
    """
    pauses = coefficients().pauses
    kind = "stop" if paragraph else gap_kind(between)
    if stumbles and kind == "comma":
        kind = None
    if kind == "stop":
        seconds = _after_sentence(words_before)
        return seconds + pauses["paragraph_extra"] if paragraph else seconds
    seconds = pauses[kind] if kind else 0.0
    return max(seconds, pauses["line_of_verse"]) if line_break else seconds


def is_stumble(before: str, after: str, language: str = "en") -> bool:
    """Whether a speaker stumbles from one written word to the next: one of them is a hesitation
    ("um"), or the second is the first again and has no stress of its own ("the, the"). English
    alone is known: in German, "um" and "er" are words like others."""
    if not is_english(language):
        return False
    one, other = before.casefold(), after.casefold()
    if one in HESITATIONS or other in HESITATIONS:
        return True
    return one == other and one not in _SAID_AGAIN_IN_EARNEST and not word_sounds((one,)).stressed


def sentence_share(words: int) -> float:
    """From 0 after a sentence of up to 5 words to 1 from 16 words on."""
    share = (words - _FIRST_SHORT_WORDS) / (_FIRST_LONG_WORDS - _FIRST_SHORT_WORDS)
    return min(max(share, 0.0), 1.0)


def _after_sentence(words: int) -> float:
    pauses = coefficients().pauses
    short, long = pauses["stop_after_5_words"], pauses["stop_after_16_words"]
    return short + (long - short) * sentence_share(words)
