"""What a script of two hundred words costs when no word of it was met before.

    python -m tests.benchmarks.cold_script

The tables are loaded, but before each run every word and every text that was met is forgotten.
"Timed" is read and given its seconds, "analysed" is checked too. Printed are the least of many
runs, and their ratio to one pass of a plain word-finding expression over the same script in the
same run; then what loading the tables costs.
"""

import re
import sys
import time
from collections.abc import Callable
from functools import _lru_cache_wrapper, partial
from itertools import accumulate
from pathlib import Path
from typing import TYPE_CHECKING, Any

from saywright.analysis import analyse
from saywright.markup.reader import read_blocks
from saywright.markup.tree import Paragraph
from saywright.speech.common_words import rarities
from saywright.speech.pronunciation import english_letter_rules
from saywright.speech.timing import time_paragraph
from saywright.speech.voice import Voice

if TYPE_CHECKING:
    Memory = _lru_cache_wrapper[Any]

WORDS = 200
RUNS = 300
LOADS = 20
LEAST_SIZE_OF_A_MEMORY = 1000  # smaller caches hold tables, not words or texts
SENTENCES = Path(__file__).parents[1] / "speech/sentences.txt"
_WORD = re.compile(r"[^\W_]+")


def script() -> str:
    """The fewest of the tests' sentences that have two hundred words, in two paragraphs."""
    lines = [line for line in SENTENCES.read_text("utf-8").splitlines() if line[:1] != "#"]
    counts = accumulate(len(line.split()) for line in lines)
    kept = lines[: next(index for index, count in enumerate(counts, 1) if count >= WORDS)]
    half = len(kept) // 2
    return f"---- piece\n{' '.join(kept[:half])}\n\n{' '.join(kept[half:])}\n"


def memories() -> list["Memory"]:
    """Every cache of the package that holds words or texts."""
    return [
        value
        for name, module in sorted(sys.modules.items())
        if name.startswith("saywright")
        for value in vars(module).values()
        if isinstance(value, _lru_cache_wrapper)
        and (value.cache_parameters()["maxsize"] or 0) >= LEAST_SIZE_OF_A_MEMORY
    ]


def forget(caches: list["Memory"]) -> None:
    for cache in caches:
        cache.cache_clear()


def least_seconds(run: Callable[[], object], before: Callable[[], object], runs: int) -> float:
    least = float("inf")
    for _ in range(runs):
        before()
        started = time.perf_counter()
        run()
        least = min(least, time.perf_counter() - started)
    return least


def timed(text: str) -> float:
    """Seconds of all that is spoken in a script without settings, gaps between paragraphs aside."""
    _, _, blocks = read_blocks(text)
    paragraphs = [each.block for each in blocks if isinstance(each.block, Paragraph)]
    return sum(time_paragraph(paragraph, Voice()).seconds for paragraph in paragraphs)


def main() -> None:
    text = script()
    analyse(text)
    caches = memories()

    def nothing() -> None:
        return None

    floor = least_seconds(partial(_WORD.findall, text), nothing, RUNS)
    print(f"{len(_WORD.findall(text))} words; a plain pass over them {floor * 1e6:.0f} µs")
    for name, run in (("timed", timed), ("analysed", analyse)):
        cold = least_seconds(partial(run, text), partial(forget, caches), RUNS)
        again = least_seconds(partial(run, text), nothing, RUNS)
        print(
            f"{name + ':':10}{cold * 1e3:.2f} ms, {cold / floor:.0f}x"
            f"; the same words again {again * 1e3:.2f} ms, {again / floor:.0f}x"
        )
    for name, table in (("pronunciations", english_letter_rules), ("common words", rarities)):
        load = least_seconds(table, table.cache_clear, LOADS)
        print(f"loading the {name}: {load * 1e3:.1f} ms, {load / floor:.0f}x")


if __name__ == "__main__":
    main()
