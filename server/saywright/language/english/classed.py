"""A sentence's words with what each may be, read once for all that look at them in turn."""

from functools import lru_cache
from typing import NamedTuple

from saywright.language.english.tokens import tokens
from saywright.language.english.weights import weights
from saywright.language.english.word_classes import classes_of


class Classed(NamedTuple):
    """See `tokens` and `classes_of`. Shared: nobody changes the lists."""

    spans: list[tuple[int, int]]
    words: list[str]
    classes: list[str]


@lru_cache(maxsize=512)
def classed(text: str) -> Classed:
    spans, words = tokens(text)
    return Classed(spans, words, classes_of(text, spans, words, weights().classes))
