"""Syllables of languages that have no pronunciation table here, from their spelling.

Pyphen's hyphenation patterns part the word, and each part has as many syllables as it has vowel
nuclei: the letters that its language reads as one vowel. Consonants are the letters left, a
digraph and a doubled letter being one.
"""

import re
import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING

from saywright.speech.letter_rules import Sounds

if TYPE_CHECKING:
    from pyphen import Pyphen

_ANY_VOWELS = r"[aeiouyà-æè-ïò-öø-ýÿœāăąēĕėęěīĭįıōŏőūŭůűųαεηιουωάέήίόύώаеёиоуыэюяіїє]+"

# Each alternative is one nucleus; the first that matches wins, so longer ones come first.
_NUCLEI = {
    "de": r"eau|aa|ee|oo|ie|ei|ai|ey|ay|au|eu|äu|ou|[aeiouyäöüàéè]",
    "nl": r"eau|aai|ooi|oei|eeu|ieu|aa|ee|oo|uu|ij|ie|ei|eu|oe|ou|au|ui|[aeiouyéèëïöüáóíú]",
    "fr": r"eau|oeu|œu|aî|ai|au|ei|eu|oui|ou|oy|oi|i[oeaèéê]|ui|[aeiouyàâäéèêëîïôöùûüœæ]",
    "es": r"[iuü]?[aeoáéó](?:[iu]|y(?![aeiouáéíóú]))?|ui|iu|[iuíúü]|y(?![aeiouáéíóú])",
    "it": r"[iu]?[aeoàèéò][iu]?|ui|i[uù]|[iuìùy]",
    "pt": r"ão|ãe|õe|[aeoáâãéêóôõ][iu]?|ui|iu|[iuíúüy]",
}
LANGUAGES = tuple(sorted(("en", *_NUCLEI)))
"""The languages whose words are timed by rules of their own, English by those for its letters."""

_SILENT_NUCLEUS = {
    "fr": re.compile(r"es?$|(?<=[lrtsn])ent$|(?<=[qg])u(?=[aeiouyéèêâîôœ])"),
    "es": re.compile(r"(?<=[qg])u(?=[eié])"),
    "it": re.compile(r"(?<=[cg])i(?=[aeou])|(?<=q)u(?=[aeiou])"),
    "pt": re.compile(r"(?<=[qg])u(?=[eiéêíaoáó])"),
}
_DIGRAPH = re.compile(r"sch|tsch|ch|sh|th|ph|ck|ng|gn|ll|rr|qu|gh|([^\W\d_])\1")
_SILENT_CONSONANTS = {
    "fr": re.compile(r"(?<=[^\W_])[tdspxz]+$|h"),
    "es": re.compile(r"(?<![c])h"),
    "it": re.compile(r"h"),
    "pt": re.compile(r"(?<![cln])h"),
    "de": re.compile(r"(?<=[aeiouäöü])h"),
}


def has_rules(language: str) -> bool:
    """Whether a BCP 47 tag is of one of `LANGUAGES`."""
    return language.partition("-")[0].lower() in LANGUAGES


@lru_cache(maxsize=8)
def _patterns(primary_tag: str) -> "Pyphen | None":
    import pyphen  # noqa: PLC0415 - only for other languages than English

    language = pyphen.language_fallback(primary_tag)
    return pyphen.Pyphen(lang=language) if language else None


@lru_cache(maxsize=8)
def _nucleus(primary_tag: str) -> re.Pattern[str]:
    return re.compile(_NUCLEI.get(primary_tag, _ANY_VOWELS))


def count_vowels(word: str, language: str) -> Sounds:
    """Vowels and consonants of a lower-case word; at least one vowel where it has a letter."""
    tag = language.partition("-")[0].lower()
    composed = unicodedata.normalize("NFC", word)
    spoken = _SILENT_NUCLEUS[tag].sub("", composed) if tag in _SILENT_NUCLEUS else composed
    patterns = _patterns(tag) if tag in _NUCLEI else None
    parts = patterns.inserted(spoken, "\n").split("\n") if patterns else [spoken]
    nucleus = _nucleus(tag)
    vowels = sum(len(nucleus.findall(part)) for part in parts)
    left = nucleus.sub("", spoken)
    if tag in _SILENT_CONSONANTS:
        left = _SILENT_CONSONANTS[tag].sub("", left)
    consonants = sum(each.isalpha() for each in _DIGRAPH.sub("x", left))
    return Sounds(max(vowels, int(any(map(str.isalpha, composed)))), consonants)
