"""Seconds of words and of the silences between them."""

from functools import lru_cache

from saywright.speech.pronunciation import pronounce

NOMINAL_WORDS_PER_MINUTE = 160.0
NOMINAL_SYLLABLES_PER_SECOND = 4.2


@lru_cache(maxsize=16384)
def word_seconds(said: tuple[str, ...], language: str = "en", *, stressed: bool = False) -> float:
    """Seconds that one written word sounds."""
    total = 0.0
    for word in said:
        p = pronounce(word, language)
        total += 0.16 * p.primary + 0.1 * (p.secondary + p.unstressed) + 0.058 * p.consonants
    return total * (1.15 if stressed else 1.0)


def pause_seconds(
    between: str, *, words_before: int, paragraph: bool = False, line_break: bool = False
) -> float:
    """Seconds of silence in the gap that holds `between`."""
    if paragraph:
        return 1.2
    if any(mark in between for mark in ".!?…"):
        return 0.44 if words_before <= 5 else 0.6
    if any(mark in between for mark in ";:—–"):
        return 0.42
    if "," in between or line_break:
        return 0.23
    return 0.0
