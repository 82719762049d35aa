"""How rare an English word is: rarer words are said more slowly than commoner ones of like sounds.

The commonest 7,000 words or so are in english_common_words.txt, made by
tests/rebuild_common_words.py; a word that is not there is taken to be as rare as most others are.
"""

from functools import lru_cache
from importlib.resources import files

COMMON = 6.0
"""Words that are met this often or oftener are not rare at all. Frequencies are the decimal
logarithm of how often a word is met in a thousand million: 6 is once in a thousand words."""

OTHER_WORDS = 3.0
"""The frequency of every word that is not in the table."""


@lru_cache(maxsize=1)
def rarities() -> dict[str, float]:
    """Those of the table's words, read once."""
    text = files(__package__).joinpath("english_common_words.txt").read_text(encoding="utf-8")
    found: dict[str, float] = {}
    for line in text.splitlines():
        if not line.startswith("#"):
            frequency, *words = line.split(" ")
            found.update(dict.fromkeys(words, COMMON - float(frequency)))
    return found


def rarity(word: str) -> float:
    """From 0 for a word met once in a thousand words, or oftener, to 3 for one met once in a
    million, or rarer. `word` is in small letters, without hyphens; a possessive is as its word.
    """
    known = rarities()
    found = known.get(word)
    if found is None:
        found = known.get(word.removesuffix("'s"), COMMON - OTHER_WORDS)
    return found
