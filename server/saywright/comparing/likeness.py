"""How much two sentences have in common: the letters of their words, in whatever order."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from functools import lru_cache

Words = tuple[str, ...]
"""By which a sentence is known again; never empty."""


def letters(words: Words) -> int:
    """How much a sentence weighs: a long word tells more than a short one."""
    return sum(map(_letters, words))


def _letters(word: str) -> int:
    return max(len(word), 1)


@lru_cache(maxsize=4096)
def _counts(words: Words) -> Counter[str]:
    return Counter(words)


def shared_letters(one: Words, two: Words) -> int:
    """The letters of the words that stand in both."""
    common = _counts(one) & _counts(two)
    return sum(_letters(word) * count for word, count in common.items())


def share(shared: int, one: int, two: int) -> float:
    """How alike two are that have so many letters, and so many in common: from 0 to 1."""
    return 2 * shared / (one + two)


def shared_of_all(ones: Sequence[Words], twos: Sequence[Words]) -> list[list[int]]:
    """`shared_letters` of each of `ones` with each of `twos`: a row for each of `ones`."""
    places: defaultdict[str, list[tuple[int, int]]] = defaultdict(list)
    for column, words in enumerate(twos):
        for word, count in _counts(words).items():
            places[word].append((column, count))
    rows: list[list[int]] = []
    for words in ones:
        row = [0] * len(twos)
        for word, count in _counts(words).items():
            weight = _letters(word)
            for column, other_count in places.get(word, ()):
                row[column] += weight * (count if count < other_count else other_count)
        rows.append(row)
    return rows
