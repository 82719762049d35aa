"""The table of common words against the lists that it was made of.

Source: PyPI `wordfreq` 3.1 (Speer 2022).
"""

import pytest

from saywright.speech.common_words import COMMON, OTHER_WORDS, rarity

_WHY = "wordfreq comes with the extra benchmarks"
wordfreq = pytest.importorskip("wordfreq", reason=_WHY)
rebuild = pytest.importorskip("tests.rebuild_common_words", reason=_WHY)

pytestmark = pytest.mark.slow  # they are installed then


def test_the_table_is_current() -> None:
    assert rebuild.table() == rebuild.TABLE.read_text("utf-8"), (
        "run python -m tests.rebuild_common_words"
    )


def test_rarities_are_those_of_the_lists() -> None:
    words = [word for word in wordfreq.top_n_list("en", 12000) if word.isalpha()]
    far = [
        word
        for word in words
        if abs(rarity(word) - max(COMMON - wordfreq.zipf_frequency(word, "en"), 0)) > 0.26
    ]
    below = [word for word in far if wordfreq.zipf_frequency(word, "en") < 4.0]
    assert far == below  # the table ends there, and what is not in it counts as OTHER_WORDS
    assert all(rarity(word) == COMMON - OTHER_WORDS for word in below)
