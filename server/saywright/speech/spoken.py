"""Text into the words that are said for it."""

import re
from functools import lru_cache
from typing import NamedTuple


class SpokenWord(NamedTuple):
    """A written word, half-open code points of the text given, and the words said for it."""

    start: int
    end: int
    said: tuple[str, ...]


_WORD = re.compile(r"[^\W_]+(?:['’.,:-][^\W_]+)*")


@lru_cache(maxsize=4096)
def spoken_words(text: str, language: str = "en") -> tuple[SpokenWord, ...]:
    """Every written word of `text` with what is said for it."""
    return tuple(SpokenWord(m.start(), m.end(), (m.group().lower(),)) for m in _WORD.finditer(text))
