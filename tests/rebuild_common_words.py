"""Build the table of common English words from the lists of wordfreq.

    python -m tests.rebuild_common_words

writes server/saywright/speech/english_common_words.txt: every word of letters and apostrophes that
is met once in a hundred thousand words or oftener, a line for each step of frequency. Needs
wordfreq (Speer 2022), whose lists are under CC BY-SA 4.0.
"""

from collections import defaultdict
from importlib.metadata import version
from pathlib import Path

import regex
import wordfreq

from saywright.speech.common_words import COMMON

TABLE = Path(__file__).parents[1] / "server/saywright/speech/english_common_words.txt"
LEAST = 4.0
STEPS_A_POWER = 2
_WORD = regex.compile(r"\p{Ll}+(?:'\p{Ll}+)?")
_HEADER = """\
# How often the commonest English words are met: the decimal logarithm of how often in a thousand
# million words, in steps of a half, then the words. What is met oftener than 6 counts as 6.
# Made by tests/rebuild_common_words.py from the word lists of wordfreq {version} (Speer 2022),
# under CC BY-SA 4.0: see english_common_words.LICENSE.txt.
"""


def table() -> str:
    """The table's text, by the word lists that are installed."""
    by_frequency: dict[float, list[str]] = defaultdict(list)
    for word in wordfreq.iter_wordlist("en"):
        frequency = wordfreq.zipf_frequency(word, "en")
        if frequency < LEAST:
            break
        if _WORD.fullmatch(word):
            step = round(frequency * STEPS_A_POWER) / STEPS_A_POWER
            by_frequency[min(step, COMMON)].append(word)
    lines = [f"{step} {' '.join(words)}\n" for step, words in by_frequency.items()]
    return _HEADER.format(version=version("wordfreq")) + "".join(lines)


def main() -> None:
    TABLE.write_text(table(), encoding="utf-8")


if __name__ == "__main__":
    main()
