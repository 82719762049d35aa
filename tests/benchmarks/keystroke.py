"""What a keystroke costs in files from 1 kB to 10 MB, and what reading them afresh costs.

    python tests/benchmarks/keystroke.py [LARGEST_KB]

For each size: typing a letter into the middle paragraph (read, timed and checked again), then
the answers an editor asks for: the diagnostics, the hints of forty lines, where the cursor is.
Each figure is the median of many; the ratio is to one pass of a plain word-finding expression
over that one paragraph, measured in the same run. The slope is how much a keystroke's cost grows
when the file grows tenfold. Then letter after letter is typed into a piece that is one paragraph,
with a filler in every third sentence, up to the findings that are shown.
"""

import re
import statistics
import sys
import time
from collections.abc import Callable

from saywright.analysis import Analysis, analyse
from saywright.finding import Edit
from saywright.positions import Encoding, Places
from saywright.rereading import edited

PARAGRAPH = (
    "The ferry was late again and the salt had got into everything. I said so to the harbour "
    "master, twice, and he wrote it down | as if writing were the same as *mending*. (beat) "
    "__I have never asked for much.__ A lamp that lights, a door that shuts, a boat that "
    "comes. ~~My aunt used to say the sea keeps its own hours.~~ So do I, now.\n\n"
)
HEAD = "speaker: Ines\nslot: 60s\n\n---- piece\n"
SENTENCES = (
    "Well, I just kind of carried {} sacks to the pier. The lamp burned over the {} planks that "
    "night. Nobody asked me why the wagon with {} wheels was empty. "
)


def main(largest_kb: int) -> None:
    floor = _median(lambda: re.findall(r"\w+", PARAGRAPH), 2000)
    print(f"floor: a plain pass over one paragraph, {floor * 1e6:.0f} µs")
    print("size      afresh     keystroke   /floor  diagnostics  hints      positions")
    size_kb, before = 1, 0.0
    while size_kb <= largest_kb:
        text = HEAD + PARAGRAPH * max(size_kb * 1000 // len(PARAGRAPH), 1)
        started = time.perf_counter()
        analysis = analyse(text)
        afresh = time.perf_counter() - started
        row = _row(analysis, len(text))
        grown = f"   slope {row[0] / before:.2f}" if before else ""
        print(
            f"{_size(len(text)):>7} {afresh * 1e3:>8.1f} ms {row[0] * 1e6:>8.0f} µs "
            f"{row[0] / floor:>7.0f}x {row[1] * 1e6:>9.0f} µs {row[2] * 1e6:>7.0f} µs "
            f"{row[3] * 1e6:>7.0f} µs{grown}"
        )
        before = row[0]
        size_kb *= 10
    for sentences in (10, 30, 100, 300):
        _typed_in_one_paragraph(sentences)


def _typed_in_one_paragraph(sentences: int) -> None:
    text = "".join(SENTENCES.format(*[number] * 3) for number in range(sentences // 3 + 1))
    floor = _median(lambda: re.findall(r"\w+", text), 50)
    analysis = analyse(HEAD + text)
    middle = len(HEAD) + text.index("planks", len(text) // 2)
    seconds = []
    for _ in range(20):
        started = time.perf_counter()
        analysis = edited(analysis, Edit(middle, middle, "a"))
        assert analysis.reported
        seconds.append(time.perf_counter() - started)
    own = statistics.median(seconds)
    print(f"one paragraph of {sentences} sentences: {own * 1e3:.1f} ms, {own / floor:.0f}x a pass")


def _row(analysis: Analysis, length: int) -> tuple[float, float, float, float]:
    """Median seconds of a keystroke, and of the three answers."""
    middle = length // 2
    typed = edited(analysis, Edit(middle, middle, "a"))
    places = Places(typed.blocks, Encoding.UTF_16)
    return (
        _median(lambda: edited(analysis, Edit(middle, middle, "a")), 300),
        _median(lambda: edited(analysis, Edit(middle, middle, "a")).reported, 100)
        - _median(lambda: edited(analysis, Edit(middle, middle, "a")), 100),
        _median(lambda: _hints(typed, middle), 100),
        _median(lambda: places.offset_from_position(places.position_from_offset(middle)), 300),
    )


def _hints(analysis: Analysis, middle: int) -> None:
    view = next(analysis.pieces)
    for placed in view.timeline.paragraphs(middle, middle + 20 * len(PARAGRAPH)):
        view.timeline.seconds_at(placed.start + len(placed.timed.paragraph.text) - 1)


def _median(run: Callable[[], object], times: int) -> float:
    seconds = []
    for _ in range(times):
        started = time.perf_counter()
        run()
        seconds.append(time.perf_counter() - started)
    return statistics.median(seconds)


def _size(length: int) -> str:
    return f"{length / 1e6:.1f} MB" if length >= 1e6 else f"{length / 1e3:.1f} kB"


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
