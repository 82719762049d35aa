"""Whether a name is meant by a few letters that someone types."""

import unicodedata
from functools import lru_cache


def closeness(query: str, name: str) -> int | None:
    """How far a name is from what is looked for: 0 where it begins with it, None where its letters
    do not stand in it in their order. Case, accents, blanks and signs do not matter."""
    wanted, folded = _letters(query), _letters(name)
    if folded.startswith(wanted):
        return 0
    if any(_letters(rest).startswith(wanted) for rest in _from_each_word(name)):
        return 1
    if wanted in folded:
        return 2
    left = iter(folded)
    return 3 if all(letter in left for letter in wanted) else None


def _from_each_word(name: str) -> list[str]:
    words = name.split()
    return [" ".join(words[index:]) for index in range(1, len(words))]


@lru_cache(maxsize=1024)
def _letters(text: str) -> str:
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(filter(str.isalnum, apart))
