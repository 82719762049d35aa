"""Ordinals of languages other than English: German by the word before, the rest by their ending."""

import re
from functools import lru_cache

Words = tuple[str, ...]

_GERMAN_ENDINGS = {
    "": "der die das diese dieser dieses jede jene jener jenes ins fürs aufs",
    "n": "am dem den des im vom zum zur beim ab bis seit einem einen einer diesem diesen jedem "
    "jeden meinem meinen seinem seinen ihrem ihren unserem unseren keinem keinen",
    "r": "ein kein mein dein sein ihr unser euer jeder",
}
_ENDING_AFTER = {
    word: ending for ending, words in _GERMAN_ENDINGS.items() for word in words.split()
}
_JOINS_DAYS = frozenset({"und", "oder"})
_ORDINAL_ENDINGS = {
    "nl": re.compile(r"e|de|ste"),
    "fr": re.compile(r"(?:er|ers|ère|ères|ere|re|res|e|es|è|ème|èmes|eme|emes|nd|nde)"),
    "it": re.compile(r"[ºªoa]"),
    "pt": re.compile(r"[ºªoa]"),
    "es": re.compile(r"[ºªoa]|er|ero|era"),
}
_FRENCH_SECOND = {"nd": "second", "nde": "seconde"}


def german_ending(before: str) -> str | None:
    """What the word before adds to "dritte", or None for a word that no ordinal need follow."""
    return _ENDING_AFTER.get(before.lower())


def german_ordinal(digits: str, before: str) -> str:
    """ "vierzehnten" after "am", "erste" after "der", "vierzehnter" with neither."""
    ending = "n" if before.lower() in _JOINS_DAYS else german_ending(before)
    return "".join(_spelled(int(digits), "de")) + ("r" if ending is None else ending)


def ordinal(value: int, ending: str, tag: str) -> Words:
    """The words of an ordinal written with `ending` ("er" of "1er"); none where it is no ending."""
    endings = _ORDINAL_ENDINGS.get(tag)
    if not value or not endings or not endings.fullmatch(ending):
        return ()
    if tag == "fr":
        return _french(value, ending)
    said = _spelled(value, tag)
    if ending in ("ª", "a", "era"):
        return tuple(re.sub(r"o$", "a", word) for word in said)
    if ending == "er":
        return (*said[:-1], re.sub(r"(?<=er)o$", "", said[-1]))
    return said


def _french(value: int, ending: str) -> Words:
    if value == 1:
        return ("première",) if ending.startswith(("è", "ere", "re")) else ("premier",)
    if value == 2 and ending in _FRENCH_SECOND:
        return (_FRENCH_SECOND[ending],)
    return tuple(re.sub(r"(?<=[tn])sième", "ième", word) for word in _spelled(value, "fr"))


@lru_cache(maxsize=512)
def _spelled(value: int, tag: str) -> Words:
    from num2words import num2words  # noqa: PLC0415 - slow to load, seldom needed

    return tuple(str(num2words(value, lang=tag, to="ordinal")).split())
