"""Words that everybody knows, so that a capital at a sentence's start makes no name of them."""

from functools import lru_cache
from importlib.resources import files

from saywright.language.english.verb_forms import readings_of


@lru_cache(maxsize=4096)
def is_plain_word(word: str) -> bool:
    """Whether `word`, in any case, is an everyday word, its plural, or a form of a verb.

    >>> is_plain_word("Bread"), is_plain_word("Wept"), is_plain_word("Ines")
    (True, True, False)
    """
    word = word.lower()
    return not _everyday_words().isdisjoint((word, word.removesuffix("s"))) or bool(
        readings_of(word)
    )


@lru_cache(maxsize=1)
def _everyday_words() -> frozenset[str]:
    text = files(__package__).joinpath("everyday_words.txt").read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return frozenset(word for line in lines for word in line.split())
